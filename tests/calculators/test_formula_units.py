"""A formula with wrong dimensions cannot be written unnoticed: the units stand in its signature, and pint runs it.

Every function whose arguments are named only (`*`) in the modules below is a formula. It is called twice, with plain
numbers in the units of its signature, and with pint quantities in other units of the same kind (inches, pounds, psi,
hours). The second call fails where unlike things are added; its answer must have the declared dimension, and in the
declared unit it must be the plain number, so no factor between units hides inside.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import typing
from collections.abc import Callable, Iterator, Sequence
from typing import Annotated, Any

import pint
import pytest

import generator.calculators
import generator.provenance
from generator.calculators.quantities import (
    Kilograms,
    Megapascals,
    Millimetres,
    Newtons,
    SecondMoment,
)

REGISTRY = pint.UnitRegistry()
#: A unit of another system for each that the formulas use.
OTHER = {
    "mm": "inch",
    "mm^2": "inch^2",
    "mm^4": "inch^4",
    "N": "lbf",
    "N*mm": "lbf*ft",
    "N*mm/rad": "lbf*ft/degree",
    "N/mm": "lbf/ft",
    "MPa": "psi",
    "kg": "lb",
    "kg/m^3": "lb/ft^3",
    "kg*mm": "lb*inch",
    "N/kg": "ft/s^2",
    "1/K": "1/delta_degF",
    "K": "delta_degF",
    "m/min": "ft/s",
    "mm/m": "inch/ft",
    "mm/min": "inch/s",
    "1/min": "1/hour",
    "min": "hour",
    "1/mm": "1/ft",
    "1": "1",
}
#: A fit to measurements in stated units has no dimensions to check; its own test holds it to the published table.
FITS_TO_MEASUREMENTS = {"moisture_in_equilibrium"}


def units_of(hint: Any) -> tuple[str | None, bool]:
    """The unit of an annotation, and whether it is a row of such values; None without a unit."""
    if typing.get_origin(hint) is Annotated:
        return typing.get_args(hint)[1], False
    if typing.get_origin(hint) in (Sequence, tuple):
        return units_of(typing.get_args(hint)[0])[0], True
    return ("1", False) if hint in (int, float) else (None, False)


def formulas() -> Iterator[Callable[..., Any]]:
    for module in pkgutil.iter_modules(generator.calculators.__path__, "generator.calculators."):
        content = importlib.import_module(module.name)
        if "quantities import" not in inspect.getsource(content):
            continue
        for name, function in inspect.getmembers(content, inspect.isfunction):
            parameters = inspect.signature(function).parameters.values()
            named = parameters and all(each.kind is each.KEYWORD_ONLY for each in parameters)
            if function.__module__ == content.__name__ and named and name not in FITS_TO_MEASUREMENTS:
                yield function


FORMULAS = list(formulas())


def plain_arguments(function: Callable[..., Any]) -> dict[str, Any]:
    """Numbers that differ from each other; shares below one where a formula subtracts them from one."""
    hints = typing.get_type_hints(function, include_extras=True)
    found: dict[str, Any] = {}
    for index, (name, parameter) in enumerate(inspect.signature(function).parameters.items()):
        _, is_row = units_of(hints[name])
        value = 2.0 + 0.7 * index
        if parameter.default is not inspect.Parameter.empty:
            value = float(parameter.default)
        elif name in ("poisson", "part"):
            value = 0.2 + 0.1 * (name == "part")
        found[name] = [value, value + 1.3, value + 0.4, value + 2.2] if is_row else value
    return found


def with_units(value: float, unit: str) -> Any:
    return REGISTRY.Quantity(value, unit).to(OTHER[unit])


def plain_number(value: Any, unit: str) -> float:
    return float(REGISTRY.Quantity(value).to(unit).magnitude)


def check(function: Callable[..., Any]) -> None:
    hints = typing.get_type_hints(function, include_extras=True)
    plain = plain_arguments(function)
    measured: dict[str, Any] = {}
    for name, value in plain.items():
        unit, is_row = units_of(hints[name])
        assert unit is not None, f"{function.__name__}: {name} has no unit"
        measured[name] = [with_units(each, unit) for each in value] if is_row else with_units(value, unit)
    unit, is_row = units_of(hints["return"])
    assert unit is not None, f"{function.__name__} gives a number without a unit"
    expected, found = function(**plain), function(**measured)
    for a, b in zip(expected, found, strict=True) if is_row else [(expected, found)]:
        assert plain_number(b, unit) == pytest.approx(float(a), rel=1e-9)


@pytest.fixture(autouse=True)
def no_working(monkeypatch: pytest.MonkeyPatch) -> None:
    """Quantities pass through a formula as they are: only ordinary numbers remember how they came about."""
    monkeypatch.setattr(generator.provenance, "traced", lambda value, how: value)


@pytest.mark.parametrize("function", FORMULAS, ids=lambda each: each.__name__)
def test_a_formula_is_right_in_its_dimensions(function: Callable[..., Any]) -> None:
    check(function)


def test_the_formulas_were_found() -> None:
    assert len(FORMULAS) >= 30
    assert {"sag_point_middle", "push_moment", "spindle_speed"} <= {each.__name__ for each in FORMULAS}


def test_every_formula_says_what_it_computes() -> None:
    for function in FORMULAS:
        assert len(inspect.getdoc(function) or "") > 20, function.__name__


# --- planted faults are found

Metres = Annotated[float, "m"]


def cube_forgotten(
    *, force: Newtons, span: Millimetres, modulus: Megapascals, second_moment: SecondMoment
) -> Millimetres:
    return force * span**2 / (48 * modulus * second_moment)


def gravity_forgotten(*, mass: Kilograms) -> Newtons:
    return mass


def factor_hidden(*, length: Millimetres) -> Metres:
    return length / 1000


def unlike_added(*, length: Millimetres, force: Newtons) -> Millimetres:
    return length + force


def constant_added(*, length: Millimetres) -> Millimetres:
    return length + 2


def unit_forgotten(*, length) -> Millimetres:  # type: ignore[no-untyped-def]
    return length


@pytest.mark.parametrize(
    "function",
    [cube_forgotten, gravity_forgotten, factor_hidden, unlike_added, constant_added, unit_forgotten],
)
def test_a_planted_fault_is_found(function: Callable[..., Any]) -> None:
    with pytest.raises((pint.DimensionalityError, AssertionError, KeyError)):
        check(function)
