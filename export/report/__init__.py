"""Run -> the figures behind every mark, as one page to read, to print and to check with a pocket calculator."""
