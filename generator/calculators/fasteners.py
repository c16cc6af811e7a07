"""Threads, holes, bolt lengths and screw counts.

Tables: ISO 2306 (tap drills), ISO 273:1979 medium (clearance holes), ISO 965-1 (minor diameters of 6H threads, from
memory), ASME B1.1 sizes with the tap drills and the 2B minor diameters of Machinery's Handbook (from memory).
Clearance holes for UN threads and stock lengths are common practice, from memory.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, formula, inexact

INCH = Fraction(127, 5)


@dataclass(frozen=True)
class Thread:
    """Diameters in mm. `minor` are the least and the largest minor diameter of an inside thread, 6H or 2B."""

    name: str
    diameter: Fraction
    pitch: Fraction
    tap_drill: Fraction
    clearance: Fraction
    minor: tuple[Fraction, Fraction]

    def takes(self, bore: Fraction) -> bool:
        """Whether a bore (mm) can be tapped as it is."""
        return self.minor[0] <= bore <= self.minor[1]


def _thread(
    name: str,
    diameter: Fraction,
    pitch: Fraction,
    drill: Fraction,
    clearance: Fraction,
    minor: tuple[Fraction, Fraction],
    why: str,
) -> Thread:
    return Thread(
        name,
        constant(diameter, f"diameter of thread {name}", why),
        constant(pitch, f"pitch of thread {name}", why),
        constant(drill, f"tap drill for {name}", why),
        constant(clearance, f"clearance hole for {name}", why),
        (
            constant(minor[0], f"least minor diameter of {name}", why),
            constant(minor[1], f"largest minor diameter of {name}", why),
        ),
    )


def _metric(name: str, pitch: str, drill: str, clearance: str, minor: tuple[str, str]) -> Thread:
    why = "ISO 261, ISO 2306, ISO 273 medium, ISO 965-1"
    window = (Fraction(minor[0]), Fraction(minor[1]))
    return _thread(
        name, Fraction(name[1:]), Fraction(pitch), Fraction(drill), Fraction(clearance), window, why
    )


def _unified(
    name: str, diameter: str, threads: int, drill: str, clearance: Fraction, minor: tuple[str, str]
) -> Thread:
    why = "ASME B1.1; clearance hole common practice"
    window = (Fraction(minor[0]) * INCH, Fraction(minor[1]) * INCH)
    return _thread(
        name, Fraction(diameter) * INCH, INCH / threads, Fraction(drill) * INCH, clearance * INCH, window, why
    )


THREADS: dict[str, Thread] = {
    thread.name: thread
    for thread in (
        _metric("M4", "0.7", "3.3", "4.5", ("3.242", "3.422")),
        _metric("M5", "0.8", "4.2", "5.5", ("4.134", "4.334")),
        _metric("M6", "1", "5", "6.6", ("4.917", "5.153")),
        _metric("M8", "1.25", "6.8", "9", ("6.647", "6.912")),
        _metric("M10", "1.5", "8.5", "11", ("8.376", "8.676")),
        _metric("M12", "1.75", "10.2", "13.5", ("10.106", "10.441")),
        _unified("10-24", "0.19", 24, "0.1495", Fraction(7, 32), ("0.145", "0.156")),
        _unified("10-32", "0.19", 32, "0.159", Fraction(7, 32), ("0.156", "0.164")),
        _unified("1/4-20", "0.25", 20, "0.201", Fraction(9, 32), ("0.196", "0.207")),
        _unified("5/16-18", "0.3125", 18, "0.257", Fraction(11, 32), ("0.252", "0.265")),
        _unified("3/8-16", "0.375", 16, "0.3125", Fraction(13, 32), ("0.307", "0.321")),
    )
}


@dataclass(frozen=True)
class Washer:
    """A plain washer: what it is sold as, and its thickness (mm)."""

    name: str
    thickness: Fraction


def _washer(name: str, thickness: str, source: str) -> Washer:
    return Washer(name, constant(thickness, "thickness of a washer", source))


#: The plain washer under the head of a bolt of each thread. ISO 7089 and ASME B18.22.1, narrow; from memory.
WASHERS = {
    thread: _washer(f"{hole} x {thickness}", thickness, "ISO 7089, not checked against the text")
    for thread, hole, thickness in (
        ("M4", "4.3", "0.8"),
        ("M5", "5.3", "1"),
        ("M6", "6.4", "1.6"),
        ("M8", "8.4", "1.6"),
        ("M10", "10.5", "2"),
        ("M12", "13", "2.5"),
    )
} | {
    thread: _washer(name, thickness, "ASME B18.22.1, not checked against the text")
    for thread, name, thickness in (
        ("10-24", "No. 10", "1.2"),
        ("10-32", "No. 10", "1.2"),
        ("1/4-20", "1/4", "1.6"),
        ("5/16-18", "5/16", "1.6"),
        ("3/8-16", "3/8", "1.6"),
    )
}

#: Lengths on the shelf (mm). ISO 888 for metric, eighths and quarters of an inch otherwise; from memory.
METRIC_LENGTHS = tuple(
    constant(n, f"bolt on the shelf, {n} mm long", "ISO 888, not checked against the text")
    for n in (8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80)
)
INCH_LENGTHS = tuple(
    constant(INCH * Fraction(n, 8), f"bolt on the shelf, {n}/8 in long", "common practice, no source")
    for n in (3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24)
)

#: A hexagon key over its corners, in widths across flats.
ACROSS_CORNERS = 1.1547
#: Hexagon key of a cap screw, across flats (mm). ISO 4762 and ASME B18.3, from memory.
CAP_KEYS: dict[str, Fraction] = {
    "M4": Fraction(3),
    "M5": Fraction(4),
    "M6": Fraction(5),
    "M8": Fraction(6),
    "M10": Fraction(8),
    "M12": Fraction(10),
    "10-24": INCH * Fraction(5, 32),
    "10-32": INCH * Fraction(5, 32),
    "1/4-20": INCH * Fraction(3, 16),
    "5/16-18": INCH * Fraction(1, 4),
    "3/8-16": INCH * Fraction(5, 16),
}

#: Head of a socket head cap screw across, without knurls (mm); it is as high as the thread is wide.
#: ISO 4762 table 1 (dk max) and ASME B18.3 table 1 (A max), from memory.
CAP_HEADS: dict[str, Fraction] = {
    thread: constant(Fraction(across), f"head of an {thread} cap screw", "ISO 4762")
    for thread, across in (
        ("M3", "5.5"),
        ("M4", "7"),
        ("M5", "8.5"),
        ("M6", "10"),
        ("M8", "13"),
        ("M10", "16"),
        ("M12", "18"),
        ("M16", "24"),
    )
} | {
    thread: constant(INCH * Fraction(across), f"head of a {thread} cap screw", "ASME B18.3")
    for thread, across in (
        ("10-24", "0.312"),
        ("10-32", "0.312"),
        ("1/4-20", "0.375"),
        ("5/16-18", "0.469"),
        ("3/8-16", "0.562"),
        ("1/2-13", "0.75"),
    )
}

#: Turns of thread that aluminium needs, in diameters. Common practice, no source.
ENGAGEMENT = 2


def stock_lengths(thread: str) -> tuple[Fraction, ...]:
    """Screw lengths that a shop can buy for a thread (mm)."""
    return METRIC_LENGTHS if thread.startswith("M") else INCH_LENGTHS


@dataclass(frozen=True)
class BoltWindow:
    """Shortest and longest bolt (mm) for a nut in a slot, and the stock length between them, if any."""

    shortest: Fraction
    longest: Fraction
    length: Fraction | None


def bolt_window(
    *, grip: Fraction, lip: Fraction, nut: Fraction, slot_depth: Fraction, lengths: tuple[Fraction, ...]
) -> BoltWindow:
    """Bolts through `grip` (plate and washers) into a slot nut: full thread in the nut, 1 mm off the bottom."""
    shortest, longest = grip + lip + nut, grip + slot_depth - 1
    fitting = [length for length in lengths if shortest <= length <= longest]
    return BoltWindow(shortest, longest, fitting[0] if fitting else None)


@dataclass(frozen=True)
class EndClipFit:
    """The stack of lip, clip and head in the slot, and the thread left in the tapped end (mm)."""

    stack: Fraction
    slot_depth: Fraction
    thread: Fraction
    thread_needed: Fraction

    @property
    def ok(self) -> bool:
        """True when the stack is within the slot and the thread is as long as it must be."""
        return self.stack <= self.slot_depth and self.thread >= self.thread_needed


def end_clip_fit(
    *,
    lip: Fraction,
    clip: Fraction,
    head: Fraction,
    slot_depth: Fraction,
    screw: Fraction,
    diameter: Fraction,
) -> EndClipFit:
    """Does the clip with its screw head fit the slot, and does enough thread reach the bore?"""
    thread = screw - lip - clip
    return EndClipFit(lip + clip + head, slot_depth, thread, ENGAGEMENT * diameter)


def through_screw_thread(section: Fraction, counterbore: Fraction, screw: Fraction) -> Fraction:
    """Thread of a through screw in the tapped end (mm): what is left below the counterbore's floor."""
    return screw - (section - counterbore)


