"""Drawings as the pages of a PDF. Each page is as large as its Drawing, so a millimetre stays a millimetre.

The letters ship with the program: the same drawings make the same bytes on every machine.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby, pairwise
from math import hypot
from pathlib import Path
from typing import cast

from fpdf import FPDF, ViewerPreferences
from fpdf.fonts import TTFFont

from generator.drawings.canvas import Drawing
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import font_size
from generator.drawings.shapes import Arc, Circle, Line, Polyline, Rect, Shape, Text
from generator.writers.letters import Letters, letters
from generator.writers.looks import INK, LOOKS, PAPER_TONES, Look
from generator.writers.scripts import as_printed

POINTS = 72 / 25.4
"""Points in a millimetre."""

UNDATED = datetime(2000, 1, 1, tzinfo=UTC)
"""The date of a PDF whose spec has none: the clock has no place in a manual."""

ARC_STEP = 3.0
"""Degrees between the points of an arc."""


@dataclass(frozen=True)
class About:
    """What a PDF says about itself. `date` is the spec's, as YYYY-MM-DD."""

    title: str
    author: str = ""
    date: str = ""


Document = tuple[Sequence[Drawing], About]
"""Sheets in their order, and what their PDF says about itself."""


def to_pdf(sheets: Sequence[Drawing], about: About, font: Path | None = None) -> bytes:
    """The sheets as pages, in their order, never to be scaled by a printer's dialogue.

    Raises LettersError naming every letter that neither the shipped fonts nor `font` have, or that must be shaped.
    """
    return to_pdfs({"": (sheets, about)}, font)[""]


def to_pdfs(documents: Mapping[str, Document], font: Path | None = None) -> dict[str, bytes]:
    """Several documents by their names, with fonts that are made ready once for all."""
    texts = (text.text for sheets, _ in documents.values() for sheet in sheets for text in sheet.texts())
    with letters(texts, font) as fonts:
        return {name: _book(sheets, about, fonts) for name, (sheets, about) in documents.items()}


def _book(sheets: Sequence[Drawing], about: About, fonts: Letters) -> bytes:
    with closing(_Book(about, fonts)) as book:
        for sheet in sheets:
            book.add(sheet)
        return bytes(book.pdf.output())


