"""Leg room: bays without a base rail at their open face, and where one cannot be."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from generator.bench.layout import BayPlace, Layout
from generator.bench.place import Side
from generator.codes import Code
from generator.findings import Finding
from generator.spec.load import LoadedSpec


def knee_bays(layout: Layout) -> tuple[BayPlace, ...]:
    """Every bay that is leg room, in the order of the bays."""
    return tuple(bay for bay in layout.bays if bay.spec.knee)


def face_of(layout: Layout, bay: BayPlace) -> Side:
    """The long side that a bay of the first or last zone is open to."""
    return "back" if layout.zones[bay.zone].opens == "rear" else "front"


def knee_lines(layout: Layout, row: int) -> tuple[Fraction, ...]:
    """Left edges of the inner posts of a row that are beside leg room: they have no rail below them."""
    sides: dict[int, Side] = {len(layout.rows) - 1: "back", 0: "front"}
    own = [bay for bay in knee_bays(layout) if face_of(layout, bay) == sides.get(row)]
    beside = {line for bay in own for line in (bay.left_line, bay.right_line)}
    return tuple(line for line in layout.lines if line in beside)


def over_leg_room(layout: Layout, side: Side, middle: Fraction) -> bool:
    """Whether a point along the length is at leg room on this side, or at one of its posts."""
    return any(
        face_of(layout, bay) == side and bay.left_line <= middle <= bay.right_line + layout.section
        for bay in knee_bays(layout)
    )


def knee_faults(loaded: LoadedSpec, layout: Layout) -> Iterator[Finding]:
    """Leg room where a bar, a board or a wall would cross it."""
    for bay in knee_bays(layout):
        zone, path = layout.zones[bay.zone], ("zones", bay.zone, "bays", bay.index)
        if loaded.spec.frame.through == "rails":
            yield loaded.fault(
                Code.KNEE_PLACE, "a rail that runs through cannot be cut for leg room", "frame", "through",
                found="rails", allowed="posts",
            )  # fmt: skip
        if not zone.opens:
            yield loaded.fault(
                Code.KNEE_PLACE, f"bay {bay.name} opens to no face, so nobody can sit at it", *path, "knee",
                allowed="leg room in the first or the last zone",
            )  # fmt: skip
        if bay.spec.stack or bay.spec.door:
            yield loaded.fault(
                Code.KNEE_PLACE, f"bay {bay.name} is leg room, so nothing can be in it", *path,
                "stack" if bay.spec.stack else "door", allowed="a bay without `stack` and `door`",
            )  # fmt: skip
        inside = [line for line in layout.lines if line + layout.section > bay.x.low and line < bay.x.high]
        if inside:
            owner = next(other for other in layout.zones if inside[0] in other.lines)
            yield loaded.fault(
                Code.KNEE_PLACE,
                f"the leg room of bay {bay.name} is crossed by a base cross-member: zone {owner.name} has a post line "
                f"at {loaded.say(inside[0])}, between the two posts of the bay",
                *path, "knee", allowed=f"no line of zone {owner.name} from {loaded.say(bay.x.low - layout.section)} "
                f"to {loaded.say(bay.x.high)}",
                advice="Give both zones a post on the same line, or move the bays.",
            )  # fmt: skip
    for zone in layout.zones:
        for one, other in pairwise(zone.bays):
            if one.spec.knee and other.spec.knee:
                yield loaded.fault(
                    Code.KNEE_PLACE,
                    f"the post between bays {one.name} and {other.name} would stand in the middle of their leg room",
                    "zones", zone.index, "bays", other.index, "knee", allowed="one bay of leg room, as wide as both",
                )  # fmt: skip
