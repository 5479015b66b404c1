"""Roof + wind -> the faces cut where a pressure may change, and the coefficients of every case on each patch."""
