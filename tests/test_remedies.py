"""Every advice names a key and a value; each is applied to a spec that fails, and the finding goes."""

from __future__ import annotations

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
from generator.units import INCH
from generator.writers.starter import starter_text
from tests.test_checks import BASE, CASES

#: One zone: a bay's lines are no other zone's, so its width can be changed by itself.
ONE_ZONE = """spec: 1
title: One zone
bench: {length: 1400, depth: 700, height: 900}
materials: {bar: {use: profile 40}}
totes: {bin: {use: tote 145}}
zones:
  - {name: a, depth: share, bays: [{name: A, width: WIDTH, stack: [STACK]}, {name: B, width: share}]}
"""
DRAWER, TOTES = "{drawer: share}", "{totes: bin}"
#: (code, a spec that fails) of what the demo's changes do not provoke.
MORE = (
    ("bay-width", ONE_ZONE.replace("WIDTH", "140").replace("STACK", "")),
    ("box-width", ONE_ZONE.replace("WIDTH", "70").replace("STACK", DRAWER)),
    ("tote-rim", ONE_ZONE.replace("WIDTH", "390").replace("STACK", TOTES)),
    ("screw-length", BASE.replace("proud: 1,", "proud: 1, face_screw: 4x50,")),
    ("slide-plane", BASE.replace("proud: 1", "proud: 0.3")),
)
#: Here a bay's width is no cure of its own, for another zone's lines stand on the same bars.
SHARED_LINES = {"bay-width", "box-width", "tote-rim"}
CURABLE = {law.code for law in LAWS if not isinstance(law.cure, str)}
CURED = [
    (case.code, BASE.replace(case.old, case.new, 1)) for case in CASES if case.code in CURABLE - SHARED_LINES
] + list(MORE)


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


@pytest.mark.parametrize(("code", "text"), CURED, ids=[f"{n} {code}" for n, (code, _) in enumerate(CURED)])
def test_the_advice_cures_what_it_is_given_for(code: str, text: str) -> None:
    failed, findings = judged(text)
    finding = next(each for each in findings if each.code == code)
    before = {where for other, where in failed if other == code}
    assert before and finding.remedy
    for change in finding.remedy:
        assert str(change) in finding.advice
    cured = adapted(text, [(change.path, change.value) for change in finding.remedy])
    after = {where for other, where in judged(cured)[0] if other == code}
    assert after < before, finding.advice


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
    assert not CURABLE - {code for code, _ in CURED}


@pytest.mark.parametrize("text", STARTERS)
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
