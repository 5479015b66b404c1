"""Outline -> Roof: the wings, their gables, the faces that are seen and the lines where they meet."""
