"""Framing + wind -> what pushes each bearing sideways, along its wall and square to it."""
