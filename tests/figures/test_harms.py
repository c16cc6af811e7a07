"""Each check is as severe as the harm that it guards against."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.codes import Code
from generator.figures.checks.check_result import check_result
from generator.figures.checks.judge import LAWS
from generator.figures.checks.top import TOP_BRACKETS
from generator.harms import Harm


def test_every_check_has_its_harm_once() -> None:
    judged = {code for code in Code if code.harm}
    assert {law.code for law in LAWS} == judged
    assert [law.code for law in LAWS if law.severity not in law.code.harm.severities] == []
    assert [harm for harm in Harm if harm not in {code.harm for code in judged}] == []


def test_what_has_a_caution_can_hurt_and_is_no_note() -> None:
    dangerous = {Harm.FALLS, Harm.INJURES}
    assert [law.code for law in LAWS if law.caution and law.code.harm not in dangerous] == []
    assert [law.code for law in LAWS if law.code.harm in dangerous and law.severity == "note"] == []


@pytest.mark.parametrize(
    ("value", "sense", "severity"),
    [
        (Fraction(1199), "at most", "note"),
        (Fraction(1200), "at most", "warning"),
        (Fraction(13), "at least", "note"),
        (Fraction(12), "at least", "warning"),
        (Fraction(0), "at least", "warning"),
    ],
)
def test_no_note_is_ten_times_off_its_limit(value: Fraction, sense: str, severity: str) -> None:
    """Against a limit of 120: ten times as much, or a tenth of it."""
    found = check_result(
        TOP_BRACKETS, False, "B3", ("top",), value=value, limit=Fraction(120), unit="mm", sense=sense
    )
    assert (TOP_BRACKETS.severity, found.check.severity) == ("note", severity)
    passed = check_result(
        TOP_BRACKETS, True, "B3", ("top",), value=value, limit=Fraction(120), unit="mm", sense=sense
    )
    assert passed.check.severity == "note"
