"""The shopping list: net amounts by material, and all hardware with its spares."""

from __future__ import annotations

import math
from fractions import Fraction

from generator.figures.model import HardwareRow, PartRow, Purchase
from generator.spec.schema import Sheet, Spec


def purchases(spec: Spec, parts: tuple[PartRow, ...], rows: tuple[HardwareRow, ...]) -> tuple[Purchase, ...]:
    """Bars and strips by length with their kerfs, sheets by area, hardware by piece.

    "At least" counts what the sums alone need; a cutting plan may need one more.
    """
    lines = []
    for name in dict.fromkeys(part.material for part in parts):
        own = [part for part in parts if part.material == name]
        material = spec.materials.get(name)
        if material is None:
            lines.append(_plates(name, own))
        elif isinstance(material, Sheet):
            lines.append(_sheets(spec, name, own, material))
        else:
            lines.append(_lengths(spec, name, own))
    lines += [Purchase("Hardware", row.item, row.count + row.spare, "pieces", _detail(row)) for row in rows]
    return tuple(lines)


def _detail(row: HardwareRow) -> str:
    words = [row.size] if row.size else []
    words.append(f"{row.count} + {row.spare} spare" if row.spare else f"{row.count}")
    return ", ".join(words)


def _plates(name: str, parts: list[PartRow]) -> Purchase:
    count = sum(part.count for part in parts)
    return Purchase("Sheet goods", name, count, "pieces", "see the part sheets for size and holes")


def _lengths(spec: Spec, name: str, parts: list[PartRow]) -> Purchase:
    kerf, trim = spec.saws.bar.kerf, spec.saws.bar.end_trim
    material = spec.materials[name]
    net = sum((part.length * part.count for part in parts), Fraction(0))
    gross = net + kerf * sum(part.count for part in parts)
    section = "Bars" if material.kind == "profile" else "Strips and angles"
    lengths = [stock.length for stock in material.stock if not stock.on_hand]
    detail = "cut from what is at hand"
    if lengths:
        least = math.ceil(gross / (max(lengths) - 2 * trim)) if max(lengths) > 2 * trim else 0
        detail = f"at least {least} of the longest stock length"
    return Purchase(section, name, float(net / 1000), "m", detail)


def _sheets(spec: Spec, name: str, parts: list[PartRow], material: Sheet) -> Purchase:
    area = sum((part.length * part.width * part.count for part in parts), Fraction(0))
    sizes = [stock.length * stock.width for stock in material.stock if stock.width and not stock.on_hand]
    detail = "cut from what is at hand"
    if sizes:
        detail = f"at least {math.ceil(area / max(sizes))} of the largest stock sheet, by area alone"
    return Purchase("Sheet goods", name, float(area / 1_000_000), "m²", detail)
