"""The PDF writer: sizes, letters, what it refuses."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from pypdf import PdfReader

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.shapes import Arc
from generator.drawings.styles import BOLD_STYLES, STYLES
from generator.findings import SpecError
from generator.writers.letters import letters
from generator.writers.looks import LOOKS
from generator.writers.pdf import About, chain_line, to_pdf
from generator.writers.scripts import as_printed
from tests.paper_reader import pages, size, strokes, words


def sheet(text: str = "", width: float = 210.0, height: float = 297.0) -> Drawing:
    canvas = Canvas()
    canvas.line((20.0, 30.0), (120.0, 30.0))
    canvas.line((20.0, 40.0), (20.0, 141.6))
    canvas.text((20.0, 60.0), text)
    return Drawing("sheet", "A sheet", "", width, height, tuple(canvas.shapes))


def test_a_millimetre_is_a_millimetre() -> None:
    (page,) = pages(to_pdf([sheet(width=215.9, height=279.4)], About("t")))
    assert size(page) == pytest.approx((215.9, 279.4), abs=0.005)
    along, across = strokes(page)
    assert along.along == pytest.approx(100, abs=0.005)
    assert across.across == pytest.approx(101.6, abs=0.005)
    assert (along.x, along.y) == pytest.approx((20, 30), abs=0.005)


def test_printers_are_told_not_to_scale_and_no_clock_is_read() -> None:
    reader = PdfReader(io.BytesIO(to_pdf([sheet()], About("Bench", "Shop", "2026-11-02"))))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.metadata is not None
    assert (reader.metadata.title, reader.metadata.author) == ("Bench", "Shop")
    assert str(reader.metadata["/CreationDate"]).startswith("D:20261102")
    assert to_pdf([sheet()], About("t", date="soon")) == to_pdf([sheet()], About("t"))


def test_a_pdf_is_tagged_has_a_language_and_an_outline(tmp_path: Path) -> None:
    """As two readers see it that know nothing of each other."""
    drawing = sheet()
    sheets = [replace(drawing, description=f"A{n}: post, 745 mm long. In mm.") for n in (1, 2)]
    data = to_pdf(sheets, About("Bench", "Shop"))
    reader = PdfReader(io.BytesIO(data))
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/DisplayDocTitle"]
    entries = [(each.title, reader.get_destination_page_number(each)) for each in reader.outline]  # type: ignore[arg-type, union-attr]
    assert entries == [("A1: post, 745 mm long", 0), ("A2: post, 745 mm long", 1)]
    figures = reader.trailer["/Root"]["/StructTreeRoot"]["/K"][0]["/K"]
    assert [each.get_object()["/Alt"] for each in figures] == [each.description for each in sheets]
    if shutil.which("pdfinfo") or "CI" in os.environ:
        (tmp_path / "a.pdf").write_bytes(data)
        command = ["pdfinfo", "-struct", str(tmp_path / "a.pdf")]
        said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        assert said.split() == ["Document", "Figure", '"A', 'sheet"', "Figure", '"A', 'sheet"']


@pytest.mark.parametrize("text", ["Верстак для робототехники", "Πάγκος ½ ⅜ Ø ⌀ ≥ →", "שולחן עבודה"])
def test_titles_beyond_latin_print(text: str) -> None:
    (page,) = pages(to_pdf([sheet(text)], About(text)))
    assert sorted("".join(word.text for word in words(page)).split()) == sorted(text.split()) or "ש" in text


def test_a_letter_without_a_font_is_refused_with_the_way_out() -> None:
    with pytest.raises(SpecError) as refused:
        to_pdf([sheet("工作台")], About("t"))
    assert len(refused.value.findings) == 3
    assert "U+5DE5" in str(refused.value)
    assert "--font FILE" in str(refused.value)
    assert refused.value.findings[0].code == "missing-letter"


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        # beh between two others, behind alef, alone: initial, medial, final, isolated
        ("\u0628\u0628\u0628 \u0627\u0628", "\ufe8f\ufe8d \ufe90\ufe92\ufe91"),
        # salam: seen joins lam with alef as one; meem behind alef stands alone
        ("\u0633\u0644\u0627\u0645", "\ufee1\ufefc\ufeb3"),
        # marks join nothing and part nothing
        ("\u0628\u064e\u0628", "\ufe90\u064e\ufe91"),
        # Persian: peh, gaf; numbers keep their order
        ("\u067e\u06af 12", "12 \ufb93\ufb58"),
        ("bench \u05d0\u05d1", "bench \u05d1\u05d0"),
    ],
)
def test_arabic_letters_join_and_lines_run_from_the_right(text: str, printed: str) -> None:
    """The forms after the Unicode Standard's code charts of the Arabic presentation forms."""
    assert as_printed(text) == printed
    to_pdf([sheet(text)], About(text))


