"""Structural screws: through one timber into the end of the other, with a recess for each head."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.joints.facts import (
    MEASURED_STIFFNESS,
    DrillCard,
    Hole,
    InEnd,
    Joining,
    JointGoods,
    Solid,
)
from generator.bench.law import GOODS, Law, Verdict, at_least, at_most, to_limit
from generator.bench.terms import TermWords
from generator.calculators.wood_joints import screw_in_end
from generator.codes import Code
from generator.provenance import constant
from generator.spec.joints import StructuralScrew
from generator.spec.members import Members

#: Thread in end grain, in diameters: what a soft wood asks for the full load. Wood Handbook, chapter 8.
IN_END = constant(
    11, "thread of a screw in end grain in diameters", "Wood Handbook, FPL-GTR-190, chapter 8", ""
)
#: From screw to screw along the grain, in diameters. EN 1995-1-1, table 8.2, pre-drilled.
APART = constant(
    5, "from screw to screw along the grain in diameters", "EN 1995-1-1, not checked against the text", ""
)
#: Widest pilot hole as a part of the thread's diameter. Wood Handbook, chapter 8: up to 0.85 in hard wood.
PILOT_PART = constant("0.85", "widest pilot hole as a part of the thread", "from memory", "")

SCREW_IN_END = Law(
    Code.SCREW_IN_END, "warning", "The structural screws are deep enough in the end of their timber",
    "The structural screws are not deep enough in the end of their timber", "Take longer screws, or a deeper recess.",
    "End grain holds a thread badly. Short screws pull out when the bench is moved.", GOODS,
    quantity="thread in the end",
)  # fmt: skip
SCREWS_APART = Law(
    Code.SCREWS_APART, "warning", "The screws of a joint are far enough apart",
    "The screws of a joint are too close to each other", "Write a larger `apart`.",
    "Two screws in one line of the grain split the timber.", to_limit,
    quantity="distance of the screws",
)  # fmt: skip
SCREW_HEAD_RECESS = Law(
    Code.SCREW_HEAD_RECESS, "error", "The head of the structural screw goes into its recess",
    "The head of the structural screw does not go into its recess", "Write a larger `diameter`.",
    "The head stops at the rim, and the joint never closes.", to_limit,
    quantity="diameter of the recess",
)  # fmt: skip
SCREW_HEAD_SUNK = Law(
    Code.SCREW_HEAD_SUNK, "error", "The head of the structural screw is within its recess",
    "The head of the structural screw is higher than its recess is deep", "Write a larger `depth`.",
    "The next piece would rest on the head.", to_limit,
    quantity="depth of the recess",
)  # fmt: skip
SCREW_SHANK_HOLE = Law(
    Code.SCREW_SHANK_HOLE, "error", "The structural screw passes its hole",
    "The structural screw does not pass its hole", "Drill a larger `hole`.",
    "The screw holds in both timbers and keeps them apart.", to_limit,
    quantity="diameter of the hole",
)  # fmt: skip
SCREW_PILOT = Law(
    Code.SCREW_PILOT, "error", "The pilot hole leaves the thread wood to hold in",
    "The pilot hole is as wide as the thread", "Drill a smaller `pilot`: about 0.7 of the thread.",
    "The thread turns without holding.", to_limit,
    quantity="diameter of the pilot hole",
)  # fmt: skip


class StructuralScrews:
    """Driven when both timbers are there; they can be driven out again."""

    kind = "structural screw"
    many = "joints with structural screws"
    joins = "timber"
    usual_masses: ClassVar = {"structural screw": "0.05"}
    drill_cards = (
        DrillCard(
            "screw recess", "structural-recess", "Recesses for heads of structural screws",
            "drill press with fence and depth stop, flat-bottomed bit", "Bit, diameter",
            (
                "Drill the recess before the hole of the screw: its point marks the hole.",
                "Drill from the outer face that the part sheet names.",
            ),
            "The head of a screw is below the face.",
            depth="Depth", fence="Fence: from the lower or front edge",
        ),
        DrillCard(
            "screw hole", "structural-hole", "Holes for structural screws",
            "drill press with fence and stop, scrap below", "Drill",
            (
                "Set the point of the drill in the middle of the recess.",
                "Drill half way, clear the chips, then drill on into the scrap.",
            ),
            "A screw goes through by hand.",
            fence="Fence: from the lower or front edge",
        ),
    )  # fmt: skip
    how_to_measure = (
        ("diameter", "Across the thread."),
        ("head", "Across the head, and its height."),
        ("pilot", "Try it in the end of an off-cut: the screw goes in hard and splits nothing."),
        MEASURED_STIFFNESS,
    )
    laws = (SCREW_IN_END, SCREWS_APART, SCREW_HEAD_RECESS, SCREW_HEAD_SUNK, SCREW_SHANK_HOLE, SCREW_PILOT)
    terms = (
        TermWords(
            "structural screw",
            "A long, strong wood screw that joins two timbers without a nut.",
            ("structural screws",),
            ("timber screw",),
        ),
    )

    def joining(self, name: str, card: StructuralScrew, bar: Members) -> Joining:
        """Head in a recess of the far face, the core through both timbers: the thread has cut its way."""
        deep, high, core = float(card.recess.depth), float(card.head[1]), float(card.pilot)
        return Joining(
            fastener=name,
            kind=self.kind,
            many=self.many,
            called="screw",
            looks="screw",
            screw=None,
            engaged=screw_in_end(card.length, bar.section, card.recess.depth),
            key=card.length * 0,
            key_from=-deep,
            holes=(
                Hole("screw recess", card.recess.diameter, card.recess.depth, "head, "),
                Hole("screw hole", card.hole, None, "screw into "),
            ),
            solids=(
                Solid((-deep - float(card.length), -deep), core, core, far=True),
                Solid((-deep, -deep + high), float(card.head[0]), float(card.head[0]), far=True),
            ),
            bought=(
                JointGoods(
                    self.kind, name, "joints that can be driven apart", "", (card.diameter, card.length), card.count
                ),
            ),
            stiffness=card.stiffness,
            end="end pilot hole",
            driven=InEnd(card.hole, card.pilot, card.length, card.recess.depth),
            places=tuple(card.apart * (Fraction(each) - Fraction(card.count - 1, 2)) for each in range(card.count)),
            tool=card.bit,
            closing=(
                "Clamp the joint. Drill the pilot holes through the holes of the other timber.",
                "Drive the screws until their heads touch, no further: first the frame is squared.",
            ),
        )  # fmt: skip

    def holds(self, name: str, card: StructuralScrew, bar: Members) -> Iterator[Verdict]:
        """Thread in the end grain, and wood between two screws."""
        path = ("hardware", name)
        thread = screw_in_end(card.length, bar.section, card.recess.depth)
        yield at_least(SCREW_IN_END, thread, card.diameter * IN_END, name, (*path, "length"))
        if card.count > 1:
            yield at_least(SCREWS_APART, card.apart, card.diameter * APART, name, (*path, "apart"))

    def suits(self, name: str, card: StructuralScrew, bar: Members) -> Iterator[Verdict]:
        """The head in its recess, the screw through its hole, wood for its thread."""
        path = ("hardware", name)
        yield at_least(
            SCREW_HEAD_RECESS, card.recess.diameter, card.head[0], name, (*path, "recess", "diameter")
        )
        yield at_least(SCREW_HEAD_SUNK, card.recess.depth, card.head[1], name, (*path, "recess", "depth"))
        yield at_least(SCREW_SHANK_HOLE, card.hole, card.diameter, name, (*path, "hole"))
        yield at_most(SCREW_PILOT, card.pilot, card.diameter * PILOT_PART, name, (*path, "pilot"))
