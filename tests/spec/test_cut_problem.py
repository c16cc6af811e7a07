"""A cutting problem alone: short and long form, YAML and JSON, and every fault at once with its place."""

import json
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest

from generator.calculators.cutting.core import budget_for
from generator.figures.cut_solution import plan_problem, solution_data, solve_problem
from generator.findings import SpecError
from generator.spec.cut_problem import read_cut_problem
from generator.writers.cuts_text import cuts_text

DATA = Path(__file__).resolve().parents[1] / "data"
BARS = "name: trial\nstock: [[6000, 54, null]]\nkerf: 4\ntrim: 10\npieces: [[1920, 4], [820, 12]]\n"

SHEETS = "name: trial\nsheets: [[2440, 1220]]\nkerf: 3\ntrim: 10\npieces: [[700, 400, 6], [500, 300, 7]]\n"


def codes(text: str) -> list[str]:
    with pytest.raises(SpecError) as caught:
        read_cut_problem(text, "problem.yml")
    assert all(finding.where and finding.where.file == "problem.yml" for finding in caught.value.findings)
    return [finding.code for finding in caught.value.findings]


def test_short_form_long_form_and_json_say_the_same() -> None:
    long = (
        "name: trial\nstock: [{length: 6000, price: 54}]\nkerf: 4\ntrim: 10\n"
        "pieces: [{length: 1920, count: 4}, {length: 820, count: 12}]\n"
    )
    data = {
        "name": "trial",
        "stock": [[6000, 54, None]],
        "kerf": 4,
        "trim": 10,
        "pieces": [[1920, 4], [820, 12]],
    }
    plans = [
        solve_problem(read_cut_problem(text, "problem.yml"), budget_for(1))
        for text in (BARS, long, json.dumps(data))
    ]
    assert plans[0] == plans[1] == plans[2]
    assert plans[0]["proved"]
    assert sorted(piece for bar in plans[0]["bars"] for piece in bar["pieces"]) == [820] * 12 + [1920] * 4


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (BARS.replace("kerf", "kref"), ["unknown-key"]),
        (BARS.replace("[[6000, 54, null]]", "[]"), ["too-few"]),
        (BARS.replace("[1920, 4]", "[1920, 4, a, b, c]"), ["not-an-entry"]),
        (BARS.replace("[1920, 4]", "1920"), ["not-an-entry"]),
        (BARS.replace("[1920, 4]", "{count: 4}"), ["missing-key"]),
        (BARS.replace("1920", "long"), ["bad-length"]),
        (BARS.replace("1920", "-5"), ["bad-length"]),
        (BARS.replace("[1920, 4]", "[1920, 1.5]"), ["bad-number"]),
        (BARS.replace("54", "cheap"), ["bad-number"]),
        (BARS.replace("54", "0"), ["bad-number"]),
        (BARS + "sheets: [[2440, 1220, 1, null]]\n", ["two-kinds"]),
        (BARS.replace("stock: [[6000, 54, null]]\n", ""), ["missing-key"]),
        (BARS + "units: furlong\n", ["not-a-choice"]),
        (BARS.replace("1920", "long").replace("54", "cheap"), ["bad-length", "bad-number"]),
        (BARS + "stages: 3\n", ["not-for-bars"]),
        (SHEETS + "stages: 1\n", ["bad-number"]),
        (BARS + "least_feed: 200\nshop_rules: no\n", ["not-for-bars", "not-for-bars"]),
        (
            SHEETS + "stages: many\nleast_feed: -1\nshop_rules: perhaps\n",
            ["bad-length", "bad-number", "not-a-choice"],
        ),
        (SHEETS + "break_down: 1300\n", ["missing-key"]),
        (SHEETS + "break_down: {max_lenght: 1300}\n", ["missing-key", "unknown-key"]),
        (SHEETS + "break_down: {max_length: 0, allowance: -1}\n", ["bad-length", "bad-length"]),
    ],
)
def test_each_fault_is_told_with_its_place(text: str, found: list[str]) -> None:
    assert sorted(codes(text)) == sorted(found)


