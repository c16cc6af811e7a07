"""Text to exact millimetres and back."""

from __future__ import annotations

import math
import pickle
from collections.abc import Callable
from fractions import Fraction

import pint
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from generator.units.format import format_fixed, format_inch, format_mm, format_thou, format_worked, plain
from generator.units.parse import MAX_LENGTH, parse_length, parse_number, parse_quantity
from generator.units.sizes import INCH, QUANTITIES, UnitError

F = Fraction

NUMBERS = {
    "600": F(600),
    "12.5": F(25, 2),
    ".5": F(1, 2),
    "3/8": F(3, 8),
    "33 1/4": F(133, 4),
    "33-1/4": F(133, 4),
    "33½": F(67, 2),
    "33 ½": F(67, 2),
    "⅛": F(1, 8),
    "3\N{FRACTION SLASH}8": F(3, 8),
    "-2": F(-2),
    "\N{MINUS SIGN}1 1/2": F(-3, 2),
    " 7 ": F(7),
    "0": F(0),
}

NO_NUMBERS = {
    "": "no number here",
    "nan": "no number here",
    "inf": "no number here",
    "-": "no number here",
    "1e3": "scientific notation",
    "2E-3": "scientific notation",
    "12,5": "write 12.5",
    "1,200": "write 1.200 or 1200",
    "3/0": "0 below its line",
    "23 58/8": "less than 1",
    "1 200": "'200' is not understood",
    "5 mm": "a number without a unit",
    "1.5/2": "not understood",
    "0x10": "not understood",
    "٣": "no number here",
    "9" * 65: "longer than 64 characters",
}

LENGTHS = {
    "600": F(600),
    "600 mm": F(600),
    "600mm": F(600),
    "1.2 m": F(1200),
    "60 cm": F(600),
    "23 5/8 in": F(24003, 40),
    '23-5/8"': F(24003, 40),
    '23 5/8"': F(24003, 40),
    "23⅝″": F(24003, 40),
    "23 5/8 in.": F(24003, 40),
    "3 ft 2 1/2 in": F(77, 2) * INCH,
    "3'2-1/2\"": F(77, 2) * INCH,
    "3'-2 1/2\"": F(77, 2) * INCH,
    "3' - 2 1/2\"": F(77, 2) * INCH,
    "3'2''": 38 * INCH,
    "3 feet 2 inches": 38 * INCH,
    "-3 ft 2 in": -38 * INCH,
    "5/16 in": F(127, 16),
    "0.5 ft": F(762, 5),
    "1 yd": F(4572, 5),
    "2 thou": F(127, 2500),
    "50 µm": F(1, 20),
    "50 μm": F(1, 20),
    "1.2 metres": F(1200),
    "100 m": F(MAX_LENGTH),
    "-4": F(-4),
    "0 in": F(0),
}

NO_LENGTHS = {
    "5 kg": "kg is a unit of mass, not of length",
    "5 s": "s is a unit of time, not of length",
    "600 MM": "did you mean 'mm'?",
    "23 inn": "did you mean 'in'?",
    "2 milimeters": "did you mean 'millimeters'?",
    "600 mn": "did you mean 'mm'?",
    "23 pin": "unknown unit 'pin'",
    "6 parsec": "unknown unit 'parsec'",
    "600 мм": "unknown unit 'мм'",
    "5 mil": "write mm or thou",
    "5 m^2": "not understood",
    "3 ft 2": "only feet and inches",
    "2 in 3 ft": "only feet and inches",
    "1 m 20 cm": "only feet and inches",
    "1 200 mm": "two numbers",
    "600 mm x": "not understood",
    "100.001 m": "longer than 100 m",
    "-101 m": "longer than 100 m",
    "1e3 mm": "scientific",
    "1.2 3/8 in": "two numbers",
    "5 - 3 mm": "not understood",
}

QUANTITY_CASES = [
    ("20 kg", "mass", F(20)),
    ("200 N", "force", F(200)),
    ("20 kgf", "force", F(196133, 1000)),
    ("680 kg/m^3", "density", F(680)),
    ("680 kg/m³", "density", F(680)),
    ("680 kg / m**3", "density", F(680)),
    ("42 lb/ft^3", "density", 42 * F("0.45359237") / F("0.3048") ** 3),
    ("1.7 kg/m", "mass per length", F(17, 10)),
    ("1 lb/ft", "mass per length", F("0.45359237") / F("0.3048")),
    ("9.5 cm^4", "second moment", F(95_000)),
    ("0.228 in^4", "second moment", F("0.228") * INCH**4),
    ("70 GPa", "modulus", F(70_000)),
    ("9 N/mm^2", "modulus", F(9)),
    ("2 1/2 kg", "mass", F(5, 2)),
    ("½ kg", "mass", F(1, 2)),
    ("1.2 t", "mass", F(1200)),
]

