"""Checks of what fills the bays by the laws of its kinds."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.fillings import FILLINGS
from generator.bench.model import Bench
from generator.figures.checks.judged import Judged, of_verdict


def filling_checks(bench: Bench) -> Iterator[Judged]:
    """What each kind judges by itself."""
    for kind in FILLINGS:
        yield from map(of_verdict, kind.judge(bench))
