"""Run -> what a plant and a yard quote from: anchors, trusses by profile, hangers, deck, covering, concrete."""
