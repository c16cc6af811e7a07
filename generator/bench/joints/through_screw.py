"""The through-screw: from the crossing bar's far face into the other bar's tapped end. It pulls the two together."""

from __future__ import annotations

from typing import ClassVar

from generator.bench.joints.facts import Bought, Hole, Joining, Solid
from generator.calculators.fasteners import CAP_HEADS, CAP_KEYS, THREADS
from generator.spec.goods import Profile
from generator.spec.item import HardwareItem
from generator.spec.joints import ThroughScrew

#: Height of a cap screw's head, in thread diameters (ISO 4762, ASME B18.3).
CAP_HEIGHT = 1.0


class ThroughScrews:
    """Goes in when both bars are there; the slot between them stays free."""

    kind = "through screw"
    usual_masses: ClassVar = {"through screw": "0.025"}

    def takes(self, card: HardwareItem) -> bool:
        """Whether the card is a through-screw."""
        return isinstance(card, ThroughScrew)

    def joining(self, name: str, card: HardwareItem, bar: Profile) -> Joining:
        """The head sits on the floor of a counterbore that enters from the far face."""
        assert isinstance(card, ThroughScrew)
        diameter, length = float(THREADS[card.screw.thread].diameter), float(card.screw.length)
        bore, section = card.counterbore, float(bar.section)
        floor, head = section - float(bore.depth), float(CAP_HEADS[card.screw.thread])
        return Joining(
            fastener=name,
            kind=self.kind,
            called="screw",
            screw=card.screw,
            engaged=card.screw.length - (bar.section - bore.depth),
            key=CAP_KEYS[card.screw.thread],
            key_from=section - float(bore.depth) + CAP_HEIGHT * diameter,
            holes=(
                Hole("through hole", card.hole, None, "screw into "),
                Hole("counterbore", bore.diameter, bore.depth, "head, "),
            ),
            solids=(
                Solid((floor - length, floor), diameter, diameter),
                Solid((floor, floor + CAP_HEIGHT * diameter), head, head),
            ),
            bought=(Bought(self.kind, name, "joints that pull, counterbored", f"{card.screw} cap screw"),),
        )
