"""Wood screws: the checks and the hardware list read one source, and each screw stays inside and holds."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

import pytest

from generator.bench.solve import solve
from generator.calculators.wood_screws import SHANKS, stock
from generator.figures.checks.screws import screw_checks
from generator.figures.hardware import hardware
from generator.findings import SpecError
from generator.resources import bundled
from generator.spec.load import read_spec

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
WALL = (bundled("specs") / "wall-bench.yml").read_text(encoding="utf-8")
DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
SIZE = re.compile(r"#\d+ x [\d/ ]*\d|\d+(?:\.\d+)?x\d+")
SCREWS = (
    "slide screw", "drawer box screw", "drawer front screw", "strip screw", "trim screw", "pocket screw", "tray screw",
    "top bracket wood screw",
)  # fmt: skip


@cache
def made(text: str) -> tuple[dict[str, str], list[tuple[str, str, str, str]]]:
    """Sizes that are bought, by their kind, and failed checks: (code, severity, where, advice)."""
    loaded = read_spec(text, "bench.yml")
    bench = solve(loaded)
    bought = {row.kind: row.size for row in hardware(bench) if row.kind in SCREWS}
    checks = [each.check for each in screw_checks(bench) if not each.check.ok]
    return bought, [(each.code, each.severity, each.where, each.advice) for each in checks]


@pytest.mark.parametrize("text", [STARTER, WALL, DEMO], ids=["starter", "wall bench", "demo"])
def test_what_is_checked_is_what_is_bought(text: str) -> None:
    loaded = read_spec(text, "bench.yml")
    bench = solve(loaded)
    checked = {size for each in screw_checks(bench) for size in SIZE.findall(each.check.where)}
    bought = {size for row in hardware(bench) if row.kind in SCREWS for size in SIZE.findall(row.size)}
    assert checked == bought
    assert not made(text)[1]


def with_sheets(box: str, front: str, more: str = "") -> str:
    """The starter with boxes and fronts of sheets of their own."""
    cards = "".join(
        f"  {name}: {{use: plywood 12, thickness: {thick}}}\n"
        for name, thick in (("box", box), ("face", front))
    )
    text = STARTER.replace("  ply-12: {use", f"{cards}  ply-12: {{use")
    return f"{text}\ndrawers: {{box: box, front: face{more}}}\n"


@pytest.mark.parametrize(
    ("box", "front", "corner", "face"),
    [
        ("12", "18", "4x40", "4x25"),
        # 24.1 of wood: 25 comes out of the front
        ("12", "12.1", "4x40", "4x20"),
        # seven shanks of thread beyond the side
        ("18", "18", "4x50", "4x30"),
        # an edge of 9 splits along a screw of 4
        ("9", "18", "3.5x35", "4x25"),
    ],
)
def test_screws_of_a_drawer_follow_its_sheets(box: str, front: str, corner: str, face: str) -> None:
    bought, failed = made(with_sheets(box, front))
    assert (bought["drawer box screw"], bought["drawer front screw"]) == (corner, face)
    # the shortest screw for the slide, 10 mm, comes out of a side of 9
    assert [each[2] for each in failed] == (["slide to drawer box, 4x10"] if box == "9" else [])


@pytest.mark.parametrize(
    ("box", "front", "key", "wish", "code", "severity"),
    [
        ("12", "12.1", "face_screw", "4x25", "screw-length", "error"),
        ("12", "13.5", "face_screw", "4x25", "screw-length", "warning"),
        ("12", "18", "face_screw", "4x16", "screw-thread", "warning"),
        ("9", "18", "box_screw", "4x40", "screw-splits", "warning"),
        ("12", "18", "box_screw", "4x16", "screw-thread", "warning"),
    ],
)
def test_a_screw_that_the_spec_asks_for_is_bought_and_checked(
    box: str, front: str, key: str, wish: str, code: str, severity: str
) -> None:
    bought, failed = made(with_sheets(box, front, f", {key}: {wish}"))
    assert bought["drawer front screw" if key == "face_screw" else "drawer box screw"] == wish
    ((found, how, _, advice),) = [each for each in failed if "slide" not in each[2]]
    assert (found, how) == (code, severity)
    named = re.search(rf"`drawers\.{key}: (.*)`\.", advice)
    mended = made(with_sheets(box, front, f", {key}: {named[1] if named else ''}"))[1]
    assert not [each for each in mended if "slide" not in each[2]]


def test_a_bench_in_inches_gets_inch_screws() -> None:
    bought, _ = made(WALL)
    # half-inch boards of 0.475: 3/8 stays inside, 7/8 through the packing, 1 1/2 holds in an end
    assert bought["slide screw"] == "18 #6 x 5/8 into the packing, 18 #6 x 3/8 into the boxes"
    assert bought["drawer box screw"] == "#6 x 1 1/2"
    assert bought["top bracket wood screw"] == "#10 x 5/8"


@pytest.mark.parametrize(
    ("size", "inches"),
    [("#4", "0.112"), ("#6", "0.138"), ("#8", "0.164"), ("#10", "0.190"), ("#12", "0.216")],
)
def test_shanks_of_inch_screws(size: str, inches: str) -> None:
    """ASME B18.6.1, table of basic diameters; from memory."""
    assert SHANKS[size] == Fraction(inches) * Fraction("25.4")
    assert all(screw.length % Fraction("3.175") == 0 for screw in stock(size, "in"))


def wide(width: str) -> str:
    """The starter with totes whose runners are wide: half of the bay less the gap, and the panels' offset of 14."""
    text = STARTER.replace(
        "width: share, stack: [{shelf: 60}, {shelf: 300}]", f"width: {width}, stack: [{{totes: bin}}]"
    )
    return f"{text}\ntotes: {{bin: {{use: tote 145, runner_gap: 366}}}}\n"


