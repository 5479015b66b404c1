"""Roof -> Framing: chords and cells, then the members of each cell, then the marks."""
