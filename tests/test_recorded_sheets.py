"""A sheet that measures off its plan changes fits and packing, and never ends in a false finding."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from generator.bench.model import Bench
from generator.bench.solve import solve
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
    return bench, compute(loaded, bench)[1]


def worse(found: tuple[Finding, ...]) -> list[str]:
    return [str(each) for each in found if each.severity > Severity.NOTE]


@pytest.mark.parametrize(
    ("spec", "thickness"), [("starter", "11.8"), ("starter", "11.5"), ("starter", "12.3"), ("demo", "11.7")]
)
def test_a_sheet_off_its_nominal_thickness_gives_no_false_finding(spec: str, thickness: str) -> None:
    bench, found = built(spec, f"materials.ply-12.thickness={thickness}")
    assert worse(found) == worse(built(spec)[1]) == []
    (tray,) = bench.in_group("tray")
    rails = bench.in_group("tray end rail")
    assert {rail.box.z.middle for rail in rails} == {tray.box.z.middle}
    assert tray.box.z.size == Fraction(thickness)
    # what stands under it is cut to the plan, or lower where a thicker tray needs it
    planned = {wall.mark: wall.box.z.high for wall in built(spec)[0].in_group("divider")}
    lower = max(Fraction(0), (Fraction(thickness) - 12) / 2)
    assert {wall.mark: wall.box.z.high + lower for wall in bench.in_group("divider")} == planned


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
        return [each for each in compute(loaded, solve(loaded))[1] if each.code == "packing-thin"]

    (found,) = told(thin)
    assert found.severity == Severity.ERROR
    assert "17 mm or more" in found.advice
    assert not told(thin.replace("thickness: 14.2", "thickness: 17 mm"))
