"""Nails, woods, panels and rules of the deck and its covering as tables, each row with its mark."""
