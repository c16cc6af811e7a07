"""A sheet of paper around a drawing: frame, head line, title block, foot line, and bars to check the scale by.

Frame and margins follow ISO 5457, the title block's fields ISO 7200, lettering ISO 3098-1.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import BOLD, LARGE_TEXT, SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import shortened, wrapped
from generator.drawings.paper import TRUE_SCALE, Paper, Scale

BLOCK_WIDTH = 180.0
"""Width of the title block in mm, ISO 7200."""
CELL_HEIGHT = 8.4
"""One row of the title block: a small heading and a value below it."""
BLOCK_ROWS = 2
HEAD_HEIGHT = 5.5
"""Room for the head line, and for the foot line."""

LEAST_NOTE = 60.0
"""Narrower room beside the title block holds no notes."""

TOLERANCE = "ISO 2768-m unless stated"
DATUM = "Datum of every part: its left, front or bottom end."

BAR_MM, BAR_INCH = 100.0, 4 * 25.4
"""Lengths of the two check bars."""
BAR_ROW, BAR_COLUMN = 8.0, 5.0
"""Room that the check bars take: a row below the drawing, a column at its right."""
BAR_LINES = (0.28, 0.74)
"""Where in the row the two bars are, from its upper edge."""
BAR_TICK, BAR_INSET = 1.4, 1.0
"""Half the height of a tick at a bar's end; clear mm between a bar and the side of the drawing."""


DO_NOT_CUT = "DO NOT CUT"
"""State of a sheet whose bench has a check that found an error; a full-scale sheet says it as well."""


@dataclass(frozen=True)
class Stamp:
    """What makes a sheet found on the floor known: the manual's title, revision, date, spec and units.

    `correction` is by how much full-scale sheets that stand upright are drawn larger, so that a printer that shrinks
    them is undone; `bar` the measured bars it was taken from, as text. `record` is the checksum of the build's record,
    in short, and `state` how far the build is.
    """

    title: str
    owner: str
    revision: str
    date: str
    checksum: str
    units: str
    correction: Scale = TRUE_SCALE
    bar: str = ""
    record: str = ""
    state: str = "draft"

    @property
    def source(self) -> str:
        """What a sheet was made from: the checksum of the spec, and that of the record when there is one."""
        return f"spec {self.checksum}" + (f", record {self.record}" if self.record else "")

    def scale(self, *, lying: bool) -> Scale:
        """The correction of a sheet that stands, or lies on its long side."""
        return self.correction.turned() if lying else self.correction


@dataclass(frozen=True)
class Heading:
    """What one sheet is: `document` its type, `subject` what it shows, `number` its identification."""

    document: str
    subject: str
    number: str = ""
    scale: str = ""
    datum: str = DATUM


@dataclass(frozen=True)
class Content:
    """One sheet before it is framed: the shapes in its space, and words for those who cannot see it."""

    canvas: Canvas
    heading: Heading
    description: str
    full_scale: bool = False
    lying: bool = False
    """On paper that lies on its long side."""
    notes: tuple[str, ...] = ()
    """Lines beside the title block of a sheet that lies on its long side."""


def room(paper: Paper, *, full_scale: bool = False) -> Extent:
    """The space of a framed sheet that is free for the drawing."""
    space = paper.space
    row, column = (BAR_ROW, BAR_COLUMN) if full_scale else (0.0, 0.0)
    return Extent(
        space.left,
        space.top + HEAD_HEIGHT,
        space.right - column,
        space.bottom - HEAD_HEIGHT - BLOCK_ROWS * CELL_HEIGHT - row,
    )


def frame_sheets(id: str, contents: Sequence[Content], stamp: Stamp, paper: Paper) -> tuple[Drawing, ...]:
    """The sheets of one document, numbered, each as large as the paper."""
    return tuple(
        frame_sheet(
            f"{id}-{number}",
            content,
            stamp,
            paper.turned() if content.lying else paper,
            f"{number} / {len(contents)}",
        )
        for number, content in enumerate(contents, 1)
    )


