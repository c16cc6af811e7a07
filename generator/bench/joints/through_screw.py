"""The through screw: from the crossing bar's far face into the other bar's tapped end. It pulls the two together."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.joints.facts import MEASURED_STIFFNESS, DrillCard, Hole, Joining, JointGoods, Solid
from generator.bench.joints.screws import longer_screw
from generator.bench.law import Case, Law, Verdict, at_least, at_most, to_limit
from generator.bench.terms import TermWords
from generator.calculators.fasteners import CAP_HEADS, CAP_KEYS, ENGAGEMENT, THREADS, through_screw_thread
from generator.codes import Code
from generator.findings import Change
from generator.provenance import constant
from generator.spec.goods import Profile
from generator.spec.joints import ThroughScrew

#: Height of a cap screw's head, in thread diameters (ISO 4762, ASME B18.3).
CAP_HEIGHT = 1.0
#: Common practice, no source (mm).
UNDER_HEAD = constant(3, "metal between a counterbore and the slot on the other side")


def _deeper_bore(case: Case) -> tuple[Change, ...]:
    return case.length((*case.path, "depth"), case.limit)


THROUGH_THREAD = Law(
    Code.THROUGH_THREAD, "error", "The through screw has thread enough in the bore",
    "The through screw has too little thread in the bore", "Take a longer screw.",
    "A few threads in aluminium strip when you tighten the joint.", longer_screw,
    quantity="thread in the bore",
)  # fmt: skip
COUNTERBORE = Law(
    Code.COUNTERBORE, "error", "The counterbore reaches the slot's floor",
    "The counterbore ends above the slot's floor",
    "Bore deeper than the slot.",
    "The head would press on the slot's lips and bend them.", _deeper_bore,
    quantity="depth of the counterbore",
)  # fmt: skip
HEAD_COUNTERBORE = Law(
    Code.HEAD_COUNTERBORE, "error", "The screw's head goes into its counterbore",
    "The screw's head does not go into its counterbore",
    "Write a larger `diameter`. Usual: {} more than the head.",
    "The head stops at the rim, and the joint never closes.", to_limit, lengths=(Fraction(1),),
    quantity="diameter of the counterbore",
)  # fmt: skip
HEAD_PROUD = Law(
    Code.HEAD_PROUD, "error", "The screw's head is within its counterbore",
    "The screw's head reaches out of its counterbore", "Write a larger `depth`.",
    "The next part would rest on the head instead of the bar.", to_limit,
    quantity="depth of the counterbore",
)  # fmt: skip
COUNTERBORE_THROUGH = Law(
    Code.COUNTERBORE_THROUGH, "error", "Metal is left under the counterbore",
    "The counterbore comes out in the slot on the other side", "Write a smaller `depth`.",
    "The head would pull through.", to_limit,
    quantity="depth of the counterbore",
)  # fmt: skip
SCREW_HOLE = Law(
    Code.SCREW_HOLE, "error", "The screw passes its hole", "The screw does not pass its hole", "Drill a larger `hole`.",
    "The screw cuts a thread into this bar too, and the joint stays open.", to_limit,
    quantity="diameter of the hole",
)  # fmt: skip
SCREW_HOLE_WIDE = Law(
    Code.SCREW_HOLE_WIDE, "error", "The screw's head bears around its hole",
    "The hole leaves the screw's head too little to bear on", "Drill a smaller `hole`.",
    "The head would pull into the hole.", to_limit,
    quantity="diameter of the hole",
)  # fmt: skip


class ThroughScrews:
    """Goes in when both bars are there; the slot between them stays free."""

    kind = "through screw"
    many = "through screws"
    joins = "profile"
    usual_masses: ClassVar = {"through screw": "0.025"}
    drill_cards = (
        DrillCard(
            "counterbore",
            "counterbore",
            "Counterbores",
            "drill press with fence, stop and depth stop; counterbore with pilot",
            "Counterbore, diameter",
            (
                "Drill the through hole first. Then cut the counterbore to the depth stop.",
                "Put a screw in the test piece. Its head must be below the bar's face.",
            ),
            "The head is below the face. The seat is clean all round.",
            depth="Counterbore, depth",
            first="through hole",
            first_size="Through hole, diameter",
        ),
    )
    how_to_measure = (
        ("counterbore", "A little wider than the head, and at least as deep as the floor of the slot."),
        MEASURED_STIFFNESS,
    )
    laws = (
        THROUGH_THREAD,
        COUNTERBORE,
        HEAD_COUNTERBORE,
        HEAD_PROUD,
        COUNTERBORE_THROUGH,
        SCREW_HOLE,
        SCREW_HOLE_WIDE,
    )
    terms = (
        TermWords(
            "through screw",
            "A screw through one bar into the end of another. It pulls both bars tight.",
            ("through screws",),
            ("through-screw", "through bolt"),
        ),
    )

    def joining(self, name: str, card: ThroughScrew, bar: Profile) -> Joining:
        """The head sits on the floor of a counterbore that enters from the far face."""
        diameter, length = float(THREADS[card.screw.thread].diameter), float(card.screw.length)
        bore, section = card.counterbore, float(bar.section)
        floor, head = section - float(bore.depth), float(CAP_HEADS[card.screw.thread])
        return Joining(
            fastener=name,
            kind=self.kind,
            many=self.many,
            called="screw",
            looks="screw",
            screw=card.screw,
            engaged=card.screw.length - (bar.section - bore.depth),
            key=CAP_KEYS[card.screw.thread],
            key_from=section - float(bore.depth) + CAP_HEIGHT * diameter,
            holes=(
                Hole("through hole", card.hole, None, "screw into "),
                Hole("counterbore", bore.diameter, bore.depth, "head, ", timed="through screw hole"),
            ),
            solids=(
                Solid((floor - length, floor), diameter, diameter),
                Solid((floor, floor + CAP_HEIGHT * diameter), head, head),
            ),
            stiffness=card.stiffness,
            bought=(
                JointGoods(self.kind, name, "joints that pull, counterbored", f"{card.screw} cap screw"),
            ),
            across=True,
        )

    def holds(self, name: str, card: ThroughScrew, bar: Profile) -> Iterator[Verdict]:
        """Thread in the bore, and the head on the slot's floor."""
        needed = ENGAGEMENT * THREADS[card.screw.thread].diameter
        depth, path = card.counterbore.depth, ("hardware", name)
        thread = through_screw_thread(bar.section, depth, card.screw.length)
        yield at_least(THROUGH_THREAD, thread, needed, name, (*path, "screw"))
        yield at_least(COUNTERBORE, depth, bar.slot.depth, name, (*path, "counterbore"))

    def suits(self, name: str, card: ThroughScrew, bar: Profile) -> Iterator[Verdict]:
        """The head in its counterbore, metal under it, and a hole that the screw passes and the head does not."""
        thread, bore, path = THREADS[card.screw.thread], card.counterbore, ("hardware", name)
        head, where = CAP_HEADS[card.screw.thread], f"{name}, {card.screw.thread}"
        yield at_least(HEAD_COUNTERBORE, bore.diameter, head, where, (*path, "counterbore", "diameter"))
        yield at_least(HEAD_PROUD, bore.depth, thread.diameter, where, (*path, "counterbore", "depth"))
        deepest = bar.section - bar.slot.depth - UNDER_HEAD
        yield at_most(COUNTERBORE_THROUGH, bore.depth, deepest, where, (*path, "counterbore", "depth"))
        yield at_least(SCREW_HOLE, card.hole, thread.diameter, where, (*path, "hole"))
        yield at_most(SCREW_HOLE_WIDE, card.hole, (thread.diameter + head) / 2, where, (*path, "hole"))
