"""The end clip: a screw in the bar's tapped end holds a clip that rides in the crossing bar's slot."""

from __future__ import annotations

from typing import ClassVar

from generator.bench.joints.facts import Bought, Hole, InSlot, Joining, Solid
from generator.calculators.fasteners import THREADS
from generator.spec.goods import Profile
from generator.spec.item import HardwareItem
from generator.spec.joints import EndClip

#: Head of a button-head screw across, in thread diameters (ISO 7380-1, ASME B18.3; from memory).
BUTTON_HEAD = 1.75
ROLLED_IN = "rolled into the slot through its opening"


class EndClips:
    """Engages along the slot only: the panel in that slot makes room for it."""

    kind = "end clip"
    usual_masses: ClassVar = {"end clip": "0.035"}

    def takes(self, card: HardwareItem) -> bool:
        """Whether the card is an end clip."""
        return isinstance(card, EndClip)

    def joining(self, name: str, card: HardwareItem, bar: Profile) -> Joining:
        """The clip under the lips, its head in the hollow, the key through the bar."""
        assert isinstance(card, EndClip)
        lip, (long, wide, thick) = float(bar.slot.lip), (float(size) for size in card.clip)
        diameter, length = float(THREADS[card.screw.thread].diameter), float(card.screw.length)
        head, under = BUTTON_HEAD * diameter, lip + thick
        screw = f"{card.screw} button-head screw"
        rolls_in = card.entry == "roll-in"
        return Joining(
            fastener=name,
            kind=self.kind,
            called="clip",
            screw=card.screw,
            engaged=card.screw.length - bar.slot.lip - card.clip[2],
            key=card.key,
            key_from=float(bar.slot.lip + card.clip[2] + card.head_height),
            holes=(Hole("access hole", card.access_hole, None, "key to "),),
            solids=(
                Solid((under - length, lip), diameter, diameter),
                Solid((lip, under), long, wide),
                Solid((under, under + float(card.head_height)), head, head),
            ),
            bought=(
                Bought(
                    self.kind,
                    name,
                    f"butt joints, each with one {screw}",
                    "clip",
                    card.clip,
                ),
                Bought(
                    f"{self.kind} screw",
                    screw,
                    f"{name}, into the tapped ends",
                    str(card.screw),
                ),
            ),
            in_slot=InSlot(
                card.clip[0],
                stack=bar.slot.lip + card.clip[2] + card.head_height,
                left=bar.slot.depth - bar.slot.lip - card.clip[2] - card.head_height,
            ),
            slides_along=True,
            fitted=not rolls_in,
            unproved=ROLLED_IN if rolls_in else "",
        )
