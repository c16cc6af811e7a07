"""Checks of the captured panels, the tray, and of what is bought to cut them from."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from generator.bench.frames.panels import panel_rules, wall_names
from generator.bench.frames.trays import WHOLE, has_place
from generator.bench.law import WORK, Case, Law, by_the_check, said, to_write
from generator.bench.model import Bench, Part
from generator.bench.remedies import more_walls
from generator.bench.role import Role
from generator.calculators.fits import BOTTOM_CLEARANCE, SHORTEST_TONGUE
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, at_most, check_result
from generator.figures.glued_boards import cut_parts
from generator.figures.rows.cutting import SheetSummary, Shortage
from generator.findings import Change, dotted
from generator.provenance import constant
from generator.spec.schema import Spec

#: Widest free span of a 12 mm tray, and the most play a tongue may have (mm). Common practice, no source.
LONGEST_SPAN = constant(600, "longest unsupported span of a tray")
MOST_PLAY = constant("1/2", "most play of a sheet in its groove")
USUAL_CLEARANCE, USUAL_TRAY = Fraction(1, 5), Fraction(12)


def _shorter_tongue(case: Case) -> tuple[Change, ...]:
    return case.length(case.path, panel_rules(case.loaded).tongue - case.off, down=True)


def _longer_tongue(case: Case) -> tuple[Change, ...]:
    """A tongue of the least length; none where it would bottom in this slot."""
    fits = case.limit + BOTTOM_CLEARANCE <= case.goods.members.groove
    return case.length(case.path, case.limit) if fits else ()


def _less_clearance(case: Case) -> tuple[Change, ...]:
    return case.length(
        ("panels", "groove_clearance"), case.spec.panels.groove_clearance - case.off, down=True
    )


def _usual_clearance(case: Case) -> tuple[Change, ...]:
    return (Change("panels.groove_clearance", said(case.spec, USUAL_CLEARANCE)),)


def _measured(case: Case) -> tuple[Change, ...]:
    day = case.spec.revision.date
    return (Change(f"{dotted(case.path)}.measured", str(day) if day else "2026-01-31"),)


TONGUE_BOTTOMS = Law(
    Code.TONGUE_BOTTOMS, "error", "The tongue does not bottom in its groove", "The tongue bottoms in its groove",
    "Shorten the tongue.", "The tongue keeps the bars apart, and the frame never closes square.",
    _shorter_tongue,
    quantity="space under the tongue",
)  # fmt: skip
TONGUE_SHORT = Law(
    Code.TONGUE_SHORT, "warning", "The tongue is long enough to hold", "The tongue is too short to hold well",
    "Take a deeper groove or a longer tongue.", "Wood shrinks across the grain, and a short tongue leaves its groove.",
    _longer_tongue,
    quantity="length of the tongue",
)  # fmt: skip
LOOSE_SHEET = Law(
    Code.LOOSE_SHEET, "warning", "The sheet fills its groove", "The sheet rattles in its groove",
    "This sheet is thinner than the groove: take a thicker one.",
    "A loose panel rattles and does not stiffen the frame.", _less_clearance,
    quantity="largest play in thickness",
)  # fmt: skip
TIGHT_SHEET = Law(
    Code.TIGHT_SHEET, "warning", "The tongue goes into its groove even in the worst case",
    "In the worst case the tongue is thicker than its groove",
    "Write a larger `groove_clearance`; {} is usual.",
    "A tongue that is driven in by force splits off, or opens its groove.",
    _usual_clearance, lengths=(USUAL_CLEARANCE,),
    quantity="smallest play in thickness",
)  # fmt: skip
NOT_MEASURED = Law(
    Code.NOT_MEASURED, "note", "The goods are measured", "This is not measured",
    "Measure it before you cut anything by it, and write the date as `measured`.",
    "Sheets differ between makers by more than the play of a tongue.", _measured,
)  # fmt: skip
TRAY_SPAN = Law(
    Code.TRAY_SPAN, "warning", "The tray is supported often enough", "The tray spans too far between its supports",
    "Set walls under it: dividers. Where these are set already, divide the widest bay in two under "
    "`zones`. {} is the usual limit for sheet of {}.",
    "The tray sags, and the drawers below it rub.", more_walls, lengths=(LONGEST_SPAN, USUAL_TRAY),
    quantity="widest space under the tray",
)  # fmt: skip
LONGER_THAN_STOCK = Law(
    Code.LONGER_THAN_STOCK, "error", "Every part can be cut from what is sold",
    "A part is larger than anything that is sold", "Add a longer stock size, or divide the part.",
    "You cannot cut it from anything on sale.", by_the_check,
    quantity="size of the part",
)  # fmt: skip
TOO_LITTLE_STOCK = Law(
    Code.TOO_LITTLE_STOCK, "error", "There is enough stock for every part",
    "There is not enough stock for every part",
    "Add stock, or leave its count out. The cutting plan says how much is enough.",
    Code.TOO_LITTLE_STOCK.why, by_the_check,
)  # fmt: skip

SAW_RULES = Law(
    Code.SAW_RULES, "warning", "No sliver or small part at the saw, and a fence cut for each edge",

    "The cheapest sheet plan asks for cuts that are hard to make well",
    "Use a sled or a push block. Measure twice.",
    "A sliver runs off the blade, and a small part tips into it. An edge without its own cut has the error of all "
    "cuts before it.",
    WORK,
)  # fmt: skip


def plan_checks(plans: Sequence[SheetSummary]) -> Iterator[CheckResult]:
    """What each sheet plan asks of the saw, and what a plan without it costs."""
    for plan in plans:
        words = [
            (plan.leftover_edges, "edges without their own cut"),
            (plan.slivers, "slivers"),
            (plan.small_parts, "cuts of small parts"),
        ]
        counts = ", ".join(f"{number} {text}" for number, text in words if number)
        advice = f"{SAW_RULES.advice} It has {counts}."
        if plan.clean_cost is not None:
            advice += f" A plan without them costs {plan.clean_cost:.2f}, this one {plan.cost or 0:.2f}."
        yield check_result(
            SAW_RULES, plan.clean, plan.material, ("materials", plan.material, "stock"), advice=advice
        )


def panel_checks(bench: Bench) -> Iterator[CheckResult]:
    """Tongues in their slots, sheets in their grooves, measured goods, the tray's span."""
    spec = bench.spec
    rules, bar = panel_rules(bench.loaded), bench.goods.members
    path = ("panels", "tongue")
    under = bar.groove - rules.tongue
    yield at_least(TONGUE_BOTTOMS, under, BOTTOM_CLEARANCE, "all captured panels", path)
    deep = SHORTEST_TONGUE + BOTTOM_CLEARANCE
    advice = "" if bar.groove >= deep else f"Take a bar whose slot is {said(spec, deep)} deep or more."
    yield at_least(TONGUE_SHORT, rules.tongue, SHORTEST_TONGUE, "all captured panels", path, advice=advice)
    tray = (("tray", rules.tray_fit),) if spec.tray.there else ()
    for name, fit in (("panels", rules.fit), *tray):
        yield at_most(LOOSE_SHEET, fit.clearance_max, MOST_PLAY, name, (name, "material"))
        tight = ("panels", "groove_clearance")
        yield at_least(TIGHT_SHEET, fit.clearance_min, Fraction(0), name, tight)
    captured = dict.fromkeys(part.material for part in bench.parts if part.fit is not None)
    for material in dict.fromkeys((*captured, bar.posts, bar.rails)):
        measured = bool(spec.materials[material].measured)
        yield check_result(NOT_MEASURED, measured, material, ("materials", material))
    if spec.tray.there:
        yield at_most(TRAY_SPAN, _tray_span(bench), LONGEST_SPAN, "tray", ("tray",))


