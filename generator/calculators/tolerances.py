"""What sizes may be off: general tolerances, thickness of boards, and how deviations add up.

ISO 2768-1:1989, Table 1; EN 315:2000 (plywood) and EN 622-1:2003 (MDF), thickness. The two European values are from
memory; the plywood ones agree with printed tables for 12 to 24 mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.quantities import Millimetres
from generator.provenance import constant, inexact, root, rule

#: Upper end of each range and its permissible deviation (mm), by class. "over 6 up to 30" is ("30", ...).
_TABLE = {
    "f": ("0.05", "0.05", "0.1", "0.15", "0.2", "0.3", "0.5", None),
    "m": ("0.1", "0.1", "0.2", "0.3", "0.5", "0.8", "1.2", "2"),
    "c": ("0.2", "0.3", "0.5", "0.8", "1.2", "2", "3", "4"),
}
_UPTO = (3, 6, 30, 120, 400, 1000, 2000, 4000)
CLASSES = {
    name: tuple(
        (
            Fraction(upto),
            constant(value, f"general tolerance {name} up to {upto}", "ISO 2768-1:1989, Table 1"),
        )
        for upto, value in zip(_UPTO, row, strict=True)
        if value is not None
    )
    for name, row in _TABLE.items()
}
CLASS_M = CLASSES["m"]
#: The smallest size that the table has a tolerance for (mm).
LEAST_SIZE = Fraction(1, 2)

_PLYWOOD_BELOW = constant("0.4", "thinner plywood, fixed part", "EN 315, not checked against the text")
_PLYWOOD_ABOVE = constant("0.2", "thicker plywood, fixed part", "EN 315, not checked against the text")
_MDF_THIN = constant("0.2", "thickness of MDF up to 19 mm", "EN 622-1, not checked against the text")
_MDF_THICK = constant("0.3", "thickness of MDF above 19 mm", "EN 622-1, not checked against the text")


def general_tolerance(length: Fraction, tolerance_class: str = "m") -> Fraction:
    """Permissible deviation (mm, plus or minus) of a linear size, class f, m or c.

    Raises ValueError outside 0.5 to 4000 mm (2000 mm for class f).
    """
    rows = CLASSES[tolerance_class]
    if length < LEAST_SIZE or length > rows[-1][0]:
        raise ValueError("ISO 2768-1 gives no general tolerance for this length")
    return next(deviation for upto, deviation in rows if length <= upto)


def nearest_general_tolerance(length: Fraction) -> Fraction:
    """The general tolerance of class m (mm), beyond the table's ends that of the nearest size it has.

    Common practice, no source: the standard leaves longer sizes to the drawing.
    """
    return general_tolerance(min(max(length, LEAST_SIZE), CLASS_M[-1][0]))


def plywood_thickness(thickness: Fraction) -> tuple[Fraction, Fraction]:
    """Lower and upper deviation (mm) of sanded plywood: -(0.4 + 0.03 t), +(0.2 + 0.03 t). EN 315."""
    part = Fraction(3, 100) * thickness
    return (-_PLYWOOD_BELOW - part, _PLYWOOD_ABOVE + part)


def mdf_thickness(thickness: Fraction) -> tuple[Fraction, Fraction]:
    """Lower and upper deviation (mm) of MDF: ±0.2 up to 19 mm, ±0.3 above. EN 622-1."""
    most = _MDF_THIN if thickness <= 19 else _MDF_THICK
    return (-most, most)


@dataclass(frozen=True)
class Deviation:
    """How far one size may push a clearance down (`lower`, below 0) and up (`upper`), in mm."""

    lower: Fraction
    upper: Fraction

    @classmethod
    def either_way(cls, most: Fraction) -> Deviation:
        """The same up and down."""
        return cls(-most, most)


@dataclass(frozen=True)
class Range:
    """From the smallest to the largest value (mm)."""

    low: Fraction
    high: Fraction


@dataclass(frozen=True)
class LikelyRange:
    """The range of 997 of 1000 values (mm)."""

    low: float
    high: float


@rule("common practice, no source")
def worst_case(nominal: Fraction, deviations: Sequence[Deviation]) -> Range:
    """All sizes at their worst at once: the nominal size with the sum of all lower, or of all upper deviations."""
    lower = sum((each.lower for each in deviations), Fraction(0))
    upper = sum((each.upper for each in deviations), Fraction(0))
    return Range(nominal + lower, nominal + upper)


def root_sum_of_squares(*, tolerances: Sequence[Millimetres]) -> Millimetres:
    """Likely sum of independent deviations: √Σ tᵢ². 997 of 1000 lie within when each tᵢ is three sigma."""
    return root(sum(each**2 for each in tolerances))


@rule("statistical tolerancing, root of the sum of squares")
def likely_range(nominal: Fraction, deviations: Sequence[Deviation]) -> LikelyRange:
    """Worst case softened by chance: the middles add up, the half widths by the root of their squares."""
    uneven = [each for each in deviations if each.upper != -each.lower]
    middle = inexact(nominal + sum(((each.lower + each.upper) / 2 for each in uneven), Fraction(0)))
    half = root_sum_of_squares(tolerances=[inexact(_half_width(each)) for each in deviations])
    return LikelyRange(middle - half, middle + half)


def _half_width(each: Deviation) -> Fraction:
    return (each.upper - each.lower) / 2 if each.upper != -each.lower else each.upper
