"""Plan -> walls: the outline, what stands along it, how it is squared for framing, and what each bearing holds."""
