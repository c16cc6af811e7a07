"""Templates at full scale: a corner with its notch, a cut-out, a plate with its holes, the relief's opening.

Each is a block with a caption; `flow` lays blocks on sheets. All of a block but its lettering is drawn larger by
the stamp's correction.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.drawings.canvas import Canvas
from generator.drawings.caution import in_words
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.hole_calls import call_holes, counted, draw_hole, size_of
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, line_height
from generator.drawings.lettering import shortened, wrapped
from generator.drawings.paper import Scale
from generator.drawings.sheet import BLOCK_WIDTH
from generator.figures.rows.parts import OperationRow
from generator.figures.rows.setting_out import Relief

BEYOND = 25.0
"""How much of the part is drawn around a notch or cut-out, in mm."""
CAPTION_WIDTH = 83.0
"""Width to which a caption runs, in mm; two blocks fit side by side on a sheet of 180 mm."""
APART = 4.0
"""Clear mm between blocks."""
CROSS = 2.0
"""How far centre lines run past a hole, in mm."""


@dataclass(frozen=True)
class TemplateBlock:
    """A captioned template with its upper left corner at (0, 0)."""

    canvas: Canvas
    width: float
    height: float


def block(shapes: Canvas, heading: str, lines: Sequence[str]) -> TemplateBlock:
    """The shapes below their caption."""
    canvas, extent = Canvas(), shapes.extents()
    width = min(BLOCK_WIDTH, max(CAPTION_WIDTH, extent.width))
    y = TEXT + 1.0
    canvas.text((0.0, y), shortened(heading, width / 1.12, TEXT), TEXT, style="mark")
    y += 0.6
    for line in lines:
        for part in wrapped(line, width, SMALL_TEXT):
            y += line_height(SMALL_TEXT) * 1.08
            canvas.text((0.0, y), part, SMALL_TEXT)
    y += 3.0
    canvas.place(shapes, -extent.left, y - extent.top)
    return TemplateBlock(canvas, width, y + extent.height)


def notch_block(along: Fraction, across: Fraction, where: str, ruler: Ruler, scale: Scale) -> TemplateBlock:
    """A corner of a part with its notch; turn the template over for the opposite hand."""
    canvas = Canvas()
    a, b = float(along) * scale.x, float(across) * scale.y
    right, low = a + BEYOND, b + BEYOND
    canvas.polyline(((a, 0.0), (a, b), (0.0, b)))
    canvas.line((a, 0.0), (right, 0.0))
    canvas.line((0.0, b), (0.0, low))
    canvas.polyline(((0.0, b), (0.0, 0.0), (a, 0.0)), "hidden")
    canvas.line((0.0, low), (right, low), "thin")
    canvas.line((right, 0.0), (right, low), "thin")
    canvas.hatch(Extent(0.0, 0.0, a, b), 2.0)
    lines = (where, "Hatched: cut away. First size: along the part. Thin edges: the part goes on.")
    return block(canvas, f"Notch {ruler.size(along, across)}", lines)


def cut_out_block(
    size: tuple[Fraction, Fraction],
    at_edge: bool,
    where: str,
    ruler: Ruler,
    scale: Scale,
    corner: Fraction = Fraction(0),
) -> TemplateBlock:
    """A rectangle out of a part, at its edge or within it, with its centre lines; `corner` rounds it."""
    canvas = Canvas()
    a, b = float(size[0]) * scale.x, float(size[1]) * scale.y
    canvas.hatch(Extent(0.0, 0.0, a, b), 2.0)
    if at_edge:
        canvas.polyline(((-BEYOND, 0.0), (0.0, 0.0), (0.0, b), (a, b), (a, 0.0), (a + BEYOND, 0.0)))
    else:
        canvas.rect(0.0, 0.0, a, b, radius=float(corner) * scale.mean)
        canvas.line((-CROSS * 2, b / 2), (a + CROSS * 2, b / 2), "centre")
    canvas.line((a / 2, -CROSS * 2), (a / 2, b + CROSS * 2), "centre")
    edge = "The upper line is the part's edge." if at_edge else "Set it by its centre lines, inside the part."
    round_ = f" Corners R {ruler.text(corner)}." if corner else ""
    return block(canvas, f"Cut-out {ruler.size(*size)}", (where, f"Hatched: cut away. {edge}{round_}"))


def plate_block(
    size: tuple[Fraction, Fraction], holes: Sequence[OperationRow], where: str, ruler: Ruler, scale: Scale
) -> TemplateBlock:
    """A whole plate with its holes, from its lower left corner."""
    canvas = Canvas()
    width, height = float(size[0]) * scale.x, float(size[1]) * scale.y
    canvas.rect(0.0, 0.0, width, height)
    boxes: list[tuple[OperationRow, Extent]] = []
    for hole in holes:
        assert not isinstance(hole.size, tuple)
        x, y = float(hole.at[0]) * scale.x, height - float(hole.at[1]) * scale.y
        radius = float(hole.size) * scale.mean / 2
        draw_hole(canvas, (x, y), radius, hole)
        canvas.line((x - radius - CROSS, y), (x + radius + CROSS, y), "thin")
        canvas.line((x, y - radius - CROSS), (x, y + radius + CROSS), "thin")
        boxes.append((hole, Extent(x - radius, y - radius, x + radius, y + radius)))
    call_holes(canvas, boxes, Extent(0.0, 0.0, width, height), ruler, each=True)
    kinds = Counter(size_of(hole, ruler) for hole in holes)
    sizes = ", ".join(f"{counted(kind, count)}" for kind, count in kinds.items())
    lines = [where, "Punch all centres through the paper."]
    if threads := sorted({hole.thread for hole in holes if hole.thread}):
        lines.append(f"{' and '.join(threads)}: drill for the thread and tap it.")
    return block(canvas, f"Plate {ruler.size(*size)}: {sizes}", lines)


def relief_block(relief: Relief, section: Fraction, ruler: Ruler, scale: Scale) -> TemplateBlock:
    """The template's opening and the work's opening on the bar, about their common centre."""
    canvas = Canvas()
    length, width = float(relief.template[0]) * scale.x, float(relief.template[1]) * scale.y
    work_length, work_width = float(relief.opening[0]) * scale.x, float(relief.opening[1]) * scale.y
    half = float(section) * scale.y / 2
    reach = length / 2 + BEYOND
    for y in (-half, half):
        canvas.line((-reach, y), (reach, y), "thin")
    centred(canvas, length, width, float(relief.template_radius) * scale.mean, "outline")
    centred(canvas, work_length, work_width, float(relief.work_radius) * scale.mean, "hidden")
    canvas.line((-reach, 0.0), (reach, 0.0), "centre")
    canvas.line((0.0, -half - CROSS * 2), (0.0, half + CROSS * 2), "centre")
    return block(
        canvas,
        f"Relief template {ruler.size(*relief.template)}",
        (
            f"For an opening of {ruler.size(*relief.opening)} with bush {ruler.text(relief.guide_bush)} and cutter "
            f"{ruler.text(relief.cutter)}: {ruler.fine(relief.offset)} larger on every side, corners R "
            f"{ruler.fine(relief.template_radius)}.",
            "Wide line: saw the template here. Dashed: the opening in the bar. Thin: the edges of the bar.",
            in_words("router"),
        ),
    )


def centred(canvas: Canvas, width: float, height: float, radius: float, style: str) -> None:
    """A rounded rectangle about (0, 0)."""
    canvas.rect(-width / 2, -height / 2, width, height, style, min(radius, width / 2, height / 2))


def flow(blocks: Sequence[TemplateBlock], free: Extent) -> list[Canvas]:
    """The blocks side by side in rows from the upper left, on as many sheets as they need."""
    sheets: list[Canvas] = []
    x, y, tall = free.left, free.bottom, 0.0
    left = free.left + 2.0
    for each in blocks:
        if sheets and x > left and x + each.width > free.right:
            x, y, tall = left, y + tall + APART, 0.0
        if not sheets or y + each.height > free.bottom:
            sheets.append(Canvas())
            x, y, tall = left, free.top + 2.0, 0.0
        sheets[-1].place(each.canvas, x, y)
        x, tall = x + each.width + APART, max(tall, each.height)
    return sheets