def _tray_span(bench: Bench) -> Fraction:
    """Widest space that the tray bridges between its ends and the walls under it (mm)."""
    spec = bench.spec
    plan = bench.layout
    supports = [Fraction(0), plan.length - plan.section]
    if "dividers" in wall_names(spec):
        supports += list(plan.lines)
    return max(b - a - plan.section for a, b in pairwise(sorted(supports)))


def stock_checks(bench: Bench) -> Iterator[CheckResult]:
    """No part is larger than anything that its material is sold in."""
    spec = bench.spec
    for material in dict.fromkeys(part.material for part in bench.parts):
        entry = spec.materials.get(material)
        if entry is None or not entry.stock:
            continue
        own = cut_parts(bench, material)
        longest = max(own, key=lambda part: max(part.cut_size))
        where, path = f"{longest.mark}, {longest.group}", ("materials", material, "stock")
        if material in bench.goods.sheets:
            trim = 2 * spec.saws.sheet.edge_trim
            rooms = [(stock.length - trim, (stock.width or stock.length) - trim) for stock in entry.stock]
            unfit = [part for part in own if not any(_fits(part, *room) for room in rooms)]
            if not unfit:
                continue
            where = f"{unfit[0].mark}, {unfit[0].group}"
            size, most = _too_large(unfit[0], rooms)
            yield check_result(
                LONGER_THAN_STOCK, False, where, path, value=size, limit=most, unit="mm",
                remedy=_larger_stock(bench, unfit[0]),
            )  # fmt: skip
        else:
            room = max(stock.length for stock in entry.stock) - 2 * spec.saws.bar.end_trim
            if longest.cut_size[0] > room:
                cure = _larger_stock(bench, longest)
                yield at_most(LONGER_THAN_STOCK, longest.cut_size[0], room, where, path, remedy=cure)


