"""Run -> what the roofer takes up: the roof in plan by zone, each zone's nails, panels, covering, water barrier."""
