"""Letters that no font has: the manual is made without its PDFs, and the way out is told with the line."""

from __future__ import annotations

from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compute import compute
from generator.findings import Severity
from generator.manual import Manual, compile_loaded
from generator.prints.print import PrintOptions
from generator.resources import bundled
from generator.spec.load import read_spec

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
JAPANESE = STARTER.replace("My first bench", "作業台").replace("name: left", 'name: "\\u5de6"')


def square(path: Path, letters: str) -> Path:
    """A font in which each of the letters is a square."""
    pen = TTGlyphPen(None)
    for step, corner in zip("mlll", ((0, 0), (500, 0), (500, 500), (0, 500)), strict=True):
        (pen.moveTo if step == "m" else pen.lineTo)(corner)
    pen.closePath()
    glyph = pen.glyph()
    names = [".notdef", *(f"uni{ord(letter):04X}" for letter in letters)]
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({ord(letter): f"uni{ord(letter):04X}" for letter in letters})
    builder.setupGlyf(dict.fromkeys(names, glyph))
    builder.setupHorizontalMetrics(dict.fromkeys(names, (600, 0)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Squares", "styleName": "Regular"})
    builder.setupOS2()
    builder.setupPost()
    builder.save(path)
    return path


def test_a_manual_in_letters_without_a_font_is_built_without_its_pdfs() -> None:
    files, findings = compile_loaded(read_spec(JAPANESE, "bench.yml"), "bench.yml")
    assert not [name for name in files if name.endswith(".pdf")]
    told = [finding for finding in findings if finding.code == "missing-letter"]
    lines = JAPANESE.split("\n")
    title, bay = (next(n for n, line in enumerate(lines, 1) if word in line) for word in ("作業台", "u5de6"))
    assert [(each.severity, each.where.line) for each in told if each.where] == [
        (Severity.WARNING, title),
        (Severity.WARNING, bay),
    ]
    assert "作 (U+4F5C)" in told[0].message
    assert "--font FILE" in told[0].advice
    page = files["docs/downloads.md"].decode()
    assert "U+4F5C" in page
    assert ".pdf" not in page
    assert "作業台" in files["docs/index.md"].decode()


def test_a_font_that_has_them_brings_the_pdfs(tmp_path: Path) -> None:
    font = square(tmp_path / "squares.ttf", "作業台左")
    loaded = read_spec(JAPANESE, "bench.yml")
    manual = Manual(loaded, compute(solve(loaded))[0], "bench.yml", PrintOptions(None, font))
    labels = manual.file("docs/downloads/labels-A4.pdf")
    assert labels is not None
    assert labels.startswith(b"%PDF")
    assert manual.paper_findings == ()


@pytest.mark.parametrize(
    ("title", "missing"),
    [("作業台", True), ("वर्कबेंच", True), ("Größe Ł Верстак Πάγκος", False), ("Bench # 作", False)],
)
def test_check_tells_it_before_anything_is_built(
    title: str, missing: bool, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What is printed nowhere, as a comment is, asks for no font."""
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER.replace("My first bench", title), encoding="utf-8")
    assert main(["check", str(spec)]) == 1
    said = capsys.readouterr().err
    assert ("PDFs" in said) == missing
    assert not missing or "bench.yml:6:8: warning" in said
