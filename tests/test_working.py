"""Every figure can be opened down to the spec, and its working is what was calculated, in value and in dimension."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import cache

import pint
import pytest

from generator.bench.solve import solve
from generator.figures.calculations import UnitOf
from generator.figures.compute import compute
from generator.figures.unit_algebra import product, square_root
from generator.figures.workings import Working, Workings, workings
from generator.provenance import (
    POWERS,
    Arithmetic,
    Formula,
    GivenValue,
    Named,
    constant,
    givens,
    inexact,
    provenance_of,
    root,
    rounded_down,
)
from generator.resources import bundled
from generator.spec.load import LoadedSpec, RecordText, read_spec, read_spec_file

BENCHES = ("demo", "wall-bench", "starter", "demo under way")
RECORD = """\
- {date: 2026-11-03, measured: {path: materials.ply-12.thickness, value: 11.8}}
- {date: 2026-11-03, measured: {path: bays.F1.width, value: 499.2}}
- {date: 2026-11-04, cut: {mark: B1, size: 1918.5}}
- {date: 2026-11-04, cut: {mark: FD1, size: 519 x 509}}
"""
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()

#: The signs of a printed formula in Python's words, and what these mean.
WORDS = {"×": "*", "÷": "/", "−": "-", "²": "**2", "³": "**3", "⁴": "**4", "⁹": "**9", "√": "root", "π": "pi"}
WORDS |= {"least of": "least", "greatest of": "greatest", "rounded down to a multiple of": "down"}
SIGNS = {"root": math.sqrt, "pi": math.pi, "least": min, "greatest": max, "Fraction": Fraction}
SIGNS |= {"down": lambda value, step: value // step * step}


@cache
def loaded(name: str) -> LoadedSpec:
    if name == "demo under way":
        return read_spec(loaded("demo").text, "demo.yml", RecordText(RECORD, "demo.record.yml"))
    return read_spec_file(bundled("specs") / f"{name}.yml")


@cache
def book(name: str) -> Workings:
    spec = loaded(name)
    figures, _ = compute(solve(spec))
    return workings(figures)


def drawer_box() -> tuple[Working, ...]:
    return book("demo").tree(book("demo").paths["drawers[0].box_width"])


def text(line: Working) -> str:
    return " ".join(term.text or str(term.value) for term in line.terms)


def test_the_width_of_a_drawer_box_leads_back_to_lines_of_the_spec() -> None:
    tree = {line.name: line for line in drawer_box()}
    assert text(tree["box width of drawer F1/1"]) == (
        "width of bay F1 − 2 × proud of drawers − 2 × side space of slide"
    )
    source = loaded("demo").text.splitlines()
    lines = {}
    for line in tree.values():
        if line.given and line.given.line:
            lines[line.key] = line.given.line
            assert line.given.text in source[line.given.line - 1]
    assert len(lines) >= 6
    assert {"bench.length", "drawers.proud", "hardware.slide.side_space", "materials.bar.section"} <= set(
        lines
    )


def test_a_rule_and_its_source_stand_beside_what_follows_from_it() -> None:
    box = drawer_box()[0]
    assert box.rule and "`" not in box.rule
    assert box.source == "common practice, no source"


@pytest.mark.parametrize("name", BENCHES)
def test_all_lengths_of_parts_drawers_and_marks_have_a_working(name: str) -> None:
    spec = loaded(name)
    figures, _ = compute(solve(spec))
    found = workings(figures)
    for index, part in enumerate(figures.parts):
        for size in ("length", "width", "thickness", "mass"):
            assert found.tree(found.paths[f"parts[{index}].{size}"]), part.mark
    for stick in figures.sticks:
        for mark in stick.marks:
            assert mark.at == 0 or found.key_of(mark.at), (stick.name, mark.label)


@pytest.mark.parametrize("name", BENCHES)
def test_every_working_ends_at_something_given(name: str) -> None:
    for line in book(name).by_key.values():
        assert line.terms or line.given, line.key
        for need in line.needs:
            assert need in book(name).by_key, line.key


@pytest.mark.parametrize("name", BENCHES)
def test_a_working_printed_with_its_numbers_gives_the_figure(name: str) -> None:
    """The terms as a page prints them, evaluated by Python: neither names nor brackets went astray."""
    for line in book(name).by_key.values():
        if line.terms:
            code = " ".join(
                f"({_literal(term.value)})" if term.value is not None else WORDS.get(term.text, term.text)
                for term in line.terms
            )
            assert float(eval(code, dict(SIGNS))) == pytest.approx(float(line.value), rel=1e-12), line.key


def _literal(value: Fraction | float | int) -> str:
    return repr(value) if isinstance(value, float) else f"Fraction({value.numerator}, {value.denominator})"


@pytest.mark.parametrize("name", BENCHES)
def test_no_formula_mixes_dimensions(name: str) -> None:
    """pint recalculates every figure with its units: a length plus a mass, or plus a bare number, would raise."""
    known: dict[int, pint.Quantity[float]] = {}
    for line in book(name).by_key.values():
        quantity = _with_units(line.value, known)
        assert quantity.check(UNITS(_for_pint(line.unit) or "dimensionless").dimensionality), line.key


def _for_pint(unit: str) -> str:
    return unit.replace("·", "*")


def _with_units(
    value: Fraction | float | int, known: dict[int, pint.Quantity[float]]
) -> pint.Quantity[float]:
    how = provenance_of(value)
    if how is None:
        return UNITS.Quantity(float(value), "dimensionless")
    base = how.calculation if isinstance(how, Named) else how
    if id(base) not in known:
        if isinstance(base, GivenValue):
            known[id(base)] = UNITS.Quantity(float(value), _for_pint(base.unit) or "dimensionless")
        elif isinstance(base, Formula):
            inputs = {name: _with_units(each, known) for name, each in base.inputs.items()}
            found = eval(base.text, {**inputs, "sqrt": lambda quantity: quantity**0.5, "pi": math.pi})
            wanted = UNITS(_for_pint(base.unit) or "dimensionless").dimensionality
            assert found.dimensionality == wanted, base.text
            known[id(base)] = UNITS.Quantity(float(value), _for_pint(base.unit) or "dimensionless")
        else:
            known[id(base)] = _of_operation(base, [_with_units(each, known) for each in base.operands])
    return known[id(base)]


def _of_operation(how: Arithmetic, operands: list[pint.Quantity[float]]) -> pint.Quantity[float]:
    if how.sign in POWERS.values():
        return operands[0] ** next(power for power, sign in POWERS.items() if sign == how.sign)
    if how.sign == "√":
        return operands[0] ** 0.5
    if how.sign not in "+−×÷":
        operands = [each for each in operands if each.magnitude]  # nothing is nothing in every unit
        for each in operands:
            each.to(operands[0].units)
        return operands[0]
    one, *rest = operands
    if how.sign == "+":
        return one + rest[0]
    if how.sign == "−":
        return one - rest[0]
    if how.sign == "×":
        return one * rest[0]
    assert how.sign == "÷"
    return one / rest[0]


def test_a_formula_of_mixed_dimensions_is_found_out() -> None:
    length, mass = constant(5, "a length"), constant(2, "a mass", unit="kg")
    with pytest.raises(pint.DimensionalityError):
        _with_units(length + mass, {})
    with pytest.raises(pint.DimensionalityError):
        _with_units(length + 2, {})
    assert _with_units(length * 2 + length, {}).check("[length]")


@pytest.mark.parametrize(
    ("factors", "unit"),
    [
        ([("N", 1), ("mm^3", 1), ("MPa", -1), ("mm^4", -1)], "mm"),
        ([("kg/m^3", 1), ("mm", 0)], "kg/m^3"),
        ([("mm", 1), ("mm", -1)], ""),
        ([("N*mm", 1), ("mm", -2)], "N/mm"),
        ([("", 1), ("K", -1)], "1/K"),
    ],
)
def test_units_of_products(factors: list[tuple[str, int]], unit: str) -> None:
    assert product(factors) == unit


def test_powers_keep_their_base() -> None:
    side = constant(3, "a side")
    assert side**2 == 9 and UnitOf()(side**2) == "mm^2" and UnitOf()(side**3 / side) == "mm^2"


def test_what_is_added_and_taken_away_again_leaves_no_trace() -> None:
    left, width = constant(40, "left"), constant(500, "width")
    assert (left + width) - left is width
    assert (left + width) - width is left


def test_a_sum_of_thousands_has_a_working() -> None:
    """Deeper than Python's own recursion goes."""
    total = sum((constant(1, f"piece {number}") for number in range(3000)), Fraction(0))
    assert UnitOf()(total) == "mm" and len(givens(total)) == 3000