def shortage_checks(
    bench: Bench, shortages: Sequence[Shortage], flagged: Collection[str]
) -> Iterator[CheckResult]:
    """Materials without a plan; `flagged` are those whose parts are known to be too large."""
    spec = bench.spec
    for each in shortages:
        path = ("materials", each.material, "stock")
        if each.more:
            where = f"{each.count} parts of {each.material}, for example {each.mark}; buy {each.more} more"
            yield check_result(TOO_LITTLE_STOCK, False, where, path, remedy=_more(spec, each))
        elif each.material not in flagged:
            # it would fit with its grain the other way
            stock = spec.materials[each.material].stock
            sides = [
                side for sheet in stock for side in zip(each.needs, (sheet.length, sheet.width), strict=True)
            ]
            size = next((needs for needs, has in sides if has == needs - each.short_by), each.needs[0])
            where = f"{each.mark}, along the grain"
            yield check_result(
                LONGER_THAN_STOCK, False, where, path, value=size, limit=size - each.short_by, unit="mm",
                remedy=_larger_stock(bench, _cut_part(bench, each)),
            )  # fmt: skip


def _cut_part(bench: Bench, short: Shortage) -> Part:
    """The part that is short, as it is cut."""
    return next(part for part in cut_parts(bench, short.material) if part.mark == short.mark)


def _larger_stock(bench: Bench, part: Part) -> tuple[Change, ...]:
    """The first stock as large as the part with what is trimmed off it; a tray is divided where it can be."""
    spec, path, sheet = (
        bench.spec,
        ("materials", part.material, "stock", 0),
        bench.goods.sheets.get(part.material),
    )
    if part.role is Role.TRAY and part.mark == WHOLE and has_place(bench.loaded, bench.layout):
        return (Change("tray.boards", "share"),)
    if sheet is None:
        return to_write(spec, (*path, "length"), part.cut_size[0] + 2 * spec.saws.bar.end_trim)
    along, across = part.cut_size[::-1] if part.grain == "width" else part.cut_size
    trims, stock = 2 * spec.saws.sheet.edge_trim, sheet.stock[0]
    return (
        *to_write(spec, (*path, "length"), max(stock.length, along + trims)),
        *to_write(spec, (*path, "width"), max(stock.width or Fraction(0), across + trims)),
    )


def _more(spec: Spec, short: Shortage) -> tuple[Change, ...]:
    """A change that raises the count of the stock of the needed size, where the spec limits that count."""
    for index, stock in enumerate(spec.materials[short.material].stock):
        sides = (stock.length,) if stock.width is None else (stock.length, stock.width)
        if sides == short.needs and stock.count is not None:
            path = dotted(("materials", short.material, "stock", index, "count"))
            return (Change(path, str(stock.count + short.more)),)
    return ()


def _too_large(part: Part, rooms: Sequence[tuple[Fraction, Fraction]]) -> tuple[Fraction, Fraction]:
    """The size of a board that no sheet has room for, and the most room that there is for it (mm)."""
    long, short = max(part.cut_size), min(part.cut_size)
    widths = [min(room) for room in rooms if max(room) >= long]
    return (short, max(widths)) if widths else (long, max(max(room) for room in rooms))


def _fits(part: Part, length: Fraction, width: Fraction) -> bool:
    """Either way round: the grain is the cutting plan's business."""
    long, short = max(part.cut_size), min(part.cut_size)
    return long <= max(length, width) and short <= min(length, width)
