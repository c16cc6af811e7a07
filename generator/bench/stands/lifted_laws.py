"""Laws of feet that lift a bench off its casters: they reach the floor and leave it, and a plate holds both."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.frames.facts import Point
from generator.bench.law import GOODS, Case, Law, Verdict, at_least, at_most, said
from generator.bench.layout import Layout
from generator.bench.piece import Part
from generator.bench.stands.caster_goods import goods_verdicts
from generator.bench.stands.casters import OF_PLATES, caster_card
from generator.bench.stands.facts import Stand
from generator.bench.stands.feet_laws import foot_card, foot_verdicts
from generator.bench.stands.plates import plates_apart
from generator.codes import Code
from generator.findings import Change
from generator.provenance import constant
from generator.spec.load import LoadedSpec

#: Between the floor and a foot that is turned up (mm). Common practice, no source.
TURNED_UP = constant(3, "space below a foot while the bench rolls")


def _larger(case: Case) -> tuple[Change, ...]:
    """A plate of the length that both need."""
    wide, deep = (said(case.spec, side) for side in (case.limit, case.spec.base.plate.size[1]))
    return (Change("base.plate.size", f"[{wide}, {deep}]"),)


REACHES = Law(
    Code.LIFT_RANGE, "error", "The feet leave the floor when turned up, and lift the wheels when turned down",
    "The range of the feet does not suit the casters", "Use feet with another range, or a sleeve of another `drop`.",
    "The bench does not roll, or its wheels stay on the floor.", GOODS,
    quantity="height of the foot",
)  # fmt: skip
LONG_PLATE = Law(
    Code.LIFT_PLATE, "error", "The plate is long enough for a foot and a caster",
    "The plate is too short for a foot beside a caster", "Use a longer plate.",
    "The wheel hits the foot when it swivels, or the caster's plate reaches beyond the bench's plate.", _larger,
    quantity="length of the plate",
)  # fmt: skip
LAWS = (REACHES, LONG_PLATE)


def lifted_verdicts(
    loaded: LoadedSpec, layout: Layout, stand: Stand, parts: Sequence[Part], casters: Sequence[Point]
) -> Iterator[Verdict]:
    """The two heights of the feet, the plate's length, then what each kind asks by itself."""
    spec, card = loaded.spec, caster_card(loaded.spec)
    name, (low, high) = str(spec.base.feet), foot_card(spec).reach
    path = ("hardware", name, "range")
    yield at_most(REACHES, low, card.height - TURNED_UP, f"{name}, turned up", path)
    yield at_least(
        REACHES, high, layout.levels.floor_to_frame - spec.base.plate.thickness, f"{name}, down", path
    )
    needed = max(_needed(part, x, card.plate[0]) for part, (x, _) in zip(parts, casters, strict=True))
    size = spec.base.plate.size[0]
    yield at_least(LONG_PLATE, size, needed, "caster plates", ("base", "plate", "size"))
    yield from foot_verdicts(loaded, layout, stand)
    if size >= needed:
        yield from goods_verdicts(loaded, card, replace(stand, points=tuple(casters)))
        yield from plates_apart(OF_PLATES, spec, layout, casters, parts)


def _needed(plate: Part, x: Fraction, size: Fraction) -> Fraction:
    """Length of a bench's plate that reaches as far as its caster's; in the middle of a side to both sides (mm)."""
    if plate.place.end == "middle":
        return 2 * abs(x - plate.box.x.middle) + size
    left = x > plate.box.x.middle or plate.box.x.low == 0
    edge = plate.box.x.low if left else plate.box.x.high
    return abs(x - edge) + size / 2
