"""Run -> walkthrough.html: the roof that the client walks through, in one file that needs no network."""

from __future__ import annotations

import base64
import html
import json
import re
import zlib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from importlib import resources
from string import Template
from types import MappingProxyType

import numpy as np

from export.walkthrough.packed_closer import closer_data
from export.walkthrough.packed_scene import model_data, packed
from export.walkthrough.plan_drawing import plan_svg
from export.walkthrough.second_roof import pane_titles, second_roof, second_roof_html
from export.walkthrough.speeds import good_to
from framing.anchors.schedule import BY_ENGINEER, Mark
from framing.asce7.chapter26 import hurricane_gusts_mph
from framing.loads.cases import LoadBasis
from framing.run import Run
from framing.stronger import Stronger, stronger_roof
from framing.units import feet_inches
from viewer.colours import HIGHEST_MPH, Colouring, ColourKey, colourings
from viewer.plain import mark_words, roof_words, share_words
from viewer.scene import INVENTED_NOTE, Scene, build_scene
from viewer.stages import STAGES
from viewer.suction import ARROW_FT, deck_suction
from viewer.tour import tour

SCRIPTS = (
    "walkthrough.gl.js",
    "walkthrough.sight.js",
    "walkthrough.labels.js",
    "walkthrough.js",
    "walkthrough.roofs.js",
    "walkthrough.closer.js",
    "walkthrough.tour.js",
    "walkthrough.start.js",
)
STYLES = ("walkthrough.css", "walkthrough.closer.css")
CHOICES = {
    ColourKey.UPLIFT: "Uplift",
    ColourKey.SHARE: "Share of allowed",
    ColourKey.WIND: "Good to, mph",
    ColourKey.KIND: "Kind of member",
    ColourKey.DECK: "Deck by zone",
}
KEYS = (
    ("arrow keys, or drag", "turn"),
    ("shift and arrow keys, or two fingers", "move"),
    ("+ and -, the wheel, or pinch", "nearer, farther"),
    ("n and p", "next and previous bearing"),
    ("Enter", "look closer at the bearing, or back to the house"),
    ("Page Down and Page Up", "next and previous stage"),
    ("c", "next colours"),
    ("l", "marks shown or not"),
    ("Home, f, a", "from the corner, the front, above"),
    ("Escape", "close the card"),
)
GALE_LEAST_MPH = 80.0
NO_ANCHOR = "none in the list holds it"
Cell = tuple[str, str, bool]


def walkthrough_html(run: Run, seen: Mapping[str, str] = MappingProxyType({}), seen_in_all: str = "") -> bytes:
    """The client's page: model, stages, colours, cards, and without 3D a plan and a table.

    Parameters
    ----------
    run : Run
        Everything that one run found out.
    seen : mapping
        By mark, what was seen of its straps after the pour; empty where nobody asked for it.
    seen_in_all : str
        The same of the whole house in a sentence.

    Returns
    -------
    bytes
        UTF-8 HTML with everything inlined; its content-security policy forbids every request.
    """
    stronger, scene = stronger_roof(run), build_scene(run)
    beside = (stronger.schedule,) if stronger else ()
    scene = replace(scene, colourings=colourings(run, scene.items, beside))
    marks = run.schedule.marks
    text = _data(run, scene, stronger)
    page = Template(_asset("walkthrough.html")).substitute(
        title=html.escape(scene.title),
        facts=html.escape(_facts(run)),
        css=f"{chr(10).join(_short(_asset(name)) for name in STYLES)}\n{_figure_columns(marks)}",
        steps="\n".join(_step(i, s.title) for i, s in enumerate(STAGES)),
        choices="\n".join(_choice(i, c) for i, c in enumerate(scene.colourings)),
        legends="\n".join(_legend(c, shown=i == 0) for i, c in enumerate(scene.colourings)),
        keys="\n".join(f"<dt>{html.escape(k)}</dt><dd>{html.escape(does)}</dd>" for k, does in KEYS),
        notes=_paragraphs(n for n in scene.notes if n != INVENTED_NOTE and n not in run.wind_doubts),
        doubts=_paragraphs(run.wind_doubts),
        plain=_paragraphs((*roof_words(run), *([seen_in_all] if seen_in_all else []))),
        titles=pane_titles(),
        two_roofs=second_roof_html(run, stronger),
        fingerprint=html.escape(run.fingerprint),
        plan=plan_svg(run, scene),
        plan_legend=_legend(scene.colouring(ColourKey.UPLIFT), shown=True),
        n_bearings=f"{len(marks):,}",
        unresolved=html.escape(_unresolved(run)),
        invented=html.escape(INVENTED_NOTE if run.schedule.catalogue.invented else ""),
        gale_least=f"{min(GALE_LEAST_MPH, run.plan.wind.speed_mph):.0f}",
        gale_most=f"{HIGHEST_MPH:.0f}",
        scale=_hurricane_scale(min(GALE_LEAST_MPH, run.plan.wind.speed_mph)),
        design_mph=f"{run.plan.wind.speed_mph:.0f}",
        table=_table(marks, scene.caution, seen),
        caution=html.escape(scene.caution),
        data=_packed(text),
        js="\n".join(_short(_asset(name)) for name in SCRIPTS),
    )
    return page.encode("utf-8")


