"""Joints in timber: lengths of members, how long and wide a tenon may be, bolts with barrel nuts. All lengths in mm.

The rules are common practice unless a function names another source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, hypot, pi

from generator.provenance import constant, least, rule

PRACTICE = "common practice, no source"
#: A mortise is this much deeper than its tenon is long. Magazine rule of thumb.
DEEPER = constant(2, "how much deeper a mortise is than its tenon")
#: A tenon reaches no further into a post than this part of it. Magazine rule of thumb.
PART_OF_POST = constant("2/3", "part of a post that a tenon goes in", unit="")
#: A tenon is no wider than this many times its thickness. Magazine rule of thumb.
WIDEST = constant(5, "widest tenon in thicknesses", unit="")
#: Beside the end of a post the tenon leaves this part of the member's width. Magazine rule of thumb.
HAUNCH = constant("1/3", "part of the width left beside the end of a post", unit="")
#: Between two tenons, and between a tenon's mortise and a bolt's hole.
APART = constant(2, "space between the ends of two tenons")
WOOD = constant(6, "least wood between a mortise and a bolt's hole")
#: Wood that a stub leaves to the edges of the member it is in, beyond its own length.
BESIDE_STUB = constant(8, "wood beside a stub tenon")
#: From the axis of a bolt to the edge of its timber, in bolt diameters: an edge that is not loaded. EN 1995-1-1, 8.5.1.
EDGE = constant(
    3, "from a bolt to the edge of its timber in diameters", "EN 1995-1-1, not checked against the text", ""
)
#: A shorter tenon holds nothing.
SHORTEST_TENON = constant(20, "shortest tenon that holds a post")
#: Wood on each side of a mortise.
CHEEK = constant(10, "least wood beside a mortise")
#: A bolt ends this far before the bottom of its hole.
BEHIND = constant(2, "space behind the end of a bolt")


@rule(PRACTICE)
def cut_length(shoulders: Fraction, tenons: Sequence[Fraction]) -> Fraction:
    """A member is as long as the space between the timbers that it meets, and its tenons."""
    return shoulders + sum(tenons[1:], tenons[0]) if tenons else shoulders


@rule("magazine rule of thumb")
def in_post(wanted: Fraction, post: Fraction) -> Fraction:
    """A tenon as long as wanted, and at most two thirds of the post."""
    return least(wanted, post * PART_OF_POST)


@rule(PRACTICE)
def beside_bolt(post: Fraction, axis: Fraction, hole: Fraction) -> Fraction:
    """Longest tenon that a bolt in the same post at the same height leaves: wood, and the deeper mortise.

    `axis` is the distance of the bolt from the outer face, `hole` the diameter of its hole.
    """
    return post - axis - hole / 2 - WOOD - DEEPER


@rule(PRACTICE)
def bolts_apart(one: Fraction, other: Fraction) -> Fraction:
    """Least distance of the axes of two holes (diameters) that cross in one timber: wood is left between them."""
    return (one + other) / 2 + WOOD


@rule("geometry")
def screw_in_end(length: Fraction, through: Fraction, recess: Fraction) -> Fraction:
    """How much of a screw is in the end of a member: its length less the timber under its head."""
    return length - (through - recess)


@rule("geometry")
def facing(post: Fraction) -> Fraction:
    """Longest of two tenons in one line, from both sides of a post."""
    return (post - APART) / 2 - 1


@rule(PRACTICE)
def laps_facing(post: Fraction) -> Fraction:
    """Longest of two laps in one line, from both sides of a post, with wood between them."""
    return (post - WOOD) / 2


@rule("geometry")
def at_right_angles(post: Fraction, rail: Fraction, thickness: Fraction) -> Fraction:
    """Longest of two tenons that meet at a right angle at one height, with square ends.

    Each ends before the side of the other, which is in the middle of its rail.
    """
    return post - (rail + thickness) / 2 - APART


#: A pocket slopes 15°. To four places, so that sizes stay exact fractions.
SINE = constant("0.2588", "sine of a pocket's slope, 15°", "geometry", "")
COSINE = constant("0.9659", "cosine of a pocket's slope, 15°", "geometry", "")
COTANGENT = constant("3.7321", "one over the tangent of a pocket's slope, 15°", "geometry", "")
COSECANT = constant("3.8637", "one over the sine of a pocket's slope, 15°", "geometry", "")


@rule("geometry")
def pocket_reach(setting: Fraction, drill: Fraction) -> Fraction:
    """How far a pocket reaches from the end: half the setting over tan 15°, half the drill over sin 15°."""
    return setting / 2 * COTANGENT + drill / 2 * COSECANT


@rule("geometry")
def pocket_begins(before: Fraction, drill: Fraction) -> Fraction:
    """How far from the end the pocket's flat bottom begins: the wood before the head, less half of the drill."""
    return before * COSINE - drill / 2 * SINE


