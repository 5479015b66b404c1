"""Run -> scene -> window or picture: the roof in three dimensions, made from a Run and from nothing else."""
