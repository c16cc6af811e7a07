"""The plan of days of a bench that is glued: what one person does while glue sets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.calculators.assembly import BENCH
from generator.calculators.costs import PLACED, TIGHTENED, time_for
from generator.calculators.schedule import Task, plan_days
from generator.figures.rows.assembly import Step
from generator.figures.rows.joinery import DayRow, GlueUpRow
from generator.figures.rows.shop import Shop
from generator.provenance import constant, inexact

#: Until glue bears its full load. Common practice, no source.
CURED = constant(24 * 60, "until glue bears its full load", unit="min")
#: For a step that only measures and sets. Common practice, no source.
LEAST = constant(10, "time to measure, set and clean", unit="min")
#: The task in which nothing is done: glue bears no load yet.
_CURING = "curing"


def days(steps: Sequence[Step], ups: Sequence[GlueUpRow], shop: Shop) -> tuple[DayRow, ...]:
    """Every step on its day, in the order in which the glue of one is left alone while another is built.

    None where nothing is glued.
    """
    if not ups:
        return ()
    by_key = {step.key: step for step in steps}
    first = tuple(step.key for step in _at_the_machines(steps))
    tasks = tuple(_tasks(steps, ups, shop))
    held = {task.key: task for task in tasks}
    return tuple(
        DayRow(
            day=turn.day,
            start=inexact(turn.start),
            steps=tuple(by_key[key].n for key in (first if turn.key in first else (turn.key,))),
            key=turn.key,
            title=by_key[turn.key].title,
            minutes=inexact(turn.minutes),
            wait=inexact(held[turn.key].wait),
            clamps=held[turn.key].clamps,
            idle=inexact(turn.idle),
        )
        for turn in plan_days(tasks, clamps_in_hand(ups))
        if turn.key in by_key
    )


def clamps_in_hand(ups: Sequence[GlueUpRow]) -> int:
    """Clamps that the step with the most of them needs."""
    return max((sum(each.clamps for each in ups if each.step == one.step) for one in ups), default=0)


def _at_the_machines(steps: Sequence[Step]) -> Iterator[Step]:
    """The steps before the first that puts something in its place."""
    for step in steps:
        if step.motions:
            return
        yield step


def _tasks(steps: Sequence[Step], ups: Sequence[GlueUpRow], shop: Shop) -> Iterator[Task]:
    first = list(_at_the_machines(steps))
    cut = first[0].key
    pieces = time_for(count=sum(len(step.parts) for step in first), each=PLACED)
    yield Task(cut, Fraction(shop.minutes + pieces), whole=False)
    latest: dict[str, str] = {}
    glued = list[str]()
    for step in steps[len(first) :]:
        own = [each for each in ups if each.step == step.key]
        homes = dict.fromkeys(motion.into for motion in step.motions) or {BENCH: None}
        brought = [latest[motion.name] for motion in step.motions if motion.name in latest]
        after = dict.fromkeys([cut, *brought, *(latest[home] for home in homes if home in latest)])
        if step is steps[-1] and glued:
            yield Task(_CURING, Fraction(0), tuple(glued), CURED)
            after[_CURING] = None
        yield Task(
            step.key,
            max(_by_hand(step), Fraction(sum(each.minutes for each in own)), LEAST),
            tuple(after),
            Fraction(max((each.wait_minutes for each in own), default=0)),
            sum(each.clamps for each in own),
        )
        glued += [step.key] if own else []
        latest |= dict.fromkeys(homes, step.key)


def _by_hand(step: Step) -> Fraction:
    tightened = sum(fixing.count for fixing in step.fixings)
    return Fraction(time_for(count=len(step.parts), each=PLACED) + time_for(count=tightened, each=TIGHTENED))
