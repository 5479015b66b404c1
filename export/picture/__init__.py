"""The picture of what was understood: its three views, where their names stand, its key, and its two file forms."""
