"""At which level each figure for the engineer of record stands: ASCE 7-22, sec. 2.4.1 (ASD: 0.6 W, 7a with 0.6 D) and
2.3.1 (strength: 1.0 W, 5 with 0.9 D).
"""

from __future__ import annotations

from dataclasses import replace

from framing.explain.hand_over import hand_over
from framing.plan import RoofType
from framing.plan_masonry import TopsHeldBy
from framing.run import Run, make_run
from parts.masonry_houses import ELL, opening, run_of

WIND, NET = {"ASD, 0.6 W"}, {"ASD, 0.6 W - 0.6 D"}
BOTH_NET = {*NET, "strength, 1.0 W - 0.9 D"}
LEVELS = (
    ("on 10 ft2", {"strength, 1.0 W", *WIND}),
    ("demand over strength", {"strength, 1.0 W - 0.9 D"}),
    ("tie beam bent square to its wall", {"strength, 1.0 W"}),
    ("tie beam bent sideways", WIND),
    ("tie beam, ", BOTH_NET),
    ("beam over an opening, ", BOTH_NET),
    ("net uplift", NET),
    ("pull on", NET),
    ("base reaction of a filled cell", NET),
    ("uplift over the weight", NET),
    ("what hangs on it", {""}),
    ("span of the beam", {""}),
    ("length of tie beam", {""}),
    ("", WIND),  # shears, drags, bracing, moments and bases: the wind's pushes
)


def level(case: str) -> str:
    """The level that a case's words begin with, after those of the components."""
    words = case.removeprefix("components and cladding, ")
    told = ("ASD, 0.6 W - 0.6 D", "strength, 1.0 W - 0.9 D", "ASD, 0.6 W", "strength, 1.0 W")
    return next((t for t in told if words == t or words.startswith(f"{t}, ")), words)


def houses() -> tuple[Run, Run]:
    """An L with a door and gables whose tops the roof holds, and with the tie beam that does."""
    run = run_of(ELL, openings=(opening("W1", 12.0, 15.0),), type=RoofType.GABLE)
    masonry = replace(run.plan.masonry, tops_held_by=TopsHeldBy.TIE_BEAM)
    return run, make_run(replace(run.plan, masonry=masonry), run.schedule.catalogue)


def test_every_row_says_its_level_and_a_row_of_the_wind_alone_never_that_of_wind_and_weight() -> None:
    met: dict[str, set[str]] = {start: set() for start, _ in LEVELS}
    for run in houses():
        for row in hand_over(run):
            start, wanted = next((s, w) for s, w in LEVELS if s in row.what)
            assert level(row.case) in wanted, row
            met[start].add(level(row.case))
    assert met == dict(LEVELS)