def frame_sheet(id: str, content: Content, stamp: Stamp, paper: Paper, number: str) -> Drawing:
    """One sheet: the drawing first, then all that is around it."""
    canvas = Canvas()
    space = paper.space
    if content.full_scale:
        check_bars(canvas, room(paper, full_scale=True), stamp.scale(lying=content.lying))
    canvas.place(content.canvas, 0.0, 0.0)
    canvas.rect(space.left, space.top, space.width, space.height, "frame")
    head_line(canvas, space, stamp, content)
    foot = space.bottom - HEAD_HEIGHT
    title_block(canvas, Extent(space.right - BLOCK_WIDTH, 0.0, space.right, foot), stamp, content, number)
    canvas.line((space.left, foot), (space.right, foot), "thin")
    beside = space.width - BLOCK_WIDTH - 3.0
    for line, note in enumerate(content.notes if beside > LEAST_NOTE else ()):
        base = foot - BLOCK_ROWS * CELL_HEIGHT + (line + 1) * line_height(SMALL_TEXT) * 1.1
        fitted(canvas, (space.left + 1.5, base), note, beside)
    words = f"{content.heading.datum} General tolerance {TOLERANCE}."
    fitted(canvas, (space.left + 1.5, space.bottom - 1.8), words, space.width - 3.0)
    return Drawing(
        id, content.heading.subject, content.description, paper.width, paper.height, tuple(canvas.shapes)
    )


def head_line(canvas: Canvas, space: Extent, stamp: Stamp, content: Content) -> None:
    """Title, revision, date, units, checksum; what the reader must know about the scale at the right."""
    base = space.top + HEAD_HEIGHT - 1.8
    right = scale_words(stamp) if content.full_scale else stamp.state
    if content.full_scale and stamp.state == DO_NOT_CUT:
        right = f"{DO_NOT_CUT} · {right}"
    canvas.text((space.right - 1.5, base), right, SMALL_TEXT, "end", style="mark")
    parts = (f"rev {stamp.revision}", stamp.date, f"in {stamp.units}", stamp.source)
    tail = " · ".join(part for part in parts if part)
    left = space.width - 6.0 - 1.12 * text_width(right, SMALL_TEXT)
    title = shortened(stamp.title, left - text_width(f" · {tail}", SMALL_TEXT), SMALL_TEXT)
    canvas.text((space.left + 1.5, base), f"{title} · {tail}", SMALL_TEXT)
    canvas.line((space.left, space.top + HEAD_HEIGHT), (space.right, space.top + HEAD_HEIGHT), "thin")


def scale_words(stamp: Stamp) -> str:
    """What a full-scale sheet says about its scale."""
    if stamp.bar:
        return f"1 : 1, corrected for {'bars' if '×' in stamp.bar else 'a bar'} of {stamp.bar} mm"
    return "1 : 1, print at 100 %"


def title_block(canvas: Canvas, block: Extent, stamp: Stamp, content: Content, number: str) -> None:
    """The fields of ISO 7200, in rows from the foot line up; `block` gives its sides and lower edge."""
    heading = content.heading
    rows = (
        (
            ("Owner, created by", stamp.owner or "–", 46.0),
            ("Title", heading.subject, 78.0),
            ("Document type", heading.document, 36.0),
            ("Sheet", number, 20.0),
        ),
        (
            ("Approved by", "", 46.0),
            ("No.", heading.number or "–", 28.0),
            ("Scale", heading.scale or ("1 : 1" if content.full_scale else "not to scale"), 26.0),
            ("Units", stamp.units, 12.0),
            ("Spec", stamp.checksum, 30.0),
            ("Date", stamp.date or "–", 24.0),
            ("Rev.", stamp.revision, 14.0),
        ),
    )
    top = block.bottom - len(rows) * CELL_HEIGHT
    canvas.rect(block.left, top, block.width, len(rows) * CELL_HEIGHT, "outline")
    for line, cells in enumerate(rows):
        x, y = block.left, top + line * CELL_HEIGHT
        if line:
            canvas.line((block.left, y), (block.right, y), "thin")
        for name, value, width in cells:
            if x > block.left:
                canvas.line((x, y), (x, y + CELL_HEIGHT), "thin")
            canvas.text((x + 1.0, y + 3.2), name, SMALL_TEXT, style="note")
            bold = "mark" if name in ("Title", "No.", "Rev.") else "text"
            fitted(canvas, (x + 1.0, y + CELL_HEIGHT - 1.2), value, width - 2.0, style=bold)
            x += width


def fitted(canvas: Canvas, at: Point, text: str, width: float, style: str = "text") -> None:
    """A line of small text that is cut short rather than leave its cell."""
    bold = 1.12 if style == "mark" else 1.0
    canvas.text(at, shortened(text, width / bold, SMALL_TEXT), SMALL_TEXT, style=style)


# --- bars to check the scale by


