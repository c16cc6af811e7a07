"""Hardware: what to have, and every joint with its fastener and the place of its key."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.goods_looks import Goods, draw_goods, goods_of
from generator.figures.model import Figures
from generator.pages.page import Context, Page, Slim

#: The largest picture (mm) that is printed at its own size on any paper; its width on a phone, where letters need it.
WIDTH, HEIGHT, SLIM = 168.0, 200.0, 84.0
TITLE = "Screws and fittings at full size"
WORDS = "Screws, clips and fittings, each with its length. The sizes are those of the list."


def context(figures: Figures, ruler: Ruler) -> Context:
    """Joints by the bar on which they sit, A2 before A10."""
    sheets = draw_goods(goods_of(figures.hardware), ruler, Extent(0.0, 0.0, WIDTH, HEIGHT), bar=True)
    crossings = sorted({row.crossing for row in figures.joint_rows}, key=in_order)
    return {
        "at_size": [
            {
                "drawing": canvas.finish(f"hardware-{number}", f"{TITLE}, {number}", WORDS),
                "slim": Slim(_for_a_phone(goods, ruler).finish(f"hardware-{number}-slim", TITLE, WORDS)),
            }
            for number, (canvas, goods) in enumerate(sheets, 1)
        ],
        "crossings": [
            (mark, [row for row in figures.joint_rows if row.crossing == mark]) for mark in crossings
        ],
    }


def _for_a_phone(goods: Sequence[Goods], ruler: Ruler) -> Canvas:
    """The same goods on one sheet as long as it takes."""
    return draw_goods(goods, ruler, Extent(0.0, 0.0, SLIM, inf))[0][0]


def in_order(mark: str) -> tuple[str, int]:
    """Sorts A2 before A10."""
    letters = mark.rstrip("0123456789")
    return (letters, int(mark[len(letters) :] or 0))


PAGE = Page("hardware", "Hardware", "fasteners, joint by joint", context)
