"""The shopping list: what to buy of bars, sheets and hardware, with packs, spares and prices."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings.walls import PLANING
from generator.bench.law import said
from generator.bench.model import Bench
from generator.figures.finish import finishes
from generator.figures.hardware import card_of
from generator.figures.rows.buying import PIECES, Bought, Order, Purchase, PurchaseTotal
from generator.figures.rows.cutting import BarRow, Cutting, SheetRow
from generator.figures.rows.finish import FinishRow
from generator.figures.rows.hardware import HardwareRow, Lot
from generator.figures.rows.parts import PartRow
from generator.names import slugs
from generator.spec.frames import Timber
from generator.spec.goods import Angle, AnyHardware, Pack, Profile, Sheet, Strip
from generator.spec.item import supplier
from generator.spec.material import Material, Stock
from generator.spec.schema import Spec
from generator.units.format import format_mm
from generator.units.sizes import INCH


def purchases(
    bench: Bench, parts: tuple[PartRow, ...], rows: tuple[HardwareRow, ...], plans: Cutting
) -> tuple[Purchase, ...]:
    """Bars, strips and sheets by their plans, hardware by the pack, finishes by the tin."""
    spec, goods = bench.spec, bench.goods
    lines = []
    for name in dict.fromkeys(part.material for part in parts):
        own = [part for part in parts if part.material == name]
        # what is neither is bought as hardware, by the piece
        if sheet := goods.sheets.get(name):
            lines.append(
                _sheets(spec, sheet, name, own, [row for row in plans.sheets if row.material == name])
            )
        elif material := goods.lengths.get(name):
            line = _lengths(spec, material, name, own, [row for row in plans.bars if row.material == name])
            lines.append(replace(line, detail=line.detail + _planing(spec, goods.strips.get(name), own)))
    lines += [line for row in rows for line in _hardware(spec, row)]
    return (*lines, *(_finish(spec, row) for row in finishes(bench)))


def _finish(spec: Spec, row: FinishRow) -> Purchase:
    detail = "15 % more is bought than the parts take"
    buy = (Bought(row.tins, row.price, tin=row.tin_litres),)
    cost = None if row.price is None else float(Fraction(str(row.price)) * row.tins)
    return Purchase("Finishes", row.coat, row.litres, "l", detail, buy, cost, _seller(spec, row))


def _seller(spec: Spec, row: FinishRow) -> str:
    """Who sells a finish: the first of its layers that says so."""
    return next(filter(None, (supplier(getattr(spec.finish, layer.key)) for layer in row.layers)), "")


def total(lines: Iterable[Purchase]) -> PurchaseTotal:
    """The sum of what has a price, and what has none; supplier by supplier in the order of the list."""
    rows = tuple(lines)
    # what nobody is named for comes last
    names = sorted(dict.fromkeys(row.supplier for row in rows), key=lambda name: not name)
    _, *stems = slugs((PIECES, *(name or "others" for name in names)))
    orders = (
        _order(name, f"order-{stem}.csv", [row for row in rows if row.supplier == name])
        for name, stem in zip(names, stems, strict=True)
    )
    return PurchaseTotal(*_sum(rows), tuple(orders))


def _order(seller: str, file: str, rows: Sequence[Purchase]) -> Order:
    return Order(seller, tuple(row.item for row in rows), *_sum(rows), file)


def _sum(rows: Iterable[Purchase]) -> tuple[float, tuple[str, ...]]:
    cost, unpriced = Fraction(0), []
    for row in rows:
        if row.cost is None:
            unpriced.append(row.item)
        else:
            cost += Fraction(str(row.cost))
    return float(cost), tuple(unpriced)


def _hardware(spec: Spec, row: HardwareRow) -> Iterator[Purchase]:
    """One line, or one for each lot where the pieces are not all the same."""
    sold = spec.packs.get(row.item) or card_of(spec, row)
    for lot in row.lots or (Lot(row.count, "", row.spare),):
        item = f"{row.item}, {lot.size}" if lot.size else row.item
        # a row of several sizes lists those of its lots
        lists = bool(lot.size) and lot.size in row.size
        words = [row.size] if row.size and not lists else []
        words += [f"{lot.count} + {lot.spare} spare"] if lot.spare else []
        yield _pieces(item, lot.count + lot.spare, ", ".join(words), sold)


def _pieces(item: str, count: int, detail: str, sold: Pack | AnyHardware | None) -> Purchase:
    pack = sold.pack if sold else None
    price = sold.price if sold else None
    bought = -(-count // (pack or 1))
    buy = (Bought(bought, None if price is None else float(price), pack=pack),)
    cost = None if price is None else float(price * bought)
    return Purchase("Hardware", item, count, "pieces", detail, buy, cost, supplier(sold))


def _lengths(
    spec: Spec,
    material: Profile | Timber | Strip | Angle,
    name: str,
    parts: list[PartRow],
    bars: Sequence[BarRow],
) -> Purchase:
    net = sum((part.cut_size[0] * part.count for part in parts), Fraction(0))
    section = ("Bars" if parts[0].metal else "Timber") if parts[0].is_bar else "Strips and angles"
    if not bars:
        detail = _unplanned(material, "no stock length in the spec", "bar plan")
        return Purchase(section, name, float(net / 1000), "m", detail, supplier=supplier(material))
    buy = _bought(material, [(bar.stock_length, None) for bar in bars if not bar.on_hand])
    detail = _planned(sum(bar.on_hand for bar in bars), "bar plan") + _by_volume(spec, parts, bars)
    return Purchase(section, name, float(net / 1000), "m", detail, buy, _cost(buy), supplier(material))


def _by_volume(spec: Spec, parts: list[PartRow], bars: Sequence[BarRow]) -> str:
    """What the timbers to buy come to where a yard sells them by volume: in m³, or in board feet (144 cubic inches)."""
    if not parts[0].is_bar or parts[0].metal:
        return ""
    length = sum((bar.stock_length for bar in bars if not bar.on_hand), Fraction(0))
    volume = parts[0].thickness * parts[0].width * length
    if spec.units == "mm":
        return f"; {format_mm(volume / 10**9, 3)} m³ as planed"
    return f"; {format_mm(volume / INCH**3 / 144, 1)} board feet as planed"


def _planing(spec: Spec, strip: Strip | None, parts: list[PartRow]) -> str:
    """What to buy where a strip leaves nothing, or too little, to plane off."""
    needed = max((part.thickness for part in parts if part.planed), default=Fraction(0))
    if strip is None or not needed or strip.thickness >= needed + PLANING:
        return ""
    return f"; planed to {said(spec, needed)}: buy {said(spec, needed + PLANING)} or thicker"


def _sheets(
    spec: Spec, material: Sheet, name: str, parts: list[PartRow], sheets: Sequence[SheetRow]
) -> Purchase:
    rough = _rough(spec, material)
    area = sum((part.cut_size[0] * part.cut_size[1] * part.count for part in parts), Fraction(0))
    if not sheets:
        detail = _unplanned(material, "no stock size in the spec", "sheet plan") + rough
        return Purchase(
            "Sheet goods", name, float(area / 1_000_000), "m²", detail, supplier=supplier(material)
        )
    buy = _bought(material, [sheet.stock for sheet in sheets if not sheet.on_hand])
    detail = _planned(sum(sheet.on_hand for sheet in sheets), "sheet plan") + rough
    return Purchase(
        "Sheet goods", name, float(area / 1_000_000), "m²", detail, buy, _cost(buy), supplier(material)
    )


def _rough(spec: Spec, material: Sheet) -> str:
    """How thick boards are bought that are planed to their thickness."""
    if not material.planing:
        return ""
    return f"; rough {said(spec, material.thickness + material.planing)}, planed to {said(spec, material.thickness)}"


def _unplanned(material: Material, none: str, plan: str) -> str:
    """Why there is nothing to buy by: no stock in the spec, or stock that does not hold the parts."""
    return f"not enough stock, see the {plan}" if material.stock else f"{none}: plan the cuts yourself"


def _planned(on_hand: int, plan: str) -> str:
    return (f"{on_hand} on hand, " if on_hand else "") + f"see the {plan}"


def _bought(material: Material, sizes: Sequence[tuple[Fraction, Fraction | None]]) -> tuple[Bought, ...]:
    """Pieces of stock to buy, the largest first."""
    counts = Counter(sizes)
    ordered = sorted(counts.items(), key=lambda item: [-(side or 0) for side in item[0]])
    return tuple(
        Bought(count, _price(material.stock, length, width), length, width)
        for (length, width), count in ordered
    )


def _price(stock: Sequence[Stock], length: Fraction, width: Fraction | None) -> float | None:
    for each in stock:
        if not each.on_hand and each.length == length and width in (None, each.width or each.length):
            return None if each.price is None else float(each.price)
    return None


def _cost(buy: Sequence[Bought]) -> float | None:
    """None when one of the prices is missing."""
    cost = Fraction(0)
    for each in buy:
        if each.price is None:
            return None
        cost += each.count * Fraction(str(each.price))
    return float(cost)
