"""What a cure writes into a spec: lengths that a rule shows, and none that cannot be."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.law import about, said, to_write
from generator.findings import Change
from generator.units.sizes import INCH
from tests.bench.benches import solved

MM = solved().spec
IN = MM.model_copy(update={"units": "in"})


@pytest.mark.parametrize(
    ("spec", "length", "up", "down"),
    [
        (MM, Fraction("12.34"), "12.4 mm", "12.3 mm"),
        (MM, Fraction(12), "12 mm", "12 mm"),
        (IN, INCH * 3 / 8, "3/8 in", "3/8 in"),
        (IN, INCH * 3 / 8 + Fraction(1, 100), "25/64 in", "3/8 in"),
    ],
)
def test_a_length_to_write_is_no_less_or_no_more(spec: object, length: Fraction, up: str, down: str) -> None:
    assert (said(spec, length), said(spec, length, down=True)) == (up, down)  # type: ignore[arg-type]


def test_no_length_of_nothing_is_written() -> None:
    path = ("zones", 0, "depth")
    assert to_write(MM, path, Fraction(1)) == (Change("zones[0].depth", "1 mm"),)
    assert to_write(MM, path, Fraction(0)) == to_write(MM, path, Fraction(-1)) == ()


@pytest.mark.parametrize(
    ("length", "told"), [(Fraction(1), "0.039 in"), (INCH / 16, "1/16 in"), (INCH * 3 / 4, "3/4 in")]
)
def test_a_thin_length_is_told_to_the_thousandth(length: Fraction, told: str) -> None:
    assert about(IN, length) == told
