"""Every advice names a key and a value; each is applied to a spec that fails, and the finding goes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache

import pytest

from generator.bench.law import said
from generator.bench.solve import solve
from generator.figures.checks.judge import LAWS
from generator.figures.compute import compute
from generator.findings import Finding, Severity, SpecError
from generator.spec.adapt import adapted
from generator.spec.load import read_spec
from generator.units.sizes import INCH
from generator.writers.starter import starter_text
from tests.bench.joints.test_bridle import CODES_OF_BRIDLES
from tests.bench.joints.test_pocket_screw import CURED_AT_POCKETS
from tests.bench.joints.test_structural_screw import CURED_AT_SCREWS
from tests.changes_of_the_demo import BASE
from tests.check_cases import CASES
from tests.effort import sample
from tests.test_floating import CURED_FLOATING
from tests.test_glue import CURED_OF_GLUE
from tests.test_timber import CURED_IN_TIMBER

pytestmark = pytest.mark.usefixtures("quick_plans")

#: Bays whose lines are no other zone's, so that each width can be changed by itself; its back and ends can be fixed.
ONE_ZONE = """spec: 1
title: One zone
bench: {length: 1700, depth: 700, height: 900}
materials: {bar: {use: profile 40}}
totes: {bin: {use: tote 145}}
zones:
  - name: a
    depth: share
    bays:
      - {name: A, width: 140}
      - {name: B, width: 70, stack: [{drawer: share}]}
      - {name: C, width: 390, stack: [{totes: bin}]}
      - {name: D, width: share}