@rule("geometry")
def pocket_depth(setting: Fraction, drill: Fraction, before: Fraction) -> Fraction:
    """How deep a pocket is below its face, at its flat bottom."""
    return setting / 2 - before * SINE + drill / 2 * COSINE


@rule("geometry")
def before_head(setting: Fraction, drill: Fraction) -> Fraction:
    """Most wood before the head with which its whole seat is still below the face."""
    return (setting / 2 - drill / 2 * COSINE) / SINE


@rule("geometry")
def beyond_pocket(length: Fraction, before: Fraction) -> Fraction:
    """How deep a sloping screw is in the other timber, straight in."""
    return (length - before) * COSINE


@rule("geometry")
def pocket_drift(length: Fraction, before: Fraction) -> Fraction:
    """How far a sloping screw drifts sideways in the other timber."""
    return (length - before) * SINE


@rule(PRACTICE)
def beside_slope(setting: Fraction, screw: Fraction) -> Fraction:
    """Longest tenon that a sloping screw of another member leaves: it comes from the side of that one's pockets.

    The screw goes in half the setting from that side, and drifts away from it.
    """
    return setting / 2 - screw / 2 - WOOD - DEEPER


@rule("magazine rule of thumb")
def tenon_width(width: Fraction, shoulder: Fraction, thickness: Fraction, haunch: Fraction) -> Fraction:
    """What shoulders and haunch leave of a member's width, and at most five times the tenon's thickness."""
    return least(width - 2 * shoulder - haunch, thickness * WIDEST)


@rule(PRACTICE)
def third_of(size: Fraction, step: Fraction) -> Fraction:
    """The tenon of a bridle: a third of the timber, to the nearest full step of the rule."""
    return step * round(size / 3 / step)


@rule("magazine rule of thumb")
def haunch_of(width: Fraction) -> Fraction:
    """Beside the end of a post, a third of the width carries no tenon: the wood there would split."""
    return width * HAUNCH


@rule(PRACTICE)
def mortise_depth(length: Fraction) -> Fraction:
    """A little deeper than the tenon, for the glue."""
    return length + DEEPER


@dataclass(frozen=True)
class BarrelWindow:
    """Shortest and longest bolt that reaches through its barrel nut and does not touch the bottom of its hole."""

    shortest: Fraction
    longest: Fraction


@rule(PRACTICE)
def barrel_window(
    *,
    washer: Fraction,
    through: Fraction,
    recess: Fraction,
    from_end: Fraction,
    barrel: Fraction,
    beyond: Fraction,
) -> BarrelWindow:
    """From under the head: washer, what is left of the timber under the recess, the way to the nut and through it.

    `through` is the timber that the bolt crosses, `beyond` how far its hole goes on behind the nut.
    """
    shortest = washer + through - recess + from_end + barrel / 2
    return BarrelWindow(shortest, shortest + beyond - BEHIND)


