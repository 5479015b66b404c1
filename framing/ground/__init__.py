"""Where the pull stops: the tie beam over its filled cells, the beam over an opening, and the weight that holds it."""
