"""Checks of what is let into the top: bars below, neighbours, edges, the wood that is left, and the brackets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

from generator.bench.law import Case, Law, by_the_check, said
from generator.bench.model import Bench
from generator.bench.regions import Pair, Region
from generator.bench.tops.facts import PlacedBracket
from generator.bench.tops.features import Feature, finished_size
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least
from generator.figures.checks.top import USUAL_LENGTH
from generator.findings import Change, dotted
from generator.geometry import Span
from generator.provenance import constant
from generator.units.sizes import INCH

Bars = Sequence[tuple[str, Region]]

#: Common practice, no source (mm).
BESIDE_BAR = constant(3, "clear of a bar below an opening")
BETWEEN = constant(10, "wood between two things in the top")
TO_EDGE = constant(10, "wood between an opening and the top's edge")
#: Half an inch under a track: common practice, no source (mm).
LEAST_REST = constant(12, "wood that is left below a recess or slot")
TOUCHING = constant(0, "clear of a bracket")


def _shallower(case: Case) -> tuple[Change, ...]:
    """As deep as leaves enough wood; none for a top that is itself too thin."""
    return case.length((*case.path, "depth"), case.goods.top.thickness - LEAST_REST, down=True)


CUT_OVER_BAR = Law(
    Code.CUT_OVER_BAR, "error", "No bar is below an opening in the top", "A bar is below an opening in the top",
    "Move the opening, or take the bays so wide that it goes between the bars.",
    "The cutter meets the bar, and what is in the opening does not go in.", by_the_check,
    quantity="distance from the opening to the bar; below 0 they overlap",
)  # fmt: skip
FEATURES_MEET = Law(
    Code.FEATURES_MEET, "error", "Wood is left between the things that are let into the top",
    "Two things that are let into the top are too close", "Move one of the two.",
    "The web between them breaks out.", by_the_check,
    quantity="wood between the two; below 0 they overlap",
)  # fmt: skip
FEATURE_EDGE = Law(
    Code.FEATURE_EDGE, "error", "Wood is left beside what is let into the top",
    "Too little wood is left to the edge of the top", "Move it away from the edge.",
    "The strip at the edge breaks off.", by_the_check,
    quantity="wood to the edge of the top; below 0 it is beyond the edge",
)  # fmt: skip
FEATURE_REST = Law(
    Code.FEATURE_REST, "warning", "Enough wood is left below recesses and slots",
    "Too little wood is left below a recess or slot", "Take a thicker board, or make it less deep.",
    "The thin rest bends under the load and breaks at the corners.", _shallower,
    quantity="wood below it",
)  # fmt: skip
FEATURE_BRACKET = Law(
    Code.FEATURE_BRACKET, "warning", "Brackets keep clear of what is let into the top",
    "A bracket is below something that is let into the top",
    "Move what is let into the top, or name a bracket in `top.bracket`: its places keep clear where they can.",
    "The bracket's screws come out in the opening, or have no wood to hold.",
    "bar, bracket and opening share the place: which of them moves is the maker's choice",
    quantity="distance from the bracket; below 0 they overlap",
)  # fmt: skip


def feature_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each thing against the bars, the edges, its own depth and the brackets; then each pair."""
    bars = tuple(_upper_bars(bench))
    for each in bench.features:
        yield from _over_bars(bench, each, bars)
        edge = _to_edge(each, bench)
        if each.operations:  # a vise is at the edge
            yield at_least(FEATURE_EDGE, edge, TO_EDGE, each.name, (*each.path, "at"),
                       remedy=_moved(bench, each) if edge < TO_EDGE else ())  # fmt: skip
        if each.rest is not None:
            yield at_least(FEATURE_REST, each.rest, LEAST_REST, each.name, each.path)
        yield from _at_brackets(bench, each)
    for one, other in combinations(bench.features, 2):
        if _may_cross(one, other):
            continue
        free = one.region.apart(other.region)
        moves = other if other.operations else one
        yield at_least(FEATURES_MEET, free, BETWEEN, f"{one.name} and {other.name}", (*moves.path, "at"),
                       remedy=_moved(bench, moves) if free < BETWEEN and moves.operations else ())  # fmt: skip


def _may_cross(one: Feature, other: Feature) -> bool:
    """One slot may cross another."""
    return {one.along, other.along} == {"x", "y"}


def _upper_bars(bench: Bench) -> Iterator[tuple[str, Region]]:
    """Bars that the top lies on, in plan from its own left front corner."""
    over = bench.spec.top.overhang
    for part in bench.parts:
        if part.is_bar and part.box.z.high == bench.layout.levels.frame_height:
            yield part.mark, Region(part.box.x, part.box.y).moved(over.left, over.front)


