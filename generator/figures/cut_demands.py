"""What each file (bench or cutting problem) asks of each of its materials, for one plan of them all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.calculators.cutting.bars import BarStock
from generator.calculators.cutting.sheets import SheetStock
from generator.codes import Code
from generator.figures.bar_cutting import bar_pieces, bar_stock
from generator.figures.glued_boards import cut_parts
from generator.figures.sheet_cutting import (
    break_down,
    has_defects,
    planned,
    sheet_pieces,
    sheet_stock,
    shop_rules,
)
from generator.findings import Finding, Severity, Where
from generator.spec.cut_material import SIDES, CutMaterial, material_of_card
from generator.spec.cut_problem import CutProblem
from generator.spec.labels import material_label, with_name
from generator.spec.material import Material

#: Keys of a card that do not say what the material is, or that its terms have already.
_BESIDE = {"use", "measured", "stock", "spread", *(side for sides in SIDES.values() for side in sides)}


@dataclass(frozen=True)
class Demand:
    """The pieces that a file (`source`) needs of a material, as a problem whose pieces bear the file's name.

    Demands with equal `terms` can share a plan; `card` is what a bench knows of the material beyond these.
    `prices` are those of the stock, None where the file has none. `waits` are pieces that are cut when every bay is
    measured.
    """

    source: str
    label: str
    problem: CutProblem
    terms: Mapping[str, object]
    card: Mapping[str, object] | None
    prices: tuple[Fraction | None, ...]
    where: Where | None
    waits: tuple[str, ...] = ()

    @property
    def material(self) -> CutMaterial | None:
        """What is cut; None where a problem does not say."""
        return self.problem.material


def problem_demand(source: str, problem: CutProblem) -> Demand:
    """The demand of a cutting problem."""
    stock: Sequence[BarStock | SheetStock] = problem.sheets or problem.stock
    made = problem.material
    label = f"{made.words(problem.units)} ({made.name})" if made else problem.name or source
    return Demand(
        source,
        label,
        replace(problem, name="", names=tuple(f"{source} {name}".rstrip() for name in problem.names)),
        _terms(problem, [each.price == 0 for each in stock]),
        None,
        tuple(each.price if known else None for each, known in zip(stock, problem.priced, strict=True)),
        problem.document.where(("material",)) if problem.document else None,
    )


def bench_demands(source: str, bench: Bench) -> Iterator[Demand | Finding]:
    """The demand of each material of a bench; a finding where it names no stock of one."""
    goods = bench.goods
    for name in dict.fromkeys(part.material for part in bench.parts):
        card = goods.sheets.get(name) or goods.lengths.get(name)
        if card is None:
            continue  # bought by the piece, as hardware
        parts = cut_parts(bench, name)
        where = bench.loaded.where("materials", name)
        if not card.stock:
            yield Finding(
                Code.NOT_PLANNED,
                Severity.WARNING,
                f"{len(parts)} pieces of `{name}` are not planned, because it has no stock",
                where,
                advice=f"Write what you can buy under `materials.{name}.stock`.",
            )
            continue
        made = material_of_card(name, card)
        problem = _bench_problem(source, bench, made, card, parts)
        yield Demand(
            source,
            with_name(material_label(card, bench.spec.units), name),
            problem,
            _terms(problem, [each.on_hand for each in card.stock]),
            card.model_dump(exclude=_BESIDE),
            tuple(
                Fraction(0) if each.on_hand else None if each.price is None else Fraction(each.price)
                for each in card.stock
            ),
            where,
            tuple(f"{source} {part.mark}" for part in parts if part.waits),
        )


def _bench_problem(
    source: str, bench: Bench, made: CutMaterial, card: Material, parts: Sequence[Part]
) -> CutProblem:
    """The parts of one material as a cutting problem."""
    spec = bench.spec
    problem = CutProblem(
        "",
        spec.units,
        Fraction(spec.saws.bar.kerf),
        Fraction(spec.saws.bar.end_trim),
        names=tuple(f"{source} {part.mark}" for part in parts),
        material=made,
        keep=(Fraction(spec.saws.bar.least_offcut),),
        priced=tuple(each.price is not None or each.on_hand for each in card.stock),
        places=tuple(bench.loaded.where("materials", made.name, "stock") for _ in parts),
    )
    sheet = bench.goods.sheets.get(made.name)
    if sheet is None:
        return replace(problem, stock=tuple(bar_stock(card)), bar_pieces=tuple(bar_pieces(parts)))
    saw = spec.saws.sheet
    return replace(
        problem,
        kerf=planned(saw.kerf),
        trim=planned(saw.edge_trim),
        sheets=tuple(sheet_stock(sheet, saw.clear)),
        sheet_pieces=tuple(sheet_pieces(parts, exact=has_defects(sheet))),
        stages=saw.stages,
        rules=shop_rules(spec),
        breaking=break_down(saw),
        keep=tuple(map(Fraction, saw.least_offcut)),
    )


def _terms(problem: CutProblem, on_hand: Sequence[bool]) -> dict[str, object]:
    """What must be equal so that pieces can be cut from one stock at one saw, by the word for it."""
    made = problem.material
    sides = dict(zip(SIDES[made.kind], made.sides, strict=True)) if made else {}
    stock: Sequence[BarStock | SheetStock] = problem.sheets or problem.stock
    bought = zip(stock, problem.priced, on_hand, strict=True)
    sheet_saw = {
        "stages": problem.stages,
        "least_feed": problem.rules and problem.rules.least_feed,
        "break_down": problem.breaking,
    }
    return {
        "kind": made.kind if made else None,
        **sides,
        "kerf": problem.kerf,
        "trim": problem.trim,
        **(sheet_saw if problem.of_sheets else {}),
        "least_offcut": problem.keep,
        "stock": sorted(map(_size, stock)),
        "price": sorted(
            (_size(each), each.price if known and not free else 0) for each, known, free in bought
        ),
        "count": sorted((_size(each), -1 if each.limit is None else each.limit) for each in stock),
        "on_hand": sorted(zip(map(_size, stock), on_hand, strict=True)),
        "defects": [
            [tuple(vars(d).values()) for d in each.defects] for each in stock if isinstance(each, SheetStock)
        ],
        "lot": sorted((_size(each), each.lot) for each in stock if isinstance(each, BarStock)),
    }


def _size(stock: BarStock | SheetStock) -> tuple[Fraction, ...]:
    return (stock.width, stock.height) if isinstance(stock, SheetStock) else (stock.length,)
