"""Strokes -> paper: sheets recorded once in paper inches, and how they become PDF; what every drawing is made of."""
