"""The worked bench, solved once: `specs/demo.yml` gives every number that was worked out for it by hand.

Lengths in mm, masses in kg. Marks are A corner posts, B long rails, C cross and end members, D inner posts,
E end spine posts; P1 to P5 are the lines from left to right. Where a table has one row for several bars, the
others are turned copies: the faces are those of the first.
"""

from __future__ import annotations

import pytest

from generator.bench.model import Bench
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.resources import bundled
from generator.spec.load import LoadedSpec, read_spec_file
from generator.writers.figures_json import figures_data
from tests.demo.rows import Data


@pytest.fixture(scope="session")
def loaded() -> LoadedSpec:
    return read_spec_file(bundled("specs") / "demo.yml")


@pytest.fixture(scope="session")
def bench(loaded: LoadedSpec) -> Bench:
    return solve(loaded)


@pytest.fixture(scope="session")
def figures(bench: Bench) -> Figures:
    return compute(bench)[0]


@pytest.fixture(scope="session")
def data(figures: Figures) -> Data:
    return figures_data(figures)
