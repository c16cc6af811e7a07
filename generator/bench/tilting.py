"""Can a shelf be tilted in through its opening, past the cleats and shelves that are there?"""

from __future__ import annotations

from generator.bench.fillings.shelves import CLEAT_HIGH, PlacedShelf
from generator.bench.layout import BayPlace
from generator.bench.model import Bench
from generator.bench.panels import panel_rules
from generator.calculators.shelves import Landing, TiltIn, lands, tilt_in
from generator.spec.lookup import sheet, strip


def opening_tilt(bench: Bench, bay: BayPlace, shelf: PlacedShelf) -> TiltIn:
    """The tilt at which a shelf passes between the posts of its bay."""
    spec = bench.spec
    offset, height = panel_rules(spec).fit.offset, bench.layout.levels.opening
    thickness = sheet(spec, spec.shelves.material).thickness
    return tilt_in(shelf.length, thickness, bay.width, bay.width + 2 * offset, height)


def lands_on_cleats(bench: Bench, bay: BayPlace, shelf: PlacedShelf) -> bool:
    """True when the tilted shelf comes down on its cleats. Shelves go in from below; all cleats are there."""
    spec = bench.spec
    thickness = sheet(spec, spec.shelves.material).thickness
    recess = bay.width + 2 * panel_rules(spec).fit.offset
    levels = bench.layout.levels
    ceiling = levels.base_top + levels.opening
    others = [other for other in bench.storage.shelves if other.bay == shelf.bay]
    floor = max((other.top for other in others if other.top < shelf.top), default=levels.base_top)
    next_up = min((other.cleat_top for other in others if other.top > shelf.top), default=None)
    room = Landing(
        above=float(ceiling - shelf.cleat_top),
        passing=float(ceiling - floor),
        gap=None if next_up is None else float(next_up - CLEAT_HIGH - shelf.cleat_top),
    )
    cleat = strip(spec, spec.shelves.cleat).thickness
    return lands(shelf.length, thickness, bay.width, recess, cleat, room)


def tilts_in(bench: Bench, shelf: PlacedShelf) -> bool:
    """True when a shelf goes in through the finished opening."""
    bay = next(bay for zone in bench.layout.zones for bay in zone.bays if bay.name == shelf.bay)
    return opening_tilt(bench, bay, shelf).possible and lands_on_cleats(bench, bay, shelf)
