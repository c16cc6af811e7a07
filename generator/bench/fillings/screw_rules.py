"""How many screws hold one piece, by what is bought and by the role of the piece; what is in a bay."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from generator.bench.fillings import strip_paths
from generator.bench.fillings.drawer_screws import PER_DRAWER_FRONT
from generator.bench.role import Role
from generator.calculators.fasteners import box_corner_screws, trim_screws
from generator.calculators.shelves import cleat_count

#: The kind of a shape that is screwed on in a bay, at a height and behind the bench's face.
FIXED_IN_BAY = "slide"
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


def _in_trim(length: Fraction, _: Fraction) -> int:
    return trim_screws(length)


#: By the screw, then by what it is counted for; each takes the piece's length and width (mm).
RULES: Mapping[str, Mapping[str, Callable[[Fraction, Fraction], int]]] = {
    "strip screw": {role.value: _in_strip for role in strip_paths()},
    "drawer box screw": {Role.DRAWER_SIDE.value: _in_box},
    "drawer front screw": {Role.DRAWER_FACE.value: _in_face},
    "trim screw": {Role.TRAY_TRIM.value: _in_trim},
}
