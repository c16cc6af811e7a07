"""Bridle: a tenon as wide as its timber in a mortise that is open at a post's end; elsewhere two prongs, with glue."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.joints.facts import MEASURED_STIFFNESS, DrillCard, Joining, TenonSizes
from generator.bench.joints.glued import glued
from generator.bench.law import Case, Law, Verdict, at_least, to_limit
from generator.bench.terms import TermWords
from generator.calculators.wood_joints import CHEEK
from generator.codes import Code
from generator.findings import Change
from generator.provenance import constant
from generator.spec.joints import Bridle
from generator.spec.members import Members

#: A thinner tenon is weaker than its prongs. Common practice, no source.
LEAST_PART = constant("1/4", "least tenon of a bridle as a part of its timber", unit="")


def _thinner(case: Case) -> tuple[Change, ...]:
    """A tenon thinner by what both prongs lack."""
    card = case.goods.joints[str(case.path[1])]
    assert isinstance(card, Bridle) and card.thickness is not None
    return case.length(case.path, card.thickness - 2 * case.off, down=True)


BRIDLE_CHEEK = Law(
    Code.BRIDLE_CHEEK, "error", "Both cheeks of a bridle are thick enough", "The cheeks of a bridle are too thin",
    "Write a smaller `thickness`, or leave it out.", "A thin cheek splits off when the frame is pushed.", _thinner,
    quantity="timber on each side of the tenon",
)  # fmt: skip
BRIDLE_TENON = Law(
    Code.BRIDLE_TENON, "error", "The tenon of a bridle is thick enough", "The tenon of a bridle is too thin",
    "Write a larger `thickness`, or leave it out.", "The thin tenon breaks before its cheeks.", to_limit,
    quantity="thickness of the tenon",
)  # fmt: skip


class Bridles:
    """Goes in along the member, and is glued for good."""

    kind = "bridle"
    many = "bridles"
    joins = "timber"
    usual_masses: ClassVar[dict[str, str]] = {}
    drill_cards: tuple[DrillCard, ...] = ()
    how_to_measure = (
        ("thickness", "Across the chisel or the cutter that makes the open mortise."),
        ("open_time", "On the label of the glue, at the temperature of your shop."),
        MEASURED_STIFFNESS,
    )
    laws = (BRIDLE_CHEEK, BRIDLE_TENON)
    terms = (
        TermWords(
            "bridle",
            "A mortise and tenon joint whose mortise is open at the end, so that the tenon is as wide as its timber.",
            ("bridles",),
            ("bridle joint", "open tenon"),
        ),
        TermWords(
            "prong",
            "One of the two outer thirds of a timber's end. They hold the other timber between them.",
            ("prongs",),
        ),
    )  # fmt: skip

    def joining(self, name: str, card: Bridle, bar: Members) -> Joining:
        """No screw and no key: glue holds it. A thickness of 0 is a third of what both timbers have in common."""
        nothing = Fraction(0)
        cut = TenonSizes(card.thickness or nothing, bar.section, card.stub, nothing, bridled=True)
        words = ("bridle tenon", "open mortise", "Brush glue onto both faces of each tenon and prong.")
        return glued(name, card, self.many, cut, words)

    def holds(self, name: str, card: Bridle, bar: Members) -> Iterator[Verdict]:
        """Wood on both sides of the tenon, and in it."""
        if card.thickness is None:
            return
        path = ("hardware", name, "thickness")
        yield at_least(BRIDLE_CHEEK, (bar.section - card.thickness) / 2, CHEEK, name, path)
        yield at_least(BRIDLE_TENON, card.thickness, bar.section * LEAST_PART, name, path)

    def suits(self, name: str, card: Bridle, bar: Members) -> Iterator[Verdict]:
        """It has no pieces."""
        return iter(())
