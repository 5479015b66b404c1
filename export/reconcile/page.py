"""Reconciled run -> reconcile.html: theirs beside ours in the order of a careful engineer, nothing fetched."""

from __future__ import annotations

from collections.abc import Iterable

from export.reconcile.rows import Line, anchor_words, lines, reconciled_of
from export.report.markup import bullets, esc, num, paragraph, section, table
from export.report.still_page import still_page
from export.wall_marks.tape_marks import SAMPLE_WORDS
from framing.package.comparison import Band, Reaction, Topic
from framing.package.governing import Reconciled
from framing.package.matching import How
from framing.run import CAUTION, Run

BANDS = {Band.NEAR: "near", Band.DIFFERS: "differs", Band.ASK: "ASK"}
NOTE = (
    "Up and down are allowable stress. Near: within a tenth or 50 lb of ours. ASK: under 0.75 or over 1.33 times ours. "
    "No published tolerance exists: the bands are common practice, no source. A ratio says what to ask, not who is "
    "right."
)
WIND = ("wind speed", "exposure", "enclosure", "edition")


def reconcile_html(run: Run) -> bytes:
    """The page; equal runs give equal bytes."""
    found, all_lines = reconciled_of(run), lines(run)
    sample = f"<p><b>{esc(SAMPLE_WORDS)}</b></p>" if run.schedule.catalogue.invented else ""
    name = f"Truss package beside ours: {run.plan.project.name}"
    body = (
        f"<h1>{esc(name)}</h1>"
        + "".join(f"<p><b>{esc(line)}</b></p>" for line in verdict(run))
        + f'{sample}<p class="caution">{esc(CAUTION)}</p>'
        + (bullets(run.wind_doubts) if run.wind_doubts else "")
        + section("read", "The table as read", paragraph(f"Truss package {found.words}."), bullets(found.package.said))
        + section("wind", "1. The wind it is made for", _wind(run, found))
        + section(
            "counts",
            "2. Counts and marks",
            _said(found.comparison.counts, "Every count agrees."),
            _alone(run, all_lines),
        )
        + "".join(
            section(topic.name.lower(), f"{n}. {topic.value.capitalize()}", _topic(all_lines, topic))
            for n, topic in enumerate(Topic, 3)
        )
        + section("reactions", "6. Reactions", paragraph(NOTE), f'<div class="wide">{_reactions(all_lines)}</div>')
        + section("anchors", "7. Anchors that the package changes", _anchors(all_lines))
        + section("all", "Every bearing in figures", f'<div class="wide">{_all(all_lines)}</div>')
        + f"<footer><p>Fingerprint {esc(run.fingerprint)}, revision {esc(run.plan.project.revision or '-')}</p>"
        + f'<p class="caution">{esc(CAUTION)}</p></footer>'
    )
    return still_page(name, body)


def verdict(run: Run) -> tuple[str, ...]:
    """What the builder has to know first: what is open before the pour, then what governs."""
    found = reconciled_of(run)
    n_flags, n_asks = len(found.flags), sum(c.asks for c in found.comparison.pairs)
    first = "Nothing stands in the way of the package."
    if n_flags or n_asks:
        parts = [
            f"{n_flags} to decide" * bool(n_flags),
            f"{n_asks} {'reaction' if n_asks == 1 else 'reactions'} to ask about" * bool(n_asks),
        ]
        first = f"Before the pour: {' and '.join(p for p in parts if p)}."
    return (first, f"Truss package {found.words}.")


def _said(sentences: Iterable[str], none: str) -> str:
    found = list(sentences)
    return bullets(found) if found else paragraph(none)


def _wind(run: Run, found: Reconciled) -> str:
    theirs, ours = found.package.wind, run.plan.wind
    pairs = (
        (theirs.speed_mph, ours.speed_mph),
        (theirs.exposure, ours.exposure),
        (theirs.enclosure, ours.enclosure),
        (theirs.edition, ours.edition),
    )
    rows = []
    for what, (one, other) in zip(WIND, pairs, strict=True):
        texts = ["not stated" if v is None else f"{v:g} mph" if isinstance(v, float) else str(v) for v in (one, other)]
        same = "ask" if one is None else "same" if one == other else "DIFFERS"
        rows.append((esc(what), *(esc(t) for t in texts), same))
    return table(("what", "package", "plan", ""), rows) + _said(
        found.comparison.wind, "No input that it states differs."
    )


