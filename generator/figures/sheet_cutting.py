"""The sheet plans of a bench: everything that is cut from sheets, edge to edge."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache, partial

from generator.bench.model import Bench, Part
from generator.calculators.cutting.core import budget_for
from generator.calculators.cutting.sheets import (
    Area,
    Breaches,
    BreakDown,
    CutSheet,
    CutTree,
    FenceOrder,
    PlacedPiece,
    SheetPiece,
    SheetPlan,
    SheetStock,
    ShopRules,
    breaches,
    plan_sheets,
)
from generator.figures.bar_cutting import money, price_of
from generator.figures.fences import Late, fences
from generator.figures.glued_boards import cut_parts
from generator.figures.rows.cutting import (
    FenceSetting,
    SheetCutRow,
    SheetPieceRow,
    SheetRow,
    SheetSummary,
    Shortage,
)
from generator.figures.sawn import Saw, late_last, sawn
from generator.figures.shortages import of_sheets
from generator.provenance import constant
from generator.spec.goods import Sheet, SheetSaw
from generator.spec.schema import Spec

#: Cuts are planned to this (mm): no saw holds less.
PLANNED_TO = Fraction(1, 10)
#: What a cut leaves beside the blade at least (mm): less runs off the saw as a sliver. Common practice, no source.
LEAST_LEFT = constant(1, "least that a cut leaves beside the blade")
#: Seconds (counted as work, see `WorkBudget`) that one material's plan may take.
BUDGET = 1.0
#: Of the budget left, one part in `OFFCUT_PART` is for a larger off-cut. The shipped benches lose nothing against half.
OFFCUT_PART = 5
#: Plans that are kept while the program runs: those of a few benches, for a page that follows a spec.
PLANS_KEPT = 64


@dataclass(frozen=True)
class SheetCutting:
    """Rows of all sheet plans; the least number of sheets by material."""

    sheets: tuple[SheetRow, ...]
    bounds: Mapping[str, int]
    summaries: tuple[SheetSummary, ...]
    fences: tuple[FenceSetting, ...]
    shortages: tuple[Shortage, ...]


def sheet_cutting(bench: Bench) -> SheetCutting:
    """Plans of all sheets whose stock the spec names. Parts too large for it are a check of their own."""
    spec = bench.spec
    rows: list[SheetRow] = []
    bounds: dict[str, int] = {}
    summaries: list[SheetSummary] = []
    settings: list[FenceSetting] = []
    shortages: list[Shortage] = []
    for name in dict.fromkeys(part.material for part in bench.parts):
        material = bench.goods.sheets.get(name)
        if material is None or not material.stock:
            continue
        parts = cut_parts(bench, name)
        plan = _plan(spec, material, parts)
        if plan.shortages:
            shortages += of_sheets(name, parts, plan.shortages)
            continue
        late = partial(_waits, parts)
        sheets = _in_own_sizes(spec, material, parts, plan, late)
        saw = fences(name, sheets, partial(_lying, parts), late)
        settings += saw.settings
        for number, (sheet, cuts) in enumerate(zip(sheets, saw.cuts, strict=True), 1):
            rows.append(_row(spec, name, number, material, parts, sheet, cuts))
        bounds[name] = _bound(material, plan)
        summaries.append(_summary(spec, name, material, parts, plan, saw.order))
    return SheetCutting(tuple(rows), bounds, tuple(summaries), tuple(settings), tuple(shortages))


def _plan(spec: Spec, material: Sheet, parts: Sequence[Part]) -> SheetPlan:
    saw = spec.saws.sheet
    return planned_once(
        tuple(sheet_stock(material, saw.clear)),
        tuple(sheet_pieces(parts, exact=has_defects(material))),
        planned(saw.kerf),
        planned(saw.edge_trim),
        saw.stages,
        break_down(saw),
        shop_rules(spec),
        (Fraction(saw.least_offcut[0]), Fraction(saw.least_offcut[1])),
    )


@lru_cache(maxsize=PLANS_KEPT)
def planned_once(
    stock: tuple[SheetStock, ...],
    pieces: tuple[SheetPiece, ...],
    kerf: Fraction,
    trim: Fraction,
    stages: int | None,
    breaking: BreakDown | None,
    rules: ShopRules | None,
    keep: tuple[Fraction, Fraction],
) -> SheetPlan:
    """The plan of a problem: of all that is worked out the slowest, and the same until a board changes."""
    budget = budget_for(BUDGET)
    return plan_sheets(
        stock,
        pieces,
        kerf=kerf,
        trim=trim,
        budget=budget,
        stages=stages,
        breaking=breaking,
        rules=rules,
        keep=keep,
        offcut_part=OFFCUT_PART,
    )


def has_defects(material: Sheet) -> bool:
    """Whether some of its boards are cut around defects."""
    return any(each.defects for each in material.stock)


def sheet_stock(material: Sheet, clear: Fraction) -> list[SheetStock]:
    """The sheets of a material, in the order of the spec, down to a tenth; `clear` is left around each defect."""
    return [
        SheetStock(
            available(each.length),
            available(each.width or each.length),
            Fraction(price_of(material, each)),
            1 if each.defects else each.count,
            tuple(around(Area(*each.at, *each.size), Fraction(clear)) for each in each.defects),
        )
        for each in material.stock
    ]


def around(area: Area, clear: Fraction) -> Area:
    """A defect with what stays free around it, in plain numbers."""
    x, y, width, height = (
        Fraction(each.numerator, each.denominator) for each in (area.x, area.y, area.width, area.height)
    )
    return Area(x - clear, y - clear, width + 2 * clear, height + 2 * clear)


def sheet_pieces(parts: Sequence[Part], *, exact: bool = False) -> list[SheetPiece]:
    """The size of a part that follows the grain lies along its sheet; without grain it may lie either way.

    Sizes are up to a tenth, or `exact`: beside a defect no piece may move by what others are smaller.
    """
    size = _plain if exact else planned
    return [
        SheetPiece(size(width), size(length), 1) if part.grain == "width"
        else SheetPiece(size(length), size(width), 1, turns=part.grain == "none")
        for part in parts
        for length, width in (part.cut_size,)
    ]  # fmt: skip


def _plain(length: Fraction) -> Fraction:
    return Fraction(length.numerator, length.denominator)


def shop_rules(spec: Spec) -> ShopRules:
    """What the operator asks of a cut."""
    return ShopRules(LEAST_LEFT, planned(spec.saws.sheet.least_feed))


def break_down(saw: SheetSaw) -> BreakDown | None:
    """How sheets are broken down before they go to the fence, planned to a tenth."""
    rule = saw.break_down
    if rule is None:
        return None
    kerf = None if rule.kerf is None else planned(rule.kerf)
    return BreakDown(available(rule.max_length), planned(rule.allowance), kerf)


def _waits(parts: Sequence[Part], tree: CutTree) -> bool:
    """Whether all that is cut from a part of a sheet waits until every bay is measured."""
    return all(parts[each.piece].waits for each in tree.pieces())


def planned(length: Fraction) -> Fraction:
    """The size that a piece is planned with (mm): its own, up to the next tenth, so that a plan always fits."""
    return -(-length // PLANNED_TO) * PLANNED_TO


def available(length: Fraction) -> Fraction:
    """The size that stock is planned with (mm): its own, down to a tenth."""
    return length // PLANNED_TO * PLANNED_TO


def _in_own_sizes(
    spec: Spec, material: Sheet, parts: Sequence[Part], plan: SheetPlan, late: Late
) -> tuple[CutSheet, ...]:
    """The plan's sheets with the cuts where the parts' own sizes put them, what waits behind what does not."""
    own, rule = spec.saws.sheet, spec.saws.sheet.break_down
    track = own.kerf if rule is None or rule.kerf is None else rule.kerf
    saw = Saw(own.kerf, own.edge_trim, rule.allowance if rule else Fraction(0), LEAST_LEFT, track)
    turned = {piece.piece: piece.turned for sheet in plan.sheets for piece in sheet.pieces}
    sizes = [_lying_sizes(part, turned[place]) for place, part in enumerate(parts)]
    found = []
    for sheet in plan.sheets:
        stock = material.stock[sheet.stock]
        # what waits is behind what does not, where no defect says where it is
        if not has_defects(material) and not any(cut.by_track for cut in sheet.cuts):
            sheet = replace(sheet, tree=late_last(sheet.tree, late))
        found.append(sawn(sheet, stock.length, stock.width or stock.length, saw, sizes))
    return tuple(found)


def _row(
    spec: Spec,
    name: str,
    number: int,
    material: Sheet,
    parts: Sequence[Part],
    sheet: CutSheet,
    cuts: tuple[SheetCutRow, ...],
) -> SheetRow:
    stock = material.stock[sheet.stock]
    pieces = [_lying(parts, each) for each in sheet.pieces]
    return SheetRow(
        material=name,
        stock=(stock.length, stock.width or stock.length),
        pieces=tuple(pieces),
        cuts=cuts,
        offcuts=tuple((area.x, area.y, area.width, area.height) for area in sheet.offcuts),
        trim=spec.saws.sheet.edge_trim,
        kerf=spec.saws.sheet.kerf,
        on_hand=stock.on_hand,
        grain=material.grain,
        defects=tuple((*each.at, *each.size) for each in stock.defects),
        n=number,
    )


def _lying(parts: Sequence[Part], placed: PlacedPiece) -> SheetPieceRow:
    """A part as it lies on its sheet, with its own sizes."""
    part = parts[placed.piece]
    sizes = _lying_sizes(part, placed.turned)
    return SheetPieceRow(part.mark, placed.area.x, placed.area.y, *sizes, placed.turned)


def _lying_sizes(part: Part, turned: bool) -> tuple[Fraction, Fraction]:
    """A part's own sizes along its sheet and across it."""
    across = turned or part.grain == "width"
    length, width = part.cut_size
    return (width, length) if across else (length, width)


