"""Combining the patterns at hand anew is worth little, so its program stays small however many patterns there are."""

from __future__ import annotations

from itertools import combinations

import pytest

from generator.calculators.cutting.bars.fewer_patterns import KNOWN_PATTERNS, fewer_patterns
from generator.calculators.cutting.core.budget import budget_for
from generator.calculators.cutting.core.job import BarJob, Cut
from generator.calculators.cutting.core.whole_program import Outcome, WholeAnswer, WholeProgram


def test_a_plan_of_many_patterns_is_not_combined_with_every_pattern_that_was_met(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pairs = KNOWN_PATTERNS + 30
    pieces = 2 * pairs
    lengths = tuple(range(1000 + pieces, 1000, -1))
    job = BarJob(lengths, (1,) * pieces, (3000,), (1,), (None,))

    def pattern(*rows: int) -> tuple[int, ...]:
        return tuple(int(row in rows) for row in range(pieces))

    cuts = tuple(Cut(0, pattern(2 * n, 2 * n + 1), 1) for n in range(pairs))
    met = [(0, pattern(*rows)) for rows in list(combinations(range(90), 2))]
    sizes = []

    def counted(program: WholeProgram, *_: object, **__: object) -> WholeAnswer:
        sizes.append(len(program.costs))
        return WholeAnswer(Outcome.NOT_FOUND)

    monkeypatch.setattr(WholeProgram, "solve", counted)
    assert fewer_patterns(job, cuts, met, budget_for(5)).cuts == cuts
    # a pattern has at most three unknowns: how often, whether, and whether it leaves the off-cut
    assert len(met) > 4000 and sizes and max(sizes) <= 3 * pairs
