"""Fasteners that go in when both of their bars are there: through-screws, clips that roll into a slot."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.calculators.assembly import Placing
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction


@dataclass(frozen=True)
class LateFastener:
    """A fastener that goes in when both of its `bars` are there."""

    body: Body
    bars: tuple[str, str]
    out: Direction
    unproved: str


def with_late_fasteners(order: Sequence[Placing], late: Iterable[LateFastener]) -> tuple[Placing, ...]:
    """Add each fastener at the end of the step in which the second of its bars arrives."""
    holders = _holders(order)
    after: dict[int, list[Placing]] = {}
    for each in late:
        other, index = _both_there(holders, each.bars)
        host = order[index]
        last = max(
            i
            for i in range(index, len(order))
            if all(p.step == host.step and p.into == host.into for p in order[index : i + 1])
        )
        placing = Placing(
            each.body.name,
            host.step,
            (each.body,),
            into=host.into,
            out=(each.out,),
            after=(order[other].name, host.name),
            unproved=each.unproved,
        )
        after.setdefault(last, []).append(placing)
    return tuple(p for i, placing in enumerate(order) for p in (placing, *after.get(i, ())))


def _holders(order: Sequence[Placing]) -> dict[str, list[tuple[str, int]]]:
    """For each body, innermost first: the assemblies that it joins, and the placing with which it does."""
    found: dict[str, list[tuple[str, int]]] = {}
    inside: dict[str, list[str]] = {}
    for index, placing in enumerate(order):
        names = [body.name for body in placing.bodies] + inside.get(placing.brings, [])
        inside.setdefault(placing.into, []).extend(names)
        for name in names:
            found.setdefault(name, []).append((placing.into, index))
    return found


def _both_there(holders: dict[str, list[tuple[str, int]]], bars: tuple[str, str]) -> tuple[int, int]:
    """The placings, earlier first, that bring the two bars into the first assembly that holds both."""
    first, second = (dict(holders[bar]) for bar in bars)
    common = next(name for name, _ in holders[bars[0]] if name in second)
    return (min(first[common], second[common]), max(first[common], second[common]))
