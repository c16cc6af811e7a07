"""Checks of what the bench stands on: the facts of its kind, judged by the kind's own laws."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.model import Bench
from generator.bench.stands import stand_kind
from generator.figures.checks.check_result import CheckResult, check_result, of_verdict
from generator.figures.rows.masses import Stands
from generator.provenance import inexact


def base_checks(bench: Bench, stands: Stands, loaded: float) -> Iterator[CheckResult]:
    """The ratings first, then what the kind judged by itself. `loaded` is the mass of the loaded bench (kg)."""
    spec = bench.spec
    stand = bench.stand
    rating = stands.rating or 0.0
    yield check_result(stand.laws.rating, stands.required <= rating, f"{stands.count} {stand.words.many}", stand.path,
                 value=stands.required, limit=rating, unit="kg")  # fmt: skip
    for each in stand.others:
        count, rating = len(each.points), inexact(each.rating)
        required = each.load(loaded, count).required
        yield check_result(each.law, required <= rating, f"{count} {each.called}", each.path,
                 value=required, limit=rating, unit="kg")  # fmt: skip
    marks = {part.mark for part in stand.parts}
    parts = [part for part in bench.parts if part.mark in marks]
    yield from map(of_verdict, stand_kind(spec).judge(bench.loaded, bench.layout, stand, parts))
