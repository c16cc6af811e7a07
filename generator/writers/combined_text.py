"""The cutting plans of several files, as text for the terminal and as plain data."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from generator.figures.combined_cuts import CombinedPlan, SharedMaterial
from generator.figures.cut_solution import solution_data
from generator.spec.offcut_store import StoredOffcut
from generator.units.format import format_fixed, format_inch, format_mm, plain
from generator.units.sizes import INCH
from generator.writers.cuts_text import cuts_text, table


def combined_text(combined: CombinedPlan, units: str) -> str:
    """The plan of each material below its heading, then the shopping list of all."""
    blocks = []
    for material, plan in zip(combined.materials, combined.plans, strict=True):
        title = heading(material)
        blocks += [title, "=" * len(title), cuts_text(material.problem, plan, material.has_prices).rstrip()]
        if material.waits:
            blocks.append(f"cut these only when every bay is measured: {', '.join(material.waits)}")
        blocks.append("")
    return "\n".join([*blocks, *_shopping_lines(combined, units)]) + "\n"


def heading(material: SharedMaterial) -> str:
    """A material and the files that need it: `12 mm birch plywood (ply-12), for demo, bench2`."""
    others = [name for name in material.names[1:] if name not in material.label]
    also = f", also called {', '.join(others)}" if others else ""
    return f"{material.label}{also}, for {', '.join(dict.fromkeys(material.sources))}"


def _shopping_lines(combined: CombinedPlan, units: str) -> list[str]:
    rows = [
        [
            str(each.count),
            _size(each.size, units),
            "" if each.on_hand or each.price is None else _money(each.price),
            "" if each.cost is None else _money(each.cost),
            each.item + (", from the store" if each.stored else ", on hand" if each.on_hand else ""),
        ]
        for each in combined.shopping
    ]
    lines = [
        "shopping list",
        "=============",
        *table(("buy", f"size ({units})", "price", "cost", "what"), rows),
    ]
    lines += ["", f"total {_money(combined.total)}"]
    unpriced = dict.fromkeys(each.item for each in combined.shopping if each.cost is None)
    if unpriced:
        lines.append(f"without a price: {'; '.join(unpriced)}")
    return lines


def _size(sides: Sequence[Fraction], units: str) -> str:
    return " x ".join(format_inch(side) if units == "in" else format_mm(side) for side in sides)


def _money(value: Fraction) -> str:
    return format_fixed(value, 2).removesuffix(".00")


def combined_data(combined: CombinedPlan, units: str) -> dict[str, Any]:
    """`{units, materials: [{material, files, …}], shopping: [...], total}`; lengths in `units`.

    Each material has the keys of the plan of one problem; cost and bound are None where prices are missing.
    """
    return {
        "units": units,
        "materials": [
            {
                "material": material.label,
                "names": list(material.names),
                "files": list(dict.fromkeys(material.sources)),
                "units": material.problem.units,
                "waits": list(material.waits),
                **solution_data(material.problem, plan),
                **({} if material.has_prices else {"cost": None, "bound": None}),
            }
            for material, plan in zip(combined.materials, combined.plans, strict=True)
        ],
        "shopping": [
            {
                "item": each.item,
                "count": each.count,
                "size": [plain(side / INCH if units == "in" else side) for side in each.size],
                "price": None if each.price is None else plain(each.price),
                "cost": None if each.cost is None else plain(each.cost),
                "on_hand": each.on_hand,
                "from_store": each.stored,
            }
            for each in combined.shopping
        ],
        "total": plain(combined.total),
    }


def store_text_lines(
    title: str, store: Sequence[StoredOffcut], combined: CombinedPlan, command: str, units: str
) -> str:
    """What the plans take from the store and what they leave for it, and the command that says that it is cut."""
    taken = [
        f"take {number} of {_offcut(each, units)}" + (f", from {each.origin}" if each.origin else "")
        for each, number in zip(store, combined.taken, strict=True)
        if number
    ]
    left = [f"keep {each.count} of {_offcut(each, units)}" for each in combined.remains("")]
    lines = [title, "=" * len(title), *(taken or ["take nothing"]), *(left or ["keep nothing"])]
    return "\n".join([*lines, "", "When all is cut, say so, and the store is changed:", f"  {command}", ""])


def _offcut(each: StoredOffcut, units: str) -> str:
    sides = [each.length] if each.width is None else [each.length, each.width]
    return f"{_size(sides, units)} {units}, {each.material.name}"


def store_data(store: Sequence[StoredOffcut], combined: CombinedPlan, units: str) -> dict[str, Any]:
    """`{take: [...], keep: [...]}`, each entry with its material, size and count."""

    def entry(each: StoredOffcut, count: int) -> dict[str, Any]:
        sides = [each.length] if each.width is None else [each.length, each.width]
        size = [plain(side / INCH if units == "in" else side) for side in sides]
        return {"material": each.material.name, "size": size, "count": count, "origin": each.origin}

    return {
        "take": [entry(each, number) for each, number in zip(store, combined.taken, strict=True) if number],
        "keep": [entry(each, each.count) for each in combined.remains("")],
    }
