"""Outputs of random benches are what they were; test_manual holds the shipped ones, `python -m tests.net` all."""

from __future__ import annotations

import pytest

from tests.effort import sample
from tests.net import digest, figures_and_findings, kept, random_specs

#: A few of them here; the script looks at every one.
SAMPLE = sample(sorted(random_specs()), 8)


@pytest.mark.parametrize("name", SAMPLE)
def test_a_random_bench_gives_what_it_gave(name: str) -> None:
    made = figures_and_findings(random_specs()[name])
    changed = {what for what, said in made.items() if digest(said) != kept()[name].get(what)}
    assert changed == set(), "run `python -m tests.net`, and name in the commit what changed and why"
