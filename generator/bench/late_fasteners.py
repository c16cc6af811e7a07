"""What goes in when its bars are there: through screws, clips that roll into a slot, members that bars carry."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction


@dataclass(frozen=True)
class LateFastener:
    """A fastener that goes in when both of its `bars` are there."""

    body: Body
    bars: tuple[str, str]
    out: Direction
    unproved: str


@dataclass(frozen=True)
class CarriedMember:
    """A member that the `bars` it ends on carry; none, and it is placed where the order has it last."""

    motion: Motion
    bars: tuple[str, ...]


def with_carried_members(
    order: Sequence[Motion], carried: Sequence[CarriedMember], usual: str
) -> tuple[Motion, ...]:
    """Add each member at the end of the step in which the last of its bars arrives, into what then holds them all.

    One that carries another comes before it. What no bar carries, or what carry each other in a circle, follows the
    step `usual` or what was before it.
    """
    done, left = list(order), list(carried)
    while left:
        holders = _holders(done)
        each = next((each for each in left if each.bars and all(bar in holders for bar in each.bars)), None)
        if each is None:
            break
        left.remove(each)
        last = _all_there(holders, each.bars)[-1]
        done.insert(_end_of_step(done, last) + 1, replace(each.motion, into=done[last].into))
    after = max((i for i, motion in enumerate(done) if motion.step == usual), default=len(done) - 1)
    return (*done[: after + 1], *(each.motion for each in left), *done[after + 1 :])


def with_late_fasteners(order: Sequence[Motion], late: Iterable[LateFastener]) -> tuple[Motion, ...]:
    """Add each fastener at the end of the step in which the second of its bars arrives."""
    holders = _holders(order)
    after: dict[int, list[Motion]] = {}
    for each in late:
        other, index = _all_there(holders, each.bars)
        host = order[index]
        motion = Motion(
            each.body.name,
            host.step,
            (each.body,),
            into=host.into,
            out=(each.out,),
            after=(order[other].name, host.name),
            unproved=each.unproved,
        )
        after.setdefault(_end_of_step(order, index), []).append(motion)
    return tuple(p for i, motion in enumerate(order) for p in (motion, *after.get(i, ())))


def _holders(order: Sequence[Motion]) -> dict[str, list[tuple[str, int]]]:
    """For each body, innermost first: the assemblies that it joins, and the motion with which it does."""
    found: dict[str, list[tuple[str, int]]] = {}
    inside: dict[str, list[str]] = {}
    for index, motion in enumerate(order):
        names = [body.name for body in motion.bodies] + inside.get(motion.brings, [])
        inside.setdefault(motion.into, []).extend(names)
        for name in names:
            found.setdefault(name, []).append((motion.into, index))
    return found


def _all_there(holders: dict[str, list[tuple[str, int]]], bars: Sequence[str]) -> list[int]:
    """The motions, in their order, that bring the bars into the first assembly that holds all of them."""
    each = [dict(holders[bar]) for bar in bars]
    common = next(name for name, _ in holders[bars[0]] if all(name in found for found in each))
    return sorted(found[common] for found in each)


def _end_of_step(order: Sequence[Motion], index: int) -> int:
    """The last motion of the same step in the same assembly that follows without another between."""
    host = order[index]
    while index + 1 < len(order) and (order[index + 1].step, order[index + 1].into) == (host.step, host.into):
        index += 1
    return index
