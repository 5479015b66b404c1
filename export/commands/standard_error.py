"""What a command says beside its answer: to standard error, one line each."""

from __future__ import annotations

import os
import sys


def note(text: str, *, quiet: bool) -> None:
    """Progress and remarks: for a person at a terminal only, and off where NO_COLOR is set."""
    if not quiet and sys.stderr.isatty() and not os.environ.get("NO_COLOR"):
        sys.stderr.write(f"{text}\n")


def warn(text: str, *, quiet: bool) -> None:
    """What a person must know about the result, also when it is not a terminal that listens."""
    if not quiet:
        sys.stderr.write(f"{text}\n")
