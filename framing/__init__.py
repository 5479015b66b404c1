"""Pure engineering: from a plan to the anchors. Knows nothing of windows, drawings or the command line."""
