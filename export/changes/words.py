"""What changed, in sentences: one line a wall for the crew lead first, then each mark."""

from __future__ import annotations

from collections import Counter

from export.changes.differences import SHEET, Change, What, sheet_is_stale
from framing.units import feet_inches, sixteenths

LEAST_ALIKE = 3
PLURAL = {
    What.NEW: "new",
    What.GONE: "gone",
    What.MOVED: "moved",
    What.ANCHOR: "with another anchor",
    What.SIDE: "on another side",
    What.COUNT: "with another number of straps",
}


def verdict(changes: tuple[Change, ...]) -> tuple[str, ...]:
    """A line for the house, then a line for each wall whose old sheet is not to be used."""
    if not sheet_is_stale(changes):
        loads = sum(What.LOAD in c.what for c in changes)
        more = f"; {loads} loads differ, see the table" if loads else ""
        return (f"Nothing changed on the wall: the old sheet holds{more}.",)
    walls: dict[str, Counter[What]] = {}
    for c in changes:
        for what in c.what:
            if what in SHEET:
                walls.setdefault(c.one.wall, Counter())[what] += 1
    lines = [
        f"{wall}: {', '.join(_counted(wall, w, n, changes) for w, n in found.items())}: do not use the old sheet."
        for wall, found in sorted(walls.items(), key=lambda item: (item[0][0], int(item[0][1:] or 0)))
    ]
    same = sorted({c.one.wall for c in changes} - set(walls), key=lambda wall: (wall[0], int(wall[1:] or 0)))
    if same:
        lines.append(f"{', '.join(same)}: nothing changed.")
    return tuple(lines)


def _counted(wall: str, what: What, n: int, changes: tuple[Change, ...]) -> str:
    """How many marks of a wall changed so; of those that moved, by how much most of them did alike."""
    said = f"{n} {_marks(n)} {PLURAL[what]}"
    if what is not What.MOVED:
        return said
    moved = [c.moved_ft for c in changes if c.one.wall == wall and What.MOVED in c.what and _on_one_wall(c)]
    by, alike = Counter(sixteenths(ft) for ft in moved).most_common(1)[0] if moved else (0, 0)
    if alike < LEAST_ALIKE:
        return said
    return f"{said} ({'all' if alike == n else f'{alike} of them'} {_moved_words(by / 192.0)})"


def _on_one_wall(c: Change) -> bool:
    return c.before is not None and c.after is not None and c.before.wall == c.after.wall


def _moved_words(moved_ft: float) -> str:
    return f"{feet_inches(abs(moved_ft))} {'away from START' if moved_ft > 0 else 'toward START'}"


def _marks(n: int) -> str:
    return "mark" if n == 1 else "marks"


def change_words(c: Change) -> str:
    """One mark's change: what was, what is."""
    was, now = c.before, c.after
    if was is None and now is not None:
        return f"new: {now.member}, tape {feet_inches(now.tape_ft)}, {_strap(now.anchor, now.count)}, side {now.side}"
    if now is None and was is not None:
        return f"gone: {was.member} at tape {feet_inches(was.tape_ft)} of the old {was.mark}"
    if was is None or now is None:
        return ""
    said = []
    if What.MOVED in c.what:
        by = _moved_words(c.moved_ft) if was.wall == now.wall else f"from {was.wall} to {now.wall}"
        said.append(f"moved {by}: tape {feet_inches(was.tape_ft)} is now {feet_inches(now.tape_ft)}")
    if What.ANCHOR in c.what or What.COUNT in c.what:
        said.append(f"{_strap(was.anchor, was.count)} is now {_strap(now.anchor, now.count)}")
    if What.SIDE in c.what:
        said.append(f"side {was.side} is now {now.side}")
    if What.MEMBER in c.what:
        said.append(f"{was.kind} of {was.plies} ply is now {now.kind} of {now.plies}")
    if What.LOAD in c.what:
        said.append(f"pulls {was.uplift_lb:,.0f} lb up, now {now.uplift_lb:,.0f}")
    return "; ".join(said) or "as it was"


def _strap(anchor: str, count: int) -> str:
    return f"{count} x {anchor}" if anchor else "no anchor"
