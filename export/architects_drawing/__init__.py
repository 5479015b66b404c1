"""The architect's DXF -> outlines: the file opened, its strokes by layer, its unit, and the loops that they close."""
