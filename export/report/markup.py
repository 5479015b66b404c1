"""Texts, numbers and tables as HTML; whatever comes from a plan or a catalogue is escaped here."""

from __future__ import annotations

import html
from collections.abc import Iterable, Sequence
from importlib import resources

MINUS = "\N{MINUS SIGN}"
TIMES = "\N{MULTIPLICATION SIGN}"


def esc(text: object) -> str:
    """Text that stays text, inside an element and inside a quoted attribute."""
    return html.escape(str(text), quote=True)


def num(value: float | None, places: int) -> str:
    """A number with a true minus sign, never minus nought; a dash where there is none."""
    if value is None:
        return "\N{EN DASH}"
    text = f"{value:.{places}f}"
    if not text.startswith("-"):
        return text
    return text[1:] if float(text) == 0.0 else f"{MINUS}{text[1:]}"


def coefficient(value: float) -> str:
    """A coefficient with its sign, two decimals at least and four at most."""
    text = f"{value:+.4f}"
    return (text[:-2] + text[-2:].rstrip("0")).replace("-", MINUS)


def paragraph(text: str) -> str:
    """A paragraph of plain text."""
    return f"<p>{esc(text)}</p>"


def bullets(lines: Iterable[str]) -> str:
    """A list of plain texts."""
    return "<ul>" + "".join(f"<li>{esc(line)}</li>" for line in lines) + "</ul>"


def table(head: Sequence[str], rows: Iterable[Sequence[str]], *, name: str = "", foot: Sequence[str] = ()) -> str:
    """A table of cells that are HTML already; a head that ends in `#` stands over numbers, set to the right."""
    right = [h.endswith("#") for h in head]

    def line(cells: Sequence[str], tag: str) -> str:
        marks = (' class="n"' if r else "" for r in right)
        return "".join(f"<{tag}{m}>{c}</{tag}>" for c, m in zip(cells, marks, strict=True))

    body = "".join(f"<tr>{line(row, 'td')}</tr>" for row in rows)
    below = f"<tfoot><tr>{line(foot, 'td')}</tr></tfoot>" if foot else ""
    kind = f' class="{esc(name)}"' if name else ""
    headings = line([h.removesuffix("#") for h in head], "th")
    return f"<table{kind}><thead><tr>{headings}</tr></thead><tbody>{body}</tbody>{below}</table>"


def section(anchor: str, title: str, *parts: str, name: str = "") -> str:
    """A section with its heading."""
    kind = f' class="{esc(name)}"' if name else ""
    return f'<section id="{esc(anchor)}"{kind}><h2>{esc(title)}</h2>{"".join(parts)}</section>'


def part(name: str) -> str:
    """A file that lies beside this module."""
    return resources.files("export.report").joinpath(name).read_text(encoding="utf-8")
