"""The bolt with a barrel nut: through one timber, along the other, into a round nut across it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil
from typing import ClassVar

from generator.bench.joints.facts import (
    MEASURED_STIFFNESS,
    CrossNut,
    DrillCard,
    Hole,
    Joining,
    JointGoods,
    Solid,
)
from generator.bench.law import GOODS, Case, Law, Verdict, at_least, at_most, to_limit
from generator.bench.terms import TermWords
from generator.calculators.fasteners import CAP_HEADS, CAP_KEYS, THREADS
from generator.calculators.wood_joints import barrel_window
from generator.codes import Code
from generator.findings import Change, dotted
from generator.provenance import constant
from generator.spec.joints import BarrelBolt
from generator.spec.members import Members
from generator.units.sizes import INCH

#: How far the middle of the nut should be from the end, in thread diameters. EN 1995-1-1, 8.5.1, loaded end.
FULL_END = constant(7, "full end distance in bolt diameters", "EN 1995-1-1, not checked against the text", "")
#: Steps in which long bolts are sold (mm): ISO 4762, preferred lengths above 80, from memory; quarters of an inch.
METRIC_STEP, INCH_STEP = Fraction(10), INCH / 4
#: Across a washer on wood, in thread diameters. EN 1995-1-1, 10.4.3.
WIDE_WASHER = constant(3, "washer on wood in bolt diameters", "EN 1995-1-1, not checked against the text", "")


def _stock_bolt(case: Case) -> tuple[Change, ...]:
    """The shortest bolt that is sold and reaches; none where none is between the two limits."""
    card = case.goods.joints[str(case.path[1])]
    assert isinstance(card, BarrelBolt)
    window = _window(card, case.goods.members)
    thread = card.screw.thread
    metric = thread.startswith("M")
    step = METRIC_STEP if metric else INCH_STEP
    number = ceil(window[0] / step)
    if number * step > window[1]:
        return ()
    return (Change(dotted(case.path), f"{thread}x{number * step}" if metric else f"{thread} x {number}/4"),)


def _window(card: BarrelBolt, bar: Members) -> tuple[Fraction, Fraction]:
    found = barrel_window(
        washer=card.washer[1],
        through=bar.section,
        recess=card.recess.depth,
        from_end=card.barrel.from_end,
        barrel=card.barrel.diameter,
        beyond=card.beyond,
    )
    return found.shortest, found.longest


BARREL_BOLT_SHORT = Law(
    Code.BARREL_BOLT_SHORT, "error", "The bolt reaches through its barrel nut",
    "The bolt does not reach through its barrel nut", "Take a longer bolt.",
    "A few threads in the nut strip when you tighten it.", _stock_bolt,
    quantity="length of the bolt",
)  # fmt: skip
BARREL_BOLT_LONG = Law(
    Code.BARREL_BOLT_LONG, "error", "The bolt does not touch the bottom of its hole",
    "The bolt touches the bottom of its hole", "Take a shorter bolt, or write a larger `beyond`.",
    "It feels tight, and the joint stays open.", _stock_bolt,
    quantity="length of the bolt",
)  # fmt: skip
BARREL_NEAR_END = Law(
    Code.BARREL_NEAR_END, "warning", "The barrel nut is far enough from the end of its timber",
    "The barrel nut is near the end of its timber", "Write a larger `from_end`, and take a longer bolt.",
    "The wood between nut and end shears out before the bolt is loaded fully.", GOODS,
    quantity="from the end to the middle of the nut",
)  # fmt: skip
WASHER_ON_WOOD = Law(
    Code.WASHER_ON_WOOD, "warning", "The washer is wide enough for wood", "The washer is too small for wood",
    "Take a washer three bolt diameters wide.", "A small washer sinks into the wood, and the joint works loose.",
    GOODS,
    quantity="diameter of the washer",
)  # fmt: skip
WASHER_RECESS = Law(
    Code.WASHER_RECESS, "error", "The washer goes into its recess", "The washer does not go into its recess",
    "Write a larger `diameter`.", "The washer stands on the rim, and the head out of the post.", to_limit,
    quantity="diameter of the recess",
)  # fmt: skip


class BarrelBolts:
    """Goes in when both timbers are there; it opens again."""

    kind = "barrel bolt"
    many = "barrel bolts"
    joins = "timber"
    usual_masses: ClassVar = {"barrel bolt": "0.09", "barrel nut": "0.04", "bolt washer": "0.02"}
    drill_cards = (
        DrillCard(
            "washer recess", "recess", "Recesses for washers and heads",
            "drill press with fence and depth stop, flat-bottomed bit", "Bit, diameter",
            (
                "Drill the recess before the hole of the bolt: its point marks the hole.",
                "Drill from the outer face that the part sheet names.",
            ),
            "Washer and head are below the face.",
            depth="Depth", fence="Fence: from the lower or front edge",
        ),
        DrillCard(
            "bolt hole", "bolt-hole", "Bolt holes through timber",
            "drill press with fence and stop, long bit, scrap below", "Drill",
            (
                "Set the point of the drill in the middle of the recess.",
                "Drill half way, clear the chips, then drill on into the scrap.",
            ),
            "The bolt goes through by hand. On the far face it is at its mark.",
            fence="Fence: from the lower or front edge",
        ),
        DrillCard(
            "barrel hole", "barrel-hole", "Holes for barrel nuts",
            "drill press with fence and depth stop, flat-bottomed bit", "Bit, diameter",
            (
                "Measure each place from the shoulder, never from the end of a tenon.",
                "Drill to the depth stop. Turn the nut so that its thread looks along the timber.",
            ),
            "The bolt finds the nut at the first try.",
            depth="Depth", fence="Fence: from the front edge",
        ),
    )  # fmt: skip
    how_to_measure = (
        ("screw", "Thread and length under the head, such as `M10x160`."),
        ("washer", "Outside diameter and thickness."),
        ("barrel", "Diameter and length of the nut. You choose `from_end`."),
        MEASURED_STIFFNESS,
    )
    laws = (BARREL_BOLT_SHORT, BARREL_BOLT_LONG, BARREL_NEAR_END, WASHER_ON_WOOD, WASHER_RECESS)
    terms = (
        TermWords(
            "barrel nut",
            "A round nut in a hole across a timber. A bolt along the timber pulls it.",
            ("barrel nuts",),
            ("cross dowel",),
        ),
        TermWords("barrel bolt", "A bolt with a barrel nut. It can be undone again.", ("barrel bolts",)),
    )

    def joining(self, name: str, card: BarrelBolt, bar: Members) -> Joining:
        """Head and washer in a recess of the far face, the shank through both timbers."""
        thread, deep, thick = THREADS[card.screw.thread], float(card.recess.depth), float(card.washer[1])
        diameter, head = float(thread.diameter), float(CAP_HEADS[card.screw.thread])
        under = -deep + thick
        size = f"{card.screw} cap screw"
        return Joining(
            fastener=name,
            kind=self.kind,
            many=self.many,
            called="bolt",
            looks="screw",
            screw=card.screw,
            engaged=card.barrel.from_end,
            key=CAP_KEYS[card.screw.thread],
            key_from=under,
            holes=(
                Hole("washer recess", card.recess.diameter, card.recess.depth, "washer and head, "),
                Hole("bolt hole", card.hole, None, "bolt into "),
            ),
            solids=(
                Solid((under - float(card.screw.length), under), diameter, diameter, far=True),
                Solid((-deep, under), float(card.washer[0]), float(card.washer[0]), far=True),
                Solid((under, under + diameter), head, head, far=True),
            ),
            stiffness=card.stiffness,
            bought=(
                JointGoods(self.kind, name, "joints that open again", size),
                JointGoods(
                    "barrel nut", f"barrel nut {card.screw.thread}", f"{name}, one a bolt", "",
                    (card.barrel.diameter, card.barrel.length), taken="before",
                ),
                JointGoods(
                    "bolt washer", f"washer {card.screw.thread}", f"{name}, under the head", "", card.washer,
                    taken="with",
                ),
            ),
            end="end bolt hole",
            closing=(
                "Put the barrel nuts in first, their threads in line with the bolts.",
                "Then put in the bolts with their washers and tighten them by hand.",
            ),
            cross=CrossNut(
                card.hole, (card.recess.diameter, card.recess.depth), card.washer[1], card.barrel.diameter,
                card.barrel.length, card.barrel.from_end, card.beyond,
            ),
        )  # fmt: skip

    def holds(self, name: str, card: BarrelBolt, bar: Members) -> Iterator[Verdict]:
        """Thread in the nut, room behind the bolt, wood before the nut."""
        path, (shortest, longest) = ("hardware", name, "screw"), _window(card, bar)
        yield at_least(BARREL_BOLT_SHORT, card.screw.length, shortest, name, path)
        yield at_most(BARREL_BOLT_LONG, card.screw.length, longest, name, path)
        full = THREADS[card.screw.thread].diameter * FULL_END
        yield at_least(
            BARREL_NEAR_END, card.barrel.from_end, full, name, ("hardware", name, "barrel", "from_end")
        )

    def suits(self, name: str, card: BarrelBolt, bar: Members) -> Iterator[Verdict]:
        """A washer that does not sink in, and its recess."""
        wide = THREADS[card.screw.thread].diameter * WIDE_WASHER
        yield at_least(WASHER_ON_WOOD, card.washer[0], wide, name, ("hardware", name, "washer"))
        path = ("hardware", name, "recess", "diameter")
        yield at_least(WASHER_RECESS, card.recess.diameter, card.washer[0], name, path)