NO_QUANTITIES = [
    ("20", "mass", "write a unit, for instance 20 kg"),
    ("20 mm", "mass", "mm is a unit of length, not of mass"),
    ("20 lb", "force", "write lbf"),
    ("20 kg", "force", "write kgf"),
    ("20 kgs", "mass", "did you mean 'kg'?"),
    ("20 KG", "mass", "did you mean 'kg'?"),
    ("20 s", "mass", "s is a unit of time"),
    ("20 kg/", "mass", "is not a unit"),
    ("10e6 psi", "modulus", "scientific"),
    ("1 200 kg", "mass", "is not a unit"),
    ("9.5 cm^44", "second moment", "is not a unit"),
    ("5 kg*kg", "mass", "is a unit of something else"),
    ("5 __import__('os')", "mass", "is not a unit"),
]


@pytest.mark.parametrize(("text", "value"), NUMBERS.items())
def test_numbers_are_exact(text: str, value: Fraction) -> None:
    assert parse_number(text) == value


@pytest.mark.parametrize(("text", "reason"), NO_NUMBERS.items())
def test_what_is_no_number_says_why(text: str, reason: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse_number(text)
    assert reason in caught.value.reason


@pytest.mark.parametrize(("text", "millimetres"), LENGTHS.items())
def test_lengths_are_exact(text: str, millimetres: Fraction) -> None:
    assert parse_length(text) == millimetres


@pytest.mark.parametrize(("text", "reason"), NO_LENGTHS.items())
def test_what_is_no_length_says_why(text: str, reason: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse_length(text)
    assert reason in str(caught.value)


def test_a_bare_number_is_in_the_default_unit() -> None:
    assert parse_length("33 1/4", "in") == F(133, 4) * INCH
    assert parse_length("600 mm", "in") == 600
    with pytest.raises(ValueError, match="default unit"):
        parse_length("1", "furlong")


@pytest.mark.parametrize(("text", "kind", "value"), QUANTITY_CASES)
def test_quantities_are_exact(text: str, kind: str, value: Fraction) -> None:
    assert parse_quantity(text, kind) == value


@pytest.mark.parametrize(("text", "kind", "reason"), NO_QUANTITIES)
def test_what_is_no_quantity_says_why(text: str, kind: str, reason: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse_quantity(text, kind)
    assert reason in str(caught.value)


def test_an_error_keeps_its_parts() -> None:
    with pytest.raises(UnitError) as caught:
        parse_length(" 23 5/8 inn")
    error = caught.value
    assert (error.text, error.position) == (" 23 5/8 inn", 8)
    assert str(error) == "' 23 5/8 inn': unknown unit 'inn'; did you mean 'in'?"
    assert str(pickle.loads(pickle.dumps(error))) == str(error)


def test_an_error_prints_no_control_characters() -> None:
    with pytest.raises(UnitError) as caught:
        parse_length("5\x1b[31m")
    assert str(caught.value).isprintable()


# --- published values


def test_the_inch_foot_and_yard() -> None:
    """The international yard of 1959; NIST SP 811, appendix B."""
    assert parse_length("1 in") == F("25.4")
    assert parse_length("1 ft") == F("304.8")
    assert parse_length("1 yd") == F("914.4")


@pytest.mark.parametrize(
    ("fraction", "millimetres"),
    [
        ("1/64", "0.396875"),
        ("1/32", "0.79375"),
        ("1/16", "1.5875"),
        ("1/8", "3.175"),
        ("15/32", "11.90625"),
        ("23/32", "18.25625"),
        ("3/4", "19.05"),
    ],
)
def test_fractions_of_an_inch(fraction: str, millimetres: str) -> None:
    """Arithmetic on the exact inch."""
    assert parse_length(f"{fraction} in") == F(millimetres)
    assert format_inch(F(millimetres), 64) == fraction


@pytest.mark.parametrize(("denominator", "text"), [(16, "11/16"), (32, "23/32"), (64, "45/64")])
def test_nearest_fractions_of_18_mm(denominator: int, text: str) -> None:
    """Arithmetic on the exact inch: 18.0 mm is 0.70866 in."""
    assert format_inch(18.0, denominator) == text


def test_pound_pound_force_and_psi() -> None:
    """NIST SP 811, appendix B: the first two exact, the third to the digits printed."""
    assert parse_quantity("1 lb", "mass") == F("0.45359237")
    assert parse_quantity("1 lbf", "force") == F("4.4482216152605")
    assert float(parse_quantity("1 psi", "modulus")) == pytest.approx(6894.757e-6, rel=1e-6)
    assert parse_quantity("10 Mpsi", "modulus") == 10**7 * parse_quantity("1 psi", "modulus")


# --- printing


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [
        (1920, 1, "1920"),
        (17.5, 1, "17.5"),
        (-0.04, 1, "0"),
        (-0.05, 1, "-0.1"),
        (0.35, 1, "0.4"),
        (F(1, 3), 3, "0.333"),
        (F(1999, 100), 1, "20"),
        (100, 0, "100"),
        (1e-7, 1, "0"),
    ],
)
def test_millimetres(value: Fraction | float, decimals: int, text: str) -> None:
    assert format_mm(value, decimals) == text


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (F(189, 8), "23 5/8"),
        (F(3, 8), "3/8"),
        (F(0), "0"),
        (F(-3, 2), "-1 1/2"),
        (F(1, 64), "1/32"),
        (F(1, 65), "0"),
        (F(-1, 65), "0"),
        (F(127, 128), "1"),
        (F(12), "12"),
    ],
)
def test_inches(inches: Fraction, text: str) -> None:
    assert format_inch(inches * INCH) == text


