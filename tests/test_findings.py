"""Findings are short lines: what is wrong, where in the spec, why it matters, what to do."""

import pytest

from generator.bench.solve import solve
from generator.cli import main
from generator.codes import Code
from generator.figures.compute import compute
from generator.findings import Finding, Severity, SpecError, Where
from generator.resources import bundled
from generator.spec.adapt import adapted
from generator.spec.load import LoadedSpec, read_spec
from generator.writers.starter import starter_text

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")


def told(text: str) -> list[str]:
    with pytest.raises(SpecError) as caught:
        read_spec(text, "bench.yml")
    return [finding.explained() for finding in caught.value.findings]


def test_a_fault_quotes_the_spec_and_marks_the_place() -> None:
    (said,) = told(STARTER.replace("depth: 700", "depht: 700"))
    first, line, mark, why = said.splitlines()
    assert first.startswith("bench.yml:10:23: error: bench.depht: no such key")
    assert "did you mean 'depth'?" in first
    assert line == "    10 | bench: {length: 1300, depht: 700, height: 900}"
    assert mark == "       |                       ^"
    assert line[mark.index("^") :].startswith("depht")
    assert why.startswith("    Why it matters: ")


def test_the_second_number_says_its_role_and_what_to_do_comes_last() -> None:
    where = Where("bench.yml", 4, 2, "top.edge", "edge: 5\n      ^")
    found = Finding(
        Code.NO_SIZE,
        Severity.ERROR,
        "too near",
        where,
        "5 mm",
        "20 mm or more",
        advice="Move it.",
        why="It splits.",
    )
    assert found.explained().splitlines() == [
        "bench.yml:4:2: error: top.edge: too near: 5 mm, must be 20 mm or more [no-size]",
        "    4 | edge: 5",
        "      |       ^",
        "    Why it matters: It splits.",
        "    What to do: Move it.",
    ]
    assert (
        str(found)
        == "bench.yml:4:2: error: top.edge: too near: 5 mm, must be 20 mm or more. Move it. [no-size]"
    )


def test_a_long_choice_has_a_line_below() -> None:
    assert (
        told(STARTER + "zzz: 1\n")[0]
        .splitlines()[-1]
        .startswith("    What to do: Write one of spec, title, ")
    )
    assert "must be one of" not in told(STARTER + "zzz: 1\n")[0]


def test_text_that_is_no_yaml_is_quoted_too() -> None:
    (said,) = told("spec: 1\ntitle: a: b\n")
    assert "    2 | title: a: b" in said


def test_a_finding_without_a_place_is_one_line() -> None:
    assert Finding("T1", Severity.NOTE, "look at it").explained() == "note: look at it [T1]"
    assert Where("a", 1, 2, quote="x\n^") == Where("a", 1, 2)


def test_the_command_tells_findings_with_their_line(capsys: pytest.CaptureFixture[str]) -> None:
    demo = bundled("specs") / "demo.yml"
    assert main(["check", str(demo)]) == 1
    said = capsys.readouterr().err
    assert " | panels: {material: ply-12," in said
    assert "Why it matters: For a forgotten nut you must take the frame apart again." in said


def test_a_key_that_the_spec_leaves_out_is_named_and_no_other_line_quoted() -> None:
    demo = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    light = demo.replace("rating: 180 kg", "rating: 100 kg")
    loaded = read_spec(light, "demo.yml")
    assert loaded.where("user", "saw_height").quote.startswith("user:")
    assert loaded.where("limits", "door").quote == ""
    finding = Finding("T1", Severity.NOTE, "look at it", loaded.where("limits", "door"))
    assert "`limits.door` is a default" in finding.explained()


def test_a_required_key_is_not_said_to_have_a_default() -> None:
    (said,) = told("spec: 1\ntitle: a\nzones: [{name: front, bays: [{}]}]\n")
    assert "bench: this key is missing" in said
    assert "What to do: This group needs spec, title, bench and zones." in said
    assert "default" not in said


def test_a_value_of_a_card_is_said_to_be_one() -> None:
    loaded = read_spec(STARTER, "bench.yml")
    finding = Finding("T1", Severity.NOTE, "look at it", loaded.where("materials", "bar", "slot", "depth"))
    assert "`materials.bar.slot.depth` is a default or from a typical card" in finding.explained()
    finding = Finding("T1", Severity.NOTE, "look at it", loaded.where("materials", "bar"))
    assert "is a default" not in finding.explained()


@pytest.mark.parametrize(
    ("old", "new", "home"),
    [
        ("bench: {", "depth: 420\nbench: {", "`bench`"),
        ("    depth: share\n", "    depth: share\n    pitch: 20\n", "`top.holes`"),
        (
            "base: {count: 4}",
            "base: {count: 4, kerf: 3}",
            "`saws.bar` and of `saws.sheet.break_down` and of `saws.sheet`",
        ),
        ("base: {count: 4}", "base: {count: 4, title: mine}", "the spec itself (not indented)"),
    ],
)
def test_a_key_in_the_wrong_place_is_told_its_own(old: str, new: str, home: str) -> None:
    (said,) = told(STARTER.replace(old, new, 1))
    assert "It is a key of " in said
    assert home in said


