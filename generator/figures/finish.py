"""Finishes as rows: by what is bought, each with the parts that it coats."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.bench.finish import Coated
from generator.bench.model import Bench
from generator.calculators.finish import PER_SQUARE_METRE, litres, tins
from generator.figures.rows.finish import FinishLayer, FinishRow
from generator.provenance import inexact


def finishes(bench: Bench) -> tuple[FinishRow, ...]:
    """One row for each coat by its tin, in the order of the keys."""
    bought: dict[tuple[str, Fraction, Fraction | None], list[Coated]] = {}
    for each in bench.coats:
        bought.setdefault((each.coat.coat, each.coat.tin, each.coat.price), []).append(each)
    return tuple(_row(name, tin, price, own) for (name, tin, price), own in bought.items())


def _row(name: str, tin: Fraction, price: Fraction | None, own: Sequence[Coated]) -> FinishRow:
    volumes = [_litres(each) for each in own]
    areas = [each.area / PER_SQUARE_METRE for each in own]
    volume, area = sum(volumes[1:], volumes[0]), sum(areas[1:], areas[0])
    return FinishRow(
        coat=name,
        area_m2=inexact(area),
        litres=inexact(volume),
        tin_litres=inexact(tin),
        tins=tins(volume, tin),
        parts=tuple(part.mark for each in own for part in each.parts),
        layers=tuple(map(_layer, own)),
        price=None if price is None else float(price),
    )


def _litres(each: Coated) -> Fraction:
    return litres(each.area / PER_SQUARE_METRE, each.coat.coats, each.coat.coverage)


def _layer(each: Coated) -> FinishLayer:
    return FinishLayer(
        key=each.key,
        parts=tuple(part.mark for part in each.parts),
        area_m2=inexact(each.area / PER_SQUARE_METRE),
        coats=each.coat.coats,
        litres=inexact(_litres(each)),
        dry_hours=inexact(each.coat.dry),
        when=each.coat.when,
        masks=each.masks,
    )
