"""Laws of the shelves: inside their opening, and tilted in through it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.fillings.facts import Solved
from generator.bench.fillings.shelf_boards import CLEAT_HIGH, PlacedShelf, lands_on_cleats
from generator.bench.fillings.walls import ceiling
from generator.bench.frames.panels import panel_rules
from generator.bench.law import WORK, Law, Verdict, at_least, at_most, bay_path, by_the_check, to_write
from generator.bench.layout import BayPlace, bay_of
from generator.bench.remedies import thicker
from generator.calculators.shelves import tilt_in
from generator.codes import Code
from generator.findings import Change, Steps
from generator.provenance import inexact

SHELF_HEIGHT = Law(
    Code.SHELF_HEIGHT, "error", "The shelf is below the tray", "The shelf is above the opening", "Lower the shelf.",
    "The shelf would hit the tray.", by_the_check,
    quantity="shelf's top, from the frame's underside",
)  # fmt: skip
SHELF_MEETS = Law(
    Code.SHELF_MEETS, "error", "The shelf meets nothing else in its bay", "The shelf meets another item of its bay",
    "Move one of the two.", "The second one does not fit.", by_the_check,
)  # fmt: skip
SHELF_LOW = Law(
    Code.SHELF_LOW, "error", "The shelf's cleats are above the base rail",
    "The shelf's cleats reach below the base rail's top", "Raise the shelf.",
    "The bar is where the cleat should go.", by_the_check,
    quantity="cleat's lower edge, from the frame's underside",
)  # fmt: skip
SHELF_TILT = Law(
    Code.SHELF_TILT, "warning", "The shelf can be tilted in through its opening", "The shelf cannot be tilted in",
    "Put the shelf in before the frame closes, as the steps say.",
    "It fits, but only early: to take it out again, you must take the frame apart.", WORK,
    quantity="height needed to tilt the shelf in",
)  # fmt: skip
SHELF_LANDS = Law(
    Code.SHELF_LANDS, "warning", "The tilted shelf passes the cleats",
    "Cleats or the shelf below block the tilted shelf",
    "Put the shelf in before the frame closes, as the steps say. Or set the shelves farther apart.",
    "It fits, but only early: to take it out again, you must take the frame apart.", WORK,
)  # fmt: skip
SAG_SHELF = Law(
    Code.SAG_SHELF, "warning", "The shelves are stiff enough", "The shelf sags too far",
    "Take a thicker board, a narrower bay, or a lighter load.", "A sagging shelf slips off its cleats.",
    thicker(lambda spec: spec.shelves.material),
    quantity="sag in the middle, loaded for years",
)  # fmt: skip
LAWS = (SAG_SHELF, SHELF_HEIGHT, SHELF_MEETS, SHELF_LOW, SHELF_TILT, SHELF_LANDS)


def shelf_verdicts(bench: Solved) -> Iterator[Verdict]:
    """Shelves inside their opening, and tilted in through it."""
    spec = bench.spec
    levels = bench.layout.levels
    offset = panel_rules(bench.loaded).fit.offset
    thickness = bench.goods.sheets[spec.shelves.material].thickness
    for shelf in bench.storage.of(PlacedShelf):
        bay = bay_of(bench.layout, shelf.bay)[1]
        where, path = f"bay {shelf.bay}, shelf {shelf.number}", (*bay_path(bay), "stack")
        highest, key = ceiling(bench.layout, bay), _key_of(shelf, bay)
        lower = to_write(spec, key, highest - levels.base_top, down=True)
        yield at_most(SHELF_HEIGHT, shelf.top, highest, where, path, remedy=lower)
        meets = list(_met(bench, shelf))
        yield Verdict(
            SHELF_MEETS, not meets, ", ".join([where, *meets]), path, remedy=_above(bench, shelf, key)
        )
        bottom = shelf.cleat_top - CLEAT_HIGH
        higher = to_write(spec, key, shelf.top - bottom)
        yield at_least(SHELF_LOW, bottom, levels.base_top, where, path, remedy=higher)
        height = highest - levels.base_top
        tilt = tilt_in(shelf.length, thickness, bay.clear, bay.clear + 2 * offset, height)
        yield Verdict(SHELF_TILT, tilt.possible, where, path, tilt.needed_height, inexact(height))
        yield Verdict(SHELF_LANDS, lands_on_cleats(bench, bay, shelf), where, path)


def _key_of(shelf: PlacedShelf, bay: BayPlace) -> Steps:
    """The key of its height: shelves are numbered from below, whatever their order in the stack."""
    heights = [(item.shelf, index) for index, item in enumerate(bay.spec.stack) if item.shelf is not None]
    return (*bay_path(bay), "stack", sorted(heights)[shelf.number - 1][1], "shelf")


def _above(bench: Solved, shelf: PlacedShelf, key: Steps) -> tuple[Change, ...]:
    """Onto the highest shelf below it, where there is one."""
    below = [s.top for s in bench.storage.of(PlacedShelf) if s.bay == shelf.bay and s.number < shelf.number]
    if not below:
        return ()
    height = max(below) - bench.layout.levels.base_top + shelf.top - shelf.cleat_top
    return to_write(bench.spec, key, height)


def _met(bench: Solved, shelf: PlacedShelf) -> Iterator[str]:
    """All else in its bay that is at its height; a shelf below counts, one above does not."""
    for other in bench.storage.items:
        above = isinstance(other, PlacedShelf) and other.number >= shelf.number
        if other.bay != shelf.bay or above or other.takes is None or other.place.item is None:
            continue
        if other.takes.overlap(shelf.takes) > 0:
            yield f"{other.place.item.kind} {other.place.item.number}"
