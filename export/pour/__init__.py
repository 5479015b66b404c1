"""Run -> what the crew takes on the day of the pour: counts, blank boxes, lists with their sources, the strips."""
