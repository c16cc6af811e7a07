"""At the same cost and off-cut, fewer different patterns: fewer times that the saw's stops are set.

Fewest patterns is a hard problem (Vanderbeck 2000). With few patterns in all they are all looked at and the answer
may be proved; else the patterns at hand are combined anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.calculators.cutting.bars.offcut import emptiest
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.job import BarJob, Cut, cost_of, is_plan, trimmed_to_demand
from generator.calculators.cutting.core.patterns import enumerate_patterns
from generator.calculators.cutting.core.whole_program import Outcome, WholeProgram

#: All patterns are looked at up to this many; with more, only those at hand.
ALL_PATTERNS = 250
KNOWN_PATTERNS = 120

#: Nodes of the search; small, for fewer patterns are worth less than the wait.
NODES = 8


@dataclass(frozen=True)
class SettingsResult:
    """`fewest`: no plan of that cost and off-cut has fewer patterns, as far as the solver can find out."""

    cuts: tuple[Cut, ...]
    fewest: bool


def count_patterns(cuts: Sequence[Cut]) -> int:
    """How many different patterns a plan has; the same pieces on another stock count anew."""
    return len({(cut.stock, cut.pattern) for cut in cuts})


def fewer_patterns(
    job: BarJob, cuts: tuple[Cut, ...], columns: Sequence[Column], budget: WorkBudget
) -> SettingsResult:
    """Change a plan for one, no dearer and with no shorter longest off-cut, that has fewer patterns."""
    if count_patterns(cuts) <= 1:
        return SettingsResult(cuts, True)
    every = enumerate_patterns(
        job, [0] * len(job.lengths), [0] * len(job.prices), ALL_PATTERNS, budget, maximal=False
    )
    known = every if every is not None else _known(job, cuts, columns)
    program = _program(job, cuts, known, exact=every is not None)
    times = {(cut.stock, cut.pattern): cut.times for cut in cuts}
    values = [times.get(column, 0) for column in known]
    start = values + [int(value > 0) for value in values] + _marks(job, known, values, emptiest(job, cuts))
    answer = program.solve(budget, start, nodes=NODES, quick=True)
    if not answer.values:
        return SettingsResult(cuts, False)
    found = [
        Cut(stock, pattern, value)
        for (stock, pattern), value in zip(known, answer.values[: len(known)], strict=True)
        if value
    ]
    proved = answer.outcome is Outcome.BEST and every is not None
    better = tuple(trimmed_to_demand(job, found))
    sound = is_plan(job, better) and cost_of(job, better) <= cost_of(job, cuts)
    if (
        sound
        and emptiest(job, better) >= emptiest(job, cuts)
        and count_patterns(better) < count_patterns(cuts)
    ):
        return SettingsResult(better, proved)
    return SettingsResult(cuts, proved and sound and count_patterns(better) == count_patterns(cuts))


def _known(job: BarJob, cuts: Sequence[Cut], columns: Sequence[Column]) -> list[Column]:
    own = list(dict.fromkeys((cut.stock, cut.pattern) for cut in cuts))
    useful = sorted(
        (column for column in dict.fromkeys(columns) if column not in set(own)),
        key=lambda c: (job.capacities[c[0]] - job.used(c[1])) / max(1, job.capacities[c[0]]),
    )
    return own + useful[: max(0, KNOWN_PATTERNS - len(own))]


def _marks(job: BarJob, known: Sequence[Column], values: Sequence[int], rest: int) -> list[int]:
    """One 1, at a pattern in use that leaves the off-cut; 0 elsewhere. For patterns that leave enough."""
    marks, done = [], False
    for (stock, pattern), value in zip(known, values, strict=True):
        if job.capacities[stock] - job.used(pattern) < rest:
            continue
        marks.append(int(value > 0 and not done))
        done |= value > 0
    return marks


def _program(job: BarJob, cuts: Sequence[Cut], known: Sequence[Column], exact: bool) -> WholeProgram:
    """Unknowns: times of each pattern, whether it is used, and which one leaves the off-cut."""
    infinity = float("inf")
    pieces, stocks, size = len(job.lengths), len(job.prices), len(known)
    demands = [float(demand) for demand in job.demands]
    limits = [infinity if limit is None else float(limit) for limit in job.limits]
    cost_row, mark_row = pieces + stocks, pieces + stocks + 1
    rest = emptiest(job, cuts)
    program = WholeProgram(
        demands + [-infinity] * stocks + [-infinity, 1.0] + [-infinity] * 2 * size,
        (demands if exact else [infinity] * pieces)
        + limits
        + [float(cost_of(job, cuts)), infinity]
        + [0.0] * 2 * size,
    )
    most = [
        min(-(-job.demands[row] // count) for row, count in enumerate(pattern) if count)
        if exact
        else max(-(-job.demands[row] // count) for row, count in enumerate(pattern) if count)
        for _, pattern in known
    ]
    use_row, leave_row = mark_row + 1, mark_row + 1 + size
    for place, (stock, pattern) in enumerate(known):
        rows = [row for row, count in enumerate(pattern) if count]
        program.column(
            0.0,
            float(most[place]),
            [*rows, pieces + stock, cost_row, use_row + place, leave_row + place],
            [*(float(pattern[row]) for row in rows), 1.0, float(job.prices[stock]), 1.0, -1.0],
        )
    for place in range(size):
        program.column(1.0, 1.0, [use_row + place], [-float(most[place])])
    for place, (stock, pattern) in enumerate(known):
        if job.capacities[stock] - job.used(pattern) >= rest:
            program.column(0.0, 1.0, [mark_row, leave_row + place], [1.0, 1.0])
    return program
