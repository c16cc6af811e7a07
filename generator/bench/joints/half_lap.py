"""Half lap: half of a member's end lies in a notch of the other timber, flush outside or above, with glue."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.joints.facts import MEASURED_STIFFNESS, DrillCard, Joining, TenonSizes
from generator.bench.joints.glued import glued
from generator.bench.law import Law, Verdict
from generator.bench.terms import TermWords
from generator.spec.joints import HalfLap
from generator.spec.members import Members


class HalfLaps:
    """Goes in along the member, and is glued for good."""

    kind = "half lap"
    many = "half laps"
    joins = "timber"
    usual_masses: ClassVar[dict[str, str]] = {}
    drill_cards: tuple[DrillCard, ...] = ()
    how_to_measure = (
        ("open_time", "On the label of the glue, at the temperature of your shop."),
        MEASURED_STIFFNESS,
    )
    laws: tuple[Law, ...] = ()
    terms = (
        TermWords(
            "half lap",
            "A joint of two timbers, each cut to half of its thickness, so that both are flush.",
            ("half laps",),
            ("halving joint",),
        ),
    )

    def joining(self, name: str, card: HalfLap, bar: Members) -> Joining:
        """No screw and no key: glue holds it."""
        cut = TenonSizes(bar.section / 2, bar.section / 2, card.stub, Fraction(0), lapped=True)
        words = ("lap", "notch", "Brush glue onto both faces of each lap.")
        return glued(name, card, self.many, cut, words)

    def holds(self, name: str, card: HalfLap, bar: Members) -> Iterator[Verdict]:
        """Half of a timber is there in any timber."""
        return iter(())

    def suits(self, name: str, card: HalfLap, bar: Members) -> Iterator[Verdict]:
        """It has no pieces."""
        return iter(())
