"""Numbers as text: lengths in millimetres or fractions of an inch, numbers of a calculation, numbers for JSON."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import lru_cache

from generator.units.sizes import INCH

Number = Fraction | int | float
TEXTS = 16_384
"""Texts that are kept: the same lengths are written many times."""


def format_fixed(value: Number, decimals: int) -> str:
    """Return `value` with exactly this many `decimals`, halves rounded away from zero; never `-0`."""
    return _fixed(*_ratio(value), decimals)


@lru_cache(maxsize=TEXTS)
def _fixed(numerator: int, denominator: int, decimals: int) -> str:
    units = _steps(numerator, denominator, 10**decimals)
    digits = str(abs(units)).rjust(decimals + 1, "0")
    whole, part = digits[: len(digits) - decimals], digits[len(digits) - decimals :]
    return f"{'-' if units < 0 else ''}{whole}{'.' if part else ''}{part}"


def format_mm(value: Number, decimals: int = 1) -> str:
    """Return a length in mm without its unit and without trailing zeros: `1920`, `17.5`."""
    text = format_fixed(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def format_inch(value_mm: Number, denominator: int = 32) -> str:
    """Return a length in mm as the nearest reduced fraction of an inch, without its unit: `23 5/8`, `3/8`."""
    numerator, under = _ratio(value_mm)
    return _inch(numerator * INCH.denominator, under * INCH.numerator, denominator)


@lru_cache(maxsize=TEXTS)
def _inch(numerator: int, under: int, denominator: int) -> str:
    steps = _steps(numerator, under, denominator)
    whole, rest = divmod(abs(steps), denominator)
    part = str(Fraction(rest, denominator)) if rest else ""
    text = " ".join(piece for piece in (str(whole) if whole else "", part) if piece) or "0"
    return f"-{text}" if steps < 0 else text


def rest_mm(value: Fraction) -> str:
    """Return what is left of a piece (mm) without its unit: down to a whole millimetre, never more than there is."""
    return format_mm(value // 1)


def rest_inch(value_mm: Fraction, denominator: int = 32) -> str:
    """Return what is left of a piece (mm) without its unit: down to a fraction of an inch."""
    step = INCH / denominator
    return format_inch(value_mm // step * step, denominator)


def next_finer(value: Fraction) -> str:
    """Return what two lengths may differ by (mm) in inches: the next finer of 1/16, 1/32, 1/64, never more than it."""
    whole = [Fraction(1, n) for n in (16, 32, 64) if INCH * Fraction(1, n) <= value]
    return str(whole[0]) if whole else format_thou(value)


def format_thou(value_mm: Number) -> str:
    """Return a length in mm as decimal inches to a thousandth, without its unit: `0.315`."""
    return format_fixed(_exact(value_mm) / INCH, 3)


def format_worked(value: Number, unit: str, units: str) -> str:
    """Return a number of a calculation without its unit, to a thousandth; lengths in the manual's `units`.

    What is no length and smaller than a hundredth has three digits, to a millionth, so that a reader can follow it.
    `unit` is that of the value: a length in mm is given in inches to a thousandth when `units` is `in`. A number
    below zero has a minus sign, as the formulas around it have.
    """
    if unit == "mm" and units == "in":
        text = format_mm(_exact(value) / INCH, 3)
    else:
        size = abs(_exact(value))
        places = 3 if size < 1000 else 1
        if unit != "mm" and 0 < size < Fraction(1, 100):
            places = min(2 - math.floor(math.log10(size)), 6)
        text = format_mm(value, places)
    return text.replace("-", "−")


def plain(value: Number) -> float | int:
    """Return `value` for JSON: an int when it is whole, else a float of nine decimals.

    Raises ValueError for nan and infinity.
    """
    rounded = round(_exact(value), 9)
    return rounded.numerator if rounded.denominator == 1 else float(rounded)


def _ratio(value: Number) -> tuple[int, int]:
    """Return `value` as numerator and denominator; a float as the decimal that it prints as."""
    exact = _exact(value) if isinstance(value, float) else value
    return exact.numerator, exact.denominator


def _exact(value: Number) -> Fraction:
    """Return `value` as a fraction; a float counts as the decimal that it prints as, as people see it."""
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{value} is not a finite number")
        return Fraction(repr(float(value)))
    return Fraction(value)


def _steps(numerator: int, denominator: int, parts: int) -> int:
    """Return how many `1/parts` are nearest to a ratio, halves away from zero so that -x prints as -(x)."""
    count = (2 * abs(numerator) * parts + denominator) // (2 * denominator)
    return -count if numerator < 0 else count
