"""Run -> the roof one size up as the client's page needs it: what differs from the model that is there already."""

from __future__ import annotations

import html
from dataclasses import replace
from typing import Any

from export.walkthrough.packed_scene import second_roof_data
from export.walkthrough.speeds import good_to
from framing.run import Run
from framing.stronger import Stronger
from viewer.colours import colourings
from viewer.scene import Scene, build_scene
from viewer.two_roofs import LARGER, NO_LARGER, PLANNED, changed_words, two_roofs_words


def second_roof(run: Run, scene: Scene, stronger: Stronger | None) -> dict[str, Any] | None:
    """Its straps and colours over the first roof's scene, the winds its straps are good to, and what the cards add."""
    if stronger is None:
        return None
    first = run.schedule
    run = replace(run, plan=stronger.plan, schedule=stronger.schedule)
    marks = stronger.schedule.marks
    other = build_scene.__wrapped__(run)  # beside the cache, which keeps the first
    other = replace(other, colourings=colourings(run, other.items, (first,)))
    return second_roof_data(scene, other) | {
        "good_to_mph": [good_to(m) for m in marks],
        "said": {i: changed_words(marks[i]) for i in stronger.changed},
    }


def second_roof_html(run: Run, stronger: Stronger | None) -> str:
    """The words of the two roofs and the choice to see both."""
    if stronger is None:
        return f"<p>{html.escape(NO_LARGER)}</p>"
    said = "\n".join(f"<p>{html.escape(words)}</p>" for words in two_roofs_words(run, stronger))
    button = '<button type="button" id="two-roofs" aria-pressed="false">Show both roofs</button>'
    return f"<h2>{PLANNED}, and one size up</h2>\n{button}\n{said}"


def pane_titles() -> str:
    """The names over the two views."""
    names = ((PLANNED, "planned"), (LARGER, "larger"))
    return "\n".join(f'<p class="pane-title" id="pane-{key}" hidden><b>{n}</b><span></span></p>' for n, key in names)
