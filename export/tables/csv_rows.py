"""Rows -> bytes of a CSV that a spreadsheet opens rightly and cannot be tricked by."""

from __future__ import annotations

import csv
import io

from framing.run import CAUTION, Run

OPEN_WIND = "open_about_the_wind"
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def safe_text(text: str) -> str:
    """The text, with an apostrophe before it if a spreadsheet would take it for a formula."""
    return "'" + text if text.startswith(_FORMULA_STARTS) else text


def decimal(value: float | None, places: int) -> str:
    """A number with a decimal point in every locale, never `-0`; empty where there is none."""
    if value is None:
        return ""
    text = f"{value:.{places}f}"
    return text.lstrip("-") if float(text) == 0.0 else text


def csv_bytes(run: Run, header: tuple[str, ...], rows: list[tuple[str, ...]]) -> bytes:
    """UTF-8 with byte-order mark, CRLF, header first, the fingerprint and the caution as trailing columns; before them
    what the plan leaves open about the wind, and the truss package where one governs.
    """
    by = [safe_text(run.reconciled.words)] if run.reconciled is not None else []
    heads = (OPEN_WIND, *(["truss_package"] if by else []), "fingerprint", "caution")
    cells = (safe_text(" ".join(run.wind_doubts)), *by, run.fingerprint, CAUTION)
    return csv_rows_bytes((*header, *heads), [(*row, *cells) for row in rows])


def csv_rows_bytes(header: tuple[str, ...], rows: list[tuple[str, ...]]) -> bytes:
    """UTF-8 with byte-order mark, CRLF, header first."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(header)
    writer.writerows(rows)
    return text.getvalue().encode("utf-8-sig")
