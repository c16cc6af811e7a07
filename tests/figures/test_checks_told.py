"""What a check must tell, and what it must not tell beside its cause."""

from __future__ import annotations

import pytest

from generator.figures.checks.judge import LAWS
from generator.findings import Severity, SpecError
from tests.changes_of_the_demo import BASE, SPECS
from tests.test_checks import codes, judged

# --- what must be told


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(BASE.replace("depth: 900", "depth: 1300"), id="a top of 2000 x 1300 from 2440 x 1220"),
        pytest.param(
            BASE + "extra: {panels: [{name: cover, at: [0, 0, 900], size: [1500, 1300, 12]}]}\n",
            id="a panel of 1500 x 1300 beside a longer one that fits",
        ),
    ],
)
def test_a_board_wider_than_every_sheet_is_told(text: str) -> None:
    told = [each for each in judged(text)[0] if each.code == "longer-than-stock" and not each.ok]
    # its width is what no sheet has, and the sheet has 1220 less two trimmed edges of 10
    assert (1300, 1200) in [(each.value, each.limit) for each in told]


def test_a_board_across_the_grain_names_the_side_that_is_too_long() -> None:
    text = BASE.replace("{length: 2440, width: 1220, price: 75}", "{length: 1220, width: 2440, price: 75}")
    (check,) = (each for each in judged(text)[0] if each.code == "longer-than-stock" and not each.ok)
    # the tray is 1940 long, and 20 go in trimmed edges
    assert check.where == "PAN, along the grain" and (check.value, check.limit) == (1960, 1220)


def test_a_bench_longer_than_the_standard_has_tolerances_for_is_judged() -> None:
    """ISO 2768-1, Table 1, ends at 4000 mm."""
    text = BASE.replace("length: 2000, depth: 900", "length: 4400, depth: 900")
    assert "longer-than-stock" in codes(text)


@pytest.mark.parametrize(
    "stack",
    [
        pytest.param("[{shelf: 288}, {shelf: 290}]", id="two boards in one place"),
        pytest.param("[{shelf: 288}, {drawer: share}]", id="a board through a drawer"),
    ],
)
def test_things_in_one_bay_that_overlap_are_told(stack: str) -> None:
    """Not by the demo's other codes for a drawer in a shallow zone: the front zone is deep enough."""
    drawers = "F1, width: share, stack: [{drawer: 165}, {drawer: 130}, {drawer: 107}, {drawer: 80}]"
    try:
        _, findings = judged(BASE.replace(drawers, f"F1, width: share, stack: {stack}"))
    except SpecError as error:
        findings = error.findings
    told = [f for f in findings if f.where and f.where.path.startswith("zones[0].bays[0]")]
    assert [finding.code for finding in told] != []


def test_a_fixed_width_is_no_uneven_share() -> None:
    text = BASE.replace("F1, width: share", "F1, width: 499.95").replace(
        "F2, width: 400", "F2, width: 400.05"
    )
    _, findings = judged(text)
    assert [finding for finding in findings if finding.code == "uneven-share"] == []


# --- causes before consequences


def errors(text: str) -> list[str]:
    return [finding.code for finding in judged(text)[1] if finding.severity == Severity.ERROR]


def test_what_rests_on_wrong_goods_is_not_told_beside_them() -> None:
    """A head that is too high for the slot stands in posts and panels, and nothing goes together: one fault."""
    text = BASE.replace("head_height: 4.4", "head_height: 9")
    assert errors(text) == ["clip-stack"]
    (finding,) = (each for each in judged(text)[1] if each.code == "clip-stack")
    assert "other failed checks rest on it" in finding.advice


def test_what_rests_on_nothing_wrong_is_told_all_the_same() -> None:
    """Two bars in one place are told beside a clip that is wrong; without the clip's fault nothing else changes."""
    guard = "extra: {members: [{name: guard, along: x, at: [500, 20, 0], length: 120}]}\n"
    wrong = BASE.replace("head_height: 4.4", "head_height: 9") + guard
    assert {"clip-stack", "overlap"} <= set(errors(wrong))
    assert set(errors(wrong)) - {"clip-stack"} <= set(errors(BASE + guard))


def test_the_bar_of_other_goods_says_what_does_not_suit() -> None:
    """A bar of 30 under the goods of one of 40: no two parts "in one place", only what is bought wrongly."""
    text = (SPECS / "starter.yml").read_text(encoding="utf-8").replace("profile 40", "profile 30")
    assert not {"overlap", "screws-meet", "order-blocked", "key-line-blocked"} & set(errors(text))


def test_every_check_says_why_it_matters() -> None:
    missing = sorted(law.code for law in LAWS if not law.why)
    assert not missing, f"say why it matters, in the law: {', '.join(missing)}"
