"""What the pages for browsers are made of: templates, styles, scripts and shaders, kept as package data."""
