"""The plan file's sections for the trades beside the framing: package, deck, covering, takeoff, options."""

from __future__ import annotations

from typing import Annotated

from framing import plan_trades
from framing.plan_file.fields import Choice, Number, Words
from framing.plan_file.fields_of_the_trade import Scalar, Table
from framing.plan_file.form_keys import Inches, Section, Text, given, required


class Package(Section):
    """The truss engineer's reactions; a file named here governs every output."""

    file: Text = given("", "The table, a CSV file beside the plan.")
    columns: Annotated[tuple[tuple[str, str], ...], Table(Words())] = given({}, "Our column to theirs.")
    layout: Annotated[plan_trades.PackageLayout, Choice(tuple(plan_trades.PackageLayout))] = given(
        "ours", "Whose marks and places the outputs show."
    )


class Deck(Section):
    """The roof deck and its nails; "" is not known."""

    panel: Text = given("", 'Thickness and kind, such as "15/32 plywood".')
    rating: Text = given("", 'Span rating, such as "32/16".')
    nail: Text = given("", 'Such as "8d ring shank".')
    chord_species: Text = given("", 'Wood of the top chords, such as "southern pine".')
    edge_in: Inches = given("", "Nail spacing at panel edges by your own code's schedule, inches.")
    field_in: Inches = given("", "The same in the field.")
    zone_3_in: Inches = given("", "The same in zone 3.")


class Covering(Section):
    """The covering."""

    approvals: Text = given("", "Your own table of resistances, a CSV file beside the plan.")


class Takeoff(Section):
    """Prices and waste by item of the takeoff."""

    prices: Annotated[tuple[tuple[str, float], ...], Table(Number(0, 1_000_000, ""))] = given({}, "Price by item.")
    waste_percent: Annotated[tuple[tuple[str, float], ...], Table(Number(0, 100, "percent"))] = given(
        {}, "Waste by item, percent."
    )


class Option(Section):
    """A variant of the house to lay beside it."""

    name: Text = required("What it is called.", 'name = "one size up"')
    set: Annotated[tuple[tuple[str, plan_trades.PlanValue], ...], Table(Scalar())] = required(
        "Keys of this file and what they are set to.", 'set = { "wind.speed" = 170 }'
    )
