"""Pocket screws: at a slope out of pockets in the side of one timber, through its end into the other."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.joints.facts import MEASURED_STIFFNESS, DrillCard, Joining, JointGoods, Sloped
from generator.bench.law import GOODS, Case, Law, Verdict, at_least, at_most, to_limit
from generator.bench.terms import TermWords
from generator.calculators import wood_joints as rules
from generator.codes import Code
from generator.findings import Change
from generator.provenance import constant, least
from generator.spec.joints import PocketScrew
from generator.spec.members import Members

#: How far the point stays below the far face (mm), and how far a screw is from the edge. Common practice, no source.
POINT_BELOW = constant(3, "wood beyond the point of a pocket screw")
FROM_EDGE = constant(25, "from a pocket screw to the edge of its timber")
#: Thread in the other timber, in diameters. EN 1995-1-1, 8.7.2.
HOLDS = constant(
    6,
    "thread of a pocket screw in the other timber in diameters",
    "EN 1995-1-1, not checked against the text",
    "",
)
#: From screw to screw along the grain, in diameters. EN 1995-1-1, table 8.2.
APART = constant(
    5, "from screw to screw along the grain in diameters", "EN 1995-1-1, not checked against the text", ""
)
#: Heavier wood is hard (kg/m³): it takes a fine thread, and a pilot hole. Common practice, no source.
HARD = constant(600, "density from which a wood is hard", unit="kg/m³")
#: What hard wood asks for besides.
DRILL_ON = "Drill on through each pocket with a thin bit: hard wood splits without a pilot hole."


def _nearer(case: Case) -> tuple[Change, ...]:
    """The screws nearer to each other by what both edges lack; none where that would bring them too near."""
    card = case.goods.joints[str(case.path[1])]
    assert isinstance(card, PocketScrew)
    apart = card.apart - 2 * case.off
    return case.length(case.path, apart, down=True) if apart >= card.screw.shank * APART else ()


POCKET_SETTING = Law(
    Code.POCKET_SETTING, "error", "The pocket jig is set to no more than the timber is thick",
    "The pocket jig is set to more than the timber is thick", "Write a smaller `setting`.",
    "The screw comes out of the end beside the other timber.", to_limit,
    quantity="setting of the pocket jig",
)  # fmt: skip
POCKET_HEAD = Law(
    Code.POCKET_HEAD, "error", "The heads of the pocket screws are below the face",
    "The heads of the pocket screws are above the face", "Write a smaller `before`, or a larger `setting`.",
    "The pocket begins outside of the timber, and the head has no seat.", to_limit,
    quantity="wood before the head",
)  # fmt: skip
POCKET_POINT = Law(
    Code.POCKET_POINT, "error", "The pocket screws end inside the other timber",
    "The pocket screws come out of the other timber", "Take shorter screws.",
    "The point comes out where the next piece goes.", GOODS,
    quantity="how deep the screws go in",
)  # fmt: skip
POCKET_HOLD = Law(
    Code.POCKET_HOLD, "warning", "The pocket screws are deep enough in the other timber",
    "The pocket screws are not deep enough in the other timber", "Take longer screws.",
    "Short threads pull out when the frame is pushed.", GOODS,
    quantity="thread in the other timber",
)  # fmt: skip
POCKET_EDGE = Law(
    Code.POCKET_EDGE, "warning", "The pocket screws are far enough from the edges of their timber",
    "The pocket screws are near the edges of their timber",
    "Write a smaller `apart`, take one screw a joint, or take wider timber.",
    "A screw near an edge splits the end that it holds.", _nearer,
    quantity="from the axis of the screw to the edge of its timber",
)  # fmt: skip
POCKET_APART = Law(
    Code.POCKET_APART, "warning", "The pocket screws of a joint are far enough apart",
    "The pocket screws of a joint are too close to each other", "Write a larger `apart`, or take thinner screws.",
    "Two screws in one line of the grain split the timber.", to_limit,
    quantity="distance of the screws",
)  # fmt: skip


class PocketScrews:
    """Driven when both timbers are there and clamped; they can be driven out again."""

    kind = "pocket screw"
    many = "joints with pocket screws"
    joins = "timber"
    usual_masses: ClassVar = {"pocket-hole screw": "0.006"}
    #: The stepped drill makes pocket and pilot hole in one go: the frame's card of the jig has them.
    drill_cards: tuple[DrillCard, ...] = ()
    how_to_measure = (
        ("screw", "Size and length, as on its box. Coarse thread for soft wood, fine thread for hard wood."),
        ("setting", "The number on the pocket jig."),
        (
            "before",
            "Drill a pocket in an off-cut. Put a screw in and measure how much of it comes out of the end.",
        ),
        ("drill", "Across the thick part of the stepped drill."),
        MEASURED_STIFFNESS,
    )
    laws = (POCKET_SETTING, POCKET_HEAD, POCKET_POINT, POCKET_HOLD, POCKET_EDGE, POCKET_APART)
    terms = (
        TermWords(
            "pocket jig",
            "A guide that holds a stepped drill at 15 degrees, so that a screw goes out through the end of a timber.",
            ("pocket jigs",),
            ("pocket-hole jig",),
        ),
        TermWords(
            "stop collar", "A ring on a drill that ends each hole at the same depth.", ("stop collars",)
        ),
    )

    def joining(self, name: str, card: PocketScrew, bar: Members) -> Joining:
        """Pockets and screws; no screw is a body in the proof, because none goes straight along an axis."""
        hard, nothing = bar.density >= HARD, card.apart * 0
        thread = "fine thread" if hard else "coarse thread"
        return Joining(
            fastener=name,
            kind=self.kind,
            many=self.many,
            called="screw",
            looks="screw",
            screw=None,
            engaged=rules.beyond_pocket(card.screw.length, card.before),
            key=nothing,
            key_from=0.0,
            holes=(),
            solids=(),
            bought=(
                JointGoods(
                    "pocket-hole screw", name, "through pockets, can be driven out",
                    f"{card.screw} with a flat head, {thread}", (), card.count,
                ),
            ),
            stiffness=card.stiffness,
            end="pocket pilot hole",
            sloped=_sloped(card),
            light=True,
            places=tuple(card.apart * (Fraction(each) - Fraction(card.count - 1, 2)) for each in range(card.count)),
            tool=card.bit,
            closing=(
                "Clamp the joint flush: the slope of the screws pushes the timbers apart sideways.",
                *((DRILL_ON,) if hard else ()),
                "Drive the screws through their pockets until the heads touch, no further.",
            ),
        )  # fmt: skip

    def holds(self, name: str, card: PocketScrew, bar: Members) -> Iterator[Verdict]:
        """The point inside the other timber, thread enough in it, wood about the screws."""
        path, shank = ("hardware", name), card.screw.shank
        deep = rules.beyond_pocket(card.screw.length, card.before)
        yield at_most(POCKET_POINT, deep, bar.section - POINT_BELOW, name, (*path, "screw"))
        yield at_least(POCKET_HOLD, card.screw.length - card.before, shank * HOLDS, name, (*path, "screw"))
        reach = card.apart * Fraction(card.count - 1, 2)
        edge = least(bar.section, bar.rail) / 2 - reach
        yield at_least(POCKET_EDGE, edge, FROM_EDGE, name, (*path, "apart"))
        if card.count > 1:
            yield at_least(POCKET_APART, card.apart, shank * APART, name, (*path, "apart"))

    def suits(self, name: str, card: PocketScrew, bar: Members) -> Iterator[Verdict]:
        """The jig on this timber, and the head in its pocket."""
        path = ("hardware", name)
        yield at_most(POCKET_SETTING, card.setting, bar.section, name, (*path, "setting"))
        most = rules.before_head(card.setting, card.drill)
        yield at_most(POCKET_HEAD, card.before, most, name, (*path, "before"))


def _sloped(card: PocketScrew) -> Sloped:
    return Sloped(
        hole=card.screw.shank,
        drill=card.drill,
        setting=card.setting,
        before=card.before,
        begins=rules.pocket_begins(card.before, card.drill),
        reach=rules.pocket_reach(card.setting, card.drill),
        deep=rules.pocket_depth(card.setting, card.drill, card.before),
        beyond=rules.beyond_pocket(card.screw.length, card.before),
        drift=rules.pocket_drift(card.screw.length, card.before),
    )
