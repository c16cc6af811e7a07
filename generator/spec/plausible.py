"""Values that no goods have: slips of the decimal point or of the unit. Common practice, no source."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import AfterValidator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Density, LengthOrZero
from generator.units.sizes import INCH

WIDEST_KERF = INCH
"""What no saw's cut reaches (mm)."""


def _within(low: Fraction | int, high: Fraction | int, unit: str, message: str, also: str) -> AfterValidator:
    """Refuse what is outside of two limits in the unit of the value; `also` says them in another unit."""

    def check(value: Fraction) -> Fraction:
        if low <= value <= high:
            return value
        raise PydanticCustomError(
            Code.OUT_OF_RANGE,
            "{message}",
            {
                "message": message,
                "found": f"{float(value):g} {unit}",
                "allowed": f"from {float(low):g} to {float(high):g} {unit} ({also})",
            },
        )

    return AfterValidator(check)


Kerf = Annotated[LengthOrZero, _within(0, WIDEST_KERF, "mm", "no saw blade is this wide", "1 in")]
Planing = Annotated[LengthOrZero, _within(0, 50, "mm", "no board is planed by this much", "2 in")]
WoodDensity = Annotated[Density, _within(80, 1400, "kg/m^3", "no wood has this density", "5 to 87 lb/ft^3")]
"""From balsa to the heaviest tropical woods."""
BoardDensity = Annotated[
    Density, _within(20, 8000, "kg/m^3", "no board has this density", "1 to 500 lb/ft^3")
]
"""From foam to steel."""
MetalDensity = Annotated[
    Density, _within(1000, 9000, "kg/m^3", "no metal has this density", "62 to 562 lb/ft^3")
]
"""From magnesium to copper."""