@pytest.mark.parametrize(
    ("old", "new", "meant"),
    [
        ("{shelf: 60}", "{shelve: 60}", "'shelf'"),
        ("{shelf: 60}", "{dor: 60}", ""),
        ("{shelf: 60}", "{height: 60}", ""),
        ("base: {count: 4}", "base: {count: 4, door: 165}", ""),
    ],
)
def test_advice_on_a_key_stays_in_its_group_unless_its_value_fits_another(
    old: str, new: str, meant: str
) -> None:
    """No other group is meant in a stack, and a door of the shop has two sizes."""
    (said,) = told(STARTER.replace(old, new, 1))
    assert "It is a key of" not in said
    assert ("did you mean" in said) is bool(meant) and meant in said


def test_a_key_that_no_group_has_is_told_no_place() -> None:
    (said,) = told(STARTER + "zzz: 1\n")
    assert "It is a key of" not in said


@pytest.mark.parametrize("written", ["{length: 1300,5, depth: 700,", "{depth: 700, length: 1300,5,"])
def test_a_decimal_comma_between_braces_is_told_as_one(written: str) -> None:
    (said,) = told(STARTER.replace("{length: 1300, depth: 700,", written))
    assert "a decimal comma between braces begins the next key" in said
    assert ": 1300,5, must be 1300.5, with a point" in said


def test_who_wants_no_trim_is_told_how() -> None:
    (said,) = told(STARTER + "tray: {trim: none}\n")
    assert "If you want none, leave the key out." in said
    (said,) = told(STARTER + "tray: {trim: angle-16}\n")
    assert "leave the key out" not in said


def failed(text: str) -> tuple[LoadedSpec, tuple[Finding, ...]]:
    loaded = read_spec(text, "bench.yml")
    return loaded, compute(solve(loaded))[1]


def test_what_follows_from_one_mistake_is_one_finding_a_place() -> None:
    """A slide as long as the bench is deep meets every part behind it; nobody reads thirty lines of that."""
    _, findings = failed(STARTER + "hardware: {slide: {use: slide 500, length: 900}}\n")
    overlaps = [finding for finding in findings if finding.code == "overlap"]
    places = [finding.where.path for finding in overlaps if finding.where]
    assert overlaps
    assert len(places) <= 4
    assert any("more)" in finding.message for finding in overlaps)
    assert not [
        finding for finding in overlaps if finding.where and not finding.where.path and finding.where.quote
    ]


def test_weights_are_told_in_the_unit_of_the_spec() -> None:
    """1 lb = 0.45359237 kg (international agreement of 1959): 40 kg are 88.18 lb."""
    _, metric = failed(STARTER + "limits: {lift_one: 10 kg}\n")
    said = [str(finding) for finding in metric if finding.code == "lift-weight"]
    assert said
    assert "must be 40 kg or less" in said[0]
    inches = (
        STARTER.replace("units: mm", "units: in")
        .replace("length: 1300, depth: 700, height: 900", ("length: 1300 mm, depth: 700 mm, height: 900 mm"))
        .replace("shelf: 60", "shelf: 60 mm")
        .replace("shelf: 300", "shelf: 300 mm")
    )
    inches = inches.replace(
        "{diameter: 20, pitch: 96, edge: 60}", "{diameter: 20 mm, pitch: 96 mm, edge: 60 mm}"
    )
    _, imperial = failed(inches + "limits: {lift_one: 10 kg}\n")
    said = [str(finding) for finding in imperial if finding.code == "lift-weight"]
    assert said
    assert "must be 88.18 lb or less" in said[0]


@pytest.mark.parametrize(
    ("units", "told"),
    [
        ("mm", "600 mm is the usual limit for sheet of 12 mm"),
        # to the nearest 64th of an inch
        ("in", "23 5/8 in is the usual limit for sheet of 15/32 in"),
    ],
)
def test_a_usual_length_is_told_in_the_unit_of_the_spec(units: str, told: str) -> None:
    text = adapted(starter_text(units, 2, ()), [("panels.walls", "[ends, back]")])
    _, findings = compute(solve(read_spec(text, "bench.yml")))
    (advice,) = (each.advice for each in findings if each.code == "tray-span")
    assert told in advice


def test_the_date_of_measuring_may_stand_at_whatever_is_measured() -> None:
    tote = "{rim_width: 386, body_width: 360, length: 520, height: 145, rim_height: 8, measured: 2026-11-20}"
    text = (
        STARTER + f"totes: {{bin: {tote}}}\nhardware: {{caster: {{use: caster 100, measured: 2026-11-20}}}}\n"
    )
    spec = read_spec(text, "bench.yml").spec
    assert spec.totes["bin"].measured == spec.hardware["caster"].measured == "2026-11-20"