#: Shear strength along the grain and bearing strength along and across it (N/mm²), of common softwood. EN 338, C24.
SHEAR, ALONG, ACROSS = 2.0, 21.0, 2.5
#: How much more than its strength across the grain wood bears under a washer. From memory.
UNDER_WASHER = 3


@dataclass(frozen=True)
class BoltLimits:
    """What wood bears at a bolt with a barrel nut (N): the plug of wood before the nut, the nut, the washer."""

    plug: float
    nut: float
    washer: float

    @property
    def least(self) -> float:
        """What gives way first (N)."""
        return min(self.plug, self.nut, self.washer)


def bolt_limits(
    *, from_end: float, thickness: float, barrel: float, length: float, washer: float, hole: float
) -> BoltLimits:
    """Two shear faces of the plug, the nut's side along the grain, the washer's ring across it (mm, N)."""
    ring = pi * (washer**2 - hole**2) / 4
    return BoltLimits(
        plug=2 * from_end * thickness * SHEAR,
        nut=barrel * length * ALONG,
        washer=UNDER_WASHER * ACROSS * ring,
    )


#: Minutes for the glue of one joint, for setting one clamp, for squaring.
EACH_JOINT = constant("1.5", "minutes to glue one joint", unit="")
EACH_CLAMP = constant("0.5", "minutes to set one clamp", unit="")
SQUARING = constant(3, "minutes to square a frame in its clamps", unit="")


@rule(PRACTICE)
def glue_minutes(joints: Fraction, clamps: Fraction) -> Fraction:
    """A minute and a half for each joint, half a minute for each clamp, three for squaring."""
    return joints * EACH_JOINT + clamps * EACH_CLAMP + SQUARING


def clamps_for(*, pressure: float, area: float, force: float) -> int:
    """Clamps that press a glue line (N/mm², mm², N a clamp)."""
    return ceil(pressure * area / force)


def lean(*, difference: float, diagonal: float, width: float) -> float:
    """How far a frame leans over its height when its diagonals differ (mm)."""
    return difference * diagonal / (2 * width)


#: Shear of a glued face across the grain for a short time (N/mm²), and from which density a wood is hard (kg/m³).
#: Of hard woods the lower end of 1.5 to 2. From memory.
SOFT_SHEAR, HARD_SHEAR, HARD_WOOD = 1.0, 1.5, 600.0
#: Timber that people load bears a third of what breaks it. Common practice, no source.
LAP_SAFETY = 3.0


def rolling_shear(*, density: float) -> float:
    """What a glued face bears where the fibres of both timbers cross (N/mm²)."""
    return HARD_SHEAR if density >= HARD_WOOD else SOFT_SHEAR


def lap_moment(*, one: float, other: float, shear: float) -> float:
    """Moment (N mm) that a glued lap of two members bears, by the twist of its glue face (N/mm²)."""
    polar = one * other * (one**2 + other**2) / 12
    return float(shear * polar / (hypot(one, other) / 2))


@rule("Wood Handbook, FPL-GTR-190")
def solid_panel_width(opening: Fraction, groove: Fraction, coefficient: Fraction, rise: Fraction) -> Fraction:
    """Width of a panel of solid wood that at its wettest still has 1 mm at the bottom of each groove.

    `rise` is by how many per cent of moisture the wood may get wetter, `coefficient` its movement for one per cent.
    """
    return (opening + 2 * groove - 2) / (1 + coefficient * rise)


@rule("Wood Handbook, FPL-GTR-190")
def engagement_dry(width: Fraction, opening: Fraction, coefficient: Fraction, drop: Fraction) -> Fraction:
    """How far a panel of this width is in each of its grooves when its moisture has dropped."""
    return (width * (1 - coefficient * drop) - opening) / 2


@rule(PRACTICE)
def panel_size(opening: Fraction, groove: Fraction, clear: Fraction = Fraction(2)) -> Fraction:
    """A sheet in grooves: its opening, and both grooves less what stays clear at their bottoms."""
    return opening + 2 * (groove - clear)
