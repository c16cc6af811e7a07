"""Casters in a scene of blocks: wheel, fork and plate to the sizes of their card, all trailing the same way.

The card does not say how broad a wheel is; it is drawn a third as broad as it is high, as is common.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from math import sqrt

from generator.drawings.isometric import Block
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape

BREADTH = 1 / 3
"""Of a wheel, as part of its diameter."""
LAYERS = (-1.0, -0.85, -0.55, -0.2, 0.2, 0.55, 0.85, 1.0)
"""Heights, as parts of the radius, between which a wheel is drawn as one block."""
PLATE = 4.0
"""Thickness of a caster's own plate as drawn (mm)."""


def on_casters(figures: Figures) -> dict[str, Shape]:
    """The shapes of all pieces by their marks, each caster plate with the caster that is screwed to it."""
    shapes = {shape.mark: shape for shape in figures.assembly.shapes}
    plates = [mark for row in figures.parts if row.group == "caster plate" for mark in row.marks]
    for x, y in figures.casters.positions:
        caster = tuple(_blocks(figures, float(x), float(y)))
        for shape in (shapes[mark] for mark in plates):
            if _covers(shape, float(x), float(y)):
                shapes[shape.mark] = replace(shape, seated=shape.seated + caster, whole=shape.whole + caster)
    return shapes


def _covers(plate: Shape, x: float, y: float) -> bool:
    blocks = plate.whole
    return min(block[0] for block in blocks) < x < max(block[3] for block in blocks) and min(
        block[1] for block in blocks
    ) < y < max(block[4] for block in blocks)


def _blocks(figures: Figures, x: float, y: float) -> Iterator[Block]:
    """One caster, its swivel's axis at x, y of the frame."""
    goods = figures.goods
    floor = -float(figures.layout.floor_to_frame)
    top, radius = floor + float(goods.caster_height), float(goods.caster_wheel) / 2
    length, depth = (float(size) for size in goods.caster_plate)
    yield (x - length / 2, y - depth / 2, top - PLATE, x + length / 2, y + depth / 2, top)
    axle_x, axle_z, half = x + float(goods.caster_trail), floor + radius, radius * BREADTH
    crown = floor + 2 * radius
    if crown < top - PLATE:
        yield (x - radius / 2, y - half, crown, axle_x + radius / 2, y + half, top - PLATE)
    for low, high in pairwise(LAYERS):
        reach = radius * sqrt(1 - ((low + high) / 2) ** 2)
        yield (
            axle_x - reach,
            y - half,
            axle_z + low * radius,
            axle_x + reach,
            y + half,
            axle_z + high * radius,
        )
