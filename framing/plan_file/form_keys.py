"""How a key of the plan file is declared: required, with a default, or worked out from the rest."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field

from framing.plan_file.fields import Length, Number, Unknown, Words

Text = Annotated[str, Words()]
Psf = Annotated[float | None, Number(0, 100, "psf")]
Gap = Annotated[float, Length('0"', '6"')]
Inches = Annotated[float | None, Unknown(Number(1, 24, "in."))]


def required(meaning: str, example: str) -> Any:
    """A key that every plan has; `example` is a line of the file that would be right."""
    return Field(description=meaning, examples=[example])


def given(default: object, meaning: str, alias: str | None = None) -> Any:
    """A key that may be left out; `default` is written as in the file."""
    return Field(default=default, validate_default=True, description=meaning, alias=alias)


def worked_out(meaning: str, alias: str | None = None) -> Any:
    """A key that may be left out; its default depends on the rest of the plan, or there is none."""
    return Field(
        default=None, description=meaning, alias=alias, json_schema_extra=lambda schema: schema.pop("default", None)
    )


class Section(BaseModel):
    """A table of the file; a key that is not in it is an error."""

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)
