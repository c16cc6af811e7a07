"""Checks of what holds the top, and of its grid of holes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from itertools import pairwise

from generator.bench.frames import frame_kind
from generator.bench.law import Law, by_the_check, said, to_limit
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.tops.brackets import stretches
from generator.calculators.brackets import FURTHEST, most_apart
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, check_result
from generator.figures.hardware import bolted_thickness, bracket_window
from generator.findings import Change
from generator.provenance import constant
from generator.spec.cards import typical_cards
from generator.units.parse import parse_length

#: Length along the bar of a bracket that has no card (mm). Common practice, no source.
USUAL_LENGTH = constant(40, "usual length of a bracket along its bar")
#: Common practice, no source (mm).
BETWEEN_HOLES = constant(10, "wood between two dog holes")
BESIDE_HOLES = constant(10, "wood between a dog hole and the top's edge")
#: With fewer on a rail the top rocks and turns about it.
FEWEST = 2

TOP_BRACKETS = Law(
    Code.TOP_BRACKETS, "note", "Brackets hold the top near its corners and in between",
    "The top's brackets are too far from a corner or too far apart",
    "Move the holes and openings above the brackets, to set the brackets closer.",
    "A corner without a bracket lifts and warps. On two brackets the top rocks.", by_the_check,
    quantity="largest distance to the nearest bracket",
)  # fmt: skip
BRACKET_GAP = Law(
    Code.BRACKET_GAP, "warning", "Each bracket has space between the bars", "A bracket has no space between the bars",
    "Write a bracket in `top.bracket`: its places keep clear of the bars.",
    "The bracket does not fit, and the top is loose there.", by_the_check,
    quantity="space between the bars",
)  # fmt: skip
NO_HOLES = Law(
    Code.NO_HOLES, "warning", "The grid has holes", "The grid leaves no hole in the top",
    "Write a smaller `edge`, `pitch` or `keep_clear`, or leave `holes` out for a plain top.",
    "The spec asks for dog holes, but the top would have none.",
    "pitch, edge and the bars below share in it: which of them gives way is the maker's choice",
)  # fmt: skip
HOLES_MEET = Law(
    Code.HOLES_MEET, "error", "Wood is left between the dog holes", "Too little wood is left between the dog holes",
    "Write a larger `pitch`.", "The web between two holes breaks out at the first blow on a dog.", to_limit,
    quantity="distance from hole to hole",
)  # fmt: skip
HOLE_EDGE = Law(
    Code.HOLE_EDGE, "warning", "Wood is left beside the dog holes",
    "Too little wood is left between a dog hole and the edge", "Write a larger `edge`.",
    "The rim breaks out when a dog is wedged.", to_limit,
    quantity="hole centre to the edge of the top",
)  # fmt: skip


def bracket_checks(bench: Bench) -> Iterator[CheckResult]:
    """Brackets near the corners and at even distances, each with space for itself between the bars."""
    spec = bench.spec
    path = ("top", "bracket")
    apart = most_apart(bench.goods.top.thickness)
    advice = f"Name a bracket: one comes near each corner, the others at most {said(spec, apart)} apart."
    cure = named_bracket(bench)
    rails = bench.of(Role.LONG_RAIL, level="top")
    held = [sorted(each.at[0] for each in bench.brackets if each.bar == rail.mark) for rail in rails]
    corner = max(max(places[0], bench.layout.length - places[-1]) for places in held)
    gap = max((right - left for places in held for left, right in pairwise(places)), default=Fraction(0))
    # of the two, the one further beyond its limit is reported
    free, limit = max((corner, FURTHEST), (gap, apart), key=lambda pair: pair[0] - pair[1])
    where = f"{', '.join(rail.mark for rail in rails)}, {'a corner' if limit is FURTHEST else 'between two'}"
    yield check_result(
        TOP_BRACKETS, free <= limit, where, path, value=free, limit=limit, unit="mm",
        severity="warning" if min(map(len, held)) < FEWEST else "", advice=advice if spec.top.bracket is None else "",
        remedy=cure if spec.top.bracket is None else (),
    )  # fmt: skip
    own = bench.goods.bracket
    needed = own.size[0] if own else USUAL_LENGTH
    for span in stretches(bench.layout):
        if any(span.low <= at <= span.high for at in held[0]):
            where = f"{said(spec, span.low)} to {said(spec, span.high)} from the left"
            yield check_result(
                BRACKET_GAP, span.size >= needed, where, path, value=span.size, limit=needed, unit="mm",
                sense="at least", advice=advice, remedy=cure,
            )  # fmt: skip


def named_bracket(bench: Bench) -> tuple[Change, ...]:
    """A bracket for the top: the spec's own, or a typical one, of a thickness that a stock bolt fits."""
    spec, own = bench.spec, next(iter(bench.goods.brackets), None)
    if own:
        return (Change("top.bracket", own),)
    card = "bracket 1 1/2 in" if spec.units == "in" else "bracket 40"
    name = next(name for name in ("corner", "top-bracket", "holds-the-top") if name not in spec.hardware)
    along, leg, thickness = typical_cards()["hardware"][card]["size"]
    fits = None
    if frame_kind(spec).in_nuts:
        fits = bolted_thickness(partial(bracket_window, bench.goods), parse_length(thickness))
    other = fits is not None and fits != parse_length(thickness)
    size = (
        (Change(f"hardware.{name}.size", f"[{along}, {leg}, {said(spec, fits)}]"),) if fits and other else ()
    )
    return (Change(f"hardware.{name}.use", card), *size, Change("top.bracket", name))


def top_checks(bench: Bench) -> Iterator[CheckResult]:
    """Wood is left between the holes, and beside them."""
    spec = bench.spec
    holes = spec.top.holes
    if holes is None or bench.grid is None:
        return
    bored = bool(bench.grid.holes)
    yield check_result(NO_HOLES, bored, "dog holes", ("top", "holes"))
    path = ("top", "holes")
    yield at_least(HOLES_MEET, holes.pitch, holes.diameter + BETWEEN_HOLES, "dog holes", (*path, "pitch"))
    edge = holes.diameter / 2 + BESIDE_HOLES
    yield at_least(HOLE_EDGE, holes.edge, edge, "dog holes", (*path, "edge"))
