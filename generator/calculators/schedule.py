"""A plan of days: what one person can do while glue sets. All times in minutes.

Common practice, no source: what comes next in the order is done next, unless it waits for glue or for clamps.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant

#: Work of one day, without breaks.
DAY = constant(360, "work of one person in a day", unit="min")
#: From the start of one day to that of the next.
_ROUND = Fraction(24 * 60)


@dataclass(frozen=True)
class Task:
    """Work of so many minutes that begins when all of `after` are done and have waited.

    It is left alone for `wait` minutes when it is done, in so many `clamps`. What is not `whole` may go on next day.
    """

    key: str
    minutes: Fraction
    after: tuple[str, ...] = ()
    wait: Fraction = Fraction(0)
    clamps: int = 0
    whole: bool = True


@dataclass(frozen=True)
class Turn:
    """A task, or a part of one, on its day: from `start`, after `idle` minutes in which nothing can be done."""

    key: str
    day: int
    start: Fraction
    minutes: Fraction
    idle: Fraction


def plan_days(tasks: Sequence[Task], clamps: int, day: Fraction = DAY) -> tuple[Turn, ...]:
    """The tasks in turns of one person with so many clamps, near to the given order.

    Raises ValueError when a task waits for one that is not there, or needs more clamps than there are.
    """
    left, free, turns = list(tasks), dict[str, Fraction](), list[Turn]()
    held: list[tuple[Fraction, int]] = []
    now = last = Fraction(0)
    while left:
        ready = [(_ready(task, free, held, clamps), task) for task in left]
        possible = [(at, task) for at, task in ready if at is not None]
        if not possible:
            raise ValueError(f"{left[0].key} can never begin")
        task = next((task for at, task in possible if at <= now), None)
        if task is None:
            now = _in_a_day(min(at for at, _ in possible), day)
            continue
        rest = day - now % _ROUND
        if task.whole and rest < min(task.minutes, day):
            now = _next_day(now)
            last = now
            continue
        left.remove(task)
        now, last = _turns(task, now, last, day, turns)
        free[task.key] = now + task.wait
        held.append((now + task.wait, task.clamps))
    return tuple(turns)


def _ready(
    task: Task, free: dict[str, Fraction], held: Sequence[tuple[Fraction, int]], clamps: int
) -> Fraction | None:
    """When a task can begin; None while something that it waits for is not done, or clamps are missing for good."""
    if any(key not in free for key in task.after) or task.clamps > clamps:
        return None
    at = max((free[key] for key in task.after), default=Fraction(0))
    for end in sorted({at, *(end for end, _ in held if end > at)}):
        if sum(count for until, count in held if until > end) + task.clamps <= clamps:
            return end
    return None


def _in_a_day(at: Fraction, day: Fraction) -> Fraction:
    """The time, or the next morning where nobody works then."""
    return at if at % _ROUND < day else _next_day(at)


def _next_day(at: Fraction) -> Fraction:
    return (at // _ROUND + 1) * _ROUND


def _turns(
    task: Task, now: Fraction, last: Fraction, day: Fraction, turns: list[Turn]
) -> tuple[Fraction, Fraction]:
    """Work on a task to its end, over as many days as it takes: the time then, twice."""
    minutes = task.minutes
    while True:
        rest = day - now % _ROUND
        if rest <= 0:
            now = last = _next_day(now)
            continue
        part = minutes if task.whole else min(minutes, rest)
        if now // _ROUND > last // _ROUND:
            last = now // _ROUND * _ROUND
        turns.append(Turn(task.key, int(now // _ROUND) + 1, now % _ROUND, part, now - last))
        now = last = now + part
        minutes -= part
        if minutes <= 0:
            return now, last