def test_a_file_that_is_no_font_is_refused(tmp_path: Path) -> None:
    (tmp_path / "plain.ttf").write_text("no font", encoding="utf-8")
    with pytest.raises(SpecError) as refused, letters(["工"], tmp_path / "plain.ttf"):
        pass
    assert [finding.code for finding in refused.value.findings] == ["no-font"]


def test_a_script_that_must_be_shaped_is_refused_whatever_the_font() -> None:
    with pytest.raises(SpecError) as refused:
        to_pdf([sheet("\u092e\u0947\u091c \u5de5")], About("t"))
    codes = [finding.code for finding in refused.value.findings]
    assert codes == ["shaped-letter"] * 3 + ["missing-letter"]
    assert "Another font does not help" in str(refused.value)


def test_a_font_of_ones_own_adds_its_letters(tmp_path: Path) -> None:
    """A font with one letter that the shipped one lacks, made here."""
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    pen.lineTo((500, 700))
    pen.lineTo((1000, 0))
    pen.closePath()
    font = FontBuilder(1000)
    font.setupGlyphOrder([".notdef", "work"])
    font.setupCharacterMap({ord("工"): "work"})
    font.setupGlyf({".notdef": TTGlyphPen(None).glyph(), "work": pen.glyph()})
    font.setupHorizontalMetrics({".notdef": (500, 0), "work": (1000, 0)})
    font.setupHorizontalHeader(ascent=800, descent=-200)
    font.setupNameTable({"familyName": "Own", "styleName": "Regular"})
    font.setupOS2()
    font.setupPost()
    path = tmp_path / "own.ttf"
    font.save(path)
    (page,) = pages(to_pdf([sheet("B工B")], About("t"), path))
    assert "".join(word.text for word in words(page)) == "B工B"


def test_every_style_and_shape_can_be_drawn() -> None:
    canvas = Canvas()
    canvas.rect(0.0, 0.0, 100.0, 100.0, "paper")
    for number, style in enumerate(sorted(STYLES)):
        canvas.circle((10.0 + number, 10.0), 2.0, style)
        canvas.rect(10.0 + number, 20.0, 2.0, 3.0, style, 0.5)
        canvas.polygon(((0.0, 0.0), (1.0, 2.0), (3.0, 3.0)), style)
        canvas.line((0.0, 0.0), (0.0, 0.0), style)
        canvas.text((10.0, 30.0), style, style=style, upward=True)
    canvas.add(Arc((50.0, 50.0), 10.0, 0.0, 270.0, "thin"))
    assert set(LOOKS) == STYLES
    assert {style for style, look in LOOKS.items() if look.bold} == BOLD_STYLES  # whose width is reckoned so
    to_pdf([Drawing("all", "All", "", 100.0, 100.0, tuple(canvas.shapes))], About("t"))


def test_a_chain_line_runs_from_end_to_end() -> None:
    parts = chain_line((0.0, 0.0), (30.0, 40.0), (6.0, 1.0, 0.8, 1.0))
    assert parts[0][0] == (0.0, 0.0)
    assert max(end[0] for _, end in parts) <= 30.0
    assert len(parts) > 8


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler is missing")
def test_another_reader_opens_it(tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(to_pdf([sheet("Верстак")], About("t")))
    done = subprocess.run(
        ["pdftoppm", "-r", "20", "-png", path, tmp_path / "page"], check=True, capture_output=True, text=True
    )
    assert done.stderr == ""
    assert len(list(tmp_path.glob("page*.png"))) == 1
