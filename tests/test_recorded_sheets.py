"""A sheet that measures off its plan changes fits and packing, and never ends in a false finding."""

from __future__ import annotations

import re
import shlex
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compute import compute
from generator.findings import Finding, Severity
from generator.resources import bundled
from generator.spec.load import RecordText, read_spec

GRID = ", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}"


@cache
def built(spec: str, *measured: str) -> tuple[Bench, tuple[Finding, ...]]:
    """A shipped spec, without its grid of holes, and a record of measured values."""
    text = (bundled("specs") / f"{spec}.yml").read_text(encoding="utf-8").replace(GRID, "")
    entries = "".join(
        f"- {{date: 2026-11-03, measured: {{path: {path}, value: {value}}}}}\n"
        for path, _, value in (each.partition("=") for each in measured)
    )
    loaded = read_spec(text, "bench.yml", RecordText(entries, "bench.record.yml") if entries else None)
    bench = solve(loaded)
    return bench, compute(bench)[1]


def worse(found: tuple[Finding, ...]) -> list[str]:
    return sorted(each.code for each in found if each.severity > Severity.NOTE)


#: What the shipped benches are warned of as they are planned: nothing that goods could change.
PLANNED = {
    "starter": ["drawers-open", "tips-under-load"],
    "demo": ["caster-in-the-air", "drawers-open", "lift-weight"],
}


@pytest.mark.parametrize(
    ("spec", "thickness"), [("starter", "11.8"), ("starter", "11.5"), ("starter", "12.3"), ("demo", "11.7")]
)
def test_a_sheet_off_its_nominal_thickness_gives_no_false_finding(spec: str, thickness: str) -> None:
    bench, found = built(spec, f"materials.ply-12.thickness={thickness}")
    assert worse(found) == worse(built(spec)[1]) == PLANNED[spec]
    (tray,) = bench.of(Role.TRAY)
    rails = bench.of(Role.TRAY_END_RAIL)
    assert {rail.box.z.middle for rail in rails} == {tray.box.z.middle}
    assert tray.box.z.size == Fraction(thickness)
    # what stands under it is cut to the plan, or lower where a thicker tray needs it
    planned = {wall.mark: wall.box.z.high for wall in built(spec)[0].of(Role.DIVIDER)}
    lower = max(Fraction(0), (Fraction(thickness) - 12) / 2)
    assert {wall.mark: wall.box.z.high + lower for wall in bench.of(Role.DIVIDER)} == planned


@pytest.mark.parametrize("measured", ["materials.angle-15.thickness=2.1", "materials.bar.section=40.1"])
def test_goods_a_little_off_do_not_stop_a_stack_that_fits_by_plan(measured: str) -> None:
    bench, found = built("demo", measured)
    assert worse(found) == PLANNED["demo"]
    levels = bench.layout.levels
    for bay in ("F1", "F4"):
        uppermost = max(
            (each.sizes for each in bench.storage.drawers if each.bay == bay),
            key=lambda size: size.front_bottom,
        )
        gap = levels.base_top + levels.opening - uppermost.front_bottom - uppermost.front_height
        assert 2.5 <= gap < 3


def test_a_strip_a_little_too_thin_is_used_as_it_comes() -> None:
    (found,) = [
        each for each in built("demo", "materials.ply-12.thickness=11.8")[1] if each.code == "packing-thin"
    ]
    assert found.severity == Severity.NOTE
    assert (
        "`drawers.proud: 0.9 mm`" in found.advice
        and "`materials.poplar-15.thickness: 17.1 mm`" in found.advice
    )


def test_a_strip_much_too_thin_is_an_error_that_its_advice_mends() -> None:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8").replace(GRID, "")
    thin = text.replace("kind: strip, thickness: 15", "kind: strip, thickness: 14.2")

    def told(of: str) -> list[Finding]:
        loaded = read_spec(of, "bench.yml")
        return [each for each in compute(solve(loaded))[1] if each.code == "packing-thin"]

    (found,) = told(thin)
    assert found.severity == Severity.ERROR
    assert "17 mm or more" in found.advice
    assert not told(thin.replace("thickness: 14.2", "thickness: 17 mm"))


@pytest.mark.parametrize(
    ("thickness", "says"),
    [
        ("15", "; planed to 15 mm: buy 17 mm or thicker"),
        ("16.9", "buy 17 mm or thicker"),
        ("17", ""),
        ("20", ""),
    ],
)
def test_the_shopping_list_names_the_thickness_to_buy(thickness: str, says: str) -> None:
    """Packing of 15 on bars of 40 with walls of 12, and 2 for planing."""
    starter = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
    own = f"  lath: {{use: strip 50 x 20, thickness: {thickness}}}\n  ply-12: {{use"
    loaded = read_spec(starter.replace("  ply-12: {use", own), "bench.yml")
    figures = compute(solve(loaded))[0]
    (line,) = [each for each in figures.purchases if each.item == "lath"]
    assert line.detail.endswith(says) and ("buy" in line.detail) == bool(says)


def test_the_records_that_the_readme_shows_give_no_finding(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """On the spec that `new` writes, as the reader will follow it; a photo needs a file of the reader's own."""
    readme = (Path(__file__).resolve().parent.parent / "README.md").read_text(encoding="utf-8")
    shown = re.findall(
        r"^bench-manual (record my-bench\.yml (?:measured|cut|installed|note|verified) [^#\n]*)", readme, re.M
    )
    assert len(shown) == 6
    spec = tmp_path / "my-bench.yml"
    assert main(["new", str(spec)]) == 0
    for line in (*shown, "record my-bench.yml cut PAN 1240x700"):
        words = shlex.split(line)
        assert main([words[0], str(spec), *words[2:]]) == 0
    capsys.readouterr()
    assert main(["check", str(spec)]) == 1
    told = capsys.readouterr().err
    heads = [line for line in told.splitlines() if " warning: " in line]
    assert sorted(re.findall(r"\[([a-z-]+)\]$", "\n".join(heads), re.M)) == PLANNED["starter"]
    assert "error:" not in told