def test_a_top_with_more_than_a_thousand_holes_has_a_working() -> None:
    text = loaded("starter").text.replace("pitch: 96", "pitch: 23")
    spec = read_spec(text, "starter.yml")
    figures, _ = compute(solve(spec))
    top = next(part for part in figures.parts if part.marks == ("TOP",))
    assert figures.top.holes > 1000
    # a disc's area is pi / 4 of its square; 18 mm of 750 kg/m^3
    area = 1300 * 700 - figures.top.holes * math.pi / 4 * 20**2
    assert math.isclose(top.mass, area * 18 * 750e-9)
    assert workings(figures).key_of(top.mass)


def test_traced_numbers_are_ordinary_numbers() -> None:
    length = constant("7/2", "a length")
    assert length == Fraction(7, 2) and hash(length) == hash(Fraction(7, 2))
    assert sorted([length, Fraction(3)]) == [3, length]
    assert length + 1 == Fraction(9, 2) and 1 - length == Fraction(-5, 2)
    assert length / 2 == Fraction(7, 4) and float(length) == 3.5 and str(length) == "7/2"
    assert rounded_down(length, Fraction(2)) == 2
    with pytest.raises(ZeroDivisionError):
        length / 0


@pytest.mark.parametrize(
    ("path", "origin", "detail"),
    [
        ("materials.bar.section", "measured", "2026-10-28"),
        ("materials.ply-18.thickness", "card", "plywood 18"),
        ("drawers.groove_up", "default", ""),
        ("bench.length", "spec", ""),
    ],
)
def test_what_is_given_says_where_it_comes_from(path: str, origin: str, detail: str) -> None:
    given = book("demo").by_key[path].given
    assert given and (given.origin, given.detail) == (origin, detail)
    assert (given.line == 0) == (origin in ("card", "default"))


