"""What moves and what may be off in a drawer: its play between two slides, and what swelling takes of it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.facts import BAY, Clearance, Off, Solved, Swelling
from generator.bench.fillings.on_slides import packing_of, slide_of
from generator.bench.layout import bay_of
from generator.calculators.fit_verdicts import ON_SLIDES
from generator.provenance import constant

#: What a good shop keeps (mm). Common practice, no source.
BOX = constant("0.5", "how far a box's width may be off")
PACKING = constant("0.2", "how far packing strips differ")


def drawer_swelling(bench: Solved) -> Iterator[Swelling]:
    """Box and packing of the widest drawer, against the play that its slides leave."""
    drawers, spec = bench.storage.of(PlacedDrawer), bench.spec
    if drawers:
        widest = max(drawer.sizes.box_width for drawer in drawers)
        yield Swelling(
            "drawer box and both packings",
            "the widest drawer",
            widest,
            ((spec.drawers.box, widest),),
            ((spec.drawers.packing, 2 * packing_of(bench.loaded)),),
            min(each.nominal for each in drawer_clearances(bench)),
            "Cut the boxes at the usual humidity of the shop. In a dry week, leave the difference as more play.",
        )


def drawer_clearances(bench: Solved) -> Iterator[Clearance]:
    """What is left beside two slides as thick as their card says, one for each width of bay."""
    spec = bench.spec
    widths: dict[tuple[Fraction, Fraction], list[str]] = {}
    drawers = {drawer.bay: drawer for drawer in bench.storage.of(PlacedDrawer)}
    for name, drawer in drawers.items():
        taken = drawer.cover.sides if drawer.cover else Fraction(0)
        widths.setdefault((bay_of(bench.layout, name)[1].width, taken), []).append(name)
    for (width, taken), names in widths.items():
        box = drawers[names[0]].sizes.box_width
        packing = Off("packing, thickness", spec.drawers.proud, PACKING)
        yield Clearance(
            "drawer between its slides",
            f"bay {', '.join(names)}",
            width - taken - 2 * spec.drawers.proud - 2 * slide_of(bench.loaded).thickness - box,
            (Off("bay, width", width, BAY), packing, packing, Off("box, width", box, BOX)),
            ON_SLIDES,
            "Measure the bay at the slides in three places, and cut the boxes by the smallest.",
        )
