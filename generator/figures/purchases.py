"""The shopping list: net amounts by material, and all hardware with its spares."""

from __future__ import annotations

from fractions import Fraction

from generator.figures.model import BarSummary, Cutting, HardwareRow, PartRow, Purchase, SheetSummary
from generator.spec.goods import Sheet
from generator.spec.schema import Spec


def purchases(
    spec: Spec, parts: tuple[PartRow, ...], rows: tuple[HardwareRow, ...], plans: Cutting
) -> tuple[Purchase, ...]:
    """Bars, strips and sheets by their plans, hardware by piece."""
    sheets = {summary.material: summary for summary in plans.sheet_summaries}
    planned = {summary.material: summary for summary in plans.summaries}
    lines = []
    for name in dict.fromkeys(part.material for part in parts):
        own = [part for part in parts if part.material == name]
        material = spec.materials.get(name)
        if material is None:
            lines.append(_plates(name, own))
        elif isinstance(material, Sheet):
            lines.append(_sheets(name, own, sheets.get(name)))
        else:
            lines.append(_lengths(spec, name, own, planned.get(name)))
    lines += [Purchase("Hardware", row.item, row.count + row.spare, "pieces", _detail(row)) for row in rows]
    return tuple(lines)


def _detail(row: HardwareRow) -> str:
    words = [row.size] if row.size else []
    words.append(f"{row.count} + {row.spare} spare" if row.spare else f"{row.count}")
    return ", ".join(words)


def _plates(name: str, parts: list[PartRow]) -> Purchase:
    count = sum(part.count for part in parts)
    return Purchase("Sheet goods", name, count, "pieces", "see the part sheets for size and holes")


def _lengths(spec: Spec, name: str, parts: list[PartRow], plan: BarSummary | None) -> Purchase:
    net = sum((part.length * part.count for part in parts), Fraction(0))
    section = "Bars" if spec.materials[name].kind == "profile" else "Strips and angles"
    detail = "no stock length in the spec: plan the cuts yourself"
    if plan is not None:
        on_hand = plan.bars - plan.to_buy
        detail = f"{plan.to_buy} to buy" + (f", {on_hand} on hand" if on_hand else "") + ", see the bar plan"
    return Purchase(section, name, float(net / 1000), "m", detail)


def _sheets(name: str, parts: list[PartRow], plan: SheetSummary | None) -> Purchase:
    area = sum((part.length * part.width * part.count for part in parts), Fraction(0))
    detail = "no stock size in the spec: plan the cuts yourself"
    if plan is not None:
        on_hand = plan.sheets - plan.to_buy
        detail = (
            f"{plan.to_buy} to buy" + (f", {on_hand} on hand" if on_hand else "") + ", see the sheet plan"
        )
    return Purchase("Sheet goods", name, float(area / 1_000_000), "m²", detail)
