"""The bar plans of a bench: everything that is cut to length."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.calculators.cutting.bars import BarPiece, BarPlan, BarStock, plan_bars
from generator.calculators.cutting.core import budget_for
from generator.figures.rows.cutting import BarRow, BarSummary, Bound, Shortage, StopSetting
from generator.figures.shortages import of_bars
from generator.spec.material import Material, Stock
from generator.spec.schema import Spec

#: Seconds (counted as work, see `WorkBudget`) that one material's plan may take.
BUDGET = 2.0


@dataclass(frozen=True)
class BarCutting:
    """Rows of all bar plans; bounds by material."""

    bars: tuple[BarRow, ...]
    bounds: Mapping[str, Bound]
    summaries: tuple[BarSummary, ...]
    stops: tuple[StopSetting, ...]
    shortages: tuple[Shortage, ...]


def bar_cutting(bench: Bench) -> BarCutting:
    """Plans of all materials that are cut to length and whose stock the spec names."""
    spec = bench.spec
    bars: list[BarRow] = []
    bounds: dict[str, Bound] = {}
    summaries: list[BarSummary] = []
    stops: list[StopSetting] = []
    shortages: list[Shortage] = []
    for name in dict.fromkeys(part.material for part in bench.parts):
        material = bench.goods.lengths.get(name)
        if material is None or not material.stock:
            continue
        pieces = [part for part in bench.parts if part.material == name]
        plan = _plan(spec, material, pieces)
        if plan.shortages:
            shortages += of_bars(name, pieces, plan.shortages)
            continue
        rows = _rows(spec, name, material, pieces, plan)
        bars += rows
        bounds[name] = _bound(spec, material, pieces, plan)
        summaries.append(_summary(material, pieces, plan, rows))
        stops += _stops(name, pieces)
    return BarCutting(tuple(bars), bounds, tuple(summaries), tuple(stops), tuple(shortages))


def _plan(spec: Spec, material: Material, pieces: Sequence[Part]) -> BarPlan:
    """In the parts' own lengths, as plain numbers: what is called the longest off-cut is so to the last bit."""
    saw = spec.saws.bar
    return plan_bars(
        bar_stock(material),
        bar_pieces(pieces),
        kerf=Fraction(saw.kerf),
        trim=Fraction(saw.end_trim),
        budget=budget_for(BUDGET),
    )


def bar_stock(material: Material) -> list[BarStock]:
    """The bars of a material, in the order of the spec."""
    return [
        BarStock(Fraction(each.length), price_of(material, each), each.count, each.lot)
        for each in material.stock
    ]


def bar_pieces(parts: Sequence[Part]) -> list[BarPiece]:
    """The parts to be cut to length, in their own lengths."""
    return [BarPiece(Fraction(part.cut_size[0]), 1, part.group) for part in parts]


def price_of(material: Material, stock: Stock) -> Fraction:
    """What is in the shop costs nothing; where a price is missing, length is used instead."""
    if stock.on_hand:
        return Fraction(0)
    if any(each.price is None for each in material.stock if not each.on_hand):
        return stock.length
    return stock.price or Fraction(0)


def _rows(spec: Spec, name: str, material: Material, pieces: Sequence[Part], plan: BarPlan) -> list[BarRow]:
    kerf = spec.saws.bar.kerf
    rows = []
    for bar in plan.bars:
        stock, parts = material.stock[bar.stock], [pieces[place] for place in bar.pieces]
        ends, at = [], Fraction(0)
        for part in parts:
            ends.append(at + part.cut_size[0])
            at += part.cut_size[0] + kerf
        rows.append(
            BarRow(
                material=name,
                stock_length=stock.length,
                pieces=tuple(part.mark for part in parts),
                offcut=max(Fraction(0), stock.length - 2 * spec.saws.bar.end_trim - at),
                lengths=tuple(part.cut_size[0] for part in parts),
                running=tuple(ends),
                trim=spec.saws.bar.end_trim,
                kerf=kerf,
                on_hand=stock.on_hand,
                lot=stock.lot,
            )
        )
    return rows


def _bound(spec: Spec, material: Material, pieces: Sequence[Part], plan: BarPlan) -> Bound:
    """The least cost, and the least number of bars: by the cost where all bars cost the same, else by length."""
    prices = {price_of(material, each) for each in material.stock}
    price = prices.pop() if len(prices) == 1 else Fraction(0)
    if price:
        return Bound(money(material, plan.bound), math.ceil(plan.bound / price))
    saw = spec.saws.bar
    room = max(each.length for each in material.stock) - 2 * saw.end_trim + saw.kerf
    needed = sum((part.cut_size[0] + saw.kerf for part in pieces), Fraction(0))
    return Bound(money(material, plan.bound), math.ceil(needed / room))


def money(material: Material, amount: Fraction) -> float | None:
    """A sum of money; None when the spec names no prices."""
    return float(amount) if all(each.price is not None or each.on_hand for each in material.stock) else None


def _summary(material: Material, pieces: Sequence[Part], plan: BarPlan, rows: Sequence[BarRow]) -> BarSummary:
    stock = sum((material.stock[bar.stock].length for bar in plan.bars), Fraction(0))
    used = sum((part.cut_size[0] for part in pieces), Fraction(0))
    return BarSummary(
        material=rows[0].material,
        bars=len(plan.bars),
        to_buy=sum(not material.stock[bar.stock].on_hand for bar in plan.bars),
        cost=money(material, plan.cost),
        proved=plan.proved,
        gap=float(plan.gap),
        longest_offcut=max(row.offcut for row in rows),
        offcut_is_longest=plan.offcut_is_longest,
        patterns=plan.patterns,
        patterns_are_fewest=plan.patterns_are_fewest,
        used=float(used / stock),
    )


def _stops(name: str, pieces: Sequence[Part]) -> list[StopSetting]:
    """One stop a length, longest first: a spoiled long piece becomes a short one."""
    by_length: dict[Fraction, list[str]] = {}
    for part in pieces:
        by_length.setdefault(part.cut_size[0], []).append(part.mark)
    return [
        StopSetting(name, length, len(marks), tuple(marks))
        for length, marks in sorted(by_length.items(), reverse=True)
    ]
