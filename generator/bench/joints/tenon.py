"""Mortise and tenon: what is left of a member's end in the middle goes into a mortise of the other, with glue."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar

from generator.bench.joints.facts import MEASURED_STIFFNESS, DrillCard, Joining, TenonSizes
from generator.bench.joints.glued import glued
from generator.bench.law import Case, Law, Verdict, at_least, to_limit
from generator.bench.terms import TermWords
from generator.calculators.wood_joints import CHEEK
from generator.codes import Code
from generator.findings import Change
from generator.spec.joints import Tenon
from generator.spec.members import Members


def _thinner(case: Case) -> tuple[Change, ...]:
    """A tenon thinner by what both cheeks lack."""
    card = case.goods.joints[str(case.path[1])]
    assert isinstance(card, Tenon)
    return case.length(case.path, card.thickness - 2 * case.off, down=True)


TENON_CHEEK = Law(
    Code.TENON_CHEEK, "error", "The timber beside each mortise is thick enough",
    "The mortise leaves too little timber beside it", "Take a thinner tenon.",
    "A thin cheek splits off when the frame is pushed.", _thinner,
    quantity="timber on each side of the mortise",
)  # fmt: skip
TENON_SHOULDER = Law(
    Code.TENON_SHOULDER, "error", "The shoulders of the tenons are clear of the panels' grooves",
    "The panels' grooves cut into the tenons", "Write a larger `shoulder`.",
    "A tenon that a groove has cut is thinner than its mortise and holds badly.", to_limit,
    quantity="shoulder at the edge of a tenon",
)  # fmt: skip


class Tenons:
    """Goes in along the member, and is glued for good."""

    kind = "mortise and tenon"
    many = "mortise and tenon joints"
    joins = "timber"
    usual_masses: ClassVar[dict[str, str]] = {}
    drill_cards: tuple[DrillCard, ...] = ()
    how_to_measure = (
        ("thickness", "Across the chisel or the cutter that makes the mortise."),
        ("open_time", "On the label of the glue, at the temperature of your shop."),
        MEASURED_STIFFNESS,
    )
    laws = (TENON_CHEEK, TENON_SHOULDER)
    terms = (
        TermWords(
            "tenon",
            "The thinner end of a timber. It goes into a mortise of the same size and is glued.",
            ("tenons",),
            ("tongue of a rail",),
        ),
        TermWords("mortise", "A pocket in a timber that takes a tenon.", ("mortises",)),
        TermWords("haunch", "The part of a timber's end that has no tenon, beside the end of a post."),
        TermWords("shoulder line", "The line round a timber at which its tenon begins.", ("shoulder lines",)),
    )

    def joining(self, name: str, card: Tenon, bar: Members) -> Joining:
        """No screw and no key: glue holds it."""
        cut = TenonSizes(card.thickness, card.length, card.stub, card.shoulder)
        words = ("tenon", "mortise", "Brush glue onto both cheeks of each tenon and into its mortise.")
        return glued(name, card, self.many, cut, words)

    def holds(self, name: str, card: Tenon, bar: Members) -> Iterator[Verdict]:
        """Timber beside the mortise."""
        cheek = (bar.section - card.thickness) / 2
        yield at_least(TENON_CHEEK, cheek, CHEEK, name, ("hardware", name, "thickness"))

    def suits(self, name: str, card: Tenon, bar: Members) -> Iterator[Verdict]:
        """Shoulders that leave the grooves of the panels their room."""
        yield at_least(TENON_SHOULDER, card.shoulder, bar.groove, name, ("hardware", name, "shoulder"))
