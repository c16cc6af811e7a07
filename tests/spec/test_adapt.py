"""A spec in its own words with some values changed: comments stay, what is missing is put in, the rest is as it was."""

from __future__ import annotations

import difflib
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.cli import main
from generator.figures.compute import figures_of
from generator.findings import Severity, SpecError
from generator.resources import bundled
from generator.spec.adapt import adapted
from generator.spec.load import read_spec, read_spec_file

SPECS = {
    name: (bundled("specs") / f"{name}.yml").read_text(encoding="utf-8")
    for name in ("demo", "starter", "wall-bench")
}
DEMO = SPECS["demo"]


def changed_lines(old: str, new: str) -> list[str]:
    return [line for line in difflib.ndiff(old.splitlines(), new.splitlines()) if line[:2] in ("- ", "+ ")]


def test_values_change_and_comments_stay() -> None:
    text = adapted(
        DEMO, [("bench.length", "1800"), ("materials.ply-12.thickness", "11.8"), ("title", "Mine: a # bench")]
    )
    spec = read_spec(text, "mine.yml").spec
    assert spec.bench.length == 1800
    assert getattr(spec.materials["ply-12"], "thickness", None) == Fraction("11.8")
    assert spec.title == "Mine: a # bench"
    assert len(changed_lines(DEMO, text)) == 6
    assert [line for line in DEMO.splitlines() if "#" in line] == [
        line for line in text.splitlines() if "#" in line and "Mine" not in line
    ]


@pytest.mark.parametrize(
    ("path", "value", "expected"),
    [
        ("zones[0].bays[1].width", "420 mm", lambda spec: spec.zones[0].bays[1].width == 420),
        ("base.plate.size[0]", "180", lambda spec: spec.base.plate.size[0] == 180),
        ("base.plate.size", "[180, 160]", lambda spec: spec.base.plate.size == (180, 160)),
        ("top.holes.pitch", "100", lambda spec: spec.top.holes.pitch == 100),
        (
            "bench.round_shares",
            "{step: 0.5, remainder: F4}",
            lambda spec: spec.bench.round_shares.step == Fraction(1, 2),
        ),
        ("user.saw_height", "860", lambda spec: spec.user.saw_height == 860),
        ("assembly.first", "[tray]", lambda spec: spec.assembly.first == ("tray",)),
        ("top.bracket_thickness", "5", lambda spec: spec.top.bracket_thickness == 5),
    ],
)
def test_any_place_can_be_set_also_one_that_was_left_out(path: str, value: str, expected: object) -> None:
    assert callable(expected)
    text = adapted(DEMO, [(path, value)])
    assert expected(read_spec(text, "mine.yml").spec)
    assert len(changed_lines(DEMO, text)) <= 2


def test_keys_below_nothing_are_put_in() -> None:
    text = adapted(
        "spec: 1\r\ntop:\r\nzones: []   # none\r\n", [("top.holes.pitch", "96"), ("bench.length", "2 m")]
    )
    assert text == "spec: 1\r\ntop: {holes: {pitch: 96}}\r\nbench: {length: 2 m}\r\nzones: []   # none\r\n"


NOWHERE = {
    "title.x": "has no keys",
    "zones[7].name": "list of 2",
    "zones.x": "such as [0] for the first",
    "nothing[0]": "no such list",
    "bench..length": "missing",
    "bench": "fills several lines",
    "zones": "fills several lines",
    "": "missing",
    "a.b[0]": "no such list",
}


@pytest.mark.parametrize(("path", "said"), NOWHERE.items())
def test_a_path_that_leads_nowhere_is_told(path: str, said: str) -> None:
    block = "bench:\n  length: 2000\n  depth: 900\n  height: 880"
    text = DEMO.replace("bench: {length: 2000, depth: 900, height: 880}", block)
    with pytest.raises(SpecError) as caught:
        adapted(text, [(path, "1"), ("bench.length", "1900")])
    assert [finding.code for finding in caught.value.findings] == ["no-such-place"]
    assert said in str(caught.value)


@pytest.mark.parametrize("broken", ["bays: ]", "x: " + "[" * 3000, 'x: "\\UFFFFFFFF"', "\tx: 1"])
def test_a_text_that_is_no_yaml_is_refused_in_its_place(broken: str) -> None:
    with pytest.raises(SpecError) as caught:
        adapted(f"title: Mine\n{broken}\n", [("title", "Yours")], "mine.yml")
    assert [(f.where.file, f.where.line) for f in caught.value.findings if f.where] == [("mine.yml", 2)]


@pytest.mark.parametrize("value", ["[" * 3000, "[1", "{a: b"])
def test_a_value_that_breaks_the_text_is_refused(value: str) -> None:
    with pytest.raises(SpecError, match="broke the text"):
        adapted(DEMO, [("title", value), ("bench.length", "1900")])


def test_a_value_that_stands_in_two_places_is_not_changed_in_both() -> None:
    text = "a: &x {b: 1}\nc: *x\nd: {e: 5}\n"
    with pytest.raises(SpecError, match="used in several places"):
        adapted(text, [("c.b", "2")])
    assert adapted(text, [("d.e", "6")]) == text.replace("e: 5", "e: 6")


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from(sorted(SPECS)),
    st.text(min_size=1, max_size=40).filter(lambda t: t.isprintable() and t.split()),
)
def test_any_title_comes_back_and_nothing_else_changes(name: str, title: str) -> None:
    if title.strip()[:1] in ("[", "{"):
        return  # brackets and braces stand as they are written
    text = adapted(SPECS[name], [("title", title.strip())])
    assert read_spec(text, "mine.yml").spec.title == " ".join(title.split())
    assert len(changed_lines(SPECS[name], text)) <= 2