def _bound(material: Sheet, plan: SheetPlan) -> int:
    """No plan takes fewer sheets, from the bound of the cost and the dearest sheet."""
    dearest = max(price_of(material, each) for each in material.stock)
    return math.ceil(plan.bound / dearest) if dearest else 0


def _summary(
    spec: Spec, name: str, material: Sheet, parts: Sequence[Part], plan: SheetPlan, order: FenceOrder
) -> SheetSummary:
    stocks = [material.stock[sheet.stock] for sheet in plan.sheets]
    rules = shop_rules(spec)
    broken = breaches(plan.sheets, rules) if rules else Breaches()
    area = sum((each.length * (each.width or each.length) for each in stocks), Fraction(0))
    used = sum((part.cut_size[0] * part.cut_size[1] for part in parts), Fraction(0))
    return SheetSummary(
        material=name,
        sheets=len(plan.sheets),
        to_buy=sum(not each.on_hand for each in stocks),
        cost=money(material, plan.cost),
        proved=plan.proved,
        gap=float((plan.cost - plan.bound) / plan.bound) if plan.bound else 0.0,
        used=float(used / area),
        setups=order.setups,
        setups_sheet_by_sheet=order.setups_sheet_by_sheet,
        settings=order.settings,
        track_cuts=len(order.first),
        stages=max((cut.stage for sheet in plan.sheets for cut in sheet.cuts), default=0),
        slivers=broken.slivers,
        small_parts=broken.small_parts,
        leftover_edges=broken.leftover_edges,
        clean_cost=None if plan.clean_cost is None else money(material, plan.clean_cost),
    )
