"""Run -> the picture of what was understood: its three views, where their names stand, its key, its two file forms."""
