"""The brackets that hold the top to the upper bars: their places, and the nuts that wait for them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from generator.bench.layout import Layout
from generator.bench.piece import Part
from generator.bench.regions import Region
from generator.bench.role import Role
from generator.bench.tops.facts import Grid, PlacedBracket
from generator.bench.tops.features import Feature
from generator.calculators.brackets import LONG_END, along_rail, most_apart, nearest_clear
from generator.geometry import Span
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: What is cut out of the top above the brackets, in the frame's coordinates.
_Above = Sequence[Region]


def top_brackets(
    loaded: LoadedSpec,
    layout: Layout,
    bars: Sequence[Part],
    grid: Grid | None,
    let_in: Sequence[Feature],
) -> tuple[PlacedBracket, ...]:
    """One in the middle of each space between top cross-members, on both rails; or by the rule of a card of one's own.

    With `top.bracket`: one near each corner of the long rails, the others at even distances, one in the middle of an
    end member that is longer than 600 mm. A spare nut waits in each stretch of a slot that closes.
    """
    above = (*_holes(loaded.spec, grid), *_let_in(loaded, let_in))
    return tuple(
        each
        for bar in bars
        if bar.place.level == "top"
        for each in (
            _on_rail(loaded.goods, layout, bar, above)
            if bar.role is Role.LONG_RAIL
            else _on_end(loaded.goods, layout, bar, above)
            if bar.role is Role.TOP_END_MEMBER
            else ()
        )
    )


def _holes(spec: Spec, grid: Grid | None) -> Iterator[Region]:
    if grid is None or spec.top.holes is None:
        return
    over, size = spec.top.overhang, (spec.top.holes.diameter,) * 2
    for at in grid.holes:
        yield Region.about(at, size).moved(-over.left, -over.front)


def _let_in(loaded: LoadedSpec, let_in: Sequence[Feature]) -> Iterator[Region]:
    """What a bracket's screw would come out in: where the wood that is left is no thicker than the screw is deep."""
    over, card = loaded.spec.top.overhang, loaded.goods.bracket
    deep = card.screw.length - card.size[2] if card else Fraction(0)
    for each in let_in:
        if each.rest is None or each.rest <= deep:
            yield each.region.moved(-over.left, -over.front)


def stretches(layout: Layout) -> tuple[Span, ...]:
    """The spaces between the upper bars that cross the long rails, from the left."""
    edges = (0 * layout.section, *layout.lines, layout.length - layout.section)
    return tuple(Span(left + layout.section, right) for left, right in pairwise(edges))


def _on_rail(goods: ChosenGoods, layout: Layout, rail: Part, above: _Above) -> Iterator[PlacedBracket]:
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
    cut = [each.x for each in above if under.overlap(each.y) > 0]
    apart = most_apart(goods.top.thickness)
    used: set[Span] = set()
    for x in along_rail(layout.length, apart, width / 2, (*bars, *ends, *cut)):
        stretch = next((span for span in free if span.low <= x <= span.high), free[0])
        yield PlacedBracket(rail.mark, face, (x, y), stretch not in used)
        used.add(stretch)


def _on_end(goods: ChosenGoods, layout: Layout, member: Part, above: _Above) -> Iterator[PlacedBracket]:
    card = goods.bracket
    if card is None or member.length <= LONG_END:
        return
    left = member.box.x.low < layout.length / 2
    face, x = ("right", member.box.x.high) if left else ("left", member.box.x.low)
    width, leg, _ = card.size
    under = Span(x, x + leg) if left else Span(x - leg, x)
    cut = [each.y for each in above if under.overlap(each.x) > 0]
    y = nearest_clear(layout.depth / 2, width / 2, cut, member.box.y)
    yield PlacedBracket(member.mark, face, (x, y), True)
