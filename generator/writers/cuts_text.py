"""A cutting plan as a text table for the terminal."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from generator.calculators.cutting.bars import BarPlan, CutBar, bar_cuts
from generator.calculators.cutting.sheets import (
    SheetPlan,
    ShopRules,
    StageCut,
    StageOrder,
    breaches,
    stage_order,
)
from generator.spec.cut_problem import CutProblem
from generator.units.format import format_fixed, format_inch, format_mm

__all__ = ["cuts_text"]


def cuts_text(problem: CutProblem, plan: BarPlan | SheetPlan, has_prices: bool = True) -> str:
    """One line a bar or sheet, equal ones together, then the cost with its proof or its gap.

    Without prices the gap alone is said.
    """
    lines = _bar_lines(problem, plan) if isinstance(plan, BarPlan) else _sheet_lines(problem, plan)
    title = f"{problem.name}\n" if problem.name else ""
    return title + "\n".join([*lines, "", *_closing(problem, plan, has_prices)]) + "\n"


def _say(problem: CutProblem, length: Fraction) -> str:
    return _text(length.numerator, length.denominator, problem.units)


@lru_cache(maxsize=4096)
def _text(numerator: int, denominator: int, units: str) -> str:
    """A plan says the same few thousand lengths over and over; two whole numbers are found faster than a fraction."""
    length = Fraction(numerator, denominator)
    return format_inch(length) if units == "in" else format_mm(length)


def table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Columns as wide as their widest entry; the last one as long as it is."""
    widths = [max(len(row[place]) for row in [header, *rows]) for place in range(len(header) - 1)]
    lines = []
    for row in (header, ["-" * len(word) for word in header], *rows):
        cells = [cell.rjust(width) for cell, width in zip(row, widths, strict=False)]
        lines.append("  ".join([*cells, row[-1]]).rstrip())
    return lines


def _bar_lines(problem: CutProblem, plan: BarPlan) -> list[str]:
    rows: list[list[str]] = []
    for times, bar in _alike(plan.bars):
        stock = _say(problem, problem.stock[bar.stock].length)
        cuts = bar_cuts(
            [problem.bar_pieces[place].length for place in bar.pieces], kerf=problem.kerf, trim=problem.trim
        )
        pieces = " | ".join(
            _say(problem, cut.length) + _name(problem, place)
            for place, cut in zip(bar.pieces, cuts, strict=True)
        )
        marks = " ".join(_say(problem, cut.mark) for cut in cuts)
        rows.append([str(times), stock, _say(problem, bar.offcut), f"{pieces}   marks {marks}"])
    return table(("times", "bar", "off-cut", f"pieces, longest first ({problem.units})"), rows)


def _sheet_lines(problem: CutProblem, plan: SheetPlan) -> list[str]:
    lines: list[str] = []
    order = stage_order(plan.sheets)
    for number, (sheet, cuts) in enumerate(
        zip(plan.sheets, order.by_sheet(len(plan.sheets)), strict=True), 1
    ):
        stock = problem.sheets[sheet.stock]
        lines.append(
            f"sheet {number}: {_say(problem, stock.width)} x {_say(problem, stock.height)} {problem.units}"
        )
        for area in stock.defects:
            size = f"{_say(problem, area.width)} x {_say(problem, area.height)}"
            lines.append(f"  keep clear {size} at {_say(problem, area.x)}, {_say(problem, area.y)}")
        lines += [f"  {line}" for line in _cut_lines(problem, cuts)]
        for placed in sheet.pieces:
            area = placed.area
            size = f"{_say(problem, area.width)} x {_say(problem, area.height)}"
            turned = ", turned" if placed.turned else ""
            size += _name(problem, placed.piece)
            lines.append(f"  piece {size} at {_say(problem, area.x)}, {_say(problem, area.y)}{turned}")
        for area in sheet.offcuts[:3]:
            lines.append(f"  off-cut {_say(problem, area.width)} x {_say(problem, area.height)}")
    return lines + _fence_lines(problem, order)


def _fence_lines(problem: CutProblem, order: StageOrder) -> list[str]:
    """The settings of the fence in their order, with the cuts of all sheets that are made with each."""
    lines = []
    for number, each in enumerate(order.passes, 1):
        cuts_by_sheet = "; ".join(
            f"sheet {sheet + 1} {'cut' if len(cuts) == 1 else 'cuts'} {', '.join(map(str, cuts))}"
            for sheet, cuts in each.by_sheet().items()
        )
        lines.append(f"  {number}. fence {_say(problem, each.setting)}: {cuts_by_sheet}")
    if not lines:
        return []
    settings = f"{len(lines)} {'setting' if len(lines) == 1 else 'settings'} of the fence for all sheets"
    if len(order.passes) < order.sheet_by_sheet:
        settings += f"; sheet by sheet it takes {order.sheet_by_sheet}"
    return ["", settings, *lines]


def _name(problem: CutProblem, place: int) -> str:
    """What a piece is called, in quotes behind its size."""
    return f' "{problem.names[place]}"' if problem.names[place] else ""