def test_screws_through_wide_runners_reach_their_wall() -> None:
    # (488 + 28 - 366) / 2 = 75 of wood before the wall: 80 leave five, which is less than a shank and a half
    bought, failed = made(wide("488"))
    assert "4x80" in bought["strip screw"]
    ((code, severity, where, advice),) = failed
    assert (code, severity) == ("screw-thread", "warning")
    assert where.startswith("TR1, tote runner")
    named = re.search(r"`width: ([\d.]+) mm` for bay right", advice)
    assert named and not made(wide(named[1]))[1]


@pytest.mark.parametrize("text", ["4", "M4x25", "7x30", "4x0", "4x900", "#5 x 1"])
def test_a_wood_screw_that_is_none_is_told(text: str) -> None:
    with pytest.raises(SpecError) as caught:
        read_spec(f'{STARTER}\ndrawers: {{face_screw: "{text}"}}\n', "bench.yml")
    (finding,) = caught.value.findings
    assert finding.code == "bad-screw" and finding.found == text


def test_advice_for_a_thin_wall_names_a_sheet_that_holds() -> None:
    """Walls of 9 mm on bars of 40: no screw on the shelf holds packing, cleats and tray."""
    thin = STARTER.replace("ply-12: {use: plywood 12}", "ply-12: {use: plywood 9}")
    failed = made(thin)[1]
    assert {where.partition(", 4x")[0] for _, _, where, _ in failed} == {
        "PK1, packing strip", "SC1, shelf cleat", "pockets to the tray", "slide to drawer box"
    }  # fmt: skip
    for code, _, where, advice in failed:
        named = re.match(r"Name a sheet of ([\d.]+) mm or more in `(\w+)\.(\w+)`", advice)
        assert named
        thick, group, key = named.groups()
        cards = f"  own: {{use: plywood 9, thickness: {thick}}}\n"
        text = thin.replace("  ply-12: {use", f"{cards}  ply-12: {{use") + f"\n{group}: {{{key}: own}}\n"
        place = where.rpartition(",")[0]
        assert not [each for each in made(text)[1] if each[0] == code and each[2].startswith(place)]
