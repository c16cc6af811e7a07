"""How forces, moments, torques, speeds and temperatures are written, in the manual's own system of units."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from generator.units import INCH, format_fixed

NBSP = "\u00a0"
NEWTONS_PER_LBF = 4.4482216152605
KG_PER_LB = 0.45359237
MM_PER_FOOT = float(INCH * 12)


class Quantities:
    """Filters for one manual; `metric` or imperial."""

    def __init__(self, metric: bool) -> None:
        self._metric = metric

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "force": self.force,
            "moment": self.moment,
            "torque": self.torque,
            "turns": turns,
            "feed": self.feed,
            "temperature": self.temperature,
            "money": money,
            "hours": hours,
        }

    def force(self, newtons: float) -> str:
        """Whole newtons, or whole pounds of force."""
        value, unit = (newtons, "N") if self._metric else (newtons / NEWTONS_PER_LBF, "lbf")
        return f"{format_fixed(value, 0)}{NBSP}{unit}"

    def moment(self, kilogram_metres: float) -> str:
        """To a tenth of a kilogram-metre, or to a whole pound-foot."""
        if self._metric:
            return f"{format_fixed(kilogram_metres, 1)}{NBSP}kg{NBSP}m"
        return f"{format_fixed(kilogram_metres * 1000 / KG_PER_LB / MM_PER_FOOT, 0)}{NBSP}lb{NBSP}ft"

    def torque(self, newton_metres: float) -> str:
        """To a whole newton-metre, or to a whole pound-foot."""
        if self._metric:
            return f"{format_fixed(newton_metres, 0)}{NBSP}N{NBSP}m"
        value = newton_metres * 1000 / NEWTONS_PER_LBF / MM_PER_FOOT
        return f"{format_fixed(value, 0)}{NBSP}lbf{NBSP}ft"

    def feed(self, mm_per_minute: float) -> str:
        """To a tenth of a metre, or to a whole inch, a minute."""
        if self._metric:
            return f"{format_fixed(mm_per_minute / 1000, 1)}{NBSP}m/min"
        return f"{format_fixed(mm_per_minute / float(INCH), 0)}{NBSP}in/min"

    def temperature(self, celsius: float) -> str:
        """Whole degrees of a difference in temperature."""
        if self._metric:
            return f"{format_fixed(celsius, 0)}{NBSP}°C"
        return f"{format_fixed(celsius * 9 / 5, 0)}{NBSP}°F"


def turns(per_minute: float) -> str:
    """Revolutions to the nearest hundred: more would be a promise."""
    return format_fixed(round(per_minute / 100) * 100, 0)


def money(price: float) -> str:
    """A price without a currency, as the spec writes it."""
    return format_fixed(price, 2)


def hours(minutes: float) -> str:
    """Hours and minutes."""
    whole, rest = divmod(round(minutes), 60)
    return f"{whole}{NBSP}h {rest}{NBSP}min" if whole else f"{rest}{NBSP}min"
