"""How many screws hold one piece, by what is bought and by the role of the piece; what is in a bay."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from generator.bench.fillings import strip_paths
from generator.bench.fillings.drawer_screws import PER_DRAWER_FRONT
from generator.bench.fillings.on_slides import HUNG_HALF, WALL_HALF
from generator.bench.fillings.pull_out_boards import LIP, lip_screws
from generator.bench.role import Role
from generator.calculators.fasteners import BOX_EDGE, TRIM_END, box_corner_screws, evenly, trim_screws
from generator.calculators.shelves import CLEAT_END, cleat_count

#: The kind of a shape that is screwed on in a bay, at a height and behind the bench's face.
FIXED_IN_BAY = "slide"
#: What its halves are called: the one on what hangs there, the one on the wall.
HALVES = (HUNG_HALF, WALL_HALF)
#: The group of what is screwed to the front of a box.
FACE_OF_A_BOX = Role.DRAWER_FACE.value
#: A drawer's side is joined to its front and to its back.
ENDS_OF_A_SIDE = 2


def _in_strip(length: Fraction, _: Fraction) -> int:
    return cleat_count(length)


def _in_box(_: Fraction, height: Fraction) -> int:
    return ENDS_OF_A_SIDE * box_corner_screws(height)


def _in_face(_: Fraction, __: Fraction) -> int:
    return PER_DRAWER_FRONT


def _in_lip(length: Fraction, _: Fraction) -> int:
    return lip_screws(length)


def _in_trim(length: Fraction, _: Fraction) -> int:
    return trim_screws(length)


#: By the screw, then by what it is counted for; each takes the piece's length and width (mm).
RULES: Mapping[str, Mapping[str, Callable[[Fraction, Fraction], int]]] = {
    "strip screw": {role.value: _in_strip for role in strip_paths()},
    "drawer box screw": {Role.DRAWER_SIDE.value: _in_box},
    "drawer front screw": {Role.DRAWER_FACE.value: _in_face},
    "trim screw": {Role.TRAY_TRIM.value: _in_trim},
    "pull-out screw": {LIP: _in_lip},
}


#: By the screw: from where the places in one piece are measured, how far the outer ones are off (mm), and whether they
#: are along its length; those along its width are at both ends of it.
SPREAD: Mapping[str, tuple[str, int, bool]] = {
    "strip screw": ("each end", CLEAT_END, True),
    "trim screw": ("each end", TRIM_END, True),
    "drawer box screw": ("both edges", BOX_EDGE, False),
}


#: Where screws are of which no rule says how far from an end.
NEAR = {
    "drawer front screw": "one near each corner",
    "pull-out screw": "near both ends of each lip, evenly between",
}


def spread(item: str, group: str, length: Fraction, width: Fraction) -> tuple[str, Fraction, Fraction] | None:
    """From where, how far from there and how far apart the screws of a piece are (mm); None where no rule says it."""
    rule = RULES.get(item, {}).get(group)
    if rule is None or item not in SPREAD:
        return None
    from_where, end, is_along = SPREAD[item]
    count = rule(length, width)
    first, apart = evenly(length, count, end) if is_along else evenly(width, count // ENDS_OF_A_SIDE, end)
    return from_where, first, apart
