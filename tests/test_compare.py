"""Comparing two benches: nothing for the same, everything for another, and what a cut piece needs."""

from __future__ import annotations

import json
import subprocess
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compare import apply, compare, pieces, touched
from generator.figures.comparison import Comparison, PartChange
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.manual import compile_loaded
from generator.resources import bundled
from generator.spec.load import RecordText, read_spec
from tests.strategies import Plan, plans, spec_text

pytestmark = pytest.mark.usefixtures("quick_plans")

DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
few = settings(max_examples=4, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@cache
def figures(text: str = DEMO, record: str = "") -> Figures:
    loaded = read_spec(text, "demo.yml", RecordText(record, "demo.record.yml") if record else None)
    return compute(solve(loaded))[0]


def demo_with(old: str, new: str) -> str:
    assert DEMO.count(old) == 1, old
    return DEMO.replace(old, new)


def of(changed: Comparison, mark: str) -> PartChange:
    return next(each for each in changed.parts if each.mark == mark)


# --- laws


@few
@given(plans())
def test_a_bench_does_not_differ_from_itself(plan: Plan) -> None:
    text = spec_text(plan)
    one, other = (compute(solve(each))[0] for each in (read_spec(text, "a.yml"), read_spec(text, "b.yml")))
    assert compare(one, other).is_empty


@few
@given(plans(), plans())
def test_the_list_of_changes_leads_from_the_old_pieces_to_the_new_ones(one: Plan, other: Plan) -> None:
    old, new = (figures(spec_text(plan)) for plan in (one, other))
    forth, back = compare(old, new), compare(new, old)
    assert apply(forth.parts, pieces(old)) == pieces(new)
    assert apply(back.parts, pieces(new)) == pieces(old)
    marks = [each.mark for each in forth.parts]
    assert len(marks) == len(set(marks))
    assert {each.mark for each in back.parts} == set(marks)


def test_other_words_and_other_units_are_no_difference() -> None:
    commented = DEMO.replace("units: mm", "units: mm   # as the tape has it").replace(
        "height: 880", "height: 88 cm"
    )
    assert compare(figures(), figures(commented)).is_empty


# --- what a cut piece needs


def test_a_longer_bench_needs_new_long_parts_and_leaves_the_cross_members() -> None:
    changed = compare(figures(), figures(demo_with("length: 2000, depth: 900", "length: 2010, depth: 900")))
    rail = of(changed, "B1")
    assert (rail.how, rail.recut) == ("new piece", True)
    (length,) = [each for each in rail.fields if each.what == "length"]
    assert (length.old, length.new) == (1920, 1930)
    assert of(changed, "C2").how == "nothing"  # it only lies elsewhere
    assert {"B1", "B2", "B3", "B4", "PAN", "TOP"} <= touched(changed)
    assert not {"A1", "C1", "C2", "FD1", "SP2"} & touched(changed)
    assert ("bays", "F1") in {(row.section, row.key) for row in changed.rows}


def test_a_shorter_bench_trims_what_has_no_hole_that_moves() -> None:
    changed = compare(figures(), figures(demo_with("length: 2000, depth: 900", "length: 1990, depth: 900")))
    assert of(changed, "SP1").how == "trim"
    assert not of(changed, "SP1").recut
    assert of(changed, "B1").recut  # its holes are somewhere else


@pytest.mark.parametrize(
    ("new", "how"),
    [("groove_clearance: 0.3", "rework"), ("groove_clearance: 0.1", "new piece")],
)
def test_a_rabbet_can_be_cut_deeper_and_not_shallower(new: str, how: str) -> None:
    changed = compare(figures(), figures(demo_with("groove_clearance: 0.2", new)))
    assert of(changed, "FD1").how == how


def test_a_hole_can_be_made_larger_and_not_smaller() -> None:
    for size, how in (("9", "rework"), ("7", "new piece")):
        changed = compare(figures(), figures(demo_with("access_hole: 8", f"access_hole: {size}")))
        assert of(changed, "B1").how == how


def test_added_and_removed_pieces_are_named() -> None:
    changed = compare(figures(), figures(demo_with("count: 6, plate", "count: 4, plate")))
    assert {(each.mark, each.change, each.recut) for each in changed.parts if each.change != "changed"} == {
        ("CP5", "removed", False),
        ("CP6", "removed", False),
    }
    back = compare(figures(demo_with("count: 6, plate", "count: 4, plate")), figures())
    assert {(each.change, each.recut) for each in back.parts if each.mark in ("CP5", "CP6")} == {
        ("added", True)
    }


def test_stock_and_cost_are_compared() -> None:
    changed = compare(
        figures(),
        figures(demo_with("stock: [{length: 6000, price: 54}]", "stock: [{length: 6000, price: 60}]")),
    )
    (bars,) = changed.stock
    assert (bars.material, bars.old_count, bars.new_count) == ("bar", 5, 5)
    assert (bars.old_cost, bars.new_cost) == (5 * 54, 5 * 60)
    assert changed.parts == ()


def test_checks_that_begin_to_fail_are_named() -> None:
    weak = demo_with("rating: 180 kg", "rating: 100 kg")
    assert "caster-rating" in [check.code for check in compare(figures(), figures(weak)).failing]
    assert "caster-rating" in [check.code for check in compare(figures(weak), figures()).mended]


def test_pieces_that_are_cut_already_say_so() -> None:
    longer = demo_with("length: 2000, depth: 900", "length: 2010, depth: 900")
    changed = compare(figures(), figures(longer, "- {date: 2026-11-03, cut: {mark: B1, size: 1920}}\n"))
    assert (of(changed, "B1").state, of(changed, "B2").state) == ("cut", "to cut")


# --- the command


def write(folder: Path, name: str, text: str) -> str:
    (folder / name).write_text(text, encoding="utf-8")
    return str(folder / name)


def test_compare_prints_text_and_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    one = write(tmp_path, "one.yml", DEMO)
    two = write(tmp_path, "two.yml", demo_with("length: 2000, depth: 900", "length: 2010, depth: 900"))
    assert main(["compare", one, two]) == 0
    said = capsys.readouterr().out
    assert "Recut" in said
    assert "SP1, SP4 spine panel: length 520 -> 525 (+5)" in said
    assert main(["compare", one, two, "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["empty"] is False
    rail = next(part for part in data["parts"] if part["mark"] == "B1")
    assert {"what": "length", "old": 1920, "new": 1930} in rail["fields"]
    assert main(["compare", one, one]) == 0
    assert "Nothing differs." in capsys.readouterr().out


def git(folder: Path, *words: str) -> None:
    who = ["-c", "user.name=Mara", "-c", "user.email=mara@example.org"]
    subprocess.run(["git", "-C", str(folder), *who, *words], check=True, capture_output=True)


def test_a_spec_is_compared_with_its_own_past(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = tmp_path / "benches"
    folder.mkdir()
    spec = write(folder, "mine.yml", DEMO)
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-qm", "first")
    write(folder, "mine.yml", demo_with("groove_clearance: 0.2", "groove_clearance: 0.3"))
    write(folder, "mine.record.yml", "- {date: 2026-11-03, note: x}\n")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-qm", "second")
    assert main(["compare", spec, "--rev", "HEAD"]) == 0
    assert "Nothing differs." in capsys.readouterr().out
    assert main(["compare", spec, "--rev", "HEAD~1"]) == 0
    assert "Rework" in capsys.readouterr().out
    for rev, said in (("HEAD~9", "HEAD~9"), ("--output=x", "not a revision"), ("HEAD:x", "not a revision")):
        assert main(["compare", spec, f"--rev={rev}"]) == 2
        assert said in capsys.readouterr().err


def test_compare_needs_two_of_something(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spec = write(tmp_path, "mine.yml", DEMO)
    assert main(["compare", spec]) == 2
    assert main(["compare", spec, spec, "--rev", "HEAD"]) == 2
    assert main(["compare", spec, "--rev", "HEAD"]) == 2  # no repository
    assert "Traceback" not in capsys.readouterr().err


def test_a_manual_against_an_earlier_issue_has_bars_and_a_table() -> None:
    longer = demo_with("length: 2000, depth: 900", "length: 2010, depth: 900").replace(
        "number: B", "number: C"
    )
    old, new = read_spec(DEMO, "demo.yml"), read_spec(longer, "demo.yml")
    files, _ = compile_loaded(new, "demo.yml", against=old)
    page, cuts = (files[f"docs/{name}.md"].decode() for name in ("revisions", "cut-list"))
    assert old.checksum in page
    assert "superseded" in page
    assert "Changed since revision B" in page
    bars = [line for line in cuts.splitlines() if "bm-changed" in line]
    assert any("#part-b1)" in line for line in bars)
    assert not any("#part-c1)" in line for line in bars)
