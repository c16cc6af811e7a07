"""The cutting plans and the shopping list for a spreadsheet; lengths in millimetres, money in the spec's currency."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from generator.figures.model import Figures
from generator.figures.rows.buying import PIECES_FILE, Purchase
from generator.figures.rows.cutting import SheetCutRow, SheetRow
from generator.units.format import plain
from generator.writers.csv_text import csv_text

BAR_PIECES = (
    "material", "bar", "stock_mm", "on_hand", "lot", "order", "mark", "stop_mm", "running_mark_mm", "offcut_mm",
)  # fmt: skip
SHEET_PIECES = (
    "material", "sheet", "stock_length_mm", "stock_width_mm", "on_hand", "mark", "x_mm", "y_mm", "length_mm",
    "width_mm", "turned",
)  # fmt: skip
SHEET_CUTS = (
    "material", "tool", "setting", "cut_at_mm", "sheet", "cut", "of_cut", "of_part", "direction", "from_length_mm",
    "from_width_mm", "marks",
)  # fmt: skip
PURCHASES = (
    "section", "item", "buy", "pack", "stock_length_mm", "stock_width_mm", "price", "cost", "currency", "net",
    "unit", "detail",
)  # fmt: skip
PIECES = (
    "when", "material", "what", "count", "length_mm", "width_mm", "thickness_mm", "grain", "marks", "part",
    "banding",
)  # fmt: skip

Row = Sequence[object]


def plans_csv(figures: Figures) -> Mapping[str, str]:
    """Name of the file -> its text: bars and sheets piece by piece, cuts in the order of the fence, purchases."""
    return {
        "bar-plan.csv": csv_text(BAR_PIECES, _bar_pieces(figures)),
        "sheet-plan.csv": csv_text(SHEET_PIECES, _sheet_pieces(figures)),
        "sheet-cuts.csv": csv_text(SHEET_CUTS, _sheet_cuts(figures)),
        "shopping-list.csv": csv_text(PURCHASES, _purchases(figures, figures.purchases)),
        **orders_csv(figures),
    }


def orders_csv(figures: Figures) -> Mapping[str, str]:
    """Name of the file -> its text: one order a supplier, and the pieces for a cutting service."""
    orders = {
        order.file: csv_text(
            PURCHASES,
            _purchases(figures, [row for row in figures.purchases if row.supplier == order.supplier]),
        )
        for order in figures.purchase_total.orders
    }
    return {**orders, PIECES_FILE: csv_text(PIECES, _pieces(figures))}


def _pieces(figures: Figures) -> Iterator[Row]:
    for part in figures.parts:
        yield (
            "later" if part.waits else "now", part.material, part.made_of, part.count,
            *map(plain, part.cut_size), plain(part.thickness), part.grain, " ".join(part.marks), part.name,
            " ".join(part.bands),
        )  # fmt: skip


def _bar_pieces(figures: Figures) -> Iterator[Row]:
    for material, bars in groupby(figures.cutting.bars, lambda bar: bar.material):
        for number, bar in enumerate(bars, 1):
            pieces = zip(bar.pieces, bar.lengths, bar.running, strict=True)
            for order, (mark, length, running) in enumerate(pieces, 1):
                yield (
                    material, number, plain(bar.stock_length), _yes(bar.on_hand), bar.lot, order, mark,
                    plain(length), plain(running), plain(bar.offcut),
                )  # fmt: skip


def _numbered(figures: Figures) -> Iterator[tuple[int, SheetRow]]:
    for _, sheets in groupby(figures.cutting.sheets, lambda sheet: sheet.material):
        yield from enumerate(sheets, 1)


def _sheet_pieces(figures: Figures) -> Iterator[Row]:
    for number, sheet in _numbered(figures):
        for piece in sheet.pieces:
            yield (
                sheet.material, number, *map(plain, sheet.stock), _yes(sheet.on_hand), piece.mark, plain(piece.x),
                plain(piece.y), plain(piece.l), plain(piece.w), _yes(piece.turned),
            )  # fmt: skip


def _sheet_cuts(figures: Figures) -> Iterator[Row]:
    cuts = {
        (sheet.material, number, cut.n): cut for number, sheet in _numbered(figures) for cut in sheet.cuts
    }
    for number, sheet in _numbered(figures):
        for cut in sheet.cuts:
            if cut.by_track:
                yield _cut_row(sheet.material, None, number, cut)
    for fence in figures.cutting.fences:
        for place, n in fence.cuts:
            yield _cut_row(fence.material, fence.n, place, cuts[fence.material, place, n])


def _cut_row(material: str, setting: int | None, sheet: int, cut: SheetCutRow) -> Row:
    """A cut; one by track saw has no setting of the fence."""
    part = ("near part" if cut.near else "rest") if cut.parent else "sheet"
    return (
        material, "track saw" if cut.by_track else "fence", setting, plain(cut.setting), sheet, cut.n,
        cut.parent or None, part, "across" if cut.across else "along", plain(cut.l), plain(cut.w),
        " ".join(cut.marks),
    )  # fmt: skip


def _purchases(figures: Figures, rows: Sequence[Purchase]) -> Iterator[Row]:
    for row in rows:
        for place, each in enumerate(row.buy or (None,)):
            # what is true of the whole item is in its first line alone, so that a column can be added up
            first = place == 0
            buy = (None,) * 5 if each is None else (
                each.count, each.pack, *(None if side is None else plain(side) for side in (each.length, each.width)),
                each.price,
            )  # fmt: skip
            yield (
                row.section, row.item, *buy, row.cost if first else None, figures.spec.currency,
                round(row.quantity, 3) if first else None, row.unit, row.detail,
            )  # fmt: skip


def _yes(value: bool) -> str:
    return "yes" if value else "no"
