"""What a command says beside its answer: to standard error, one line each, at a terminal and off one."""

from __future__ import annotations

import sys


def say(text: str, *, quiet: bool) -> None:
    """One line, unless only errors are wanted."""
    if not quiet:
        sys.stderr.write(f"{text}\n")
