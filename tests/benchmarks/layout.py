"""What the layout builds at seams, counted over many houses: figures to compare before and after a change of it.

    python tests/benchmarks/layout.py [how many of the 2,000 random outlines, default all]

Houses are the random outlines and the footprints of real buildings that the tests take, and the sample plans. A jack
stands at a seam where its foot's corner is no outside corner of the house. Two members are in one place where their
wood covers the same ground of the tie beam and neither hangs on the other; gable ends, which lie along their wall, are
left out.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

import numpy as np
import shapely
from shapely.geometry import Polygon

sys.path.insert(0, str(Path(__file__).parents[1]))

from export.commands.run_of_plan import load_run
from framing.errors import LayoutError, PlanError
from framing.layout.assembly import build_framing
from framing.layout.wood_places import beam_ground
from framing.members import CarrierKind, Framing, Member, MemberKind
from framing.plan import Plan
from framing.plan_file.outline_rules import check_outline
from framing.roof.surface import build_roof
from framing.walls.outline import Outline, build_outline
from invariants.footprints import footprints_ft
from invariants.houses import DEFAULT, SAMPLES, plan_of
from invariants.outlines import random_house

HAIR_FT = 1.0 / 32.0 / 12.0
NEAR_CORNER_FT = 1.5


def counted(plan: Plan) -> Counter[str]:
    """The figures of one house."""
    outline = build_outline(plan)
    framing = build_framing(plan, outline, build_roof(plan, outline))
    found: Counter[str] = Counter({str(m.kind): 0 for m in framing.members})
    found.update(str(m.kind) for m in framing.members)
    found["houses"] = 1
    found["inside corners"] = n_inside_corners(outline)
    girders = [m for m in framing.members if m.kind is MemberKind.GIRDER]
    found["girder feet"] = round(sum(m.span_ft for m in girders))
    found["corner jacks at seams"] = sum(at_seam(outline, m) for m in framing.members)
    pairs = in_one_place(outline, framing)
    found["pairs in one place"] = len(pairs)
    found["houses with members in one place"] = bool(pairs)
    found["houses with girders in a chain"] = any("in a chain" in note for note in framing.notes)
    found["houses with a girder over 40 ft"] = bool(framing.flags)
    return found


def n_inside_corners(outline: Outline) -> int:
    p = np.array(outline.corners_ft)
    a, b = p - np.roll(p, 1, axis=0), np.roll(p, -1, axis=0) - p
    return int((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0] < 0).sum())


def at_seam(outline: Outline, member: Member) -> bool:
    """Whether a corner jack's foot stands at no outside corner of the house."""
    if member.kind is not MemberKind.CORNER_JACK:
        return False
    p = np.array(outline.corners_ft)
    a, b = p - np.roll(p, 1, axis=0), np.roll(p, -1, axis=0) - p
    outside = p[a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0] > 0]
    foot = min((member.start_ft, member.end_ft), key=lambda f: np.hypot(*(outside - f).T).min())
    return bool(np.hypot(*(outside - foot).T).min() > NEAR_CORNER_FT)


def in_one_place(outline: Outline, framing: Framing) -> list[tuple[str, str]]:
    """The pairs of members whose wood is in one place over the tie beam."""
    members = [m for m in framing.members if m.ground_ft and m.kind is not MemberKind.GABLE_END]
    beam = beam_ground(outline.corners_ft, outline.walls[0].thickness_ft)
    wood = shapely.intersection(np.array([Polygon(m.ground_ft).buffer(-HAIR_FT) for m in members], dtype=object), beam)
    out = []
    for i, j in shapely.STRtree(wood).query(wood, predicate="intersects").T.tolist():
        a, b = members[i], members[j]
        on_a, on_b = ({c.name for c in m.carriers if c.kind is CarrierKind.MEMBER} for m in (a, b))
        hung = a.name in on_b or b.name in on_a or on_a & on_b
        if i < j and not hung:
            out.append((a.name, b.name))
    return out


def tried(plans: Iterable[tuple[str, Plan | None]]) -> Iterator[tuple[str, Counter[str]]]:
    for name, plan in plans:
        if plan is None:
            yield name, Counter({"refused": 1})
            continue
        try:
            yield name, counted(plan)
        except (PlanError, LayoutError):
            yield name, Counter({"refused": 1})


def footprint_plans() -> Iterator[tuple[str, Plan | None]]:
    for k, ring in enumerate(footprints_ft()):
        try:
            check_outline(ring, DEFAULT.straighten_ft)
        except PlanError:
            yield f"building {k}", None
        else:
            yield f"building {k}", plan_of(list(ring))


def told(title: str, found: list[tuple[str, Counter[str]]]) -> None:
    total: Counter[str] = Counter()
    for _, one in found:
        total.update(one)
    per_corner = total["girder"] / max(1, total["inside corners"])
    print(f"{title}: girders per inside corner {per_corner:.3f}")
    for key in sorted(total):
        print(f"  {key:34s} {total[key]}")


def main() -> None:
    n = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    told("samples", list(tried((name, load_run(path).plan) for name, path in SAMPLES.items())))
    told("footprints", list(tried(footprint_plans())))
    told(f"{n} random outlines", list(tried((f"house {k}", random_house(k)) for k in range(n))))


if __name__ == "__main__":
    main()
