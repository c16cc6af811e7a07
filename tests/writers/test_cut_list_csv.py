"""The cut list in a spreadsheet: numbers are numbers, whatever is a text stays one."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from generator.writers.cut_list_csv import cut_list_csv
from tests.prints.bench import NAMES, figures_of


@pytest.mark.parametrize("name", NAMES)
def test_marks_and_sizes_are_those_of_the_figures(name: str) -> None:
    figures = figures_of(name)
    rows = list(csv.DictReader(io.StringIO(cut_list_csv(figures))))
    assert [row["mark"] for row in rows] == [part.mark for part in figures.parts]
    assert [float(row["length_mm"]) for row in rows] == pytest.approx(
        [float(p.length) for p in figures.parts]
    )
    assert [row["marks"].split() for row in rows] == [list(part.marks) for part in figures.parts]


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("E1", "E1"),
        ("1E2", '="1E2"'),
        ("1e3", '="1e3"'),
        ("0012", '="0012"'),
        ("1 1/2", '="1 1/2"'),
        ("DEC1", '="DEC1"'),
        ("March 3", '="March 3"'),
        ("True", '="True"'),
        ("=2+2", '="=2+2"'),
        ("-ply", '="-ply"'),
        ('@"x"', '="@""x"""'),
        ("ply-12", "ply-12"),
        ("фанера", "фанера"),
        ("MARK1", "MARK1"),
    ],
)
def test_a_text_that_would_be_guessed_at_is_held(text: str, cell: str) -> None:
    figures = figures_of("demo")
    part = replace(figures.parts[0], mark=text, material=text)
    (row,) = csv.DictReader(io.StringIO(cut_list_csv(replace(figures, parts=(part,))).removeprefix("\ufeff")))
    assert (row["mark"], row["material"]) == (cell, cell)
