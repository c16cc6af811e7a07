"""A top of solid wood, which grows and shrinks across its grain: where it is held fast, and how long its slots must be.

It is held at the middle of its depth where brackets are on the end members, else along the front rail. From there on
the screws of a bracket must have room both ways, because nobody knows how damp the wood is when the top is fixed.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.wood_movement import change_with_moisture, slot_length, species
from generator.figures.screws import bracket_screws
from generator.provenance import constant, inexact

TABLE = "Wood Handbook, table 13-5"


def is_solid(bench: Bench) -> bool:
    """Whether the card of the top names a wood."""
    return bench.goods.top.species is not None


def moves_in_depth(bench: Bench) -> bool:
    """Whether the grain runs along the bench, so that the slots of the brackets run across it."""
    board = bench.of(Role.TOP)[0]
    return (board.along if board.grain == "width" else board.across) == "y"


def fixed_line(bench: Bench) -> Fraction:
    """Where the top is held fast, from the front of the frame (mm)."""
    ends = [part.mark for part in bench.of(Role.TOP_END_MEMBER)]
    if any(each.bar in ends for each in bench.brackets):
        return bench.layout.depth / 2
    return bench.layout.section


def furthest(bench: Bench) -> Fraction:
    """Most wood between a bracket and where its board is held (mm); of dry boards the half of the widest."""
    if bench.spec.top.joint == "dry" and len(bench.spec.top.boards) > 1:
        return max(part.box.y.size for part in bench.of(Role.TOP)) / 2
    line = fixed_line(bench)
    return max((abs(each.at[1] - line) for each in bench.brackets), default=bench.layout.depth - line)


def change_across(bench: Bench, size: Fraction, wetter: float) -> float:
    """Change of a size across the grain of the top (mm), for wood that takes up `wetter` per cent of moisture."""
    wood = species(bench.goods.top.species or "")
    each = constant(
        Fraction(wood.tangential), "movement of the top for each per cent of moisture", TABLE, unit=""
    )
    return change_with_moisture(size=inexact(size), coefficient=inexact(each), moisture_change=wetter)


def slot_needed(bench: Bench, wetter: float) -> Fraction:
    """Length of the slots in the brackets, in whole millimetres."""
    shank = next(each.screw.shank for each in bracket_screws(bench))
    change = change_across(bench, furthest(bench), wetter)
    return Fraction(ceil(slot_length(shank=inexact(shank), change=change)))
