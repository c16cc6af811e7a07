"""Several benches and cutting problems in one plan: what they share, what they do not, and every fault at once."""

import json
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.cutting.core import budget_for
from generator.cli import main
from generator.figures.combined_cuts import plan_combined, shared_materials
from generator.figures.cut_demands import problem_demand
from generator.resources import bundled
from generator.spec.cut_problem import read_cut_problem

Said = pytest.CaptureFixture[str]

BAR = "stock: [[6000, 54]]\nmaterial: {name: bar, section: 40}\nkerf: 4\ntrim: 10\n"
PLY = "sheets: [[2440, 1220, 75]]\nmaterial: {name: ply, thickness: 12}\nkerf: 3\ntrim: 10\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.chdir(tmp_path)
    yield


def written(**texts: str) -> list[str]:
    for name, text in texts.items():
        Path(f"{name}.yml").write_text(text)
    return [f"{name}.yml" for name in texts]


def codes(said: str) -> list[str]:
    return re.findall(r"\[([a-z-]+)\]$", said, re.M)


def planned(files: list[str], said: Said) -> tuple[dict[str, Any], str]:
    assert main(["cuts", *files, "--json", "--seconds", "0.2"]) == 0
    out = said.readouterr()
    return json.loads(out.out), out.err


def test_two_files_share_the_bars_of_one_material_and_its_pieces_bear_their_file(capsys: Said) -> None:
    files = written(
        shelf=BAR + "pieces: [[2900, 1, '', rail]]\n", rack=BAR + "pieces: [[2900, 1], [80, 2]]\n"
    )
    plan, said = planned(files, capsys)
    (material,) = plan["materials"]
    assert (said, material["cost"], material["files"]) == ("", 54, ["shelf", "rack"])
    (bar,) = material["bars"]
    assert bar["names"] == ["shelf rail", "rack", "rack", "rack"]
    # 5960 mm of pieces, three cuts between them, and 16 mm left of the 5980 between the trimmed ends
    assert bar["offcut"] == 6000 - 2 * 10 - (2 * 2900 + 2 * 80) - 4 * 4
    (line,) = plan["shopping"]
    assert (line["item"], line["size"]) == ("40 mm profile (bar)", [6000])
    assert (line["count"], line["price"], line["cost"], line["on_hand"]) == (1, 54, 54, False)
    assert plan["total"] == 54


def test_a_bench_shares_its_bars_with_another_and_with_a_problem(capsys: Said) -> None:
    demo = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    saw = "kerf: 4\ntrim: 10\npieces: [[725, 2, '', spare]]\n"
    files = written(
        one=demo, two=demo, spare="stock: [[6000, 54]]\nmaterial: {name: bar, section: 40}\n" + saw
    )
    plan, said = planned(files, capsys)
    assert "planned-apart" not in said
    bars = plan["materials"][0]
    names = Counter(name.split()[0] for bar in bars["bars"] for name in bar["names"])
    assert names == {"one": 29, "two": 29, "spare": 2}
    # each bench alone takes 5 bars, as its manual says
    assert (bars["cost"], bars["proved"]) == (9 * 54, True)
    for bar in bars["bars"]:
        used = sum(bar["pieces"]) + 4 * len(bar["pieces"])
        assert bar["offcut"] == max(0, 6000 - 2 * 10 - used)
    assert any(name.startswith("two DS") for each in plan["materials"] for name in each["waits"])
    # 6 mm and 18 mm sheets have no price: they are on the list, and not in the total
    unpriced = [line["item"] for line in plan["shopping"] if line["cost"] is None]
    assert "6 mm plywood (ply-6)" in unpriced
    assert plan["total"] == sum(line["cost"] or 0 for line in plan["shopping"])