@pytest.mark.parametrize(
    ("text", "advised"),
    [
        ("", ["`stock: [[2440]]`", "`pieces: [[600, 4]]`", "cuts --help"]),
        ("stock: [[2440]]\n", ["`pieces: [[600, 4]]`"]),
        ("sheets: [[2440, 1220]]\n", ["`pieces: [[600, 300, 4]]`"]),
        ("stock: {length: 2440}\npieces: [[600, 4]]\n", ["`stock: [[2440]]`"]),
        ("pieces: [[600, 4]]\n", ["`stock: [[2440]]`", "`sheets: [[2440, 1220]]`"]),
    ],
)
def test_what_a_problem_lacks_is_said_by_the_smallest_example(text: str, advised: list[str]) -> None:
    with pytest.raises(SpecError) as caught:
        read_cut_problem(text, "problem.yml")
    (said,) = [finding.explained() for finding in caught.value.findings]
    assert [words for words in advised if words not in said] == []
    assert "bench-manual new" not in said and "default" not in said


def test_the_examples_are_a_problem() -> None:
    bars = read_cut_problem("stock: [[2440]]\npieces: [[600, 4]]\n", "problem.yml")
    sheets = read_cut_problem("sheets: [[2440, 1220]]\npieces: [[600, 300, 4]]\n", "problem.yml")
    assert "1 bar, cost 1: proved" in cuts_text(bars, plan_problem(bars, budget_for(0.2)))
    assert "1 sheet, cost 1: proved" in cuts_text(sheets, plan_problem(sheets, budget_for(0.2)))


@pytest.mark.parametrize("name", ["shop-bars.json", "shop-sheets.json"])
def test_shop_problems_are_never_planned_below_their_bound_nor_twice_alike(name: str) -> None:
    for problem in json.loads((DATA / name).read_text())[:4]:
        keys = ("name", "stock", "sheets", "kerf", "trim", "pieces")
        text = json.dumps({key: problem[key] for key in keys if key in problem})
        first, again = (
            solve_problem(read_cut_problem(text, "problem.json"), budget_for(0.5)) for _ in range(2)
        )
        assert first == again
        assert first["bound"] <= first["cost"]
        assert first["cost"] >= problem["bound"]


def test_rules_of_the_shop_hold_unless_they_are_left_out() -> None:
    """Two 597s of 1200 fit only when the second is what is left over."""
    two = "sheets: [[1200, 600]]\nkerf: 3\npieces: [[597, 590, 2]]\n"
    usual, free = (
        solve_problem(read_cut_problem(text, "problem.yml"), budget_for(0.3))
        for text in (two, two + "shop_rules: no\nstages: free\n")
    )
    assert (usual["cost"], usual["rules"]["kept"], usual["rules"]["cost_when_kept"]) == (1, False, 2)
    assert usual["rules"]["leftover_edges"] + usual["rules"]["slivers"] > 0
    assert (free["cost"], "rules" in free) == (1, False)
    read = read_cut_problem(SHEETS + "least_feed: 8 in\n", "problem.yml")
    assert read.rules is not None
    assert (read.stages, read.rules.least_feed) == (3, 8 * Fraction("25.4"))


def test_the_table_says_what_a_plan_within_the_rules_costs() -> None:
    for text, words in (
        ("sheets: [[1200, 600]]\nkerf: 3\npieces: [[597, 590, 2]]\n", "note: a plan without these costs 2"),
        (SHEETS, "every finished edge has its own cut at the fence"),
    ):
        problem = read_cut_problem(text, "problem.yml")
        plan = plan_problem(problem, budget_for(0.3))
        assert words in cuts_text(problem, plan)