def _over_bars(bench: Bench, each: Feature, bars: Bars) -> Iterator[CheckResult]:
    """The nearest bar to what goes through."""
    if each.through is None:
        return
    through = each.through
    free, mark = min((through.apart(bar), mark) for mark, bar in bars)
    yield at_least(CUT_OVER_BAR, free, BESIDE_BAR, f"{each.name} and {mark}", (*each.path, "at"),
                   remedy=_moved(bench, each) if free < BESIDE_BAR else ())  # fmt: skip


def _to_edge(each: Feature, bench: Bench) -> Fraction:
    """Wood to the nearest edge (mm); a slot runs to two of them."""
    size = finished_size(bench.spec, bench.layout)
    spans = zip((each.region.x, each.region.y), size, strict=True)
    return min(min(span.low, whole - span.high) for span, whole in spans if span.size < whole)


def _at_brackets(bench: Bench, each: Feature) -> Iterator[CheckResult]:
    """The nearest bracket whose screws would come out in it."""
    card, over = bench.goods.bracket, bench.spec.top.overhang
    deep = card.screw.length - card.size[2] if card else Fraction(0)
    if each.rest is not None and each.rest > deep:
        return
    size = (card.size[0], card.size[1]) if card else (USUAL_LENGTH, USUAL_LENGTH)
    under = [(_under(bracket, size).moved(over.left, over.front), bracket.bar) for bracket in bench.brackets]
    free, bar = min((each.region.apart(region), bar) for region, bar in under)
    yield at_least(FEATURE_BRACKET, free, TOUCHING, f"{each.name}, bracket at {bar}",
                   (*each.path, "at"))  # fmt: skip


def _under(bracket: PlacedBracket, size: Pair) -> Region:
    """The leg of a bracket below the top, on the inner side of its bar."""
    along, leg = size
    (x, y), half = bracket.at, along / 2
    spans = {
        "rear": (Span(x - half, x + half), Span(y, y + leg)),
        "front": (Span(x - half, x + half), Span(y - leg, y)),
        "right": (Span(x, x + leg), Span(y - half, y + half)),
        "left": (Span(x - leg, x), Span(y - half, y + half)),
    }
    return Region(*spans[bracket.face])


# ---- where it could be instead


def _moved(bench: Bench, each: Feature) -> tuple[Change, ...]:
    """The nearest place where it keeps clear of bars, edges and neighbours, as a change; none where there is none."""
    spec, bars = bench.spec, [bar for _, bar in _upper_bars(bench)]
    others = [other for other in bench.features if other is not each and not _may_cross(each, other)]
    size = finished_size(spec, bench.layout)
    step = INCH / 64 if spec.units == "in" else Fraction(1)

    def clear(at: Pair) -> bool:
        shift = (at[0] - each.at[0], at[1] - each.at[1])
        region = each.region.moved(*shift)
        through = each.through.moved(*shift) if each.through else None
        return (
            all(region.apart(other.region) >= BETWEEN for other in others)
            and (through is None or all(through.apart(bar) >= BESIDE_BAR for bar in bars))
            and _to_edge(replace(each, region=region), bench) >= TO_EDGE
        )

    lines = [_lines(each, axis, bars, others, size[axis], step) for axis in (0, 1)]
    places = [(x, y) for x in lines[0] for y in lines[1]]
    places.sort(key=lambda at: abs(at[0] - each.at[0]) + abs(at[1] - each.at[1]))
    place = next((at for at in places if clear(at)), None)
    if place is None:
        return ()
    words = [said(spec, at) for at in place]
    value = f"[{', '.join(words)}]" if not each.along else words[1 if each.along == "x" else 0]
    return (Change(dotted((*each.path, "at")), value),)


def _lines(
    each: Feature,
    axis: int,
    bars: Sequence[Region],
    others: Sequence[Feature],
    whole: Fraction,
    step: Fraction,
) -> list[Fraction]:
    """Where its middle may come along one axis: where it is, and just beside each obstacle, on whole steps."""
    at, half = each.at[axis], each.size[axis] / 2
    if half * 2 >= whole:
        return [at]
    found = {at, -(-(half + TO_EDGE) // step) * step, (whole - half - TO_EDGE) // step * step}
    inner = each.through or each.region
    cut = (inner.x, inner.y)[axis].size / 2
    beside = [((bar.x, bar.y)[axis], cut + BESIDE_BAR) for bar in bars]
    beside += [((other.region.x, other.region.y)[axis], half + BETWEEN) for other in others]
    for span, reach in beside:
        found |= {-(-(span.high + reach) // step) * step, (span.low - reach) // step * step}
    return sorted(found)
