"""Set-up cards of the saw: its stop for bars, its fence for sheets."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.figures.rows.cutting import Cutting, FenceSetting
from generator.figures.rows.parts import PartRow
from generator.figures.rows.setting_out import Setting, Setup, Sketch
from generator.names import slugs

WAIT = "Build the frame first and measure every bay at its slides. Only then use this card."
LEAVE = "Do not cut the drawer parts yet. Keep their strips: they have a card of their own for later."


def marks_of(rows: Iterable[PartRow]) -> tuple[str, ...]:
    """All pieces of some parts."""
    return tuple(dict.fromkeys(mark for row in rows for mark in row.marks))


def names_of(rows: Iterable[PartRow]) -> str:
    """Parts in short: `A1 (×4), B1`."""
    return ", ".join(f"{row.mark} (×{row.count})" if row.count > 1 else row.mark for row in rows)


def bar_stops(rows: Sequence[PartRow]) -> Iterator[Setup]:
    """The saw's stop for bars, the longest first."""
    by_length: dict[Fraction, list[PartRow]] = defaultdict(list)
    for row in rows:
        if row.is_bar:
            by_length[row.cut_size[0]].append(row)
    lengths = sorted(by_length, reverse=True)
    metal = any(row.metal for row in rows if row.is_bar)
    yield Setup(
        0,
        "bar-stop",
        "Stop for the bars" if metal else "Stop for the timbers, tenons included",
        "saw for aluminium, blade square to the bar, stop"
        if metal
        else "saw with a stop, blade square to the timber",
        tuple(Setting(f"Stop to blade: {names_of(by_length[length])}", (length,)) for length in lengths),
        (
            "Cut a test end and hold a square against it on two faces. No light may show.",
            "Set the stop for the longest length first. A spoiled long piece can still become a short one.",
            "Cut all pieces of one setting before you move the stop.",
            "Lay the pieces side by side and feel their ends.",
        ),
        "Pieces of one setting differ by at most 0.1 mm (0.004 in). Their ends are square "
        "within 0.1 mm on a length of 100 mm (1/64 in on 16 in).",
        marks_of(row for row in rows if row.is_bar),
        cautions=("saw", "chips") if metal else ("kickback", "dust"),
        sketch=Sketch("stops", {"stops": tuple(lengths)}, "blade", "stop", metal),
    )


def sheet_fences(rows: Sequence[PartRow], plans: Cutting, *, waiting: bool) -> Iterator[Setup]:
    """The fence for each sheet: in the order of the sheet plan; without a plan the widest part first.

    What is cut when every bay is measured has cards of its own, those that are `waiting`.
    """
    sheets: dict[str, list[PartRow]] = defaultdict(list)
    for row in rows:
        if row.is_board and not row.metal:
            sheets[row.material].append(row)
    for (material, parts), key in zip(sheets.items(), slugs(sheets), strict=True):
        mine = [row for row in parts if row.waits is waiting]
        if not mine:
            continue
        planned = [fence for fence in plans.fences if fence.material == material]
        here = [planned_fence(fence, parts) for fence in planned if fence.waits is waiting]
        shown = tuple(here) or tuple(part_fences(mine))
        yield Setup(
            0,
            f"drawer-fence-{key}" if waiting else f"fence-{key}",
            f"{'Drawer fence' if waiting else 'Fence'}: {parts[0].made_of}",
            "saw with a long fence, blade for sheet goods",
            shown,
            (
                *([WAIT] if waiting else [LEAVE] if len(mine) < len(parts) else []),
                *(
                    ["Work in this order. The sheet plan has the same numbers and shows each cut."]
                    if planned
                    else []
                ),
                "Measure from the fence to the nearest edge of the blade's teeth.",
                "Cut one strip of scrap and measure it at both ends. Then cut all parts of the setting.",
                "Write the mark on each part, on a face that will be hidden.",
            ),
            "Each size is within 0.5 mm (1/64 in). The diagonals differ by at most 1 mm (1/32 in).",
            marks_of(mine),
            cautions=("kickback", "dust"),
            sketch=Sketch(
                "stops", {"stops": tuple(v for each in shown for v in each.values)}, "blade", "fence"
            ),
        )


def planned_fence(fence: FenceSetting, parts: Sequence[PartRow]) -> Setting:
    """A setting of the sheet plan: the parts that get their size by it, and how many cuts are made."""
    here = [replace(row, count=len(set(row.marks) & set(fence.marks))) for row in parts]
    text = f"{len(fence.cuts)} {'cut' if len(fence.cuts) == 1 else 'cuts'}"
    if fence.too_early:
        early = names_of(
            replace(row, count=n) for row in parts if (n := len(set(row.marks) & set(fence.too_early)))
        )
        text += f"; this cuts {early} to the planned size now, because a part beside needs the cut"
    name = names_of(row for row in here if row.count) or "strips to cut further"
    return Setting(f"{fence.n}. Fence to blade: {name}", (fence.setting,), text=text)


def part_fences(parts: Sequence[PartRow]) -> Iterator[Setting]:
    """Both sizes of all parts, where the spec names no sheet to cut them from."""
    by_size: dict[Fraction, list[PartRow]] = defaultdict(list)
    for row in parts:
        for size in dict.fromkeys((row.length, row.width)):
            by_size[size].append(row)
    for size in sorted(by_size, reverse=True):
        yield Setting(f"Fence to blade: {names_of(by_size[size])}", (size,))
