"""Laws of the casters that are bought: their own plate on the bench's plate, their holes, wheel and threads."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.law import GOODS, MEASURE, Law, Verdict, at_least, at_most
from generator.bench.stands.facts import Stand
from generator.calculators.fasteners import THREADS
from generator.codes import Code
from generator.provenance import constant
from generator.spec.load import LoadedSpec
from generator.spec.stands.casters import Caster

#: Between a wheel and the plate above it (mm). Common practice, no source.
WHEEL_CLEAR = constant(5, "space between a wheel and its plate")

WHEEL_HEIGHT = Law(
    Code.WHEEL_HEIGHT, "error", "The wheel turns below its plate", "The wheel touches its own plate",
    "Measure the caster again: `height` is from the floor to the top of its plate, `wheel` a diameter.",
    "It does not turn.", MEASURE,
    quantity="diameter of the wheel",
)  # fmt: skip
CASTER_HOLES = Law(
    Code.CASTER_HOLES, "error", "The caster's holes are on its plate", "The caster's holes are beyond its own plate",
    "Measure `holes` from centre to centre.", "The screws would miss the plate.", MEASURE,
    quantity="from edge to edge of the holes",
)  # fmt: skip
CASTER_ON_PLATE = Law(
    Code.CASTER_ON_PLATE, "error", "The caster's plate is within the bench's plate",
    "The caster's plate reaches beyond the bench's plate", "Write a larger `size`, or take a smaller caster.",
    "A plate held on one side tears out its screws.", GOODS,
    quantity="size of the caster's plate",
)  # fmt: skip
PLATE_THREAD = Law(
    Code.PLATE_THREAD, "warning", "The caster plate is thick enough for its threads",
    "The caster plate is too thin for the threads of the caster's screws", "Take a thicker plate.",
    "A short thread strips when the wheel hits a threshold.", GOODS,
    quantity="thickness of the plate",
)  # fmt: skip


LAWS = (WHEEL_HEIGHT, CASTER_HOLES, CASTER_ON_PLATE, PLATE_THREAD)


def goods_verdicts(loaded: LoadedSpec, card: Caster, stand: Stand) -> Iterator[Verdict]:
    """The card alone, then the card on the plates."""
    spec, name = loaded.spec, loaded.spec.base.casters
    path, thread = ("hardware", name), THREADS[loaded.goods.slot_nut.thread]
    yield at_most(WHEEL_HEIGHT, card.wheel, card.height - WHEEL_CLEAR, name, (*path, "wheel"))
    for axis, size, hole in zip(("X", "Y"), card.plate, card.holes, strict=True):
        yield at_most(CASTER_HOLES, hole + thread.clearance, size, f"{name}, {axis}", (*path, "holes"))
    for index, size in enumerate(card.plate):
        ends = [
            (point[index], part.box.span("xy"[index]))
            for point, part in zip(stand.points, stand.parts, strict=True)
        ]
        free = min(min(at - span.low, span.high - at) for at, span in ends)
        where = f"{name}, {'XY'[index]}"
        yield at_most(CASTER_ON_PLATE, size, 2 * free, where, ("base", "plate", "size"))
    thickness = spec.base.plate.thickness
    yield at_least(PLATE_THREAD, thickness, thread.diameter, thread.name, ("base", "plate", "thickness"))
