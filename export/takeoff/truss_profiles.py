"""Run -> the trusses by true profile: pieces that a plant builds alike, whichever way round they stand."""

from __future__ import annotations

from dataclasses import dataclass

from framing.members import Member, MemberKind
from framing.run import Run
from framing.units import feet_inches, sixteenths

HUNG, BORNE = "hung", "on the wall"
Key = tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrussProfile:
    """Members alike in kind, plies, span, tails, top line and what their ends do; `one` stands for all of them.

    `name` is the kind and a number. `ends` says of the left and the right end whether it bears or hangs.
    """

    name: str
    kind: MemberKind
    plies: int
    one: Member
    flipped: bool
    ends: tuple[str, str]
    members: tuple[str, ...]

    @property
    def words(self) -> str:
        """Span, tails, flat top, ends and plies, as one line."""
        m = self.one
        tails = [m.tail_end_ft, m.tail_start_ft] if self.flipped else [m.tail_start_ft, m.tail_end_ft]
        said = [f"span {feet_inches(m.span_ft)} between bearings"]
        said.append(f"tails {feet_inches(tails[0])} and {feet_inches(tails[1])}" if any(tails) else "no tails")
        top = max(z for _, z in m.profile)
        peak = sixteenths(top)
        at_top = [at for at, z in m.profile if sixteenths(z) == peak]
        if sixteenths(max(at_top)) > sixteenths(min(at_top)):
            said.append(f"flat top {feet_inches(top)} over the tie beam")
        else:
            said.append(f"peak {feet_inches(top)} over the tie beam")
        said.append(
            f"ends {self.ends[0]} and {self.ends[1]}" if self.ends[0] != self.ends[1] else f"ends {self.ends[0]}"
        )
        said.append(f"{self.plies} {'plies' if self.plies > 1 else 'ply'}")
        return ", ".join(said)


def truss_profiles(run: Run) -> tuple[TrussProfile, ...]:
    """Every profile, by kind in the trade's order, the longest first."""
    found: dict[Key, list[Member]] = {}
    turned: dict[str, bool] = {}
    for m in run.framing.members:
        ends = _ends(m)
        one, other = _key(m, ends, flipped=False), _key(m, ends[::-1], flipped=True)
        turned[m.name] = str(other) < str(one)
        found.setdefault(other if turned[m.name] else one, []).append(m)
    order = list(MemberKind)
    groups = sorted(found.values(), key=lambda g: (order.index(g[0].kind), -sixteenths(g[0].span_ft), -len(g)))
    numbers: dict[MemberKind, int] = {}
    out = []
    for group in groups:
        first = group[0]
        numbers[first.kind] = numbers.get(first.kind, 0) + 1
        ends = _ends(first)
        out.append(
            TrussProfile(
                name=f"{first.kind} profile {numbers[first.kind]}",
                kind=first.kind,
                plies=first.plies,
                one=first,
                flipped=turned[first.name],
                ends=ends[::-1] if turned[first.name] else ends,
                members=tuple(m.name for m in group),
            )
        )
    return tuple(out)


def _ends(m: Member) -> tuple[str, str]:
    if len(m.paths) != 2:
        return (BORNE, BORNE)
    first, last = (BORNE if path.carrier is None else HUNG for path in m.paths)
    return (first, last)


def _key(m: Member, ends: tuple[str, str], *, flipped: bool) -> Key:
    """What makes two pieces alike, to a sixteenth of an inch, seen from either end."""
    tails = (m.tail_end_ft, m.tail_start_ft) if flipped else (m.tail_start_ft, m.tail_end_ft)
    line = [(m.span_ft - at, z) for at, z in reversed(m.profile)] if flipped else list(m.profile)
    shape = tuple((sixteenths(at), sixteenths(z - m.base_ft)) for at, z in line)
    return (m.kind, m.plies, sixteenths(m.span_ft), tuple(map(sixteenths, tails)), shape, ends)
