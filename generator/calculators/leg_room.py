"""Leg room under a bench: how wide, high and deep it must be for one who sits. Lengths in mm."""

from __future__ import annotations

from fractions import Fraction

from generator.provenance import constant

_FIXED_HEIGHT = "IS 13896 (VDU work stations): one fixed height of the table"
_WORKSTATION = "OSHA computer workstation pages: leg clearance of one who sits"

#: Between the posts, from the floor to what is above the knees, and from the open face back at the knees.
WIDTH = constant(600, "least width of leg room", _FIXED_HEIGHT)
HEIGHT = constant(620, "least height of leg room", _FIXED_HEIGHT)
AT_KNEES = constant(450, "least depth of leg room at the knees", _FIXED_HEIGHT)
#: From the open face back at the feet, the width between the stands, and how high a foot is.
AT_FEET = constant(600, "usual depth of leg room at the feet", _WORKSTATION)
BETWEEN_STANDS = constant(520, "least width of leg room at the floor", _WORKSTATION)
FOOT = constant(100, "height of a foot under a bar", _WORKSTATION)


def depth_at_feet(at_knees: Fraction, below: Fraction, beyond: Fraction) -> Fraction:
    """As deep as at the knees, and `beyond` that where the space `below` the bars behind lets a foot pass (mm)."""
    return beyond if below >= FOOT else at_knees
