"""The truss engineer's table of reactions -> matched to our marks, compared, and put in the place of our uplift."""
