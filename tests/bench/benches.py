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


STACK = """spec: 1
title: One stack
bench: {length: 1100, depth: 700, height: 900}
materials: {bar: {use: profile 40}}
totes: {bin: {use: tote 145}}
tray: {end_rail_bottom: 525}
zones: [{depth: share, name: only, bays: [{name: A, width: 450, stack: [%s]}, {name: B, width: share}]}]
"""
#: A thin tray without trim: its end rail begins below the strips' usual ends.
THIN_TRAY = """spec: 1
title: Drawers at the ends and in the middle
bench: {length: 1500, depth: 700, height: 900}
materials: {bar: {use: profile 40}, ply-6: {use: plywood 6}}
tray: {material: ply-6, end_rail_bottom: 525}
zones:
  - {name: only, depth: share, bays: [{name: A, stack: [{drawer: share}]}, {name: B, stack: [{drawer: share}]},
     {name: C, stack: [{drawer: share}]}]}
"""
MIXED = changed(
    THIN_TRAY,
    (
        "{name: B, stack: [{drawer: share}]}",
        "{name: B, width: 450, stack: [{drawer: share}, {totes: bin}, {drawer: share}]}",
    ),
    ("zones:", "totes: {bin: {use: tote 145}}\nzones:"),
)
REAR = changed(
    DEMO,
    ("B1, width: share, stack: [{shelf: 60}, {shelf: 288}]", "B1, width: share, stack: [{drawer: share}]"),
    ("slide_setback: 2", "slide_setback: 3"),
    ("- name: back\n    depth: share", "- name: back\n    depth: 500"),
    ("depth: 900", "depth: 1120"),
)
