"""How far a top reaches beyond the frame, by side."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from pydantic import GetJsonSchemaHandler, ValidationInfo, model_validator

from generator.spec.fields import LENGTH_SCHEMA, LengthOrZero, length_of
from generator.spec.item import Node

A_LENGTH_OR_SIDES = "a length for all sides, or a length by side such as {front: 50}"


class Overhang(Node):
    """How far the top reaches beyond the frame on each side."""

    front: LengthOrZero = Fraction(0)
    """How far the top reaches beyond the frame at the front. Clamps need 40 to 75 mm (common practice)."""
    back: LengthOrZero = Fraction(0)
    """How far the top reaches beyond the frame at the rear."""
    left: LengthOrZero = Fraction(0)
    """How far the top reaches beyond the frame at the left end."""
    right: LengthOrZero = Fraction(0)
    """How far the top reaches beyond the frame at the right end."""

    @property
    def along(self) -> Fraction:
        """What both ends add to the length of the frame (mm)."""
        return self.left + self.right

    @property
    def across(self) -> Fraction:
        """What front and rear add to the depth of the frame (mm)."""
        return self.front + self.back

    @model_validator(mode="before")
    @classmethod
    def _one_for_all_sides(cls, value: Any, info: ValidationInfo) -> Any:
        if isinstance(value, Mapping | Overhang):
            return value
        length = length_of(value, info, least=Fraction(0), above=False, allowed=A_LENGTH_OR_SIDES)
        return dict.fromkeys(cls.model_fields, length)


class OrOneLength:
    """Beside the key: one length may be written instead of four."""

    def __get_pydantic_json_schema__(self, core: Any, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Either of both, for editors."""
        return {"anyOf": [LENGTH_SCHEMA, handler(core)]}
