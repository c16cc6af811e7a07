"""What is asked of the bench: limits of sag and weight, the way out of the shop, the shop's climate.

Lengths are exact millimetres, masses kilograms, forces newtons. Defaults are common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Celsius, Divisor, Force, Humidity, Length, Mass
from generator.spec.item import Node


class Limits(Node):
    """Limits: what the loaded bench may do, what people lift, which doors the parts must pass."""

    top_force: Force = Fraction(500)
    """Load in the middle of a top bar, or of the board between two bars (N, lbf)."""
    top_sag: Length = Fraction(3, 2)
    """How far bars and board may sag under it."""
    rail_sag: Divisor = Fraction(500)
    """A base rail may sag by its span between two supports, divided by this."""
    shelf_sag: Divisor = Fraction(300)
    """A shelf or a drawer's bottom may sag by its span, divided by this."""
    lift_one: Mass = Fraction(25)
    """What one person lifts; twice as much for two, and no more without blocks or a hoist."""
    door: tuple[Length, Length] = (Fraction(800), Fraction(2000))
    """Clear [width, height] of the narrowest door on the way."""
    van: tuple[Length, Length, Length] = (Fraction(2400), Fraction(1500), Fraction(1200))
    """Inside [length, width, height] of what carries the bench."""


class Climate(Node):
    """The shop's extremes over a year, for what wood and bars do by themselves."""

    coldest: Celsius = Fraction(10)
    """Degrees Celsius."""
    warmest: Celsius = Fraction(30)
    """Degrees Celsius."""
    driest: Humidity = Fraction(35)
    """Relative humidity in per cent, over weeks; a wet day does not count."""
    dampest: Humidity = Fraction(65)
    """Relative humidity in per cent, over weeks."""

    @model_validator(mode="after")
    def _in_order(self) -> Climate:
        for low, high in (("coldest", "warmest"), ("driest", "dampest")):
            if getattr(self, low) > getattr(self, high):
                raise PydanticCustomError(
                    Code.CLIMATE,
                    "{message}",
                    {
                        "message": f"{low} lies above {high}",
                        "found": f"{float(getattr(self, low)):g} and {float(getattr(self, high)):g}",
                        "allowed": f"{low} at most as high as {high}",
                    },
                )
        return self
