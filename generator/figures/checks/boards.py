"""Checks of the captured panels, the tray, and of what is bought to cut them from."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from generator.bench.model import Bench, Part
from generator.bench.panels import panel_rules, wall_names
from generator.calculators.fits import BOTTOM_CLEARANCE, SHORTEST_TONGUE
from generator.figures.checks.judged import Judged, at_least, at_most, judged
from generator.figures.rows.cutting import Shortage
from generator.findings import Change, dotted
from generator.spec.goods import Sheet
from generator.spec.lookup import profile
from generator.spec.schema import Spec
from generator.working import constant

#: Widest free span of a 12 mm tray, and the most play a tongue may have (mm). Common practice, no source.
TRAY_SPAN = constant(600, "longest unsupported span of a tray")
MOST_PLAY = constant("1/2", "most play of a sheet in its groove")


def panel_checks(bench: Bench) -> Iterator[Judged]:
    """Tongues in their slots, sheets in their grooves, measured goods, the tray's span."""
    spec = bench.spec
    rules, bar = panel_rules(spec), profile(spec)
    path = ("panels", "tongue")
    under = bar.slot.depth - rules.tongue
    yield at_least("tongue-bottoms", under, BOTTOM_CLEARANCE, "all captured panels", path)
    yield at_least("tongue-short", rules.tongue, SHORTEST_TONGUE, "all captured panels", path)
    for name, fit in (("panels", rules.fit), ("tray", rules.tray_fit)):
        yield at_most("loose-sheet", fit.clearance_max, MOST_PLAY, name, (name, "material"))
        tight = ("panels", "groove_clearance")
        yield at_least("tight-sheet", fit.clearance_min, Fraction(0), name, tight)
    captured = dict.fromkeys(part.material for part in bench.parts if part.fit is not None)
    for material in (*captured, spec.frame.material):
        measured = bool(spec.materials[material].measured)
        yield judged("not-measured", measured, material, ("materials", material))
    yield at_most("tray-span", _tray_span(bench), TRAY_SPAN, "tray", ("tray",))


def _tray_span(bench: Bench) -> Fraction:
    """Widest space that the tray bridges between its ends and the walls under it (mm)."""
    spec = bench.spec
    plan = bench.layout
    supports = [Fraction(0), plan.length - plan.section]
    if "dividers" in wall_names(spec):
        supports += list(plan.lines)
    return max(b - a - plan.section for a, b in pairwise(sorted(supports)))


def stock_checks(bench: Bench) -> Iterator[Judged]:
    """No part is larger than anything that its material is sold in."""
    spec = bench.spec
    for material in dict.fromkeys(part.material for part in bench.parts):
        entry = spec.materials.get(material)
        if entry is None or not entry.stock:
            continue
        own = [part for part in bench.parts if part.material == material]
        longest = max(own, key=lambda part: max(part.length, part.width))
        where, path = f"{longest.mark}, {longest.group}", ("materials", material, "stock")
        if isinstance(entry, Sheet):
            trim = 2 * spec.saws.sheet.edge_trim
            rooms = [(stock.length - trim, (stock.width or stock.length) - trim) for stock in entry.stock]
            unfit = [part for part in own if not any(_fits(part, *room) for room in rooms)]
            if not unfit:
                continue
            where = f"{unfit[0].mark}, {unfit[0].group}"
            size, most = _too_large(unfit[0], rooms)
            yield judged("longer-than-stock", False, where, path, value=size, limit=most, unit="mm")
        else:
            room = max(stock.length for stock in entry.stock) - 2 * spec.saws.bar.end_trim
            if longest.length > room:
                yield at_most("longer-than-stock", longest.length, room, where, path)


def shortage_checks(spec: Spec, shortages: Sequence[Shortage], flagged: Collection[str]) -> Iterator[Judged]:
    """Materials without a plan; `flagged` are those whose parts are known to be too large."""
    for each in shortages:
        path = ("materials", each.material, "stock")
        if each.more:
            where = f"{each.count} of {each.material}, such as {each.mark}; {each.more} more would do"
            yield judged("too-little-stock", False, where, path, remedy=_more(spec, each))
        elif each.material not in flagged:
            # it would fit with its grain the other way
            stock = spec.materials[each.material].stock
            sides = [
                side for sheet in stock for side in zip(each.needs, (sheet.length, sheet.width), strict=True)
            ]
            size = next((needs for needs, has in sides if has == needs - each.short_by), each.needs[0])
            where = f"{each.mark}, along the grain"
            yield judged(
                "longer-than-stock", False, where, path, value=size, limit=size - each.short_by, unit="mm"
            )


def _more(spec: Spec, short: Shortage) -> tuple[Change, ...]:
    """So many more of the stock of the size that would do, where its count is what ends."""
    for index, stock in enumerate(spec.materials[short.material].stock):
        sides = (stock.length,) if stock.width is None else (stock.length, stock.width)
        if sides == short.needs and stock.count is not None:
            path = dotted(("materials", short.material, "stock", index, "count"))
            return (Change(path, str(stock.count + short.more)),)
    return ()


def _too_large(part: Part, rooms: Sequence[tuple[Fraction, Fraction]]) -> tuple[Fraction, Fraction]:
    """The size of a board that no sheet has room for, and the most room that there is for it (mm)."""
    long, short = max(part.length, part.width), min(part.length, part.width)
    widths = [min(room) for room in rooms if max(room) >= long]
    return (short, max(widths)) if widths else (long, max(max(room) for room in rooms))


def _fits(part: Part, length: Fraction, width: Fraction) -> bool:
    """Either way round: the grain is the cutting plan's business."""
    long, short = max(part.length, part.width), min(part.length, part.width)
    return long <= max(length, width) and short <= min(length, width)
