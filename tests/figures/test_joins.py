"""What a manual says of benches that are bolted together: rows, sticks, and the checks that need both benches."""

from __future__ import annotations

import io
import zipfile
from functools import cache
from pathlib import Path

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute, figures_of
from generator.figures.model import Figures
from generator.manual import compile_spec_file
from generator.spec.load import read_spec, read_spec_file
from generator.spec.neighbours import neighbour_files
from generator.spec.samples import sample_text
from tests.bench.benches import changed
from tests.bench.test_beside import JOINED

NAMES = ("long", "short", "wing")


@cache
def figures(name: str) -> Figures:
    return figures_of(read_spec_file(JOINED / f"{name}.yml"))[0]


def codes(spec: Path) -> set[str]:
    return {each.code for each in compute(solve(read_spec_file(spec)))[0].checks if not each.ok}


def with_change(folder: Path, name: str, *changes: tuple[str, str], other: str = "") -> Path:
    """The three specs in a folder, one of them changed; and where the `other` one begins at the long bench."""
    for each in NAMES:
        text = (JOINED / f"{each}.yml").read_text(encoding="utf-8")
        text = changed(text, *changes) if each == name else text
        text = changed(text, ("at: 75", other)) if other and each == "long" else text
        (folder / f"{each}.yml").write_text(text, encoding="utf-8")
    return folder / f"{name}.yml"


def test_both_manuals_say_the_same_of_their_joint() -> None:
    """The long bench is 1600, the other 1000, tops reach out by 20 and 30: 2650 in all, worked by hand."""
    (mine, _), (theirs,) = figures("long").joins, figures("short").joins
    assert (mine.side, theirs.side) == ("right", "left")
    assert mine.row_length == theirs.row_length == 2650
    assert mine.apart == theirs.apart == 50 and mine.gap == theirs.gap == 0
    assert (mine.datum, theirs.datum) == (True, False)
    assert [(each.from_corner, each.up, each.bolt) for each in mine.bolts] == [
        (each.from_corner, each.up, each.bolt) for each in theirs.bolts
    ]
    assert [(each.member, each.facing) for each in mine.bolts] == [
        (each.facing, each.member) for each in theirs.bolts
    ]


def test_the_stick_has_the_holes_of_the_part_sheet() -> None:
    for name in NAMES:
        rows = {row.mark: row for row in figures(name).parts}
        sticks = [each for each in figures(name).sticks if each.name.startswith("Join ")]
        assert sticks
        for stick in sticks:
            side = stick.name.split()[1]
            for mark in stick.lies_on.split(", "):
                own = sorted(
                    op.at[0] for op in rows[mark].operations if (op.op, op.face) == ("joining hole", side)
                )
                assert own == [each.at for each in stick.marks if each.kind == "centre"]
                assert stick.length == rows[mark].length


def test_the_step_comes_last_and_the_bolts_are_in_one_of_both_manuals() -> None:
    for name, bolts in (("long", 6), ("short", 0), ("wing", 4)):
        *_, last = figures(name).assembly.steps
        assert last.key == "join" and "join" in last.cautions
        assert sum(each.count for each in last.fixings if each.tool == "two spanners") == bolts
        goods = [row for row in figures(name).hardware if row.kind == "joining bolt"]
        assert sum(row.count for row in goods) == bolts


def test_benches_that_fit_have_no_finding_of_their_joint() -> None:
    for name in NAMES:
        failed = {each.code for each in figures(name).checks if not each.ok}
        assert not {code for code in failed if code.startswith("join-")}


def test_a_door_that_turns_into_the_other_bench_is_found(tmp_path: Path) -> None:
    """Its pin is at the right end of the wing: open, it is past the end and before the front, where the long one is."""
    spec = with_change(tmp_path, "wing", ("door: {hinge: left}", "door: {hinge: right}"), other="at: 500")
    assert "join-opens" in codes(spec)


def test_drawers_that_come_out_before_the_other_bench_are_found(tmp_path: Path) -> None:
    """The wing is before the drawers of the long bench: the overhang of 20 and a gap of 5 are left."""
    spec = with_change(tmp_path, "long", ("side: rear, at: 75", "side: front, at: 75"))
    found = compute(solve(read_spec_file(spec)))[0].checks
    (worst, *_) = [each for each in found if each.code == "join-opens" and not each.ok]
    assert worst.severity == "error" and worst.value == pytest.approx(25)


def test_what_opens_in_the_corner_of_an_l_is_noted(tmp_path: Path) -> None:
    """The wing at the long one's front looks to the right: its door opens before the right bay."""
    right = ("boxes, stack: [{shelf: 60}, {shelf: 300}]", "boxes, stack: [{drawer: share}]")
    spec = with_change(tmp_path, "long", ("side: rear, at: 75", "side: front, at: 50"), right)
    assert "join-corner" in codes(spec)


def test_wheels_that_turn_towards_each_other_are_noted() -> None:
    text = changed(sample_text("cart"), ("{use: caster 4 in}", "{use: caster 4 in, trail: 2}"))
    text += "\njoin: [{side: right}, {side: left}]\n"
    found = compute(solve(read_spec(text, "cart.yml")))[0].checks
    assert "join-swivel" in {each.code for each in found if not each.ok}


def test_a_heavy_bench_that_is_dragged_asks_for_more(tmp_path: Path) -> None:
    """Worked by hand: 4 washers of 30 with holes of 12 bear 2.5 × π/4 × (30² - 12²) = 1484 N each; 2 tonnes on a
    floor that holds with 0.5 pull with 9810 N, and the worst bolt takes two of four shares: 4905 N."""
    spec = with_change(tmp_path, "wing", ("top: 100 kg", "top: 2000 kg"))
    (failed,) = (each for each in compute(solve(read_spec_file(spec)))[0].checks if each.code == "join-drag")
    assert not failed.ok and failed.limit == pytest.approx(1484, abs=1)
    assert failed.value is not None and 4905 < failed.value < 6000


@pytest.mark.thorough
def test_a_pack_has_the_other_spec_and_builds_the_same_manual(tmp_path: Path) -> None:
    mine = compile_spec_file(JOINED / "short.yml")
    with zipfile.ZipFile(io.BytesIO(mine["docs/downloads/short-pack.zip"])) as archive:
        archive.extractall(tmp_path)
    theirs = compile_spec_file(tmp_path / "short" / "short.yml")
    assert [name for name in mine if theirs[name] != mine[name]] == []


def test_a_change_of_the_other_spec_is_a_change_of_this_manual(tmp_path: Path) -> None:
    spec = with_change(tmp_path, "long", ("length: 1600", "length: 1700"))
    assert figures_of(read_spec_file(spec.with_name("short.yml")))[0].joins[0].row_length == 2750
    assert read_spec_file(spec).files("long.yml") == ["long.yml", "long.record.yml", "short.yml", "wing.yml"]
    assert neighbour_files(spec) == [tmp_path / "short.yml", tmp_path / "wing.yml"]
