"""Slot nuts at their places, as bodies: below for the stand's plates, in the top rails for brackets, for fillings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.frames.slotted import slotted
from generator.bench.model import Bench, Part
from generator.calculators.bodies import Body, block_of
from generator.calculators.fasteners import THREADS
from generator.geometry import AXES, FACES
from generator.spec.load import LoadedSpec

#: A nut along its slot and across it, in thread diameters; it never fills the undercut. Common practice.
NUT_LENGTH, NUT_WIDTH, NUT_PLAY = 2.5, 1.6, 1.0

BRACKET = "top bracket"


@dataclass(frozen=True)
class PlacedNut:
    """A nut in the slot of `bar` that opens to `face`, for `purpose`; `count` with the `spare` one beside it."""

    body: Body
    bar: Part
    face: str
    at: Fraction
    purpose: str
    spare: int = 0

    @property
    def count(self) -> int:
        """The nut itself and its spare."""
        return 1 + self.spare


def slot_nuts(bench: Bench) -> tuple[PlacedNut, ...]:
    """Every nut that the bench needs in its slots. A spare waits in each stretch of slot with a bracket.

    Members without slots have none.
    """
    if bench.goods.profile is None:
        return ()
    return (*_plate_nuts(bench), *_bracket_nuts(bench), *_filling_nuts(bench))


def _plate_nuts(bench: Bench) -> Iterator[PlacedNut]:
    by_mark = {part.mark: part for part in bench.parts}
    numbers: dict[str, int] = {}
    for bolt in bench.stand.bolts:
        bar = by_mark.get(bolt.member)
        if bar is None:
            continue
        numbers[bolt.plate] = numbers.get(bolt.plate, 0) + 1
        place = bolt.at[0 if bar.along == "x" else 1]
        name = f"nut {bolt.plate}.{numbers[bolt.plate]}"
        yield _nut(bench.loaded, name, bar, "bottom", place, by_mark[bolt.plate].name)


def _bracket_nuts(bench: Bench) -> Iterator[PlacedNut]:
    """One at each bracket, in the slot that faces the inside, and the spare ones."""
    by_mark = {part.mark: part for part in bench.parts}
    numbers: dict[str, int] = {}
    for each in bench.brackets:
        bar = by_mark[each.bar]
        numbers[bar.mark] = numbers.get(bar.mark, 0) + 1
        place = each.at[0 if bar.along == "x" else 1]
        nut = _nut(bench.loaded, f"nut {bar.mark}.{numbers[bar.mark]}", bar, each.face, place, BRACKET)
        yield replace(nut, spare=int(each.spare))


def _filling_nuts(bench: Bench) -> Iterator[PlacedNut]:
    """One at each bolt of what fills the bays."""
    by_mark = {part.mark: part for part in bench.parts}
    bolts = [bolt for kind in FILLINGS for bolt in kind.slot_bolts(bench)]
    for number, bolt in enumerate(bolts, 1):
        bar = by_mark[bolt.bar]
        yield _nut(bench.loaded, f"nut {bar.mark} {bolt.use} {number}", bar, bolt.face, bolt.at, bolt.use)


def _nut(loaded: LoadedSpec, name: str, bar: Part, face: str, at: Fraction, purpose: str) -> PlacedNut:
    card, item = slotted(loaded.goods), loaded.goods.slot_nut
    diameter = float(THREADS[item.thread].diameter)
    axis = next(axis for axis, faces in FACES.items() if face in faces)
    across = next(each for each in AXES if each not in (axis, bar.along))
    low, high = float(bar.box.span(axis).low), float(bar.box.span(axis).high)
    lip, height = float(card.slot.lip), float(item.height)
    place = float(at)
    half_width = min(NUT_WIDTH * diameter, float(card.slot.undercut) - NUT_PLAY) / 2
    middle = float(bar.box.span(across).middle)
    spans = {
        axis: (low + lip, low + lip + height)
        if face == FACES[axis][0]
        else (high - lip - height, high - lip),
        bar.along: (place - NUT_LENGTH * diameter / 2, place + NUT_LENGTH * diameter / 2),
        across: (middle - half_width, middle + half_width),
    }
    body = Body(name, name, "nut", (block_of([spans[each] for each in AXES]),))
    return PlacedNut(body, bar, face, at - bar.box.span(bar.along).low, purpose)
