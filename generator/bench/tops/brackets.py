"""The brackets that hold the top to the upper bars: their places, and the nuts that wait for them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from generator.bench.layout import Layout
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.bench.tops.facts import Grid, PlacedBracket
from generator.calculators.brackets import LONG_END, along_rail, most_apart, nearest_clear
from generator.geometry import Span
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: Holes of the top above a bracket: (X, Y, half a diameter), in the frame's coordinates.
_Holes = Sequence[tuple[Fraction, Fraction, Fraction]]


def top_brackets(
    loaded: LoadedSpec, layout: Layout, bars: Sequence[Part], grid: Grid | None
) -> tuple[PlacedBracket, ...]:
    """One in the middle of each space between top cross-members, on both rails; or by the rule of a card of one's own.

    With `top.bracket`: one near each corner of the long rails, the others at even distances, one in the middle of an
    end member that is longer than 600 mm. A spare nut waits in each stretch of a slot that closes.
    """
    holes = tuple(_holes(loaded.spec, grid))
    return tuple(
        each
        for bar in bars
        if bar.place.level == "top"
        for each in (
            _on_rail(loaded.goods, layout, bar, holes)
            if bar.role is Role.LONG_RAIL
            else _on_end(loaded.goods, layout, bar, holes)
            if bar.role is Role.TOP_END_MEMBER
            else ()
        )
    )


def _holes(spec: Spec, grid: Grid | None) -> Iterator[tuple[Fraction, Fraction, Fraction]]:
    if grid is None or spec.top.holes is None:
        return
    over, half = spec.top.overhang, spec.top.holes.diameter / 2
    for x in grid.columns.kept:
        for y in grid.rows.kept:
            yield (x - over, y - over, half)


def stretches(layout: Layout) -> tuple[Span, ...]:
    """The spaces between the upper bars that cross the long rails, from the left."""
    edges = (0 * layout.section, *layout.lines, layout.length - layout.section)
    return tuple(Span(left + layout.section, right) for left, right in pairwise(edges))


def _on_rail(goods: ChosenGoods, layout: Layout, rail: Part, holes: _Holes) -> Iterator[PlacedBracket]:
    front = rail.place.side == "front"
    face, y = ("rear", rail.box.y.high) if front else ("front", rail.box.y.low)
    card, free = goods.bracket, stretches(layout)
    if card is None:
        for span in free:
            yield PlacedBracket(rail.mark, face, ((span.low + span.high) / 2, y), True)
        return
    width, leg, _ = card.size
    under = Span(y, y + leg) if front else Span(y - leg, y)
    bars = [Span(left.high, right.low) for left, right in pairwise(free)]
    ends = [Span(Fraction(0), free[0].low), Span(free[-1].high, layout.length)]
    above = [
        Span(x - half, x + half) for x, at, half in holes if under.low < at + half and at - half < under.high
    ]
    apart = most_apart(goods.top.thickness)
    used: set[Span] = set()
    for x in along_rail(layout.length, apart, width / 2, (*bars, *ends, *above)):
        stretch = next((span for span in free if span.low <= x <= span.high), free[0])
        yield PlacedBracket(rail.mark, face, (x, y), stretch not in used)
        used.add(stretch)


def _on_end(goods: ChosenGoods, layout: Layout, member: Part, holes: _Holes) -> Iterator[PlacedBracket]:
    card = goods.bracket
    if card is None or member.length <= LONG_END:
        return
    left = member.box.x.low < layout.length / 2
    face, x = ("right", member.box.x.high) if left else ("left", member.box.x.low)
    width, leg, _ = card.size
    under = Span(x, x + leg) if left else Span(x - leg, x)
    above = [
        Span(y - half, y + half)
        for hole, y, half in holes
        if under.low < hole + half and hole - half < under.high
    ]
    y = nearest_clear(layout.depth / 2, width / 2, above, member.box.y)
    yield PlacedBracket(member.mark, face, (x, y), True)