# --- the command


@pytest.fixture(autouse=True)
def _in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("demo.yml").write_text(DEMO, encoding="utf-8")


def test_adapt_lists_what_no_longer_fits(capsys: pytest.CaptureFixture[str]) -> None:
    assert (
        main(["adapt", "demo.yml", "--set", "hardware.caster.rating=100 kg", "--set", "bench.length=1800"])
        == 1
    )
    said = capsys.readouterr()
    assert "Wrote demo-adapted.yml" in said.out
    assert "caster-rating" in said.err
    assert "no longer fit" in said.out
    assert read_spec(Path("demo-adapted.yml").read_text(), "x").spec.bench.length == 1800
    assert Path("demo.yml").read_text(encoding="utf-8") == DEMO


def test_a_new_spec_names_the_benches_that_it_comes_from(monkeypatch: pytest.MonkeyPatch) -> None:
    """Author and licence go on from hand to hand."""
    monkeypatch.setattr("generator.figures.compute.figures_of", lambda loaded: (None, ()))
    assert (
        main(["adapt", "demo.yml", "--set", "title=Mine", "--set", "designer=Mara", "--out", "mine.yml"]) == 0
    )
    assert main(["adapt", "mine.yml", "--set", "title=Yours", "--out", "yours.yml"]) == 0
    old, mine, yours = (read_spec_file(Path(name)) for name in ("demo.yml", "mine.yml", "yours.yml"))
    first, second = yours.spec.adapted_from
    assert (first.title, first.designer, first.checksum) == (old.spec.title, old.spec.designer, old.checksum)
    assert (first.revision, first.licence) == (old.spec.revision.number, old.spec.licence)
    assert (second.title, second.designer, second.checksum) == ("Mine", "Mara", mine.checksum)
    assert mine.spec.adapted_from == (first,)


def test_a_bench_of_other_bars_and_sheets_says_what_must_follow() -> None:
    """Bars of 45 mm have a wider bore: the old screws hold no more, M10 does once plates are as thick as told."""
    small = """spec: 1
title: One
bench: {length: 900, depth: 900, height: 800}
materials: {bar: {use: profile 40}, ply-12: {use: plywood 12}}
zones: [{name: front, bays: [{name: only}]}]
"""
    goods = [("materials.bar.use", "profile 45"), ("materials.ply-12.use", "plywood 3/4 in")]
    cards = {"end-clip": "end clip M10", "through-screw": "through screw M10", "slot-nut": "slot nut M10"}
    hardware = [(f"hardware.{name}.use", card) for name, card in cards.items()]

    def wrong(changes: list[tuple[str, str]]) -> set[str]:
        _, findings = figures_of(read_spec(adapted(small, changes), "small.yml"))
        return {finding.code for finding in findings if finding.severity is Severity.ERROR}

    before = wrong([])
    assert wrong(goods) - before == {"bore-thread", "counterbore", "through-thread"}
    assert wrong([*goods, *hardware]) - before == {"bolt-window"}
    told = [("base.plate.thickness", "9 mm"), ("top.bracket_thickness", "4.5 mm")]
    assert wrong([*goods, *hardware, *told]) - before == set()


def test_a_bench_that_cannot_be_is_written_and_told(capsys: pytest.CaptureFixture[str]) -> None:
    """Other totes may not go into the old opening: the new spec is there to be worked on."""
    assert main(["adapt", "demo.yml", "--set", "totes.tote-145.height=200", "--out", "mine.yml"]) == 1
    assert "[stack-sum]" in capsys.readouterr().err
    assert Path("mine.yml").exists()


def test_what_still_fits_says_so(capsys: pytest.CaptureFixture[str]) -> None:
    """What the old bench warned of is no news; what is worse than before is."""
    assert main(["adapt", "demo.yml", "--set", "title=Mine", "--out", "mine.yml"]) == 0
    said = capsys.readouterr()
    assert "Everything fits. 3 warnings are as before" in said.out
    assert said.err == ""
    assert main(["adapt", "demo.yml", "--set", "loads.top=200 kg", "--out", "more.yml"]) == 1
    assert "caster-in-the-air" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--set", "bench.lenght=1800"], "did you mean 'length'?"),
        (["--set", "bench.length=long"], "bad-length"),
        (["--set", "bench.length"], "is not PATH=VALUE"),
        (["--set", "=5"], "is not PATH=VALUE"),
        (["--set", "title.x=5"], "no-such-place"),
        (["--set", "title=x", "--out", "demo.yml"], "already exists"),
        (["--set", "title=x", "--out", "no/such/x.yml"], "cannot be written"),
        ([], "--set"),
    ],
)
def test_a_wrong_call_writes_nothing(words: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["adapt", "demo.yml", *words]) == 2
    assert said in capsys.readouterr().err
    assert [path.name for path in Path().iterdir()] == ["demo.yml"]
