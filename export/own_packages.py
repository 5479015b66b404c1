"""The program's three packages have plain names; before a command runs, see that all three are ours."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path

PACKAGES = ("export", "viewer", "framing")


def stranger() -> str | None:
    """One sentence if a package of ours is hidden by something else of its name; None where all is well.

    The three found packages must lie side by side. Nothing is imported.
    """
    homes: dict[str, Path] = {}
    for name in PACKAGES:
        spec = find_spec(name)
        if spec is None:
            return f"the package {name} is missing; reinstall strapline in an environment of its own"
        if spec.origin is None:
            place = next(iter(spec.submodule_search_locations or ()), "the working folder")
            return f"a stray folder named {name} hides the program's own ({place}); run strapline from another folder"
        homes[name] = Path(spec.origin).resolve().parent.parent
    ours = homes["export"]
    for name, home in homes.items():
        if home != ours:
            return f"{name} belongs to another program ({home}); reinstall strapline in an environment of its own"
    return None