def spare(count: int) -> int:
    """Spares: a tenth, at least two."""
    return max(2, math.ceil(Fraction(count, 10))) if count else 0


#: From the end of a trim, and from the edge of a drawer box, to the first screw (mm). Common practice, no source.
TRIM_END = BOX_EDGE = 20


def trim_screws(length: Fraction) -> int:
    """Screws in an edge trim: 20 mm from each end and no more than 150 apart."""
    return math.ceil((length - 2 * TRIM_END) / 150) + 1 if length > 2 * TRIM_END else 2


def box_corner_screws(height: Fraction) -> int:
    """Screws in one corner of a drawer box: 20 mm from each edge and no more than 50 apart, at least two."""
    return max(2, math.ceil((height - 2 * BOX_EDGE) / 50) + 1)


def evenly(length: Fraction, count: int, end: Fraction | int) -> tuple[Fraction, Fraction]:
    """How far the outer ones of `count` screws are from the ends, and how far apart all are (mm).

    Ends that are nearer to each other than four times `end` have them at a quarter. One alone is in the middle.
    """
    if count < 2:
        return length / 2, Fraction(0)
    first = min(Fraction(end), length / 4)
    return first, (length - 2 * first) / (count - 1)


#: From an edge's end to its first pocket, and the most between two (mm). Common practice, no source.
POCKET_END = constant(60, "from an edge's end to its first pocket")
POCKET_APART = constant(220, "most between two pockets")


