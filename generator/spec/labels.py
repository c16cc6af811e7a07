"""What a material is, in the words of a shop that sells it: `40 × 40 aluminium bar`, `12 mm birch plywood`."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from generator.spec.frames import Timber
from generator.spec.goods import Angle, Profile, Sheet, Strip
from generator.units.format import format_inch, format_mm, format_thou

AnyMaterial = Profile | Timber | Sheet | Strip | Angle

STIFF = 100_000
"""Modulus (MPa) between that of steel, about 210 GPa, and that of aluminium, about 70 GPa."""
DENSE = 5000
"""Density (kg/m³) between that of steel, about 7850, and that of aluminium, about 2700."""


def material_label(material: AnyMaterial, units: str) -> str:
    """The material's own `label`, or what follows from its kind; its size comes before it, in `units` (mm, in).

    A label with a digit has a size already: it stays as it is written.
    """
    words = material.label or _kind(material)
    return words if any(map(str.isdigit, words)) else f"{_size(material, units)} {words}"


def with_name(label: str, name: str) -> str:
    """The label with the material's name in the spec behind it, for those who are to write there.

    A name of several words that the label ends with is in it already.
    """
    has_it = label == name or label.endswith(f"({name})") or (" " in name and label.endswith(f" {name}"))
    return label if has_it else f"{label} ({name})"


def sized(thickness: Fraction, words: str, units: str) -> str:
    """What has no entry in the spec, with its thickness (mm) before it, in `units`: `10 mm aluminium plate`."""
    return f"{_inches(thickness) if units == 'in' else format_mm(thickness, 2)} {units} {words}"


def _kind(material: AnyMaterial) -> str:
    match material:
        case Profile():
            return f"{'steel' if material.modulus > STIFF else 'aluminium'} bar"
        case Timber():
            return material.species
        case Sheet():
            return "sheet"
        case Strip():
            return "wood strip"
        case Angle():
            return f"{'steel' if material.density > DENSE else 'aluminium'} angle"


def _size(material: AnyMaterial, units: str) -> str:
    match material:
        case Profile():
            sides: tuple[Fraction, ...] = (material.section, material.section)
        case Timber():
            sides = material.section
        case Sheet():
            sides = (material.thickness,)
        case Strip():
            sides = (material.width, material.thickness)
        case Angle():
            sides = (material.leg, material.leg, material.thickness)
    write: Callable[[Fraction], str] = _inches if units == "in" else lambda side: format_mm(side, 2)
    size = " × ".join(map(write, sides))
    # bars are sold by their two sides alone; an inch is always named
    return size if units == "mm" and isinstance(material, Profile) else f"{size} {units}"


def _inches(side: Fraction) -> str:
    """A fraction to 1/64 where it is one, else thousandths: `3/4`, `0.475`."""
    return format_inch(side, 64) if (side * 5 * 64 / 127).denominator == 1 else format_thou(side)
