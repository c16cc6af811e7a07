"""Every output of random benches is what it was; the shipped ones are held in test_manual, the rest by `tests.net`."""

from __future__ import annotations

import pytest

from tests.net import digest, figures_and_findings, kept, random_specs


@pytest.mark.parametrize("name", sorted(random_specs()))
def test_a_random_bench_gives_what_it_gave(name: str) -> None:
    made = figures_and_findings(random_specs()[name])
    changed = {what for what, said in made.items() if digest(said) != kept()[name].get(what)}
    assert changed == set(), "run `python -m tests.net`, and name in the commit what changed and why"
