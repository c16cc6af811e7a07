"""The store of off-cuts: it is taken from first, and changed only when the plan is cut and the store is the same."""

import json
import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.cli import main
from generator.findings import SpecError
from generator.offcut_file import StoreChangedError, write_back
from generator.spec.cut_material import CutMaterial
from generator.spec.offcut_store import OffcutStore, StoredOffcut, read_store, store_text

Said = pytest.CaptureFixture[str]

BAR = "stock: [[6000, 54]]\nmaterial: {name: bar, section: 40}\nkerf: 4\ntrim: 10\n"
PLY = "sheets: [[2440, 1220, 75]]\nmaterial: {name: ply, thickness: 12}\nkerf: 3\ntrim: 10\n"
STORE = """# the rack behind the saw
units: mm
offcuts:
- {material: {name: bar, section: 40}, length: 2000, count: 2, lot: May}
- {material: {name: ply, thickness: 12}, length: 1000, width: 600}
- {material: {name: ply, thickness: 18}, length: 1100, width: 800}
"""


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.chdir(tmp_path)
    Path("store.yml").write_text(STORE)
    yield


def run(said: Said, *arguments: str) -> tuple[int, str, str]:
    status = main(["cuts", *arguments, "--store", "store.yml", "--seconds", "0.2"])
    out = said.readouterr()
    return status, out.out, out.err


def plan(said: Said, **texts: str) -> dict[str, Any]:
    for name, text in texts.items():
        Path(f"{name}.yml").write_text(text)
    status, out, err = run(said, *(f"{name}.yml" for name in texts), "--json")
    assert status == 0, err
    return {**json.loads(out), "said": err}


def entries() -> list[tuple[str, Fraction, Fraction | None, int, str, str]]:
    store = read_store(Path("store.yml").read_text(), "store.yml")
    return [(e.material.name, e.length, e.width, e.count, e.lot, e.origin) for e in store.offcuts]


def test_a_plan_takes_off_cuts_first_and_what_is_left_goes_back_when_it_is_cut(capsys: Said) -> None:
    shown = plan(capsys, job=BAR + "pieces: [[1500, 1]]\n")
    assert shown["total"] == 0
    assert [(each["count"], each["from_store"]) for each in shown["shopping"]] == [(1, True)]
    assert shown["store"]["take"] == [{"material": "bar", "size": [2000], "count": 1, "origin": ""}]
    assert Path("store.yml").read_text() == STORE
    status, out, _ = run(capsys, "job.yml", "--cut", shown["store"]["mark"])
    assert (status, out) == (0, "Wrote store.yml: 1 off-cut taken, 1 added\n")
    assert entries() == [
        ("bar", 2000, None, 1, "May", ""),
        ("ply", 1000, 600, 1, "", ""),
        ("ply", 1100, 800, 1, "", ""),
        # 1980 between the trimmed ends, the piece and its cut
        ("bar", 1980 - 1500 - 4, None, 1, "May", f"job {date.today().isoformat()}"),
    ]
    assert Path("store.yml").read_text().startswith("# the rack behind the saw\n")


def test_what_is_smaller_than_the_least_off_cut_does_not_go_back(capsys: Said) -> None:
    small = "least_offcut: 500\npieces: [[1500, 1]]\n"
    assert plan(capsys, job=BAR + small)["store"]["keep"] == []
    board = "least_offcut: [500, 400]\npieces: [[980, 70, 1]]\n"
    kept = plan(capsys, job=PLY + board)["store"]["keep"]
    assert [each["size"] for each in kept] == [[980, 580 - 70 - 3]]


def test_a_sheet_is_told_by_its_thickness_and_keeps_its_grain(capsys: Said) -> None:
    along = plan(capsys, job=PLY + "pieces: [[900, 500, 1]]\n")
    assert along["store"]["take"] == [{"material": "ply", "size": [1000, 600], "count": 1, "origin": ""}]
    # the other off-cut of this name is 18 mm
    assert (
        "off-cuts of `ply` in the store are not used for job: 18 mm sheet, must be 12 mm sheet"
        in along["said"]
    )
    assert re.findall(r"\[([a-z-]+)\]$", along["said"], re.M) == ["offcut-not-used"]
    # 500 along the grain and 900 across: only a piece that may turn fits 1000 x 600
    across = plan(capsys, job=PLY + "pieces: [[500, 900, 1]]\n")
    turned = plan(capsys, job=PLY + "pieces: [[500, 900, 1, 1]]\n")
    assert (across["total"], turned["total"]) == (75, 0)
    thin = plan(capsys, job=PLY.replace("12}", "11.8}") + "pieces: [[900, 500, 1]]\n")
    assert (thin["total"], thin["store"]["take"]) == (75, [])