def _data(run: Run, scene: Scene, stronger: Stronger | None) -> bytes:
    """What the page's scripts work with, as JSON."""
    shaders = {"vertex": _asset("walkthrough.vert.glsl"), "fragment": _asset("walkthrough.frag.glsl")}
    data = model_data(scene) | {
        "shaders": shaders,
        "design_mph": run.plan.wind.speed_mph,
        "good_to_mph": [good_to(m) for m in run.schedule.marks],
        "stronger": second_roof(run, scene, stronger),
        "apart": _apart(run),
        "suction": _suction(run),
    }
    steps = [[s.sentence, int(s.stage), int(s.glass_beam), s.mark] for s in tour(run)]
    data |= {"tour": steps, "closer": closer_data(run, data["middle_ft"], data["step_ft"])}
    return json.dumps(data, ensure_ascii=True, separators=(",", ":")).encode("ascii")


def _packed(text: bytes) -> str:
    """A text deflated, in base64, as a browser's own reader takes it."""
    return base64.b64encode(zlib.compress(text, 9)).decode("ascii")


def _asset(name: str) -> str:
    return resources.files("export.walkthrough").joinpath(name).read_text(encoding="utf-8")


def _paragraphs(texts: Iterable[str]) -> str:
    return "\n".join(f"<p>{html.escape(text)}</p>" for text in texts)


def _short(source: str) -> str:
    """A script or a style without what only its readers need: comments that begin a line, and indents."""
    bare = re.sub(r"(?m)^\s*/\*.*?\*/\s*$", "", source, flags=re.DOTALL)
    return "\n".join(line.strip() for line in bare.splitlines() if line.strip())


def _facts(run: Run) -> str:
    """One line under the title: the date, the wind, and how much there is."""
    wind, date = run.plan.wind, run.plan.project.date
    parts = [
        f"{date.day} {date:%B} {date.year}" if date else "",
        f"{wind.speed_mph:.0f} mph wind, exposure {wind.exposure}, {wind.edition}",
        f"{len(run.framing.members):,} members on {len(run.schedule.marks):,} bearings",
    ]
    return " · ".join(p for p in parts if p)


def _unresolved(run: Run) -> str:
    names = [m.mark for m in run.schedule.unresolved]
    if not names:
        others = run.schedule.by_engineer
        where = " and ".join(dict.fromkeys(m.bearing.wall for m in others))
        but = f", but for {len(others)} on {where} with the engineer's connection" if others else ""
        return f"Every bearing has an anchor that is allowed its pull{but}."
    return f"No anchor of the list holds {len(names)} of the bearings: {', '.join(names)}."


def _suction(run: Run) -> str:
    """Each arrow: where it stands [0.1 ft], the roof's normal there [0.01], its length at the design wind [0.1 ft]."""
    arrows = deck_suction(run)
    feet = arrows.psf / max(float(arrows.psf.max(initial=0.0)), 1e-9) * ARROW_FT
    return packed(np.column_stack((10 * arrows.foot_ft, 100 * arrows.normal, 10 * feet)).round(), "<i2")


def _hurricane_scale(least_mph: float) -> str:
    """The steps of the hurricane scale along the wind slider; its sentences are under 'What the words mean'."""
    parts = [(mph - least_mph) / (HIGHEST_MPH - least_mph) for mph in hurricane_gusts_mph()]
    return "".join(f'<span style="--at:{at:.4f}">{i}</span>' for i, at in enumerate(parts, 1))


def _apart(run: Run) -> str:
    """Which marks the count of another wind leaves out, '' where none."""
    bare, others = len(run.schedule.unresolved), len(run.schedule.by_engineer)
    parts = ([f"{bare} with no anchor"] if bare else []) + ([f"{others} by the engineer"] if others else [])
    return f"Not counted: {' and '.join(parts)}." if parts else ""


def _step(i: int, title: str) -> str:
    return f'<button type="button" class="step">{i + 1} {html.escape(title)}</button>'


def _choice(i: int, colouring: Colouring) -> str:
    checked = " checked" if i == 0 else ""
    return f'<label><input type="radio" name="colouring"{checked}>{html.escape(CHOICES[colouring.key])}</label>'


