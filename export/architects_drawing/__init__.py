"""The architect's DXF: opened, its strokes by layer, its unit, and the loops that they close."""