def check_bars(canvas: Canvas, free: Extent, scale: Scale) -> None:
    """100 mm and 4 in along the sheet below `free`, and across it at its right: printers stretch the two apart.

    Each bar has a line of its own, so that two neighbouring ticks on one line always are the ends of one bar.
    """
    mm, inch = BAR_MM * scale.x, BAR_INCH * scale.x
    left, right, half = free.left + BAR_INSET, free.right - BAR_INSET, SMALL_TEXT / 2
    upper, lower = (free.bottom + BAR_ROW * share for share in BAR_LINES)
    along_bar(canvas, (left, upper), mm)
    canvas.text((left + mm + 2.0, upper + half), "check: 100 mm", SMALL_TEXT)
    along_bar(canvas, (right - inch, lower), inch)
    canvas.text((right - inch - 2.0, lower + half), "check: 4 in", SMALL_TEXT, "end")
    mm, inch = BAR_MM * scale.y, BAR_INCH * scale.y
    x, low = free.right, free.top + (free.height + inch) / 2
    across_bar(canvas, (x + 1.2, low), mm, -1)
    canvas.text((x + 1.2 + half, low - mm - 2.0), "100 mm", SMALL_TEXT, upward=True)
    across_bar(canvas, (x + 3.2, low), inch, 1)
    canvas.text((x + 3.2 + half, low + 2.0), "4 in", SMALL_TEXT, "end", upward=True)


def along_bar(canvas: Canvas, start: Point, length: float) -> None:
    """A bar from left to right with a tick at each end."""
    x, y = start
    canvas.line(start, (x + length, y), "thin")
    for end in (x, x + length):
        canvas.line((end, y - BAR_TICK), (end, y + BAR_TICK), "thin")


def across_bar(canvas: Canvas, start: Point, length: float, side: int) -> None:
    """A bar from below upward, its end strokes towards `side`."""
    x, y = start
    canvas.line(start, (x, y - length), "thin")
    for end in (y, y - length):
        canvas.line((x, end), (x + side, end), "thin")


# --- text and tables


def heading_line(canvas: Canvas, at: Point, text: str, width: float, height: float = LARGE_TEXT) -> float:
    """A bold line from its upper left corner, cut short at `width`. Returns where the next may begin."""
    x, y = at
    canvas.text((x, y + height + 1.0), shortened(text, width / 1.12, height), height, style="mark")
    return y + line_height(height) + 1.0


def paragraph(canvas: Canvas, at: Point, text: str, width: float, height: float = TEXT) -> float:
    """Text in lines from its upper left corner. Returns where the next may begin."""
    x, y = at
    for line in wrapped(text, width, height):
        y += line_height(height) * 1.06
        canvas.text((x, y - 0.34 * height), line, height)
    return y


@dataclass(frozen=True)
class Table:
    """Headings, rows of texts, and the width of each column in mm; columns named in `right` end at the right."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    right: frozenset[int] = frozenset()

    def taken(self, first: int, last: int) -> Table:
        """The table with a part of its rows."""
        return replace(self, rows=self.rows[first:last])


TABLE_ROW = 4.8
"""Height of a row of one line."""


def row_heights(table: Table, height: float = SMALL_TEXT) -> list[float]:
    """Height of each row, its longest cell wrapped."""
    return [
        max(
            TABLE_ROW,
            1.6 + line_height(height) * 1.06 * max(len(lines) for lines in cells(table, row, height)),
        )
        for row in table.rows
    ]


def cells(table: Table, row: Sequence[str], height: float) -> list[list[str]]:
    """Each cell of a row as its lines."""
    return [wrapped(text, width - 2.0, height) or [""] for text, width in zip(row, table.widths, strict=True)]


def draw_table(canvas: Canvas, at: Point, table: Table, height: float = SMALL_TEXT) -> float:
    """A ruled table from its upper left corner. Returns its lower edge."""
    x, top = at
    width = sum(table.widths)
    heads = Table(table.headings, (table.headings,), table.widths, table.right)
    most = max(len(lines) for lines in cells(heads, table.headings, height * BOLD))
    rows = [(table.headings, max(TABLE_ROW, 1.6 + line_height(height) * 1.06 * most), "mark")]
    rows += [(row, tall, "text") for row, tall in zip(table.rows, row_heights(table, height), strict=True)]
    y = top
    for row, tall, style in rows:
        left = x
        for column, lines in enumerate(cells(table, row, height * (BOLD if style == "mark" else 1.0))):
            ends = column in table.right
            place = left + table.widths[column] - 1.0 if ends else left + 1.0
            for number, line in enumerate(lines):
                base = y + 0.4 + (number + 0.78) * line_height(height) * 1.06
                canvas.text((place, base), line, height, "end" if ends else "start", style=style)
            left += table.widths[column]
        y += tall
        canvas.line((x, y), (x + width, y), "thin")
    canvas.rect(x, top, width, y - top, "thin")
    for number in range(1, len(table.widths)):
        place = x + sum(table.widths[:number])
        canvas.line((place, top), (place, y), "thin")
    return y