def _cut_lines(problem: CutProblem, cuts: Sequence[StageCut]) -> list[str]:
    return [
        f"cut {made.number}: {'upright' if cut.upright else 'level'}, "
        f"{'track saw at' if cut.by_track else 'fence'} {_say(problem, cut.setting)}, through "
        f"{_say(problem, cut.area.width)} x {_say(problem, cut.area.height)}{_of_part(made)}"
        for made in cuts
        for cut in (made.cut,)
    ]


def _of_part(made: StageCut) -> str:
    """The part that a cut divides, by the cut that made it."""
    if made.parent is None:
        return ", the whole sheet"
    return f", {'near part' if made.near else 'rest'} of cut {made.parent.number}"


def _alike(bars: Sequence[CutBar]) -> list[tuple[int, CutBar]]:
    """Equal bars, counted."""
    counted: list[tuple[int, CutBar]] = []
    for bar in bars:
        if counted and (counted[-1][1].stock, counted[-1][1].offcut, counted[-1][1].pieces) == (
            bar.stock,
            bar.offcut,
            bar.pieces,
        ):
            counted[-1] = (counted[-1][0] + 1, bar)
        else:
            counted.append((1, bar))
    return counted


def _money(value: Fraction) -> str:
    text = format_fixed(value, 2)
    return text.removesuffix(".00")


def _rule_lines(problem: CutProblem, plan: SheetPlan, rules: ShopRules) -> list[str]:
    """What the plan asks of the saw that the rules of the shop do not, and what a plan within them costs."""
    found = breaches(plan.sheets, rules)
    if found.kept:
        return ["every finished edge has its own cut at the fence; no slivers, no part too small to feed"]
    feed = _say(problem, rules.least_feed)
    left = _say(problem, rules.least_left)
    words = [
        (found.leftover_edges, "piece has", "pieces have", "an edge without its own cut"),
        (found.slivers, "cut leaves", "cuts leave", f"less than {left} beside the blade"),
        (
            found.small_parts,
            "cut goes",
            "cuts go",
            f"through a part shorter than {feed}: use a sled or a push block",
        ),
    ]
    lines = [
        f"note: {number} {one if number == 1 else more} {text}" for number, one, more, text in words if number
    ]
    if plan.clean_cost is None:
        return [*lines, "note: no plan without these was found"]
    return [*lines, f"note: a plan without these costs {_money(plan.clean_cost)}"]


def _cost_line(plan: BarPlan | SheetPlan, has_prices: bool, stages: int | None) -> str:
    """How many bars or sheets, what they cost, and whether that is proved for plans of so many stages."""
    noun, parts = ("bar", plan.bars) if isinstance(plan, BarPlan) else ("sheet", plan.sheets)
    number = f"{len(parts)} {noun if len(parts) == 1 else f'{noun}s'}"
    gap = format_fixed(plan.gap * 100, 2)
    kind = "no plan" if stages is None else f"no plan in {stages} stages"
    if not has_prices:
        return f"{number}: " + (
            f"proved, {kind} takes less stock"
            if plan.proved
            else f"not proved, another plan may save {gap} % of the stock"
        )
    line = f"{number}, cost {_money(plan.cost)}"
    if plan.proved:
        return f"{line}: proved, {kind} is cheaper"
    return f"{line}: not proved, the cheapest plan may cost {_money(plan.bound)} ({gap} % of it is open)"


def _closing(problem: CutProblem, plan: BarPlan | SheetPlan, has_prices: bool) -> list[str]:
    lines = [_cost_line(plan, has_prices, None if isinstance(plan, BarPlan) else problem.stages)]
    if isinstance(plan, BarPlan):
        longest = "none is longer at this cost" if plan.offcut_is_longest else "the longest that was found"
        lines.append(f"longest off-cut {_say(problem, plan.offcut)} {problem.units}: {longest}")
        fewest = "the fewest" if plan.patterns_are_fewest else "fewer may be possible"
        patterns = "pattern" if plan.patterns == 1 else "patterns"
        lines.append(f"{plan.patterns} different {patterns}: {fewest}")
        if problem.trim:
            lines.append("marks are measured from the bar's rough end, before it is trimmed")
    else:
        largest = max(
            (area for sheet in plan.sheets for area in sheet.offcuts),
            key=lambda area: area.width * area.height,
            default=None,
        )
        if largest is not None:
            size = f"{_say(problem, largest.width)} x {_say(problem, largest.height)}"
            lines.append(f"largest off-cut {size} {problem.units}: the largest that was found at this cost")
        if problem.breaking and problem.breaking.kerf is not None:
            track, fence = _say(problem, problem.breaking.kerf), _say(problem, problem.kerf)
            lines.append(f"the cut of the track saw is {track} wide, that at the fence {fence}")
        if problem.rules:
            lines += _rule_lines(problem, plan, problem.rules)
        if problem.trim:
            lines.append(
                f"make the near edges straight first, {_say(problem, problem.trim)} off each; the far ones last"
            )
        lines.append("level cuts run along the first size of the sheet, upright cuts run across it")
    return lines
