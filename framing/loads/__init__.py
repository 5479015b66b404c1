"""Framing + wind -> loads on every piece of the roof, the one linear map to the bearings, and the reactions."""
