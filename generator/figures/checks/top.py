"""Checks of what holds the top, and of its grid of holes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from generator.bench.brackets import stretches
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.brackets import FURTHEST, most_apart
from generator.figures.checks.judged import Judged, at_least, judged, said
from generator.findings import Change
from generator.spec.lookup import bracket, sheet
from generator.working import constant

#: Length along the bar of a bracket that has no card (mm). Common practice, no source.
USUAL_LENGTH = constant(40, "usual length of a bracket along its bar")
#: Common practice, no source (mm).
BETWEEN_HOLES = constant(10, "wood between two dog holes")
BESIDE_HOLES = constant(10, "wood between a dog hole and the top's edge")
#: With fewer on a rail the top rocks and turns about it.
FEWEST = 2


def bracket_checks(bench: Bench) -> Iterator[Judged]:
    """Brackets near the corners and at even distances, each with space for itself between the bars."""
    spec = bench.spec
    path = ("top", "bracket")
    apart = most_apart(sheet(spec, spec.top.material).thickness)
    card = "bracket 1 1/2 in" if spec.units == "in" else "bracket 40"
    advice = f"Name a bracket: one comes near each corner, the others at most {said(spec, apart)} apart."
    cure = (Change("hardware.corner.use", card), Change("top.bracket", "corner"))
    rails = bench.of(Role.LONG_RAIL, level="top")
    held = [sorted(each.at[0] for each in bench.brackets if each.bar == rail.mark) for rail in rails]
    corner = max(max(places[0], bench.layout.length - places[-1]) for places in held)
    gap = max((right - left for places in held for left, right in pairwise(places)), default=Fraction(0))
    # what lies further beyond its limit is told
    free, limit = max((corner, FURTHEST), (gap, apart), key=lambda pair: pair[0] - pair[1])
    where = f"{', '.join(rail.mark for rail in rails)}, {'a corner' if limit is FURTHEST else 'between two'}"
    yield judged(
        "top-brackets", free <= limit, where, path, value=free, limit=limit, unit="mm",
        severity="warning" if min(map(len, held)) < FEWEST else "", advice=advice if spec.top.bracket is None else "",
        remedy=cure if spec.top.bracket is None else (),
    )  # fmt: skip
    own = bracket(spec)
    needed = own.size[0] if own else USUAL_LENGTH
    for span in stretches(bench.layout):
        if any(span.low <= at <= span.high for at in held[0]):
            where = f"{said(spec, span.low)} to {said(spec, span.high)} from the left"
            yield judged(
                "bracket-gap", span.size >= needed, where, path, value=span.size, limit=needed, unit="mm",
                sense="at least", advice=advice, remedy=cure,
            )  # fmt: skip


def top_checks(bench: Bench) -> Iterator[Judged]:
    """Wood is left between the holes, and beside them."""
    spec = bench.spec
    holes = spec.top.holes
    if holes is None or bench.grid is None:
        return
    bored = bool(bench.grid.columns.kept and bench.grid.rows.kept)
    yield judged("no-holes", bored, "dog holes", ("top", "holes"))
    path = ("top", "holes")
    yield at_least("holes-meet", holes.pitch, holes.diameter + BETWEEN_HOLES, "dog holes", (*path, "pitch"))
    edge = holes.diameter / 2 + BESIDE_HOLES
    yield at_least("hole-edge", holes.edge, edge, "dog holes", (*path, "edge"))