def test_pieces_bear_their_names_and_equal_ones_stay_apart() -> None:
    bars = "stock: [[2000]]\npieces: [[600, 2, '', rail], {length: 600, count: 1, name: stile}]\n"
    two = "[[400, 300, 1, 1, door], {width: 400, height: 300, name: shelf}]"
    sheets = f"sheets: [[1000, 700]]\nkerf: 3\npieces: {two}\n"
    problem = read_cut_problem(bars, "problem.yml")
    data = solve_problem(problem, budget_for(0.2))
    assert [sorted(bar["names"]) for bar in data["bars"]] == [["rail", "rail", "stile"]]
    assert '600 "rail" | 600 "rail" | 600 "stile"' in cuts_text(
        problem, plan_problem(problem, budget_for(0.2))
    )
    problem = read_cut_problem(sheets, "problem.yml")
    data = solve_problem(problem, budget_for(0.2))
    assert sorted(piece["name"] for sheet in data["sheets"] for piece in sheet["pieces"]) == ["door", "shelf"]
    text = cuts_text(problem, plan_problem(problem, budget_for(0.2)))
    assert text.count('"door"') == text.count('"shelf"') == 1


def test_cuts_come_stage_by_stage() -> None:
    """A sheet is turned once for each stage, not for each strip."""
    pieces = "[[700, 400, 6], [500, 300, 7], [220, 330, 9, 1]]"
    text = f"sheets: [[2440, 1220]]\nkerf: 3\ntrim: 10\npieces: {pieces}\n"
    for sheet in solve_problem(read_cut_problem(text, "problem.yml"), budget_for(0.3))["sheets"]:
        stages = [cut["stage"] for cut in sheet["cuts"]]
        turns = [cut["axis"] for cut in sheet["cuts"]]
        assert stages == sorted(stages)
        assert sum(one != two for one, two in pairwise(turns)) == max(stages) - 1


def test_one_setting_of_the_fence_serves_all_sheets() -> None:
    """Two sheets are cut alike: all settings of the second are those of the first."""
    text = "sheets: [[1000, 700]]\nkerf: 3\ntrim: 10\npieces: [[700, 400, 2]]\n"
    problem = read_cut_problem(text, "problem.yml")
    plan = plan_problem(problem, budget_for(0.2))
    data = solution_data(problem, plan)
    cuts = {
        (n, at): cut for n, sheet in enumerate(data["sheets"], 1) for at, cut in enumerate(sheet["cuts"], 1)
    }
    made = [
        (each["setting"], part["sheet"], number)
        for each in data["fences"]
        for part in each["cuts"]
        for number in part["cuts"]
    ]
    assert sorted(made) == sorted((cut["setting"], *place) for place, cut in cuts.items())
    order = [place for _, *place in made]
    for (sheet, at), cut in cuts.items():
        assert not cut["of_cut"] or order.index([sheet, cut["of_cut"]]) < order.index([sheet, at])
    counts = data["fence_settings"]
    assert (counts["all_sheets"], counts["sheet_by_sheet"], len(data["fences"])) == (2, 4, 2)
    text = cuts_text(problem, plan)
    assert "2 settings of the fence for all sheets; sheet by sheet it takes 4" in text
    assert "cut 1: level, fence 400, through 980 x 680, the whole sheet" in text
    assert "cut 2: upright, fence 700, through 980 x 400, near part of cut 1" in text
    assert "  1. fence 400: sheet 1 cut 1; sheet 2 cut 1" in text


def test_a_sheet_problem_keeps_its_stages_and_is_broken_down() -> None:
    text = SHEETS + "stages: 2\nbreak_down: {max_length: 1300, allowance: 5}\n"
    plan = solve_problem(read_cut_problem(text, "problem.yml"), budget_for(0.3))
    cuts = [cut for sheet in plan["sheets"] for cut in sheet["cuts"]]
    assert {cut["stage"] for cut in cuts} == {1, 2}
    by_track = [cut for cut in cuts if cut["tool"] == "track saw"]
    # 2420 between the trimmed edges is cut once across, nothing else is longer than 1300
    assert [(cut["axis"], cut["from"], cut["to"]) for cut in by_track] == [("x", 10, 1210)] * 2