@pytest.mark.parametrize(
    ("change", "differs"),
    [
        (("thickness: 12", "thickness: 11.8"), "thickness"),
        (("75", "70"), "price"),
        (("kerf: 3", "kerf: 3.2"), "kerf"),
        (("1220, 75", "1220, 75, 4"), "count"),
    ],
)
def test_one_name_for_two_materials_is_planned_apart_and_told(
    change: tuple[str, str], differs: str, capsys: Said
) -> None:
    pieces = "pieces: [[600, 400, 2, 1]]\n"
    plan, said = planned(written(one=PLY + pieces, two=PLY.replace(*change) + pieces), capsys)
    assert [each["files"] for each in plan["materials"]] == [["one"], ["two"]]
    assert f"`ply` of two is planned apart from that of one; they differ in {differs} [" in said
    assert codes(said) == ["planned-apart"]


def test_a_problem_that_does_not_say_its_material_is_planned_apart_and_told(capsys: Said) -> None:
    plain = "stock: [[6000, 54]]\nkerf: 4\ntrim: 10\npieces: [[500, 1]]\n"
    plan, said = planned(written(one=BAR + "pieces: [[500, 1]]\n", two=plain), capsys)
    assert len(plan["materials"]) == 2
    assert "two is planned apart, because it does not say its material [" in said
    assert codes(said) == ["planned-apart"]


def test_stock_with_a_count_is_there_once_for_all_files(capsys: Said) -> None:
    text = BAR.replace("[[6000, 54]]", "[[1000, 54, 1]]") + "pieces: [[900, 1]]\n"
    assert main(["cuts", *written(one=text, two=text)]) == 2
    assert "Add 1 more bar of 1000 mm." in capsys.readouterr().err


def test_faults_of_all_files_are_told_at_once_with_file_and_line(capsys: Said) -> None:
    demo = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    files = written(
        bench=demo.replace("end_trim", "endtrim"), rack=BAR.replace("kerf", "kref") + "pieces: [[500]]\n"
    )
    assert main(["cuts", *files, "gone.yml"]) == 2
    said = capsys.readouterr().err
    assert "saws.bar.endtrim" in said and "bench.yml:" in said
    assert "rack.yml:3:1: error: kref" in said
    assert "gone.yml" in said and "3 faults" in said


def test_shortages_of_all_materials_are_told_at_once_at_their_pieces(capsys: Said) -> None:
    files = written(one=BAR + "pieces: [[7000, 1, '', beam]]\n", two=PLY + "pieces: [[2500, 400, 1]]\n")
    assert main(["cuts", *files]) == 2
    said = capsys.readouterr().err
    assert 'one.yml:5:10: error: pieces[0]: the piece of 7000 mm "one beam"' in said
    assert "two.yml:5:10: error: pieces[0]: the piece of 2500 mm x 400 mm" in said


def test_a_material_of_a_bench_without_stock_is_told(capsys: Said) -> None:
    demo = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    bare = demo.replace("stock: [{length: 2000, price: 6}]", "stock: []")
    assert bare != demo
    plan, said = planned(written(bench=bare), capsys)
    assert "6 pieces of `angle-15` are not planned" in said
    assert "not-planned" in codes(said)
    assert not [each for each in plan["materials"] if "angle-15" in each["names"]]


@settings(max_examples=12, deadline=None)
@given(st.lists(st.tuples(st.integers(100, 1900), st.booleans()), min_size=2, max_size=9))
def test_pieces_of_two_files_are_all_cut_and_cost_no_more_than_apart(pieces: list[tuple[int, bool]]) -> None:
    def cost(groups: list[list[int]]) -> Any:
        demands = [
            problem_demand(
                f"f{at}", read_cut_problem(f"{BAR}pieces: {[[size] for size in group]}\n", "f.yml")
            )
            for at, group in enumerate(groups)
        ]
        materials, _ = shared_materials(demands)
        combined = plan_combined(materials, budget_for(0.3))
        (problem,) = [each.problem for each in materials]
        sizes = [problem.bar_pieces[at].length for bar in combined.plans[0].bars for at in bar.pieces]
        assert sorted(sizes) == sorted(size for group in groups for size in group)
        return combined.total

    both = [[size for size, first in pieces if first is side] for side in (True, False)]
    both = [group for group in both if group]
    assert cost(both) <= sum(cost([group]) for group in both)