def test_decimal_inches_and_fixed_decimals() -> None:
    assert format_thou(8) == "0.315"
    assert format_thou(25.4) == "1.000"
    assert format_fixed(17.5, 2) == "17.50"
    assert format_fixed(0.005, 2) == "0.01"
    assert format_fixed(-2.5, 0) == "-3"


def test_numbers_of_a_working() -> None:
    """Lengths to a thousandth of the unit; what is small and no length has digits that can be reckoned with."""
    assert format_worked(F(127, 10), "mm", "in") == "0.5"
    assert format_worked(-0.0004, "mm", "mm") == "0"
    assert format_worked(-0.00012708, "1/mm", "mm") == "−0.000127"
    assert format_worked(1e-12, "mm^2", "mm") == "0"
    assert format_worked(1234.5678, "N", "mm") == "1234.6"


@pytest.mark.parametrize(("value", "expected"), [(F(4, 2), 2), (F(1, 3), 0.333333333), (2.0, 2), (-0.0, 0)])
def test_plain_numbers_for_json(value: Fraction | float, expected: float) -> None:
    assert plain(value) == expected
    assert type(plain(value)) is type(expected)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_finite_is_never_printed(value: float) -> None:
    for printer in (plain, format_mm, format_inch, format_thou):
        with pytest.raises(ValueError, match="not a finite number"):
            printer(value)


# --- laws

lengths = st.fractions(min_value=-MAX_LENGTH + 1, max_value=MAX_LENGTH - 1, max_denominator=10_000)
texts = st.text(max_size=70) | st.text("0123456789 ./-'\"½,emMinftkgNPa^*³·", max_size=20)


@given(lengths, st.integers(0, 4))
def test_millimetres_come_back_within_half_a_step(length: Fraction, decimals: int) -> None:
    assert abs(parse_length(format_mm(length, decimals)) - length) <= F(1, 2 * 10**decimals)


@given(lengths, st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
def test_inches_come_back_within_half_a_step(length: Fraction, denominator: int) -> None:
    assert abs(parse_length(format_inch(length, denominator), "in") - length) <= INCH / (2 * denominator)


@given(st.integers(0, 100), st.integers(0, 11), st.integers(0, 63))
def test_feet_with_inches_equal_inches_and_millimetres(feet: int, inches: int, parts: int) -> None:
    total = 12 * feet + inches + F(parts, 64)
    assert parse_length(f"{feet}'-{inches} {parts}/64\"") == parse_length(f"{feet} ft {inches} {parts}/64 in")
    assert parse_length(f"{feet} ft {inches} {parts}/64 in") == total * INCH
    assert parse_length(f"{total.numerator}/{total.denominator}", "in") == total * INCH


@pytest.mark.parametrize(
    ("unit", "kind", "target"),
    [
        ("GPa", "modulus", "MPa"),
        ("cm^4", "second moment", "mm^4"),
        ("kg", "mass", "kg"),
        ("kg/m", "mass per length", "kg/m"),
    ],
)
def test_units_that_are_known_by_heart_are_those_of_a_units_library(
    unit: str, kind: str, target: str
) -> None:
    """Against pint, which all other units are read with."""
    own = pint.UnitRegistry(non_int_type=F).Quantity(F(1), unit).to(target).magnitude
    assert parse_quantity(f"1 {unit}", kind) == own


@given(lengths)
def test_printing_a_negative_mirrors_the_positive(length: Fraction) -> None:
    for printer in (format_mm, format_inch, format_thou):
        assert printer(-abs(length)).removeprefix("-") == printer(abs(length))


@settings(deadline=None)  # the first call loads pint
@given(texts)
@example("1/" + "0" * 60)
@example("5 dB")
@example("5 delta_degC")
@example("5 kdegC")
@example("5 lambda")
@example("5 m^9*m^9*m^9/m^9")
def test_no_text_raises_anything_but_a_unit_error(text: str) -> None:
    by_kind = [lambda text, kind=kind: parse_quantity(text, kind) for kind in QUANTITIES]
    for read in (parse_number, parse_length, *by_kind):
        error = refusal(read, text)
        if error is not None:
            assert 0 <= error.position <= len(text)
            assert error.reason
            assert str(error).isprintable()


def refusal(read: Callable[[str], Fraction], text: str) -> UnitError | None:
    try:
        read(text)
    except UnitError as error:
        return error
    return None


@settings(deadline=None)
@given(st.from_regex(r"[A-Za-zµ]{1,6}", fullmatch=True))
def test_no_unit_name_raises_anything_but_a_unit_error(name: str) -> None:
    for read in (parse_length, lambda text: parse_quantity(text, "mass")):
        error = refusal(read, f"5 {name}")
        assert error is None or name in str(error)