def test_origins_change_no_value() -> None:
    """A spec that is read twice is equal, and so is what it leads to."""
    one, other = (read_spec(loaded("demo").text, "demo.yml") for _ in range(2))
    assert one.spec == other.spec
    assert solve(one).parts == solve(other).parts


@pytest.mark.parametrize("name", BENCHES)
def test_what_a_rule_says_is_a_sentence(name: str) -> None:
    for line in book(name).by_key.values():
        if line.rule:
            assert line.rule[0] == line.rule[0].upper() and line.rule.endswith("."), line.rule
            assert line.source, line.key


@pytest.mark.parametrize("name", BENCHES)
def test_moments_and_cuts_are_told_apart_by_their_names(name: str) -> None:
    words = (
        "moment left",
        "holding moment",
        "distance behind",
        "fence setting",
        "workpiece",
        "middle of",
    )
    names = [line.name for line in book(name).by_key.values() if line.name.startswith(words)]
    assert len(names) > 60
    assert sorted(set(names)) == sorted(names)


def test_a_root_keeps_what_stands_under_it() -> None:
    one, other = inexact(constant(3, "one side")), inexact(constant(4, "other side"))
    diagonal = root(one**2 + other**2)
    assert diagonal == 5 and UnitOf()(diagonal) == "mm"
    assert {given.name for given, _ in givens(diagonal)} == {"one side", "other side"}
    with pytest.raises(ValueError, match="not a square"):
        square_root("mm")
