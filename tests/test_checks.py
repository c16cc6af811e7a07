"""Each check is provoked by one change of the demo, and then names its code, its place and its severity."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, reduce
from typing import TypeVar

import pytest

from generator.bench.solve import solve
from generator.figures.checks.judge import LAWS
from generator.figures.compute import compute
from generator.figures.rows.checks import Check
from generator.findings import Finding, Severity, SpecError
from generator.spec.load import read_spec, read_spec_file
from tests.bench.joints.test_bridle import CODES_OF_BRIDLES
from tests.bench.joints.test_pocket_screw import CODES_OF_POCKETS
from tests.bench.joints.test_structural_screw import CODES_OF_SCREWS
from tests.bench.test_beside import CODES_JOINED
from tests.changes_of_the_demo import BASE, DEMO, SPECS
from tests.check_cases import CASES, Case
from tests.effort import examples
from tests.figures.test_laps import CODES_OF_LAPS
from tests.test_floating import CODES_OF_FLOATING
from tests.test_glue import CODES_OF_GLUE
from tests.test_mistakes import CODES_PROVOKED
from tests.test_timber import CODES_OF_BOLTS, CODES_OF_TIMBER

T = TypeVar("T")


@cache
def judged(text: str) -> tuple[tuple[Check, ...], tuple[Finding, ...]]:
    loaded = read_spec(text, "demo.yml")
    figures, findings = compute(solve(loaded))
    return figures.checks, findings


def codes(text: str) -> set[str]:
    return {finding.code for finding in judged(text)[1]}


#: So many cases are tried in one spec, for each spec takes its time; what another hides there is tried without it.
TOGETHER = examples(12, 1)


def batches(cases: Sequence[T]) -> list[list[T]]:
    """Each with cases that stand far from each other in the list: those of one code stand beside each other."""
    count = -(-len(cases) // TOGETHER)
    return [list(cases[start::count]) for start in range(count)]


def changed(changes: Iterable[tuple[str, str]]) -> str:
    """The demo with every change (old, new) that still finds its place."""
    return reduce(lambda text, change: text.replace(*change, 1), changes, BASE)


def untold(case: Case, text: str) -> list[str]:
    """What the checks of this spec fail to say of the case."""
    checks, findings = judged(text)
    failed = {(check.code, check.severity, check.where) for check in checks if not check.ok}
    told = [f for f in findings if f.code == case.code and f.where and f.where.path == case.path]
    severities = {finding.severity.name.lower() for finding in told}
    return [
        said
        for said, holds in (
            (f"no such check fails: {failed}", (case.code, case.severity, case.where) in failed),
            ("no finding at its place", bool(told)),
            (f"its findings are {severities}", severities == {case.severity}),
            ("no line or no advice", all(f.where and f.where.line > 1 and f.advice for f in told)),
        )
        if not holds
    ]


def missed(cases: Sequence[Case]) -> list[Case]:
    """Those that no spec tells: what the others hide is tried without them, in fewer and fewer."""
    text = changed((case.old, case.new) for case in cases)
    try:
        left = [case for case in cases if untold(case, text)]
    except SpecError:
        left = list(cases)
    if len(cases) < 2 or not left:
        return left
    if len(left) < len(cases):
        return missed(left)
    middle = len(cases) // 2
    return missed(cases[:middle]) + missed(cases[middle:])


@pytest.mark.parametrize("cases", batches(CASES), ids=lambda cases: cases[0].code)
def test_a_check_is_provoked_by_one_change(cases: Sequence[Case]) -> None:
    assert [case for case in cases if case.old and case.old not in BASE] == []
    assert [(case, untold(case, changed([(case.old, case.new)]))) for case in missed(cases)] == []


def test_failed_checks_come_first_and_say_what_they_measure() -> None:
    cases = [case for case in CASES if case.severity != "error"][::9]
    checks, _ = judged(changed((case.old, case.new) for case in cases))
    assert [check.code for check in checks if (check.value is None) is bool(check.quantity)] == []
    # the worst of the failed before the others
    ranks = [("error", "warning", "note").index(check.severity) for check in checks if not check.ok]
    assert len(ranks) > len(cases) / 2
    assert ranks == sorted(ranks)
    assert [check.ok for check in checks] == sorted(check.ok for check in checks)


def test_the_demo_passes_what_the_changes_provoke() -> None:
    checks, _ = judged(BASE)
    for case in CASES:
        ok = {check.ok for check in checks if check.code == case.code and check.where == case.where}
        assert ok <= ({False} if not case.old else {True}), case


def test_no_check_is_unprovoked() -> None:
    provoked = (
        {case.code for case in CASES}
        | CODES_PROVOKED
        | CODES_OF_TIMBER
        | CODES_OF_BOLTS
        | CODES_OF_SCREWS
        | CODES_OF_FLOATING
        | CODES_JOINED
        | CODES_OF_POCKETS
        | CODES_OF_BRIDLES
        | CODES_OF_GLUE
        | CODES_OF_LAPS
    )
    assert {law.code for law in LAWS} - provoked == set()


#: What a warning says of every bench of this size: how many drawers may be open, what the wheels and people carry.
WARNED = ["drawers-open", "caster-in-the-air", "lift-weight"]


def test_the_demo_has_no_error_and_warns_of_what_can_hurt() -> None:
    assert BASE != DEMO
    _, findings = judged(DEMO)
    assert [finding.code for finding in findings if finding.severity > Severity.NOTE] == WARNED
    assert {finding.severity for finding in findings} == {Severity.NOTE, Severity.WARNING}
    assert [finding.code for finding in findings] == [
        "drawers-open",
        "caster-in-the-air",
        "lift-weight",
        "key-crosses-screw",
        "pull-missing",
        "sway",
        "sway",
        "door-bench",
        "pocket-footprint",
        "top-brackets",
        "nuts-preload",
    ]


@pytest.mark.parametrize(
    ("name", "warned"),
    [
        ("starter", [WARNED[0], "tips-under-load"]),
        ("wall-bench", [*WARNED[:2], "tips-under-load", WARNED[2], *3 * ["sag-top-bar"]]),
    ],
)
def test_no_shipped_spec_has_an_error(name: str, warned: list[str]) -> None:
    loaded = read_spec_file(SPECS / f"{name}.yml")
    _, findings = compute(solve(loaded))
    assert [finding.code for finding in findings if finding.severity > Severity.NOTE] == warned
    assert {finding.severity for finding in findings} == {Severity.NOTE, Severity.WARNING}


def test_without_screws_across_no_key_is_crossed() -> None:
    joints = "long_rails_to_corner_posts: end-clip, inner_post_tops: end-clip"
    text = BASE.replace("long_rails_to_corner_posts: through-screw, inner_post_tops: through-screw", joints)
    assert "key-crosses-screw" not in codes(text)
