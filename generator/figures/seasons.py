"""What wood, boards and bars do between the shop's extremes, where a fit or a fixing must take it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.frames.floating import floating, shop_moistures
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.wood_movement import (
    ALONG_GRAIN,
    ALUMINIUM,
    MDF,
    PLYWOOD,
    change_with_moisture,
    growth_with_heat,
    moisture_in_equilibrium,
    species,
)
from generator.figures import solid_top
from generator.figures.rows.fits import Movement, Seasons
from generator.provenance import constant, greatest, inexact
from generator.spec.goods import Sheet, Strip

TABLE = "Wood Handbook, table 13-5"

TOP_ADVICE = "Fix the top in its middle. Make the holes of all other brackets longer by at least the change."
TONGUE_ADVICE = "The slots leave space for this. Never glue a tongue."
GROOVE_ADVICE = "The grooves leave space for this. Never glue a panel into them."
FLOATING_ADVICE = "Cut it to this size. It floats: glue only the middle of each end, with one spot."
BAR_ADVICE = "The whole frame grows. Do not measure a bar that was in the sun."


def seasons(bench: Bench) -> Seasons:
    """Moisture at both extremes, and rows for top, long tongues, what fills the bays, and bars."""
    spec = bench.spec
    climate = spec.climate
    driest, dampest, wetter = moistures(bench)
    warming = _given(
        float(climate.warmest - climate.coldest), "warming from the coldest to the warmest day", "K"
    )
    rows = (
        *_top(bench, wetter),
        *_tray(bench, wetter),
        *_floating(bench),
        *_fillings(bench, wetter),
        *_bars(bench, warming),
    )
    return Seasons(driest, dampest, warming, rows)


def moistures(bench: Bench) -> tuple[float, float, float]:
    """Moisture of wood (%) in the driest and dampest weeks of the spec's climate, and what it takes up between them."""
    climate = bench.spec.climate
    driest = moisture_in_equilibrium(celsius=float(climate.warmest), humidity=float(climate.driest))
    dampest = moisture_in_equilibrium(celsius=float(climate.coldest), humidity=float(climate.dampest))
    return driest, dampest, _given(dampest - driest, "moisture that wood takes up (%)", "")


def _given(value: float, name: str, unit: str) -> float:
    why = "from the spec's climate; moisture by Wood Handbook, equation 4-5"
    return inexact(constant(Fraction(value), name, why, unit))


def _board(board: Sheet, size: Fraction, wetter: float) -> float:
    coefficient = MDF if board.grain == "none" else PLYWOOD
    return change_with_moisture(size=inexact(size), coefficient=coefficient, moisture_change=wetter)


def _top(bench: Bench, wetter: float) -> Iterator[Movement]:
    top = bench.of(Role.TOP)[0]
    across = "depth" if solid_top.moves_in_depth(bench) else "length"
    for name, size in (("length", top.length), ("depth", top.width)):
        if not solid_top.is_solid(bench):
            change = _board(bench.goods.top, size, wetter)
        elif name == across:
            change = solid_top.change_across(bench, size, wetter)
        else:
            change = change_with_moisture(size=inexact(size), coefficient=ALONG_GRAIN, moisture_change=wetter)
        yield Movement(f"top, {name}", top.mark, size, "moisture", change, None, TOP_ADVICE)


def _tray(bench: Bench, wetter: float) -> Iterator[Movement]:
    pieces = bench.of(Role.TRAY)
    if not pieces or (fit := pieces[0].fit) is None:
        return
    marks = pieces[0].mark if len(pieces) == 1 else f"{pieces[0].mark} to {pieces[-1].mark}"
    length = pieces[-1].box.x.high - pieces[0].box.x.low
    change = _board(bench.goods.tray, length, wetter)
    room = inexact(2 * fit.bottom_clearance)
    slotted = bench.goods.profile is not None
    name = "tray, between its slots" if slotted else "tray, between its grooves"
    advice = TONGUE_ADVICE if slotted else GROOVE_ADVICE
    yield Movement(name, marks, length, "moisture", change, room, advice)


def _floating(bench: Bench) -> Iterator[Movement]:
    """Panels of solid wood, one row a size: their growth until the dampest weeks, and the room in their grooves."""
    seen = set[tuple[str, Fraction]]()
    dampest, depth = shop_moistures(bench.spec).dampest, bench.goods.members.groove
    for part in bench.parts:
        how = floating(bench.loaded, part)
        if how is None:
            continue
        size = part.box.span(how.axis).size
        if (part.group, size) in seen:
            continue
        seen.add((part.group, size))
        wetter = greatest(dampest - how.made[0], Fraction(0))
        change = change_with_moisture(
            size=inexact(size), coefficient=inexact(how.movement), moisture_change=inexact(wetter)
        )
        rooms = [depth - part.tongues[edge] for edge in how.grooves]
        room = inexact(sum(rooms[1:], rooms[0])) if rooms else None
        yield Movement(
            f"{part.group}, across its grain", part.mark, size, "moisture", change, room, FLOATING_ADVICE
        )


def _fillings(bench: Bench, wetter: float) -> Iterator[Movement]:
    """What fills the bays, where it has little room."""
    goods = bench.goods
    for kind in FILLINGS:
        for each in kind.swelling(bench):
            strips = [_strip(goods.strips[name], size, wetter) for name, size in each.strips]
            boards = [_board(goods.sheets[name], size, wetter) for name, size in each.boards]
            change, room = sum((*boards[1:], *strips), boards[0]), inexact(each.room)
            yield Movement(each.name, each.where, each.size, "moisture", change, room, each.advice)


def _strip(strip: Strip, size: Fraction, wetter: float) -> float:
    wood = species(strip.species)
    each = constant(
        Fraction(wood.tangential), "movement of the strips for each per cent of moisture", TABLE, ""
    )
    return change_with_moisture(size=inexact(size), coefficient=inexact(each), moisture_change=wetter)


def _bars(bench: Bench, warming: float) -> Iterator[Movement]:
    if bench.goods.profile is None:
        return  # along its grain, wood hardly moves
    longest = max((part for part in bench.parts if part.is_bar), key=lambda part: part.length)
    change = growth_with_heat(length=inexact(longest.length), expansion=ALUMINIUM, warming=warming)
    yield Movement(f"bar, {longest.group}", longest.mark, longest.length, "heat", change, None, BAR_ADVICE)