class _Book:
    """One PDF as it grows."""

    def __init__(self, about: About, fonts: Letters) -> None:
        self.pdf = FPDF(unit="mm")
        self.pdf.set_auto_page_break(False)
        self.pdf.set_title(about.title)
        self.pdf.set_author(about.author)
        self.pdf.set_producer("bench-manual")
        self.pdf.set_lang("en")
        self.pdf.set_text_color(0)
        self.pdf.set_creation_date(_midnight(about.date))
        self.pdf.viewer_preferences = ViewerPreferences(print_scaling="None", display_doc_title=True)
        for name, file in fonts.files.items():
            self.pdf.add_font(*_family(name), file)
        self.held = fonts.held
        self._pen: Look | None = None
        self.fonts = {name: cast(TTFFont, self.pdf.fonts[name]) for name in fonts.files}

    def close(self) -> None:
        """Close the files of letters, which the PDF library leaves open."""
        for font in self.fonts.values():
            font.ttfont.close()

    def add(self, sheet: Drawing) -> None:
        """One more page, with all that is on the sheet: an entry of the outline, a figure for who cannot see it."""
        self.pdf.add_page(format=(sheet.width, sheet.height))
        self.pdf.start_section(sheet.description.partition(".")[0] or sheet.title)
        # the library tags only what it draws itself, such as an image; the way in is the same
        with self.pdf._marked_sequence(title=sheet.title, alt_text=sheet.description or sheet.title):
            self.write(sheet.shapes)

    def write(self, shapes: Iterable[Shape]) -> None:
        """Shapes in their order; a run of one style sets its pen once."""
        for style, run in groupby(shapes, key=lambda shape: shape.style):
            look = LOOKS[style]
            self.set_pen(look)
            for shape in run:
                self.draw(shape, look)

    def set_pen(self, look: Look) -> None:
        """Line width, tone and dashes of a look."""
        if look == self._pen:
            return
        self._pen, pdf = look, self.pdf
        if look.line:
            pdf.set_draw_color(_tone(look.stroke))
            pdf.set_line_width(look.line)
        if len(look.dash) == 2:
            pdf.set_dash_pattern(*look.dash)
        else:
            pdf.set_dash_pattern()
        if look.fill:
            pdf.set_fill_color(_tone(look.fill))

    def draw(self, shape: Shape, look: Look) -> None:
        """One shape with the pen as it is set."""
        pdf = self.pdf
        style = f"{'D' if look.line else ''}{'F' if look.fill else ''}"
        match shape:
            case Line():
                ends = chain_line(shape.start, shape.end, look.dash) if len(look.dash) > 2 else None
                for start, end in ends or ((shape.start, shape.end),):
                    pdf.line(*start, *end)
            case Polyline():
                fill = style if shape.closed else "D"
                pdf.polyline(list(shape.points), polygon=shape.closed, style=fill)
            case Rect():
                radius = shape.radius
                pdf.rect(*shape.corner, shape.width, shape.height, style, bool(radius), radius)
            case Circle():
                pdf.circle(*shape.centre, shape.radius, style)
            case Arc():
                pdf.polyline(_arc_points(shape), style="D")
            case Text():
                self.letter(shape, look)

    def letter(self, text: Text, look: Look) -> None:
        """One line of text, each run of it in the first font that has its letters."""
        size = font_size(text.height) * POINTS
        runs = list(self.runs(as_printed(text.text), look.bold))
        alone = len(runs) == 1 and text.anchor == "start"
        widths = [0.0 if alone else self.width(key, run, size) for key, run in runs]
        x, y = text.at
        x -= {"start": 0.0, "middle": sum(widths) / 2, "end": sum(widths)}[text.anchor]
        if text.upward:
            with self.pdf.rotation(90, *text.at):
                self.put(runs, widths, x, y, size)
        else:
            self.put(runs, widths, x, y, size)

    def put(
        self, runs: Sequence[tuple[str, str]], widths: Sequence[float], x: float, y: float, size: float
    ) -> None:
        """The runs one behind the other from (x, y)."""
        for (name, run), width in zip(runs, widths, strict=True):
            self.pdf.set_font(*_family(name), size)
            self.pdf.text(x, y, run)
            x += width

    def runs(self, text: str, bold: bool) -> Iterator[tuple[str, str]]:
        """(font, run of letters), in order; a letter that the bold font lacks is taken from another."""
        first = next(name for name in self.held if name.endswith("B") == bold)
        if self.held[first].issuperset(text):
            yield first, text
            return
        order = [first, *(name for name in self.held if name != first)]

        def font_of(letter: str) -> str:
            return next(name for name in order if letter in self.held[name])

        for name, run in groupby(text, key=font_of):
            yield name, "".join(run)

    def width(self, key: str, text: str, size: float) -> float:
        """Width in mm of letters in one font."""
        return sum(map(self.fonts[key].cw.__getitem__, map(ord, text))) / 1000 * size / POINTS


def chain_line(start: Point, end: Point, dash: Sequence[float]) -> list[tuple[Point, Point]]:
    """A chain line as its strokes: the PDF library knows no more than one dash and one gap."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    places, at = [0.0], 0.0
    while at < length:
        at += dash[(len(places) - 1) % len(dash)]
        places.append(min(at, length))

    def point(place: float) -> Point:
        share = place / length if length else 0.0
        return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)

    return [(point(a), point(b)) for number, (a, b) in enumerate(pairwise(places)) if number % 2 == 0]


def _arc_points(arc: Arc) -> list[Point]:
    steps = max(2, int((arc.end - arc.start) / ARC_STEP))
    return [arc.at(arc.start + (arc.end - arc.start) * step / steps) for step in range(steps + 1)]


def _family(name: str) -> tuple[str, str]:
    """A font's name as the PDF library has it: family and style."""
    return (name.removesuffix("B"), "B") if name.endswith("B") else (name, "")


def _tone(name: str) -> str:
    """A tone on paper; soft lettering is black there."""
    return "#000" if name in (INK, "soft") else PAPER_TONES[name]


def _midnight(text: str) -> datetime:
    """The start of a day in UTC; `UNDATED` for a text that is none."""
    try:
        return datetime.fromisoformat(text).replace(tzinfo=UTC)
    except ValueError:
        return UNDATED
