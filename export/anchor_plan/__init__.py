"""Run -> the sheets of the tie-beam anchor placement plan."""
