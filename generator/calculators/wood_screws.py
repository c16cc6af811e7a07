"""Wood screws on the shelf, how long one may and must be, and the holes for it.

Holes: Wood Handbook, chapter 8: lead holes of about 70 % of the root diameter in softwood and 90 % in hardwood, a root
of about two thirds of the shank. From memory. Numbers of inch screws: ASME B18.6.1, d = 0.060 in + 0.013 in · number.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.fasteners import INCH
from generator.calculators.quantities import Millimetres, Ratio
from generator.provenance import constant, least

ROOT = 2 / 3
SOFT, HARD = 0.7, 0.9
#: Drills on the shelf come in steps of half a millimetre; a clearance hole is at least this much wider (mm).
DRILL_STEP, PLAY = 0.5, 0.5


@dataclass(frozen=True)
class WoodScrew:
    """A wood screw by its size (`4`, `#6`), shank and length (mm)."""

    size: str
    shank: Fraction
    length: Fraction


def _shank(size: str) -> Fraction:
    if not size.startswith("#"):
        return constant(Fraction(size), f"shank of a wood screw of {size} mm")
    inches = Fraction(60, 1000) + Fraction(13, 1000) * int(size[1:])
    return constant(inches * INCH, f"shank of a wood screw {size}", "ASME B18.6.1")


#: Shanks by size (mm).
SHANKS = {size: _shank(size) for size in ("3", "3.5", "4", "4.5", "5", "6", "#4", "#6", "#8", "#10", "#12")}
#: Lengths on the shelf (mm). Common practice; inch lengths from memory of ASME B18.6.1.
METRIC_LENGTHS = tuple(
    constant(n, f"wood screw on the shelf, {n} mm long", "common practice, no source")
    for n in (10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80)
)
INCH_LENGTHS = tuple(
    constant(
        INCH * Fraction(n, 8),
        f"wood screw on the shelf, {n}/8 in long",
        "ASME B18.6.1, not checked against the text",
    )
    for n in (3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 24)
)
#: The inch screw that fittings and slides are drilled for where a metric one of this size is usual. Common practice.
IN_INCHES = {"3": "#4", "3.5": "#6", "4": "#6", "5": "#10"}

#: What is left beyond a screw's point, and the least where the thread would else be too short (mm). Common practice.
INSIDE = constant(2, "what is left beyond a screw's point")
LEAST_INSIDE = constant(1, "least wood beyond a screw's point")
#: Thread in what a screw holds on to, in shanks: the least, and what an edge or end grain asks for. Common practice;
#: the second is the penetration of a lag screw in hardwood for its full load across.
LEAST_THREAD = constant("3/2", "least thread of a wood screw, in shanks", unit="")
EDGE_THREAD = constant(7, "thread of a wood screw in an edge, in shanks", unit="")
#: An edge splits along a screw that is thicker than this part of it. Common practice, no source.
EDGE_PER_SHANK = constant("5/2", "thickness of an edge that takes a wood screw, in shanks", unit="")


def stock(size: str, units: str) -> tuple[WoodScrew, ...]:
    """All lengths of a screw, shortest first; for a bench in inches, of the inch screw that is used in its stead."""
    if units == "in" and not size.startswith("#"):
        size = IN_INCHES[size]
    lengths = INCH_LENGTHS if size.startswith("#") else METRIC_LENGTHS
    return tuple(WoodScrew(size, SHANKS[size], length) for length in lengths)


def room(through: Fraction, into: Fraction, inside: Fraction = INSIDE) -> Fraction:
    """The longest screw (mm) through one thing into another whose point stays inside."""
    return through + into - inside


def least_thread(shank: Fraction) -> Fraction:
    """Thread (mm) that a screw needs in what it holds on to."""
    return LEAST_THREAD * shank


def thread_left(length: Fraction, through: Fraction, into: Fraction) -> Fraction:
    """Thread (mm) of a screw in what it holds on to."""
    return least(length - through, into)


def fitting(
    screws: Sequence[WoodScrew], through: Fraction, into: Fraction, most: Fraction | None = None
) -> WoodScrew:
    """The longest screw, up to `most`, that stays 2 mm inside; 1 mm where its thread would else be too short.

    The shortest on the shelf where none fits.
    """
    for inside in (INSIDE, LEAST_INSIDE):
        limit = room(through, into, inside)
        fits = [screw for screw in screws if screw.length <= limit and (most is None or screw.length <= most)]
        if fits and fits[-1].length - through >= least_thread(fits[-1].shank):
            return fits[-1]
    return fits[-1] if fits else screws[0]


def into_edge(sizes: Sequence[str], units: str, through: Fraction, edge: Fraction) -> WoodScrew:
    """The screw through one board into the edge of another (mm): as thick as the edge takes, and long enough to hold.

    The thinnest of the sizes where the edge takes none of them.
    """
    shelves = [stock(size, units) for size in sizes]
    takes = [screws for screws in shelves if edge_for(screws[0].shank) <= edge] or shelves[-1:]
    needed = through + EDGE_THREAD * takes[0][0].shank
    return next((screw for screw in takes[0] if screw.length >= needed), takes[0][-1])


def edge_for(shank: Fraction) -> Fraction:
    """Thickness of an edge (mm) that does not split along the screw."""
    return EDGE_PER_SHANK * shank


def pilot_hole(*, shank: Millimetres, part_of_root: Ratio, root: Ratio = ROOT) -> Millimetres:
    """Drill for the thread: d · 2/3 · share of the root."""
    return shank * root * part_of_root


def shank_hole(*, shank: Millimetres, play: Millimetres = PLAY) -> Millimetres:
    """Drill through the piece that is drawn against the other: d + play. Common practice, no source."""
    return shank + play


def next_drill(diameter: float, step: float = DRILL_STEP) -> float:
    """The nearest drill on the shelf (mm)."""
    return round(diameter / step) * step
