"""Uplift at the bearings of one common truss, without a plan: wind figures, statics, every step in numbers."""

from framing.quick.inputs import QuickInputs, QuickResult, QuickUplift, Step
from framing.quick.uplift import quick

__all__ = ["QuickInputs", "QuickResult", "QuickUplift", "Step", "quick"]
