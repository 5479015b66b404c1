"""What is behind a coefficient that stands between the rows of a figure, or is a sum of two."""

from __future__ import annotations

from export.report.markup import MINUS, TIMES, coefficient, esc, paragraph, section, table
from framing.explain.coefficients import coefficients_behind
from framing.run import Run

HEAD = ("coefficient", "made of", "so", "=#", "clause")


def behind(run: Run) -> str:
    """The main frame's coefficients between rows, the cladding's on their curves, and the overhangs' sums."""
    body = [
        (
            esc(b.what),
            esc("; ".join(f"{words}: {value:+.4f}" for words, value in b.parts)).replace("-", MINUS),
            esc(b.how).replace("-", MINUS).replace(" x ", f" {TIMES} "),
            coefficient(b.value_factor),
            esc(b.clause),
        )
        for b in coefficients_behind(run)
    ]
    said = (
        "A coefficient that the figures print as it is used is not here. Cladding: at the effective areas whose case "
        "governs a mark, GC_p = c0 + c1 log10(A); an overhang takes the roof's suction less the wall's pressure on its "
        "soffit."
    )
    return section(
        "behind", "Coefficients between the figures' rows", paragraph(said), table(HEAD, body, name="behind")
    )