"""
IN_ONE_ZONE = ("bay-width", "box-width", "tote-rim", "sway")
#: (code, change of the demo: old, new) of what the checks' own changes do not provoke.
MORE = (
    ("screw-length", "proud: 1,", "proud: 1, face_screw: 4x50,"),
    ("slide-plane", "proud: 1", "proud: 0.3"),
    ("slide-rating", "rating: 45 kg", "rating: 3 kg"),
)
CURABLE = {law.code for law in LAWS if not isinstance(law.cure, str)}
CASES_CURED = [
    *((case.code, case.old, case.new) for case in CASES if case.code in CURABLE - {*IN_ONE_ZONE}),
    *MORE,
]
#: Over how many specs the changes are spread at first.
SPECS = 8


#: Benches as `new` writes them, in millimetres and inches, on a bar of other threads and on one of a shallow slot.
STARTERS = [
    starter_text("mm", 2, ()),
    starter_text("in", 3, ()),
    starter_text("mm", 2, ("profile 45",)),
    starter_text("mm", 2, ("profile 30",)),
]


@cache
def judged(text: str) -> tuple[frozenset[tuple[str, str]], tuple[Finding, ...]]:
    """(code, where) of every check that fails, and the findings. SpecError when no bench follows."""
    loaded = read_spec(text, "bench.yml")
    figures, findings = compute(solve(loaded))
    return frozenset((check.code, check.where) for check in figures.checks if not check.ok), findings


def uncured(text: str, codes: Sequence[str]) -> list[str]:
    """Those whose findings, when all that these advise is written, stay, or are not found, or want another value."""
    failed, findings = judged(text)
    told = {
        finding.code: finding for finding in reversed(findings) if finding.code in codes and finding.remedy
    }
    changes = {change.path: change.value for finding in told.values() for change in finding.remedy}
    assert all(str(change) in each.advice for each in told.values() for change in each.remedy)
    after = judged(adapted(text, list(changes.items())))[0]
    made = {code for code, each in told.items() if all(changes[it.path] == it.value for it in each.remedy)}
    return [code for code in codes if code not in made or not places(after, code) < places(failed, code)]


def places(failed: frozenset[tuple[str, str]], code: str) -> set[str]:
    return {where for other, where in failed if other == code}


def hidden(cases: Sequence[tuple[str, str, str]]) -> list[tuple[str, str, str]]:
    """Those of the cases that cannot be shown to be cured in one spec with the others."""
    text, here = BASE, {}
    for code, old, new in cases:
        if code not in here and old in text:
            text = text.replace(old, new, 1)
            here[code] = (code, old, new)
    try:
        left = uncured(text, list(here))
    except SpecError:
        left = list(here)
    return [case for case in cases if case not in here.values() or case[0] in left]


def uncurable(cases: Sequence[tuple[str, str, str]]) -> list[tuple[str, str, str]]:
    """Those that no spec shows to be cured: what the others hide is tried without them, in fewer and fewer."""
    left = hidden(cases)
    if len(cases) < 2 or not left:
        return left
    if len(left) < len(cases):
        return uncurable(left)
    middle = len(cases) // 2
    return uncurable(cases[:middle]) + uncurable(cases[middle:])


@pytest.mark.parametrize("number", range(SPECS))
def test_the_advice_cures_what_it_is_given_for(number: int) -> None:
    """Many faults to a spec, for each spec takes its time."""
    assert uncurable(CASES_CURED[number::SPECS]) == []


def test_the_advice_cures_what_is_wrong_with_a_bay_of_one_zone() -> None:
    assert uncured(ONE_ZONE, IN_ONE_ZONE) == []


def test_lines_that_lie_too_close_are_told_how_they_coincide() -> None:
    text = BASE.replace("B1, width: share", "B1, width: 950")
    with pytest.raises(SpecError) as caught:
        judged(text)
    (finding,) = (each for each in caught.value.findings if each.code == "lines-too-close")
    assert [str(each) in finding.advice for each in finding.remedy] == [True]
    judged(adapted(text, [(each.path, each.value) for each in finding.remedy]))


def test_where_no_key_cures_a_check_its_law_says_why() -> None:
    assert not [law.code for law in LAWS if isinstance(law.cure, str) and len(law.cure) <= 20]


def test_every_remedy_is_applied_to_a_spec_that_fails() -> None:
    assert {
        *IN_ONE_ZONE,
        *CURED_IN_TIMBER,
        *CURED_FLOATING,
        *CURED_OF_GLUE,
        *CURED_AT_SCREWS,
        *CURED_AT_POCKETS,
        *CODES_OF_BRIDLES,
        *(code for code, _, _ in CASES_CURED),
    } == CURABLE


@pytest.mark.parametrize("text", sample(STARTERS, 3))
def test_advice_on_a_new_bench_is_no_trap(text: str) -> None:
    """Written alone as it stands, also for goods that the spec leaves to a standard card."""
    failed, findings = judged(text)
    errors = {each.code for each in findings if each.severity is Severity.ERROR}
    for finding in (each for each in findings if each.remedy):
        after, left = judged(adapted(text, [(change.path, change.value) for change in finding.remedy]))
        assert {each.code for each in left if each.severity is Severity.ERROR} <= errors, finding.advice
        before = {where for code, where in failed if code == finding.code}
        assert {where for code, where in after if code == finding.code} < before, finding.advice


def test_a_named_bracket_whose_bolt_is_not_sold_is_told_at_the_bracket() -> None:
    text = starter_text("mm", 2, ("profile 45",))
    text = adapted(text, [("hardware.mine.use", "bracket 40"), ("top.bracket", "mine")])
    finding = next(each for each in judged(text)[1] if each.code == "bolt-window")
    assert finding.where and finding.where.path.startswith("hardware.mine")
    cured = adapted(text, [(change.path, change.value) for change in finding.remedy])
    assert "bolt-window" not in {code for code, _ in judged(cured)[0]}


def test_a_length_in_inches_is_written_no_less_than_it_must_be() -> None:
    """35/64 in is neither a 32nd nor a 16th: rounded to the nearest, it would be less or more."""
    spec = read_spec(starter_text("in", 2, ()), "bench.yml").spec
    assert said(spec, Fraction("0.54") * INCH) == "35/64 in"
    assert said(spec, Fraction("0.54") * INCH, down=True) == "17/32 in"


def test_a_name_with_a_dot_is_no_standard_card() -> None:
    text = adapted(starter_text("mm", 2, ()), [("panels.material", "ply-12.5")])
    text = text.replace("  ply-12: {use: plywood 12}", "  ply-12.5: {use: plywood 12}")
    finding = next(
        each for each in judged(text)[1] if each.code == "not-measured" and "ply-12.5" in each.advice
    )
    assert [change.path for change in finding.remedy] == ["materials.ply-12.5.measured"]
