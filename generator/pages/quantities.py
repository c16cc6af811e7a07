"""How forces, moments, torques, speeds and temperatures are written, in the manual's own system of units."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from generator.pages.literal import NBSP
from generator.units.format import format_fixed
from generator.units.sizes import INCH, KG_PER_LB, N_PER_LBF

MM_PER_FOOT = float(INCH * 12)
MM_PER_M = 1000.0
#: Of a US liquid quart, exact by definition.
LITRES_PER_QUART = 0.946352946


class Quantities:
    """Filters for one manual; `say` makes a text of a value and of its metric and its imperial reading."""

    def __init__(self, say: Callable[[Fraction | float, str, str], str]) -> None:
        self._say = say

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "force": self.force,
            "moment": self.moment,
            "torque": self.torque,
            "turns": turns,
            "feed": self.feed,
            "volume": self.volume,
            "temperature": self.temperature,
            "hours": hours,
            "clock": clock,
        }

    def force(self, newtons: Fraction | float) -> str:
        """Whole newtons, or whole pounds of force."""
        return self._say(newtons, _text(newtons, 0, "N"), _text(float(newtons) / N_PER_LBF, 0, "lbf"))

    def moment(self, kilogram_metres: Fraction | float) -> str:
        """To a tenth of a kilogram-metre, or to a whole pound-foot."""
        pound_feet = float(kilogram_metres) * MM_PER_M / KG_PER_LB / MM_PER_FOOT
        return self._say(
            kilogram_metres, _text(kilogram_metres, 1, f"kg{NBSP}m"), _text(pound_feet, 0, f"lb{NBSP}ft")
        )

    def torque(self, newton_metres: float) -> str:
        """To a whole newton-metre, or to a whole pound-foot."""
        pound_feet = newton_metres * MM_PER_M / N_PER_LBF / MM_PER_FOOT
        return self._say(
            newton_metres, _text(newton_metres, 0, f"N{NBSP}m"), _text(pound_feet, 0, f"lbf{NBSP}ft")
        )

    def feed(self, mm_per_minute: float) -> str:
        """To a tenth of a metre, or to a whole inch, a minute."""
        return self._say(
            mm_per_minute,
            _text(mm_per_minute / MM_PER_M, 1, "m/min"),
            _text(mm_per_minute / float(INCH), 0, "in/min"),
        )

    def volume(self, litres: float) -> str:
        """To a hundredth of a litre, or of a US quart."""
        return self._say(litres, _text(litres, 2, "l"), _text(litres / LITRES_PER_QUART, 2, "qt"))

    def temperature(self, kelvins: float) -> str:
        """Whole degrees of a difference in temperature."""
        return self._say(kelvins, _text(kelvins, 0, "°C"), _text(kelvins * 9 / 5, 0, "°F"))


def _text(value: Fraction | float, places: int, unit: str) -> str:
    return f"{format_fixed(float(value), places)}{NBSP}{unit}"


def turns(per_minute: float) -> str:
    """Revolutions to the nearest hundred: more would be a promise."""
    return format_fixed(round(per_minute / 100) * 100, 0)


def clock(minutes: float) -> str:
    """Minutes since the work of a day began, as hours and minutes: 3:05."""
    whole, rest = divmod(round(minutes), 60)
    return f"{whole}:{rest:02d}"


def hours(minutes: float) -> str:
    """Hours and minutes."""
    whole, rest = divmod(round(minutes), 60)
    if whole and not rest:
        return f"{whole}{NBSP}h"
    return f"{whole}{NBSP}h {rest}{NBSP}min" if whole else f"{rest}{NBSP}min"
