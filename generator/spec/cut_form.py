"""The form of a cutting problem: its keys, what each entry of its lists has, and the smallest example."""

from __future__ import annotations

KEYS = (
    "name",
    "units",
    "stock",
    "sheets",
    "kerf",
    "trim",
    "stages",
    "least_feed",
    "shop_rules",
    "break_down",
    "clear",
    "least_offcut",
    "material",
    "pieces",
)

#: What published problem sets say beside the problem itself.
PASSED_OVER = ("source", "optimum", "bound", "best", "published_best")

#: The entries of each list: names in the order of the short form, and how many of them are required.
ENTRIES: dict[str, tuple[tuple[str, ...], int]] = {
    "stock": (("length", "price", "limit", "lot"), 1),
    "sheets": (("width", "height", "price", "limit", "defects"), 2),
    "bar pieces": (("length", "count", "group", "name"), 1),
    "sheet pieces": (("width", "height", "count", "turns", "name"), 2),
}

#: Each list of ENTRIES at its shortest.
EXAMPLES = {
    "stock": "`stock: [[2440]]`",
    "sheets": "`sheets: [[2440, 1220]]`",
    "bar pieces": "`pieces: [[600, 4]]`",
    "sheet pieces": "`pieces: [[600, 300, 4]]`",
}

NEEDS = (
    "A cutting problem needs your stock and your pieces. "
    f"For four pieces of 600 from bars of 2440, write {EXAMPLES['stock']} in one line "
    f"and {EXAMPLES['bar pieces']} in the next. `bench-manual cuts --help` shows more."
)
"""What an empty file lacks."""
