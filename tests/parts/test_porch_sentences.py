"""The sentence for each wrong porch in a plan file, whole."""

import pytest

from framing.errors import PlanError
from framing.plan_file import plan_from_text
from parts.plans import SHORT, porch_text

WRONG: dict[str, tuple[str, str]] = {
    "no corners": (
        SHORT + "[[porch]]\n",
        'porch 1 corners: missing; write corners = [["10\'", "20\'"], ["30\'", "20\'"], ["30\'", "28\'"], '
        '["10\'", "28\'"]]',
    ),
    "corners in words": (
        porch_text('"the rear"'),
        'porch 1 corners: "the rear" is not a list of corners; write corners = '
        '[["10\'", "20\'"], ["30\'", "20\'"], ["30\'", "28\'"], ["10\'", "28\'"]]',
    ),
    "corner of one length": (
        porch_text("[[10, 20], [30]]"),
        'porch 1 corners 2: a point is two lengths; write it like ["0\'", "28\'"]',
    ),
    "single brackets": (
        SHORT + "[porch]\ncorners = [[10, 20], [30, 20], [30, 28], [10, 28]]\n",
        "porch: this is one value where several may stand; write [[porch]] in double brackets",
    ),
    "unknown key": (
        porch_text("[[10, 20], [30, 20], [30, 28], [10, 28]]\ndepth = 8"),
        "porch 1 depth: unknown key; [[porch]] knows corners; depth is a key of [footing]",
    ),
    "two corners": (
        porch_text("[[10, 20], [30, 28]]"),
        "porch 1: 2 corners make no floor; write 3 to 200 corners in order",
    ),
    "no floor": (
        porch_text("[[10, 28], [30, 28], [20, 28]]"),
        "porch 1: it covers 0.0 sq ft; write the corners of at least 1 sq ft of floor",
    ),
    "crossing sides": (
        porch_text("[[10, 20], [30, 28], [30, 20], [10, 25]]"),
        "porch 1: its sides cross or touch; list the corners in order around the porch",
    ),
    "outside": (
        porch_text("[[10, 20], [30, 20], [30, 30], [10, 30]]"),
        "porch 1: it leaves the house; write corners so that all of it lies inside the outline",
    ),
    "twice": (
        porch_text("[[10, 20], [30, 20], [30, 28], [10, 28]]")
        + "[[porch]]\ncorners = [[20, 20], [30, 20], [30, 28], [20, 28]]\n",
        "porch 2: it overlaps porch 1; write each open floor once",
    ),
}


@pytest.mark.parametrize("case", WRONG)
def test_each_wrong_porch_is_answered_in_its_own_words(case: str) -> None:
    text, sentence = WRONG[case]
    with pytest.raises(PlanError) as caught:
        plan_from_text(text, "house.toml")
    assert str(caught.value) == sentence
