"""Where the program starts: `strapline`, and `python -P -m export` alike."""

from __future__ import annotations

import sys

STOPPED = 130


def main() -> None:
    """Run the command line; stopped while it still loads, it says so in one line too."""
    try:
        from export.cli import app
    except KeyboardInterrupt:
        sys.stderr.write("strapline: stopped\n")
        sys.exit(STOPPED)
    app(prog_name="strapline")


if __name__ == "__main__":
    main()
