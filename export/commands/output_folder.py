"""Outputs -> a folder: all of them or none, never over files that are not ours."""

from __future__ import annotations

import glob
import os
import shutil
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from export.outputs import FORMER, OUTPUTS
from framing.errors import OutputError, StraplineError

OLD_S = 3600.0

OF_OTHER_COMMANDS = frozenset(
    f"{name}.{kind}"
    for name in ("options", "changes", "reconcile", "asbuilt")
    for kind in ("html", "csv", "pdf", "dxf")
) | {"pour.pdf"}
OURS = frozenset(OUTPUTS) | FORMER | OF_OTHER_COMMANDS
"""Every name that this or an earlier version has written: these are replaced, or removed when stale."""


def write_outputs(outputs: Mapping[str, bytes], folder: Path, *, force: bool) -> None:
    """Write the outputs into a folder, the last one last, and remove earlier ones of ours that are stale.

    They are written into a temporary folder beside it first and then moved in; if anything goes wrong on the
    way, the folder is as it was.

    Parameters
    ----------
    outputs : mapping
        File name to bytes, in order.
    folder : Path
        Made if it is not there.
    force : bool
        Whether files that are not ours may lie there; they are left alone.

    Raises
    ------
    StraplineError
        If the folder is a file, or holds files that are not ours.
    OutputError
        If it cannot be written.
    """
    try:
        _refuse_foreign(folder, force=force)
        folder.parent.mkdir(parents=True, exist_ok=True)
        with _temporary_beside(folder) as temporary:
            fresh = temporary / "new"
            fresh.mkdir()
            for name, data in outputs.items():
                (fresh / name).write_bytes(data)
            if folder.is_dir():
                _move_in(list(outputs), fresh, folder, temporary)
            else:
                fresh.replace(folder)
    except (OSError, ValueError) as problem:
        if isinstance(problem, StraplineError):
            raise
        reason = getattr(problem, "strerror", None) or "the path is not one"
        raise OutputError(f"{folder}: it cannot be written ({reason}); choose another folder with --out") from None


def _refuse_foreign(folder: Path, *, force: bool) -> None:
    if folder.exists() and not folder.is_dir():
        raise StraplineError(f"{folder}: this is a file; name a folder with --out")
    if not folder.is_dir():
        return
    in_the_way = sorted(name for name in OURS if (folder / name).is_dir())
    if in_the_way:
        raise StraplineError(
            f"{folder}: a folder named {in_the_way[0]} is in an output's way; "
            "move it, or choose another folder with --out"
        )
    if force:
        return
    foreign = sorted(
        path.name
        for path in folder.iterdir()
        if not path.name.startswith(".") and not (path.name in OURS and path.is_file())
    )
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise StraplineError(
            f"{folder}: it holds {foreign[0]}{more}, which is not ours; "
            "choose another folder with --out, or add --force"
        )


@contextmanager
def _temporary_beside(folder: Path) -> Iterator[Path]:
    """A folder of this process beside the given one, gone afterwards; those of processes that were killed go too."""
    home, start = folder.resolve().parent, f".{folder.resolve().name[:100]}."
    for left in home.glob(f"{glob.escape(start)}*.part"):
        if _left_behind(left, left.name[len(start) : -len(".part")]):
            shutil.rmtree(left, ignore_errors=True)
    temporary = home / f"{start}{os.getpid()}.part"
    temporary.mkdir()
    try:
        yield temporary
    finally:
        shutil.rmtree(temporary, ignore_errors=True)


def _left_behind(part: Path, pid: str) -> bool:
    """Whether the process that made a temporary folder is gone; where that cannot be asked, whether it is old."""
    if not pid.isdigit() or not part.is_dir():
        return False
    if int(pid) == os.getpid():
        return True
    if os.name != "posix":  # elsewhere asking for a process can end it
        return time.time() - part.stat().st_mtime > OLD_S
    try:
        os.kill(int(pid), 0)
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        return False
    return False


def _move_in(names: list[str], fresh: Path, folder: Path, temporary: Path) -> None:
    """Move the new files in and the old ones out; on any failure put the old ones back."""
    old = temporary / "old"
    old.mkdir()
    kept = sorted((name for name in OURS if (folder / name).is_file()), key=lambda name: name != "run.json")
    moved_in: list[str] = []
    try:
        for name in kept:
            (folder / name).replace(old / name)
        for name in names:
            (fresh / name).replace(folder / name)
            moved_in.append(name)
    except BaseException:
        for name in moved_in:
            (folder / name).unlink()
        for name in reversed(kept):
            if (old / name).exists():
                (old / name).replace(folder / name)
        raise
