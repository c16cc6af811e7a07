"""Checks of the shelves, and of what fills a bay whatever it is."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.shelves import CLEAT_HIGH, PlacedShelf, lands_on_cleats
from generator.bench.law import WORK, Case, Law, by_the_check, to_limit, to_write
from generator.bench.layout import BayPlace
from generator.bench.model import Bench
from generator.bench.panels import panel_rules
from generator.bench.role import Role
from generator.calculators.shelves import tilt_in
from generator.codes import Code
from generator.figures.checks.judged import (
    Judged,
    at_least,
    at_most,
    bay_path,
    judged,
    zone_of,
)
from generator.findings import Change, Steps, dotted
from generator.geometry import Span
from generator.spec.goods import Strip
from generator.spec.lookup import sheet
from generator.working import inexact


def _emptied(case: Case) -> tuple[Change, ...]:
    return (Change(dotted(case.path), "[]"),)


SHELF_HEIGHT = Law(
    Code.SHELF_HEIGHT, "error", "The shelf lies below the tray", "The shelf lies above the opening", "Lower the shelf.",
    "The shelf and the tray would be in one place.", by_the_check,
)  # fmt: skip
SHELF_MEETS = Law(
    Code.SHELF_MEETS, "error", "The shelf meets nothing else in its bay", "The shelf meets another item of its bay",
    "Move one of the two.", "Two things cannot be in one place.", by_the_check,
)  # fmt: skip
SHELF_LOW = Law(
    Code.SHELF_LOW, "error", "The shelf's cleats stand above the base rail",
    "The shelf's cleats reach below the base rail's top", "Raise the shelf.",
    "The cleat would have to be let into the bar.", by_the_check,
)  # fmt: skip
SHELF_TILT = Law(
    Code.SHELF_TILT, "warning", "The shelf can be tilted in through its opening", "The shelf cannot be tilted in",
    "Put the shelf in before the frame closes.", "Once the frame is closed the shelf stays outside.", WORK,
)  # fmt: skip
SHELF_LANDS = Law(
    Code.SHELF_LANDS, "warning", "The tilted shelf comes down past the cleats",
    "Cleats or the shelf below bar the tilted shelf",
    "Set the shelves farther apart, or put the shelf in as early as the steps say.",
    "It stays hanging in the opening, tilted, with nothing under its far edge.", WORK,
)  # fmt: skip
CLOSED_ZONE = Law(
    Code.CLOSED_ZONE, "error", "What fills the bay can be reached", "What fills the bay cannot be reached",
    "A zone between two others opens to no face: use the first or last zone.",
    "What you store there never comes out again.", _emptied,
)  # fmt: skip
STRIP_NARROW = Law(
    Code.STRIP_NARROW, "error", "Runners and cleats can be cut from their strip",
    "The strip is narrower than the part cut from it", "Take a wider strip, or a narrower bay for the totes.",
    "The part cannot be cut from it.", to_limit,
)  # fmt: skip


def shelf_checks(bench: Bench) -> Iterator[Judged]:
    """Shelves inside their opening, and tilted in through it."""
    spec = bench.spec
    levels = bench.layout.levels
    offset = panel_rules(spec).fit.offset
    thickness = sheet(spec, spec.shelves.material).thickness
    for shelf in bench.storage.shelves:
        bay = zone_of(bench, shelf.bay)[1]
        where, path = f"bay {shelf.bay}, shelf {shelf.number}", (*bay_path(bay), "stack")
        ceiling, key = _ceiling(bench, bay), _key_of(shelf, bay)
        lower = to_write(spec, key, ceiling - levels.base_top, down=True)
        yield at_most(SHELF_HEIGHT, shelf.top, ceiling, where, path, remedy=lower)
        meets = [what for what, span in _spans(bench, shelf) if span.overlap(_board(shelf)) > 0]
        yield judged(
            SHELF_MEETS, not meets, ", ".join([where, *meets]), path, remedy=_above(bench, shelf, key)
        )
        bottom = shelf.cleat_top - CLEAT_HIGH
        higher = to_write(spec, key, shelf.top - bottom)
        yield at_least(SHELF_LOW, bottom, levels.base_top, where, path, remedy=higher)
        height = ceiling - levels.base_top
        tilt = tilt_in(shelf.length, thickness, bay.clear, bay.clear + 2 * offset, height)
        yield judged(SHELF_TILT, tilt.possible, where, path, value=tilt.needed_height,
                     limit=inexact(height), unit="mm")  # fmt: skip
        yield judged(SHELF_LANDS, lands_on_cleats(bench, bay, shelf), where, path)


def _key_of(shelf: PlacedShelf, bay: BayPlace) -> Steps:
    """The key of its height."""
    items = [index for index, item in enumerate(bay.spec.stack) if getattr(item, "shelf", None) is not None]
    return (*bay_path(bay), "stack", items[shelf.number - 1], "shelf")


def _above(bench: Bench, shelf: PlacedShelf, key: Steps) -> tuple[Change, ...]:
    """Onto the highest shelf below it, where there is one."""
    below = [s.top for s in bench.storage.shelves if s.bay == shelf.bay and s.number < shelf.number]
    if not below:
        return ()
    height = max(below) - bench.layout.levels.base_top + shelf.top - shelf.cleat_top
    return to_write(bench.spec, key, height)


def _ceiling(bench: Bench, bay: BayPlace) -> Fraction:
    """How high a board that reaches behind the posts may lie: at the ends the tray's end rail is in its way."""
    plan, levels = bench.layout, bench.layout.levels
    opening_top = levels.base_top + levels.opening
    is_end = bay.left_line == 0 or bay.right_line == plan.length - plan.section
    return min(opening_top, levels.end_rail_bottom) if is_end else opening_top


def _board(shelf: PlacedShelf) -> Span:
    return Span(shelf.cleat_top, shelf.top)


def _spans(bench: Bench, shelf: PlacedShelf) -> Iterator[tuple[str, Span]]:
    """Heights that everything else in the shelf's bay takes; a shelf below counts, one above does not."""
    for kind in FILLINGS:
        for each in kind.openings(bench):
            if each.taken and each.bay == shelf.bay:
                yield each.name, Span(each.bottom, each.top)
    for other in bench.storage.shelves:
        if other.bay == shelf.bay and other.number < shelf.number:
            yield f"shelf {other.number}", _board(other)


def reach_checks(bench: Bench) -> Iterator[Judged]:
    """What is stored can be reached, and its strips can be cut."""
    spec = bench.spec
    for zone in bench.layout.zones:
        for bay in zone.bays:
            if bay.spec.stack:
                yield judged(CLOSED_ZONE, bool(zone.opens), f"bay {bay.name}", (*bay_path(bay), "stack"))
    for role in (Role.TOTE_RUNNER, Role.SHELF_CLEAT):
        for part in bench.of(role)[:1]:
            widest = max(bench.of(role), key=lambda each: each.width)
            card = spec.materials[part.material]
            if isinstance(card, Strip):
                where = f"{widest.mark}, {widest.group}"
                yield at_least(
                    STRIP_NARROW, card.width, widest.width, where, ("materials", part.material, "width")
                )
