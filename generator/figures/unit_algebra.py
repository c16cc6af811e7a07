"""The unit of a product from the units of its factors, as text: N × mm³ ÷ (MPa × mm⁴) is mm."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

#: A pascal is a newton on a square metre, so a megapascal is one on a square millimetre: exact.
_MADE_OF = {"MPa": {"N": 1, "mm": -2}, "1": {}}

Powers = tuple[tuple[str, int], ...]


def product(factors: Iterable[tuple[str, int]]) -> str:
    """The unit of a product of units raised to powers: ("N", 1), ("mm", -1) gives N/mm. Empty for a bare number."""
    total: dict[str, int] = {}
    for unit, power in factors:
        for symbol, exponent in _powers(unit):
            total[symbol] = total.get(symbol, 0) + exponent * power
    above = [_raised(symbol, power) for symbol, power in sorted(total.items()) if power > 0]
    below = [_raised(symbol, -power) for symbol, power in sorted(total.items()) if power < 0]
    text = "·".join(above) or ("1" if below else "")
    return text + "".join(f"/{each}" for each in below)


def square_root(unit: str) -> str:
    """The unit of a square root: mm^2 gives mm. Raises ValueError for a unit that is not a square."""
    powers = _powers(unit)
    if any(power % 2 for _, power in powers):
        raise ValueError(f"{unit} is not a square")
    return product((symbol, power // 2) for symbol, power in powers)


@cache
def _powers(unit: str) -> Powers:
    """Symbols of a unit such as kg/m^3 or N*mm with their powers."""
    found: dict[str, int] = {}
    for sign, symbol, power in re.findall(r"([/*·]?)([A-Za-z1]+)(?:\^(\d))?", unit):
        times = int(power or 1) * (-1 if sign == "/" else 1)
        for base, exponent in _MADE_OF.get(symbol, {symbol: 1}).items():
            found[base] = found.get(base, 0) + exponent * times
    return tuple(found.items())


def _raised(symbol: str, power: int) -> str:
    return symbol if power == 1 else f"{symbol}^{power}"
