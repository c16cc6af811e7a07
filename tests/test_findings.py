"""Findings are told as a colleague would: what, where in the spec, why it matters, what to do."""

import pytest

from generator.cli import main
from generator.findings import Finding, Severity, SpecError, Where
from generator.resources import bundled
from generator.spec.load import read_spec

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")


def told(text: str) -> list[str]:
    with pytest.raises(SpecError) as caught:
        read_spec(text, "bench.yml")
    return [finding.told() for finding in caught.value.findings]


def test_a_fault_quotes_the_spec_and_marks_the_place() -> None:
    (said,) = told(STARTER.replace("depth: 700", "depht: 700"))
    first, line, mark, why = said.splitlines()
    assert first.startswith("bench.yml:10:23: error: bench.depht: no such key")
    assert "did you mean 'depth'?" in first
    assert line == "    10 | bench: {length: 1300, depht: 700, height: 900}"
    assert mark == "       |                       ^"
    assert line[mark.index("^") :].startswith("depht")
    assert why.startswith("    Why it matters: ")


def test_text_that_is_no_yaml_is_quoted_too() -> None:
    (said,) = told("spec: 1\ntitle: a: b\n")
    assert "    2 | title: a: b" in said


def test_a_finding_without_a_place_is_one_line() -> None:
    assert Finding("T1", Severity.NOTE, "look at it").told() == "note: look at it [T1]"
    assert Where("a", 1, 2, quote="x\n^") == Where("a", 1, 2)


def test_the_command_tells_findings_with_their_line(capsys: pytest.CaptureFixture[str]) -> None:
    demo = bundled("specs") / "demo.yml"
    assert main(["check", str(demo)]) == 0
    said = capsys.readouterr().err
    assert " | panels: {material: ply-12," in said
    assert "Why it matters: A forgotten nut means taking the frame apart again." in said


def test_a_key_that_the_spec_leaves_out_is_named_and_no_other_line_quoted() -> None:
    demo = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    light = demo.replace("rating: 180 kg", "rating: 100 kg")
    loaded = read_spec(light, "demo.yml")
    assert loaded.where("user", "saw_height").quote.startswith("user:")
    assert loaded.where("limits", "door").quote == ""
    finding = Finding("T1", Severity.NOTE, "look at it", loaded.where("limits", "door"))
    assert "The spec does not say `limits.door`" in finding.told()