def _legend(colouring: Colouring, *, shown: bool) -> str:
    """The title with its unit, the ramp with its ticks, and the named colours."""
    unit = f", {colouring.unit}" if colouring.unit else ""
    parts = [f"<p>{html.escape(said)}</p>" for said in (colouring.title + unit, colouring.sentence) if said]
    if colouring.ticks:
        stops = ",".join("#" + bytes(rgb).hex() for rgb in colouring.ramp_rgb[::15])
        ticks = "".join(
            f'<span style="left:{100 * at:.1f}%">{html.escape(text)}</span>' for at, text in colouring.ticks
        )
        parts += [
            f'<div class="bar" style="background:linear-gradient(90deg,{stops})"></div>',
            f'<div class="ticks">{ticks}</div>',
        ]
    swatches = "".join(
        f'<li><i style="background:rgb{s.rgb}">{"×" if s.cross else ""}</i>{html.escape(str(s.text))}</li>'
        for s in colouring.swatches
    )
    parts += [f'<ul class="swatches">{swatches}</ul>'] if swatches else []
    return f'<div class="legend"{"" if shown else " hidden"}>{"".join(parts)}</div>'


def _table(marks: Iterable[Mark], caution: str, seen: Mapping[str, str]) -> str:
    """Every bearing as a row; the card of the page shows the cells of a row, so the two cannot differ."""
    rows = [(m, [*_cells(m), *([("As built", seen.get(m.mark, ""), False)] if seen else [])]) for m in marks]
    heads = rows[0][1] if rows else []
    head = "".join(f'<th scope="col">{html.escape(name)}</th>' for name, _, _ in heads)
    foot = f'<tfoot class="on-paper"><tr><td colspan="{len(heads)}">Caution. {html.escape(caution)}</td></tr></tfoot>'
    body = "".join(_row(m, cells, seen.get(m.mark, "")) for m, cells in rows)
    return f"<table><thead><tr>{head}</tr></thead>\n<tbody>\n{body}</tbody>{foot}</table>"


def _row(m: Mark, cells: list[Cell], seen: str) -> str:
    state = "" if m.resolved else ' class="unresolved"'
    held = m.anchor.id if m.anchor else m.held_by if m.bearing.by_engineer else "no anchor"
    tip = f"{m.mark}: {m.uplift_lb:,.0f} lb up, {held}"
    body = "".join(f"<td>{html.escape(text)}</td>" for _, text, _ in cells)
    said = f'data-tip="{html.escape(tip)}" data-plain="{html.escape(f"{mark_words(m)} {seen}".strip())}"'
    return f'<tr id="{html.escape(m.mark)}"{state} {said}>{body}</tr>\n'


def _figure_columns(marks: Iterable[Mark]) -> str:
    """The style of the table's columns of figures, said once and not in every cell."""
    cells = next((_cells(m) for m in marks), [])
    columns = [k for k, (*_, is_figure) in enumerate(cells, 1) if is_figure]
    right = ",".join(f"tr>:nth-child({k})" for k in columns)
    whole = ",".join(f"td:nth-child({k})" for k in columns)
    return f"{right}{{text-align:right}}\n@media print{{{whole}{{white-space:nowrap}}}}" if columns else ""


def _case(m: Mark) -> str:
    if m.uplift_lb <= 0:
        return "nothing lifts"
    return m.case if m.basis is LoadBasis.CLADDING else f"{m.case} ({m.basis})"


def _cells(m: Mark) -> list[Cell]:
    """Heading, text, and whether it is a figure."""
    speed = "" if m.anchor is None else f"over {HIGHEST_MPH:.0f}" if m.good_to_mph is None else f"{m.good_to_mph:.0f}"
    anchor = f"{m.anchor.name} ({m.anchor.id})" if m.anchor else BY_ENGINEER if m.bearing.by_engineer else NO_ANCHOR
    return [
        ("Mark", m.mark, False),
        ("Truss centre, station", feet_inches(m.bearing.station_ft), True),
        ("Strap mark", feet_inches(m.bearing.strap_station_ft), True),
        ("Member", m.bearing.member, False),
        ("Uplift, lb", f"{m.uplift_lb:,.0f}", True),
        ("Down, lb", f"{m.down_lb:,.0f}", True),
        ("Anchor", f"{m.count} x {anchor}" if m.count > 1 else anchor, False),
        ("Allowable uplift, lb", "" if m.allowable_uplift_lb is None else f"{m.allowable_uplift_lb:,.0f}", True),
        ("Share used", "" if m.ratio is None else f"{m.ratio:.2f}", True),
        ("Shares", share_words(m), False),
        ("Good to, mph", speed, True),
        ("Governing case", _case(m), False),
    ]
