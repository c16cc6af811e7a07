"""Checks of drawers, totes and shelves."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings.shelves import CLEAT_HIGH, PlacedShelf
from generator.bench.fillings.totes import default_runner_gap
from generator.bench.fillings.walls import PLAY
from generator.bench.layout import BayPlace
from generator.bench.model import Bench
from generator.bench.panels import panel_rules, wall_names
from generator.bench.role import Role
from generator.bench.tilting import lands_on_cleats
from generator.calculators.drawers import OVER_SLIDE, strip_span
from generator.calculators.shelves import tilt_in
from generator.calculators.totes import LEAST_BEARING, RIM_PLAY, runner_fit
from generator.figures.balance import Masses
from generator.figures.checks.judged import (
    LEAST_PROUD,
    Judged,
    Path,
    at_least,
    at_most,
    bay_path,
    judged,
    said,
    zone_of,
)
from generator.figures.storage import packing_of
from generator.findings import Change, dotted
from generator.geometry import Span
from generator.spec.goods import Strip
from generator.spec.load import LoadedSpec
from generator.spec.lookup import sheet, slide, strip
from generator.spec.schema import Spec
from generator.working import constant, inexact

#: Width over depth from which a drawer racks, and beyond which it needs synchronised slides. Common practice.
RACKS = constant("3/2", "width to depth from which a drawer racks", unit="")
NEVER = constant(2, "width to depth that needs synchronised slides", unit="")
#: Room behind a slide, width of a strip that takes screws (mm). Common practice, no source.
BEHIND_SLIDE = constant(10, "room behind a slide")
#: How deep a groove may be cut into a box. Common practice, no source.
MOST_GROOVE = constant("2/3", "deepest groove of a drawer box, in its thickness", unit="")
STRIP_FOR_SCREWS = constant(40, "width of a strip that takes screws")
#: Taken off when a strip is planed on both faces; by so much a strip may be too thin (mm). Common practice, no source.
PLANING = constant(2, "what planing takes off a strip")
HOLE_OFF_EDGE = constant(10, "wood between a slide's hole and the edge of its strip")
LITTLE = constant("1/2", "by how much a packing strip may be too thin")


def drawer_checks(bench: Bench, masses: Masses) -> Iterator[Judged]:
    """Boxes against their slides and bays."""
    loaded = bench.loaded
    if not bench.storage.drawers:
        return
    spec = loaded.spec
    yield from _slide_card(loaded, masses)
    yield from _bottom_groove(bench)
    for drawer in bench.storage.drawers:
        bay = zone_of(bench, drawer.bay)[1]
        where, path = f"bay {drawer.bay}, drawer {drawer.number}", (*bay_path(bay), "stack")
        ratio = drawer.sizes.width_to_depth
        limit, severity = (NEVER, "error") if ratio > NEVER else (RACKS, "warning")
        yield judged("wide-drawer", ratio <= RACKS, where, path, value=inexact(ratio), limit=inexact(limit),
                     severity=severity)  # fmt: skip
        needed = slide(spec).height + OVER_SLIDE
        yield at_least("box-height", drawer.sizes.box_height, needed, where, path)
        bottom = sheet(spec, spec.drawers.bottom).thickness
        yield at_least("box-width", drawer.sizes.ends_length, bottom * 4, where, path)
    yield from _slides(bench)
    yield from _packing(bench)


def _slide_card(loaded: LoadedSpec, masses: Masses) -> Iterator[Judged]:
    """What the slide is rated for, where its holes are, the space it works in, where it sits on the box."""
    spec, name = loaded.spec, loaded.spec.drawers.slide
    card, path = slide(spec), ("hardware", spec.drawers.slide)
    heaviest = max(masses.drawers, key=lambda each: each.own.mass)
    carried, rating = heaviest.own.mass + heaviest.load.mass, inexact(card.rating)
    room = rating - heaviest.own.mass
    advice = f"Take slides rated {loaded.weight(carried, up=True)} or more"
    if room > 0:
        advice += f", or write `loads: {{drawer: {loaded.weight(room)}}}` and load it with no more"
    yield judged("slide-rating", carried <= rating, f"drawer {heaviest.name}, {name}", (*path, "rating"),
                 value=carried, limit=rating, unit="kg", advice=f"{advice}.")  # fmt: skip
    yield at_most("slide-hole", max(card.holes), card.length, name, (*path, "holes"))
    yield at_least("slide-space", card.side_space, card.thickness, name, (*path, "side_space"))
    axis = ("drawers", "slide_axis")
    yield at_least("slide-axis", spec.drawers.slide_axis, card.height / 2, f"lower edge of {name}", axis)


def _bottom_groove(bench: Bench) -> Iterator[Judged]:
    """The groove for the bottom leaves wood behind it and above it."""
    spec = bench.spec
    rules, box = spec.drawers, sheet(spec, spec.drawers.box).thickness
    severity = "error" if rules.groove >= box else "warning"
    yield at_most(
        "groove-depth", rules.groove, box * MOST_GROOVE, rules.box, ("drawers", "groove"), severity=severity
    )
    lowest = min(drawer.sizes.box_height for drawer in bench.storage.drawers)
    top = rules.groove_up + sheet(spec, rules.bottom).thickness
    yield at_most("groove-place", top, lowest, "the lowest box", ("drawers", "groove_up"))


def _slides(bench: Bench) -> Iterator[Judged]:
    spec = bench.spec
    plan, rules, walls = bench.layout, spec.drawers, wall_names(spec)
    behind = sheet(spec, rules.front).thickness + rules.slide_setback + slide(spec).length
    for bay_name in dict.fromkeys(drawer.bay for drawer in bench.storage.drawers):
        zone, bay = zone_of(bench, bay_name)
        room = plan.section + zone.y.size - behind
        severity = "error" if room < 0 else "warning"
        path = ("zones", zone.index, "depth")
        yield at_least("slide-depth", room, BEHIND_SLIDE, f"bay {bay_name}", path, severity=severity)
        needed = {"ends"} if bay.index in (0, len(zone.bays) - 1) else set()
        needed |= {"dividers"} if len(zone.bays) > 1 else set()
        yield judged("slide-without-wall", needed <= set(walls), f"bay {bay_name}", ("panels", "walls"))


def _packing(bench: Bench) -> Iterator[Judged]:
    spec = bench.spec
    name, card, needed = spec.drawers.packing, strip(spec, spec.drawers.packing), packing_of(spec)
    path = ("drawers", "packing")
    yield _thick_enough(spec, needed)
    if card.thickness > needed:
        yield judged("packing-planed", False, name, path, value=needed, limit=card.thickness, unit="mm")
    yield at_least("packing-narrow", card.width, STRIP_FOR_SCREWS, name, path)
    yield from _holes_off_edges(bench)


def _holes_off_edges(bench: Bench) -> Iterator[Judged]:
    """A strip that had to clear a post lies off its hole: behind a post of 47 the hole comes near its edge."""
    spec = bench.spec
    section, width = bench.layout.section, strip(spec, spec.drawers.packing).width
    for zone in bench.layout.zones:
        drawer = next(
            (each for bay in zone.bays for each in bench.storage.drawers if each.bay == bay.name), None
        )
        if drawer is None:
            continue
        clear = (section, section + zone.y.size)
        spans = [(at, *strip_span(at, width, clear, PLAY)) for at in drawer.stations]
        front = min(at - low for at, low, _ in spans)
        back = min(high - at for at, _, high in spans)
        setback = said(spec, spec.drawers.slide_setback + HOLE_OFF_EDGE - front)
        deeper = said(spec, zone.y.size + HOLE_OFF_EDGE - back)
        depth: Path = ("zones", zone.index, "depth")
        for space, path, value, advice in (
            (front, ("drawers", "slide_setback"), setback, ""),
            (back, depth, deeper, "Deepen the zone, or take a shorter slide."),
        ):
            changes = (Change(dotted(path), value),)
            yield judged(
                "packing-edge", space >= HOLE_OFF_EDGE, f"zone {zone.name}", path, value=space, limit=HOLE_OFF_EDGE,
                unit="mm", sense="at least", advice=advice, remedy=changes,
            )  # fmt: skip


def _thick_enough(spec: Spec, needed: Fraction) -> Judged:
    """A strip that is a little too thin is used as it comes: it still stands proud enough for the slide to pass."""
    name = spec.drawers.packing
    thickness, proud = strip(spec, name).thickness, spec.drawers.proud
    short = needed - thickness
    little = short <= LITTLE and proud - short >= LEAST_PROUD
    buy = said(spec, needed + PLANING)
    advice = (
        f"Buy strips of {buy} or more, 2 mm (5/64 in) of it for planing: `materials.{name}.thickness: {buy}`."
    )
    if little:
        advice = (
            f"Use them as they come, with `drawers.proud: {said(spec, proud - short, down=True)}`. {advice}"
        )
    return judged(
        "packing-thin", short <= 0, name, ("drawers", "packing"), value=thickness, limit=needed, unit="mm",
        severity="note" if little and short > 0 else "", sense="at least", advice=advice,
    )  # fmt: skip


def tote_checks(bench: Bench) -> Iterator[Judged]:
    """Rims on their runners, totes in their bays."""
    spec = bench.spec
    for kind in dict.fromkeys(tote.kind for tote in bench.storage.totes):
        card = spec.totes[kind]
        yield at_most("tote-body", card.body_width, card.rim_width, kind, ("totes", kind, "body_width"))
        yield at_most(
            "tote-rim-height", card.rim_height, card.height / 2, kind, ("totes", kind, "rim_height")
        )
    for bay_name, kind in dict.fromkeys((tote.bay, tote.kind) for tote in bench.storage.totes):
        zone, bay = zone_of(bench, bay_name)
        card = spec.totes[kind]
        gap = card.runner_gap or default_runner_gap(card.rim_width, card.body_width)
        fit = runner_fit(card.rim_width, card.body_width, gap, bay.clear)
        where, path = f"bay {bay_name}, {kind}", ("totes", kind, "runner_gap")
        yield at_least("tote-bearing", fit.worst, LEAST_BEARING, where, path)
        yield at_least("tote-rim", fit.rim_play, RIM_PLAY, where, (*bay_path(bay), "stack"))
        yield at_least("tote-gap-low", fit.gap, fit.gap_min, where, path)
        yield at_most("tote-gap-high", fit.gap, fit.gap_max, where, path)
        room = bench.layout.section + zone.y.size - card.length
        yield at_least("tote-depth", room, Fraction(0), where, ("zones", zone.index, "depth"))


def shelf_checks(bench: Bench) -> Iterator[Judged]:
    """Shelves inside their opening, and tilted in through it."""
    spec = bench.spec
    levels = bench.layout.levels
    offset = panel_rules(spec).fit.offset
    thickness = sheet(spec, spec.shelves.material).thickness
    for shelf in bench.storage.shelves:
        bay = zone_of(bench, shelf.bay)[1]
        where, path = f"bay {shelf.bay}, shelf {shelf.number}", (*bay_path(bay), "stack")
        ceiling = _ceiling(bench, bay)
        yield at_most("shelf-height", shelf.top, ceiling, where, path)
        meets = [what for what, span in _spans(bench, shelf) if span.overlap(_board(shelf)) > 0]
        yield judged("shelf-meets", not meets, ", ".join([where, *meets]), path)
        yield at_least("shelf-low", shelf.cleat_top - CLEAT_HIGH, levels.base_top, where, path)
        height = ceiling - levels.base_top
        tilt = tilt_in(shelf.length, thickness, bay.clear, bay.clear + 2 * offset, height)
        yield judged("shelf-tilt", tilt.possible, where, path, value=tilt.needed_height,
                     limit=inexact(height), unit="mm")  # fmt: skip
        yield judged("shelf-lands", lands_on_cleats(bench, bay, shelf), where, path)


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
    storage = bench.storage
    for drawer in storage.drawers:
        size = drawer.sizes
        if drawer.bay == shelf.bay:
            yield f"drawer {drawer.number}", Span(size.front_bottom, size.front_bottom + size.front_height)
    for tote in storage.totes:
        if tote.bay == shelf.bay:
            yield f"tote {tote.number}", Span(tote.bottom, tote.top)
    for other in storage.shelves:
        if other.bay == shelf.bay and other.number < shelf.number:
            yield f"shelf {other.number}", _board(other)


def reach_checks(bench: Bench) -> Iterator[Judged]:
    """What is stored can be reached, and its strips can be cut."""
    spec = bench.spec
    for zone in bench.layout.zones:
        for bay in zone.bays:
            if bay.spec.stack:
                yield judged("closed-zone", bool(zone.opens), f"bay {bay.name}", (*bay_path(bay), "stack"))
    for role in (Role.TOTE_RUNNER, Role.SHELF_CLEAT):
        for part in bench.of(role)[:1]:
            widest = max(bench.of(role), key=lambda each: each.width)
            card = spec.materials[part.material]
            if isinstance(card, Strip):
                where = f"{widest.mark}, {widest.group}"
                yield at_least(
                    "strip-narrow", card.width, widest.width, where, ("materials", part.material, "width")
                )
