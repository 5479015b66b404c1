"""How far apart the deck's nails may stand: what the wind asks, in the whole inches that a crew uses."""

from __future__ import annotations

from dataclasses import dataclass

TABLE_IN = (12.0, 8.0, 6.0, 4.0, 3.0)
CREW_IN = (6.0, 4.0, 3.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Nailing:
    """Nails along one line of wood. [in]

    `exact_in` is what the demand comes to, `table_in` the largest of 12, 8, 6, 4 and 3 in. that is no more,
    `spacing_in` what is nailed: 6, 4 or 3 in., never over the user's own schedule (`by_user` where that is closer).
    None: closer than 3 in. would be needed, which splits chords: a question for the engineer. `per_nail_lb` is at
    `spacing_in`.
    """

    exact_in: float
    table_in: float | None
    spacing_in: float | None
    by_user: bool
    per_nail_lb: float | None

    @property
    def words(self) -> str:
        """How far apart, and by whom; or the question."""
        if self.spacing_in is None:
            return "ASK ENGINEER"
        return f'{self.spacing_in:g}"{" (your code)" if self.by_user else ""}'


def nailing(line_plf: float, nail_lb: float, user_in: float | None) -> Nailing:
    """The spacing along a line of wood.

    Parameters
    ----------
    line_plf : float
        What lifts along it, ASD, over 0. [plf]
    nail_lb : float
        What one nail holds. [lb]
    user_in : float or None
        The user's own code schedule for this line. [in]

    Source: common practice, no source (whole inches that a crew uses, never over 6).
    """
    exact_in = 12.0 * nail_lb / line_plf
    table_in = next((inches for inches in TABLE_IN if inches <= exact_in), None)
    ours_in = next((inches for inches in CREW_IN if inches <= exact_in), None)
    by_user = ours_in is not None and user_in is not None and user_in < ours_in
    spacing_in = user_in if by_user else ours_in
    return Nailing(
        exact_in=exact_in,
        table_in=table_in,
        spacing_in=spacing_in,
        by_user=by_user,
        per_nail_lb=None if spacing_in is None else line_plf * spacing_in / 12.0,
    )
