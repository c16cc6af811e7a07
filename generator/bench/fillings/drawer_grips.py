"""Drawers behind a door: boxes without a face and without a pull. A hand takes them by a cut-out in their front."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.layout import BayPlace
from generator.bench.piece import Operation, Part
from generator.calculators.drawers import DrawerSizes
from generator.codes import Code
from generator.findings import Finding
from generator.provenance import constant
from generator.spec.load import LoadedSpec

#: The cut-out, and what it leaves beside and below it (mm). Common practice, no source.
WIDE, DEEP = constant(100, "width of the grip in a box"), constant(20, "depth of the grip in a box")
BESIDE, BELOW = Fraction(20), Fraction(25)


def grip_in(end: Part) -> Operation:
    """In the middle of the upper edge of a box's front."""
    return Operation("cut-out", "front", (end.length / 2, end.width - DEEP / 2), (WIDE, DEEP), None, "grip")


def grip_refusals(
    loaded: LoadedSpec, bay: BayPlace, boxes: Sequence[tuple[int, DrawerSizes]]
) -> Iterator[Finding]:
    """Boxes that are too small for it; each with its place in the stack."""
    for number, (index, size) in enumerate(boxes, 1):
        at = ("zones", bay.zone, "bays", bay.index)
        if 0 < size.box_height < DEEP + BELOW:
            yield loaded.fault(
                Code.NO_SIZE, f"the box of drawer {number} of bay {bay.name} is too low for its grip", *at, "stack",
                index, "drawer", found=loaded.say(size.box_height), allowed=f"{loaded.say(DEEP + BELOW)} or more",
                advice="Make the drawer higher: behind a door, a cut-out in its front is all that opens it.",
            )  # fmt: skip
        if 0 < size.ends_length < WIDE + 2 * BESIDE:
            yield loaded.fault(
                Code.NO_SIZE, f"the box of drawer {number} of bay {bay.name} is too narrow for its grip", *at, "width",
                found=loaded.say(size.ends_length), allowed=f"{loaded.say(WIDE + 2 * BESIDE)} or more",
            )  # fmt: skip
