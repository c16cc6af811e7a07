"""Solved benches for the tests of this room, each solved once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from generator.bench.model import Bench, Part
from generator.bench.solve import solve
from generator.findings import Finding, SpecError
from generator.spec.load import RecordText, read_spec

SPECS = Path(__file__).parents[2] / "specs"
#: The worked bench; in comments and docstrings its numbers are worked by hand.
DEMO = (SPECS / "demo.yml").read_text(encoding="utf-8")
WALL = (SPECS / "wall-bench.yml").read_text(encoding="utf-8")


def changed(text: str, *changes: tuple[str, str]) -> str:
    """The text with each change made in its one place."""
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


@cache
def solved(text: str = DEMO, record: str = "") -> Bench:
    return solve(read_spec(text, "bench.yml", RecordText(record, "bench.record.yml") if record else None))


def faults(text: str, record: str = "") -> list[Finding]:
    """What refuses a spec; nothing for a bench that can be."""
    try:
        solved(text, record)
    except SpecError as error:
        return list(error.findings)
    return []


def codes(text: str, record: str = "") -> list[str]:
    return [finding.code for finding in faults(text, record)]


def part(bench: Bench, mark: str) -> Part:
    return next(each for each in bench.parts if each.mark == mark)


def span(piece: Part, axis: str) -> tuple[float, float]:
    return float(piece.box.span(axis).low), float(piece.box.span(axis).high)
