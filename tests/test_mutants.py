"""Specs that somebody broke are refused with line and column, or solved; `tests/benchmarks/fuzz.py` tries far more."""

from __future__ import annotations

from random import Random

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.effort import examples
from tests.mutants import mutant, outcome, unplaced


@settings(max_examples=examples(30, 100), derandomize=True, phases=[Phase.generate])
@given(st.integers(0, 10**9))
def test_a_broken_spec_is_refused_in_its_place_or_solved(seed: int) -> None:
    """To see what a seed makes: `python tests/benchmarks/fuzz.py --show SEED`."""
    broken = mutant(Random(seed))
    assert unplaced(broken, outcome(broken)) == []
