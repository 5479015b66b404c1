"""The first signal on a change, in under two minutes: lint, format, types, import order, the quick share of the tests.

    .venv/bin/python tests/first_signal.py

Every check runs, and what fails is printed whole. The quick share is all that needs no browser, no random houses and
no second and a half for one test; `.ci/run` is the whole.
"""

from __future__ import annotations

import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).parents[1]
HERE = Path(sys.executable).parent
QUICK = ("tests/house", "tests/parts", "tests/published")
CHECKS = {
    "lint": (HERE / "ruff", "check", "--quiet"),
    "format": (HERE / "ruff", "format", "--check", "--quiet"),
    "import order": (HERE / "lint-imports", "--no-cache"),
    "types": (HERE / "mypy",),
    "tests": (sys.executable, "-m", "pytest", "-q", "-n", "2", "-m", "not full and not browser and not slow", *QUICK),
}


def failing(name: str) -> str:
    """What a check says where it fails; nothing where all is well."""
    started = time.monotonic()
    done = subprocess.run(CHECKS[name], cwd=ROOT, capture_output=True, text=True, check=False)
    sys.stdout.write(f"{name}: {'as it should be' if done.returncode == 0 else 'FAILS'} ")
    sys.stdout.write(f"({time.monotonic() - started:.0f} s)\n")
    sys.stdout.flush()
    return "" if done.returncode == 0 else f"\n== {name}\n{done.stdout}{done.stderr}"


if __name__ == "__main__":
    with ThreadPoolExecutor() as pool:
        told = "".join(pool.map(failing, CHECKS))
    sys.stdout.write(told)
    sys.exit(1 if told else 0)
