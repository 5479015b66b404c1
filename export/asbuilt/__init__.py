"""Straps as set, judged -> what the crew, the inspector and the engineer get: page, table, letter, strips, plan."""
