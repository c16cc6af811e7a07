"""One sheet of the cutting plan to scale: pieces with marks and sizes, off-cuts hatched, cuts numbered in order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, arrow, overall
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, text_width
from generator.drawings.lettering import shortened
from generator.drawings.shapes import Text
from generator.figures.rows.cutting import SheetCutRow, SheetPieceRow, SheetRow
from generator.names import slug

PLAN_LENGTH = 210.0
"""Length of every sheet on the paper, in mm."""

NUMBER_STEP = 2.5
"""How far apart the places are, in mm, where a cut may bear its number."""

ASIDE = (2.0, -2.0, 1.0, -1.0, 1.5, -1.5, 4.0, -4.0)
"""How far from its line, in mm, a number is tried that has no room on it."""

NO_LINKS: Mapping[str, str] = {}


def draw_sheet_plan(
    sheet: SheetRow, number: int, ruler: Ruler, made_of: str, links: Mapping[str, str] = NO_LINKS
) -> Drawing:
    """Sheet `number` of its material, its length from left to right, its own corner at the lower left.

    `made_of` says what the material is.
    """
    canvas = Canvas()
    scale = PLAN_LENGTH / float(sheet.stock[0])
    height = float(sheet.stock[1]) * scale
    canvas.rect(0.0, 0.0, PLAN_LENGTH, height, "thin")
    for x, y, length, width in sheet.offcuts:
        canvas.hatch(_area(x, y, length, width, scale, height), 2.5)
    for x, y, length, width in sheet.defects:
        _draw_defect(canvas, _area(x, y, length, width, scale, height))
    for piece in sheet.pieces:
        _draw_piece(canvas, piece, scale, height, ruler, links)
    _grain(canvas, sheet, height)
    overall(canvas, Row("x", height + 6.0, 1), 0.0, PLAN_LENGTH, ruler.text(sheet.stock[0]), foot=height)
    overall(canvas, Row("y", -6.0, -1), 0.0, height, ruler.text(sheet.stock[1]), foot=0.0)
    title = f"Sheet {number} of {made_of}"
    name = shortened(title, PLAN_LENGTH / 2, TEXT)
    canvas.text((PLAN_LENGTH, -2.5), name, TEXT, "end", style="mark")
    # last: a number keeps clear of all other lettering
    for cut in sheet.cuts:
        _draw_cut(canvas, cut, scale, height)
    return canvas.finish(f"sheet-plan-{slug(sheet.material)}-{number}", title, _describe(sheet, ruler))


def _area(x: Fraction, y: Fraction, length: Fraction, width: Fraction, scale: float, height: float) -> Extent:
    left, bottom = float(x) * scale, height - float(y) * scale
    return Extent(left, bottom - float(width) * scale, left + float(length) * scale, bottom)


def _draw_defect(canvas: Canvas, area: Extent) -> None:
    """A rectangle with both diagonals, as it is marked on the board."""
    canvas.rect(area.left, area.top, area.width, area.height, "outline")
    canvas.line((area.left, area.top), (area.right, area.bottom), "outline")
    canvas.line((area.left, area.bottom), (area.right, area.top), "outline")


def _draw_piece(
    canvas: Canvas,
    piece: SheetPieceRow,
    scale: float,
    height: float,
    ruler: Ruler,
    links: Mapping[str, str],
) -> None:
    area = _area(piece.x, piece.y, piece.l, piece.w, scale, height)
    corners = (
        (area.left, area.top),
        (area.right, area.top),
        (area.right, area.bottom),
        (area.left, area.bottom),
    )
    canvas.polygon(corners, "fill-wood")
    x, y = area.centre
    size = ruler.size(piece.l, piece.w)
    link = links.get(piece.mark, "")
    if area.height >= 11.0:
        canvas.text_if_free(Text((x, y), piece.mark, TEXT, "middle", style="mark", link=link), area)
        canvas.text_if_free(Text((x, y + 4.0), size, SMALL_TEXT, "middle"), area)
        return
    mark = Text((x, y + 1.2), piece.mark, SMALL_TEXT, "middle", style="mark", link=link)
    half = (mark.extent().width + text_width(size, SMALL_TEXT) + 2.0) / 2
    if 2 * half <= area.width - 3.0:
        mark = replace(mark, at=(x - half, y + 1.2), anchor="start")
        canvas.text_if_free(Text((x + half, y + 1.2), size, SMALL_TEXT, "end"), area)
    canvas.text_if_free(mark, area)


def _draw_cut(canvas: Canvas, cut: SheetCutRow, scale: float, height: float) -> None:
    """The cut's number on its line, where there is room; a cut that breaks the sheet down in thick dashes."""
    area = _area(cut.x, cut.y, cut.l, cut.w, scale, height)
    along = float(cut.at) * scale if cut.across else height - float(cut.at) * scale
    ends = (area.top, area.bottom) if cut.across else (area.left, area.right)
    if cut.by_track:
        line = [(along, end) if cut.across else (end, along) for end in ends]
        canvas.line(line[0], line[1], "break-down")
    steps = range(max(1, int((ends[1] - ends[0] - 2.0) / NUMBER_STEP)))
    places = [ends[0] + 3.0 + NUMBER_STEP * step for step in steps]
    # beside the cut's ends, or beside its line, where the names of the parts leave no room on it
    tries = [(at, 0.0) for at in (*places, ends[1] + 2.5, ends[0] - 2.5)]
    tries += [(at, aside) for at in (ends[1] + 2.5, *places) for aside in ASIDE]
    for at, aside in tries:
        place = (along + aside, at + 1.2) if cut.across else (at, along + aside + 1.2)
        if canvas.text_if_free(Text(place, str(cut.n), SMALL_TEXT, "middle", style="cut-number")):
            return


def _grain(canvas: Canvas, sheet: SheetRow, height: float) -> None:
    """An arrow along the grain, which runs along the sheet's length, above the sheet."""
    if sheet.grain in ("", "none"):
        return
    canvas.line((2.0, -3.5), (30.0, -3.5), "dimension")
    arrow(canvas, (30.0, -3.5), (2.0, -3.5))
    canvas.text((32.0, -2.5), "grain", SMALL_TEXT, style="note")


def _describe(sheet: SheetRow, ruler: Ruler) -> str:
    pieces = ", ".join(f"{piece.mark} {ruler.size(piece.l, piece.w)}" for piece in sheet.pieces)
    defects = f" Defects that no piece has: {len(sheet.defects)}." if sheet.defects else ""
    return f"{ruler.size(*sheet.stock)}: {pieces}.{defects}"