def pocket_count(length: Fraction) -> int:
    """Pocket screws along an edge of `length` mm: 60 from each end and no more than 220 apart."""
    return math.ceil(max(Fraction(0), length - 2 * POCKET_END) / POCKET_APART) + 1


def pocket_places(length: Fraction) -> tuple[Fraction, ...]:
    """Where `pocket_count` screws sit along the edge (mm): 60 from each end, evenly between; a short edge has one."""
    count = pocket_count(length)
    if count == 1:
        return (length / 2,)
    return tuple(
        POCKET_END + (length - 2 * POCKET_END) * Fraction(index, count - 1) for index in range(count)
    )


#: The drill of a pocket hole (mm), and its slope against the board. Common practice, no source.
POCKET_HOLE = constant("19/2", "drill of a pocket hole")
POCKET_TANGENT = inexact(
    constant(Fraction(math.tan(math.radians(15))), "tangent of a pocket's slope, 15°", unit="")
)
POCKET_SINE = inexact(
    constant(Fraction(math.sin(math.radians(15))), "sine of a pocket's slope, 15°", unit="")
)


@formula("thickness / (2 * tangent) + hole / (2 * sine)", "mm", "geometry")
def pocket_footprint(
    thickness: Fraction,
    hole: Fraction = POCKET_HOLE,
    tangent: float = POCKET_TANGENT,
    sine: float = POCKET_SINE,
) -> float:
    """How far a sloping pocket reaches from the edge (mm): t / (2 tan 15°) + hole / (2 sin 15°)."""
    return inexact(thickness) / (2 * tangent) + inexact(hole) / (2 * sine)