def _alone(run: Run, all_lines: tuple[Line, ...]) -> str:
    """Rows and marks without partner, and how the others were matched."""
    pairs = [line.compared.pair for line in all_lines]
    rows = [p.row.name for p in pairs if p.row and not p.ours and not p.row.hung]
    hung = [p.row.name for p in pairs if p.row and not p.ours and p.row.hung]
    marks = [p.ours.bearing.mark for p in pairs if p.ours and not p.row and p.ours.at < len(run.framing.bearings)]
    said = [f"No mark of ours: {', '.join(rows)}"] * bool(rows)
    said += [f"No row in the package: {', '.join(marks)}"] * bool(marks)
    said += [f"Hung on other members, no strap: {', '.join(hung)}"] * bool(hung)
    said += [f"Not accepted yet: {', '.join(x)}" for x in [[n.mark for n in all_lines if "accepted" in n.governs]] if x]
    return _said(said, "Every row has its mark and every mark its row.")


def _topic(all_lines: tuple[Line, ...], topic: Topic) -> str:
    return _said((said for n in all_lines for t, said in n.compared.differs if t is topic), "Nothing differs.")


def _reactions(all_lines: tuple[Line, ...]) -> str:
    """What to ask first, in words; then every bearing in figures."""
    asked = [
        (f"{n.mark}, {way}", n.compared.pair.ours.bearing.member, r)
        for n in all_lines
        if n.compared.pair.ours
        for way, r in (("up", n.compared.uplift), ("down", n.compared.down))
        if r and r.band is not Band.NEAR
    ]
    rows = [
        (esc(mark), esc(member), num(r.theirs_lb, 0), num(r.ours_lb, 0), *_ratio(r), esc(r.usually))
        for mark, member, r in sorted(asked, key=lambda a: a[2].band is not Band.ASK)
    ]
    head = ("mark", "member", "package, lb#", "ours, lb#", "ratio#", "", "what such a ratio usually means")
    first = table(head, rows) if rows else paragraph("Every reaction is near ours.")
    told = [f"{n.mark}: {said}" for n in all_lines for said in n.compared.told]
    return first + (bullets(told) if told else "")


def _all(all_lines: tuple[Line, ...]) -> str:
    head = (
        *("mark", "member", "package", "up: package, lb#", "ours#", "ratio#", ""),
        *("down: package, lb#", "ours#", "ratio#", "", "uplift by"),
    )
    rows = []
    for n in all_lines:
        c, row, o = n.compared, n.compared.pair.row, n.compared.pair.ours
        name = (row.mark or row.member or f"row {row.number}") if row else "-"
        how = f" ({c.pair.how})" if c.pair.how and c.pair.how is not How.MARK else ""
        rows.append(
            (
                f'<span class="n">{esc(n.mark)}</span>',
                esc(o.bearing.member if o else ""),
                esc(name + how),
                num(row.uplift_lb if row else None, 0),
                num(o.uplift_lb if o else None, 0),
                *_ratio(c.uplift),
                num(row.down_lb if row else None, 0),
                num(o.down_lb if o else None, 0),
                *_ratio(c.down),
                esc(n.governs),
            )
        )
    return table(head, rows)


def _ratio(r: Reaction | None) -> tuple[str, str]:
    if r is None:
        return num(None, 2), ""
    return num(r.ratio, 2), f"<strong>{BANDS[r.band]}</strong>" if r.band is Band.ASK else BANDS[r.band]


def _anchors(all_lines: tuple[Line, ...]) -> str:
    rows = [
        (
            esc(n.mark),
            esc(anchor_words(n.by_ours)),
            num(n.by_ours.ratio, 2),
            esc(anchor_words(n.now)),
            num(n.now.ratio, 2),
        )
        for n in all_lines
        if n.now and n.by_ours and anchor_words(n.now) != anchor_words(n.by_ours)
    ]
    head = ("mark", "by ours alone", "ratio#", "by the package", "ratio#")
    why = (
        "The package's uplift stands with the main frame's pushes sideways; ours by the cladding stands alone, as its "
    )
    why += "pressures are checked each alone. So a mark may need more at a smaller uplift."
    return (
        paragraph(why) + table(head, rows)
        if rows
        else paragraph("None: every mark keeps the anchor that ours alone would take.")
    )
