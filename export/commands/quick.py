"""`strapline quick`: the uplift of one common truss, no plan needed."""

from __future__ import annotations

from typing import Annotated

import typer

from export.commands.arguments import Debug, Json, Quiet
from framing.plan import EditionName, Enclosure, Exposure

Span = Annotated[str, typer.Option(help="Between bearings: 36ft.", show_default=False)]
Spacing = Annotated[str, typer.Option(help="On centre: 24in.", show_default=False)]
Pitch = Annotated[str, typer.Option(help="4:12 or 18.4 deg.", show_default=False)]
Wind = Annotated[float, typer.Option(help="Basic (ultimate) 3-second gust, mph.", show_default=False)]
ExposureOption = Annotated[Exposure, typer.Option("--exposure", help="Surface roughness upwind.", show_default=False)]
Height = Annotated[str, typer.Option(help="Mean roof height.")]
Overhang = Annotated[str, typer.Option(help="In plan, at both eaves.")]
Underside = Annotated[
    float | None,
    typer.Option(help="Pressure under the windward overhang, a share of q; the standard's, unless said."),
]
Dead = Annotated[float, typer.Option(help="Roof and ceiling, psf of plan area.")]
EnclosureOption = Annotated[Enclosure, typer.Option("--enclosure", help="How open the building is.")]
EditionOption = Annotated[EditionName, typer.Option("--edition", help="Of the wind standard.")]


def quick(
    *,
    span: Span,
    spacing: Spacing,
    pitch: Pitch,
    wind: Wind,
    exposure: ExposureOption,
    mean_roof_height: Height = "33ft",
    overhang: Overhang = "24in",
    overhang_underside: Underside = None,
    dead: Dead = 15.0,
    enclosure: EnclosureOption = Enclosure.ENCLOSED,
    edition: EditionOption = EditionName.ASCE_7_22,
    json: Json = False,
    quiet: Quiet = False,
    debug: Debug = False,
) -> None:
    """Uplift of one common truss, without a plan.

    Both bearings of a truss of a gable roof, the worse one given: main frame in the end zone and inside it,
    cladding in each zone, with every step of the arithmetic.
    """
    from export.words.quick import quick_inputs, quick_json, quick_text
    from framing.quick import quick as quick_uplift

    inputs = quick_inputs(
        lengths={
            "span": span,
            "spacing": spacing,
            "mean_roof_height": mean_roof_height,
            "overhang": overhang,
        },
        pitch=pitch,
        speed_mph=wind,
        exposure=exposure,
        **({} if overhang_underside is None else {"overhang_underside_ratio": overhang_underside}),
        dead_psf=dead,
        enclosure=enclosure,
        edition=edition,
    )
    result = quick_uplift(inputs)
    typer.echo(quick_json(result) if json else quick_text(result), nl=False)
