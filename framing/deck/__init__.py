"""Roof + wind -> the deck, its nails, the covering and the water under it, zone by zone from the anchors' own wind."""
