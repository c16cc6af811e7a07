"""Limits that the bench must keep: sag, weight, doors on its way out, the climate of the shop.

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
    """Limits: how far the loaded bench may sag, what people lift, which doors the parts must pass."""

    top_force: Force = Fraction(500)
    """Load for the sag of the top: a force in the middle of a top bar, or of the board between two bars (N, lbf)."""
    top_sag: Length = Fraction(3, 2)
    """How far bars and board may sag under `top_force`."""
    rail_sag: Divisor = Fraction(500)
    """A base rail may sag by its span between two supports, divided by this number."""
    shelf_sag: Divisor = Fraction(300)
    """A shelf or drawer bottom may sag by its span, divided by this number."""
    sway: Length | None = None
    """How far the top may sway under `loads.push`. Default, for 300 N: 3 mm for planing, 6 mm for other work."""
    lift_one: Mass = Fraction(25)
    """Most that one person lifts, where the lifting equation allows more. More than four cannot lift together."""
    door: tuple[Length, Length] = (Fraction(800), Fraction(2000))
    """Clear [width, height] of the narrowest door on the way out of the shop."""
    van: tuple[Length, Length, Length] = (Fraction(2400), Fraction(1500), Fraction(1200))
    """Inside [length, width, height] of the van that moves the bench."""


class Climate(Node):
    """Extremes in the shop over a year, for the movement of wood and bars."""

    coldest: Celsius = Fraction(10)
    """Lowest temperature in the shop, in degrees Celsius."""
    warmest: Celsius = Fraction(30)
    """Highest temperature in the shop, in degrees Celsius."""
    driest: Humidity = Fraction(35)
    """Lowest relative humidity in per cent that lasts for weeks."""
    dampest: Humidity = Fraction(65)
    """Highest relative humidity in per cent that lasts for weeks. A wet day does not count."""

    @model_validator(mode="after")
    def _in_order(self) -> Climate:
        for low, high in (("coldest", "warmest"), ("driest", "dampest")):
            if getattr(self, low) > getattr(self, high):
                raise PydanticCustomError(
                    Code.CLIMATE,
                    "{message}",
                    {
                        "message": f"`{low}` is higher than `{high}`",
                        "found": f"{float(getattr(self, low)):g} and {float(getattr(self, high)):g}",
                        "allowed": "the lower value first",
                    },
                )
        return self
