"""Checks of what fills the bays: the laws of its kinds, what their slides carry, and what is so of any kind."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.fillings import FILLINGS, strip_paths
from generator.bench.law import Case, Law, bay_path, to_limit
from generator.bench.model import Bench
from generator.codes import Code
from generator.figures.balance import Masses, Moving
from generator.figures.checks.check_result import CheckResult, at_least, check_result, of_verdict
from generator.findings import Change, dotted
from generator.provenance import inexact
from generator.spec.load import LoadedSpec


def _emptied(case: Case) -> tuple[Change, ...]:
    return (Change(dotted(case.path), "[]"),)


CLOSED_ZONE = Law(
    Code.CLOSED_ZONE, "error", "What fills the bay can be reached", "What fills the bay cannot be reached",
    "A zone between two others has no open face. Use the first or last zone.",
    "You cannot take out what you store there.", _emptied,
)  # fmt: skip
STRIP_NARROW = Law(
    Code.STRIP_NARROW, "error", "Runners and cleats can be cut from their strip",
    "The strip is narrower than the part cut from it", "Take a wider strip, or a narrower bay for the totes.",
    "The part cannot be cut from it.", to_limit,
    quantity="width of the strip",
)  # fmt: skip


def filling_checks(bench: Bench, masses: Masses) -> Iterator[CheckResult]:
    """What each kind judges by itself, after the slides that carry it; then what can be reached and cut."""
    heaviest: dict[str, Moving] = {}
    for each in sorted(masses.sliding, key=lambda each: -each.own.mass):
        heaviest.setdefault(each.fact.on, each)
    for each in heaviest.values():
        yield _rated(bench.loaded, each)
    for kind in FILLINGS:
        yield from map(of_verdict, kind.judge(bench))
    yield from _reached(bench)
    yield from _ripped(bench)


def _rated(loaded: LoadedSpec, heaviest: Moving) -> CheckResult:
    """The slides against the heaviest thing on them with its load."""
    fact = heaviest.fact
    carried, rating = heaviest.own.mass + heaviest.load.mass, inexact(fact.rating)
    room = rating - heaviest.own.mass
    needed, lighter = loaded.weight(carried, up=True), loaded.weight(room)
    path = ("hardware", fact.on, "rating")
    cure, advice = Change(dotted(path), needed), f"Take slides rated {needed} or more."
    if room >= 1:
        cure = Change(dotted(fact.load_key), lighter)
        advice = f"Take slides rated {needed} or more, or write {cure} and load it with no more."
    return check_result(fact.law, carried <= rating, f"{fact.name}, {fact.on}", path,
                  value=carried, limit=rating, unit="kg", advice=advice, remedy=(cure,))  # fmt: skip


def _reached(bench: Bench) -> Iterator[CheckResult]:
    for zone in bench.layout.zones:
        for bay in zone.bays:
            if bay.spec.stack:
                yield check_result(
                    CLOSED_ZONE, bool(zone.opens), f"bay {bay.name}", (*bay_path(bay), "stack")
                )


def _ripped(bench: Bench) -> Iterator[CheckResult]:
    """Strips that lie along their walls are ripped to their width."""
    for role in strip_paths():
        lying = [part for part in bench.of(role) if part.along != "z"]
        if not lying:
            continue
        widest, material = max(lying, key=lambda each: each.width), lying[0].material
        where, path = f"{widest.mark}, {widest.group}", ("materials", material, "width")
        yield at_least(STRIP_NARROW, bench.goods.strips[material].width, widest.width, where, path)
