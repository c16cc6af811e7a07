"""The guide shows what the program makes of its lines: specs that build, messages and pictures as they come."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from generator.findings import Severity
from generator.manual import Manual
from generator.pages import guide
from generator.spec.load import read_spec
from tests.guide import ASSETS, appears, files, made, pictures, said, typed, with_middle


@pytest.mark.parametrize("text", [typed()["first"], with_middle()], ids=["first", "longer"])
def test_no_bench_of_the_guide_has_an_error(text: str) -> None:
    _, findings = made(text)
    assert [each for each in findings if each.severity == Severity.ERROR] == []


def test_the_guide_says_how_many_warnings_its_first_bench_has() -> None:
    figures, findings = made(typed()["first"])
    warnings = [each.code for each in findings if each.severity == Severity.WARNING]
    page = Manual(read_spec(typed()["first"], guide.FILE), figures, guide.FILE).page(guide.PAGE)
    assert f"{guide.FILE}: {len(warnings)} warnings" in page
    # it says what they are about
    assert set(warnings) == {"drawers-open", "tips-under-load"}


def test_what_appears_is_made_of_the_guide_s_benches() -> None:
    """`python -m tests.guide` makes it anew."""
    assert [path.name for path, data in files().items() if path.read_bytes() != data] == []
    assert {path.name for path in ASSETS.glob("guide-*")} == set(pictures())


def test_the_page_shows_what_to_type_and_what_appears() -> None:
    loaded = read_spec(typed()["first"], guide.FILE)
    figures, _ = made(typed()["first"])
    page = Manual(loaded, figures, guide.FILE).page(guide.PAGE)
    blocks = re.findall(r"```(?:yaml)?\n(.*?)```", page, re.DOTALL)
    assert typed()["first"] in blocks
    says = [block for block in blocks if " error: " in block]
    assert len(says) == 2
    assert "did you mean 'height'?" in says[0] and "57 mm missing" in says[1]
    longest = max(stop.length for stop in figures.cutting.stops)
    assert f"Set the stop to {float(longest):g} mm" in page
    typical, measured = (
        Fraction(appears()[f"rabbet_{which}"].removesuffix(" mm")) for which in ("typical", "measured")
    )
    assert measured == typical - (12 - Fraction("11.8")) / 2
    assert f"| measured | {float(measured):g} mm |" in page
    for name in pictures():
        assert f"](assets/{name})" in page


def test_an_example_without_a_fault_is_noticed() -> None:
    with pytest.raises(AssertionError, match="no fault"):
        said(with_middle())