def test_two_plans_of_one_run_do_not_take_the_same_off_cut(capsys: Said) -> None:
    pieces = "pieces: [[900, 500, 1]]\n"
    both = plan(capsys, one=PLY + pieces, two=PLY.replace("75", "70") + pieces)
    assert [each["count"] for each in both["store"]["take"]] == [1]
    assert both["total"] == 70


@pytest.mark.parametrize("change", ["store", "problem"])
def test_a_plan_that_is_not_the_one_that_was_cut_is_refused(change: str, capsys: Said) -> None:
    shown = plan(capsys, job=BAR + "pieces: [[1500, 1]]\n")
    if change == "store":
        Path("store.yml").write_text(STORE.replace("count: 2", "count: 1"))
        words = "store.yml is not what it was when this plan was made"
    else:
        Path("job.yml").write_text(BAR + "pieces: [[1501, 1]]\n")
        words = "this is not the plan with the mark"
    before = Path("store.yml").read_text()
    status, _, err = run(capsys, "job.yml", "--cut", shown["store"]["mark"])
    assert (status, Path("store.yml").read_text()) == (2, before)
    assert words in err


def test_of_two_writers_one_writes_and_the_other_is_refused() -> None:
    store = read_store(STORE, "store.yml")

    def cut(origin: str) -> bool:
        new = store.after(
            (1, 0, 0), [StoredOffcut(store.offcuts[0].material, Fraction(300), None, 1, "", origin)]
        )
        try:
            write_back(Path("store.yml"), STORE, new, lambda: None)
        except StoreChangedError:
            return False
        return True

    with ThreadPoolExecutor(8) as pool:
        written = list(pool.map(cut, "abcdefgh"))
    assert written.count(True) == 1
    assert [each[-1] for each in entries() if each[1] == 300] == ["abcdefgh"[written.index(True)]]
    assert sorted(path.name for path in Path().iterdir()) == ["store.yml"]


def test_a_store_is_written_whole_or_not_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    def full(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(OSError, match="No space left"):
        write_back(Path("store.yml"), STORE, OffcutStore(), lambda: None)
    assert Path("store.yml").read_text() == STORE
    assert sorted(path.name for path in Path().iterdir()) == ["store.yml"]


def test_a_store_need_not_exist_and_its_faults_are_told_with_those_of_the_files(capsys: Said) -> None:
    Path("store.yml").unlink()
    shown = plan(capsys, job=BAR + "pieces: [[5000, 1]]\n")
    assert run(capsys, "job.yml", "--cut", shown["store"]["mark"])[0] == 0
    assert [each[:2] for each in entries()] == [("bar", 976)]
    Path("store.yml").write_text("offcuts:\n- {material: {name: ply}, length: 900, width: 5oo}\n")
    Path("job.yml").write_text(BAR.replace("kerf: 4", "kerf: four") + "pieces: [[500]]\n")
    status, _, err = run(capsys, "job.yml")
    assert (status, re.findall(r"^(\w+\.yml:\d+:\d+): error", err, re.M)) == (
        2,
        ["job.yml:3:7", "store.yml:2:14", "store.yml:2:47"],
    )


def test_cut_without_a_store_is_refused(capsys: Said) -> None:
    Path("job.yml").write_text(BAR + "pieces: [[500]]\n")
    assert main(["cuts", "job.yml", "--cut", "a-b"]) == 2
    assert "--cut needs --store" in capsys.readouterr().err


LENGTHS = st.fractions(Fraction(1), Fraction(4000), max_denominator=9999)
WORDS = st.text(st.characters(exclude_categories=["C", "Z"]), max_size=6)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(["mm", "in"]), LENGTHS, st.none() | LENGTHS, LENGTHS, st.integers(1, 99), WORDS, WORDS)
def test_a_store_is_read_as_it_was_written_to_the_last_bit(
    units: str, length: Fraction, width: Fraction | None, side: Fraction, count: int, lot: str, origin: str
) -> None:
    kind, sides = ("sheet", (side,)) if width else ("strip", (side, side + 1))
    material = CutMaterial(f"{origin}x", kind, sides)
    store = OffcutStore(units, (StoredOffcut(material, length, width, count, lot, origin),))
    assert read_store(store_text(store), "store.yml") == store
    assert read_store(store_text(store.after((count,), ())), "store.yml").offcuts == ()


def test_a_store_of_remarks_alone_is_empty_and_one_of_other_things_is_told_how_it_begins() -> None:
    store = read_store("# shelf by the door\n", "store.yml")
    assert (store.offcuts, store.head) == ((), ("# shelf by the door",))
    with pytest.raises(SpecError) as caught:
        read_store("[]", "store.yml")
    (found,) = caught.value.findings
    assert "the line `offcuts: []`" in found.advice
