"""`python -P -m export` is the same as `strapline`."""

from export.cli import app

app(prog_name="strapline")
