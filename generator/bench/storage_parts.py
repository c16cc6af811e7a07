"""Boards and strips of what fills the bays: drawers with their packing, runners, shelves and cleats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.model import (
    Operation,
    Part,
    PlacedDrawer,
    PlacedShelf,
    PlacedTote,
    Storage,
)
from generator.bench.panels import panel_rules, trim_thickness
from generator.bench.place import End, Place
from generator.bench.role import Role
from generator.bench.storage import PLAY
from generator.calculators import drawers as drawer_rules
from generator.calculators.fits import packing_thickness
from generator.geometry import Box, Span
from generator.spec.lookup import sheet, strip
from generator.spec.schema import Spec
from generator.working import constant, greatest, least

#: A strip stands this much above the base rail and ends this much below the tray's trim (mm).
STRIP_ABOVE_RAIL = constant(2, "a packing strip stands above the base rail by")
STRIP_BELOW_TRAY = constant(15, "a packing strip ends below the tray's trim by")
#: A shelf's cleat ends this much before the zone's ends, and is this high (mm).
CLEAT_SHORT = constant(10, "a cleat ends before its zone by")
CLEAT_HIGH = constant(40, "height of a cleat")


def storage_parts(spec: Spec, layout: Layout, storage: Storage) -> tuple[Part, ...]:
    """Boards and strips of everything that fills the bays, marked in rows by their group."""
    offset = panel_rules(spec).fit.offset
    parts: list[Part] = []
    for zone in layout.zones:
        for bay in zone.bays:
            drawers = [drawer for drawer in storage.drawers if drawer.bay == bay.name]
            totes = [tote for tote in storage.totes if tote.bay == bay.name]
            shelves = [shelf for shelf in storage.shelves if shelf.bay == bay.name]
            parts += _shelf_parts(spec, zone, bay, shelves, offset)
            parts += _runner_parts(spec, zone, bay, totes, offset)
            if drawers:
                for run in _strip_runs(spec, layout, bay, drawers, totes):
                    parts += _packing_parts(spec, layout, zone, bay, drawers[0], run, offset)
            for drawer in drawers:
                parts += _drawer_parts(spec, layout, zone, bay, drawer)
    return _numbered(parts)


def _numbered(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Marks follow the groups, so that like parts lie together on the cut list."""
    count: dict[str, int] = {}
    numbered = []
    for part in parts:
        count[part.mark] = count.get(part.mark, 0) + 1
        numbered.append(replace(part, mark=f"{part.mark}{count[part.mark]}"))
    return tuple(numbered)


def _both_walls(
    bay: BayPlace, offset: Fraction, thickness: Fraction
) -> tuple[tuple[End, Span], tuple[End, Span]]:
    """X spans of a strip of `thickness` on the left and on the right wall of a bay."""
    left, right = bay.x.low - offset, bay.x.high + offset
    return (("left", Span(left, left + thickness)), ("right", Span(right - thickness, right)))


def _centred(bay: BayPlace, size: Fraction) -> Span:
    """X span of a board of that size in the middle of a bay, whatever the bay measured."""
    return Span(bay.x.middle - size / 2, bay.x.middle + size / 2)


def from_face(layout: Layout, zone: ZonePlace, near: Fraction, far: Fraction) -> Span:
    """Y span of what lies `near` to `far` behind the face that the zone opens to."""
    if zone.opens == "rear":
        face = zone.y.high + layout.section
        return Span(face - far, face - near)
    face = zone.y.low - layout.section
    return Span(face + near, face + far)


def _shelf_parts(
    spec: Spec, zone: ZonePlace, bay: BayPlace, shelves: Sequence[PlacedShelf], offset: Fraction
) -> Iterator[Part]:
    thickness = sheet(spec, spec.shelves.material).thickness
    cleat = strip(spec, spec.shelves.cleat)
    for shelf in shelves:
        x = _centred(bay, shelf.length)
        y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
        place = shelf.place
        yield Part(
            "SH",
            "shelf",
            Role.SHELF,
            spec.shelves.material,
            "sheet",
            Box(x, y, Span(shelf.top - thickness, shelf.top)),
            "x",
            "y",
            place,
            thickness,
        )
        for side, wall in _both_walls(bay, offset, cleat.thickness):
            y = Span(zone.y.low + CLEAT_SHORT, zone.y.high - CLEAT_SHORT)
            z = Span(shelf.cleat_top - CLEAT_HIGH, shelf.cleat_top)
            yield Part(
                "SC",
                "shelf cleat",
                Role.SHELF_CLEAT,
                spec.shelves.cleat,
                "strip",
                Box(wall, y, z),
                "y",
                "z",
                replace(place, wall=side),
                cleat.thickness,
            )


def runner_material(spec: Spec, tote: str) -> str:
    """Name of the strip that a tote's runners are cut from; by default that of the packing."""
    return spec.totes[tote].runner or spec.drawers.packing


def _runner_parts(
    spec: Spec, zone: ZonePlace, bay: BayPlace, totes: Sequence[PlacedTote], offset: Fraction
) -> Iterator[Part]:
    for tote in totes:
        material = runner_material(spec, tote.kind)
        thickness = strip(spec, material).thickness
        for side, wall in _both_walls(bay, offset, tote.runner_width):
            y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
            yield Part(
                "TR",
                "tote runner",
                Role.TOTE_RUNNER,
                material,
                "strip",
                Box(wall, y, Span(tote.runner_top - thickness, tote.runner_top)),
                "y",
                "x",
                replace(tote.place, wall=side),
                thickness,
            )


def _strip_runs(
    spec: Spec,
    layout: Layout,
    bay: BayPlace,
    drawers: Sequence[PlacedDrawer],
    totes: Sequence[PlacedTote],
) -> Iterator[Span]:
    """Heights over which packing strips stand: the whole wall, or between the totes of a mixed bay."""
    levels = layout.levels
    is_end = bay.left_line == 0 or bay.right_line == layout.length - layout.section
    ceiling = levels.tray_bottom - trim_thickness(spec) - STRIP_BELOW_TRAY
    wall = Span(
        levels.base_top + STRIP_ABOVE_RAIL, least(ceiling, levels.end_rail_bottom) if is_end else ceiling
    )
    taken = sorted((Span(tote.bottom, tote.top) for tote in totes), key=lambda span: span.low)
    floor = wall.low
    for tote in [*taken, Span(wall.high, wall.high)]:
        inside = [d for d in drawers if floor <= d.sizes.front_bottom < tote.low]
        if inside:
            first, last = inside[0].sizes, inside[-1].sizes
            low = floor if floor == wall.low else first.front_bottom
            high = wall.high if tote.low == wall.high else last.front_bottom + last.front_height
            yield Span(low, high)
        floor = greatest(floor, tote.high)


def _packing_parts(
    spec: Spec,
    layout: Layout,
    zone: ZonePlace,
    bay: BayPlace,
    drawer: PlacedDrawer,
    z: Span,
    offset: Fraction,
) -> Iterator[Part]:
    material = spec.drawers.packing
    thickness = packing_thickness(offset, spec.drawers.proud)
    clear = (layout.section, layout.section + zone.y.size)
    for side, wall in _both_walls(bay, offset, thickness):
        for station in drawer.stations:
            near, far = drawer_rules.strip_span(station, strip(spec, material).width, clear, PLAY)
            yield Part(
                "PK",
                "packing strip",
                Role.PACKING_STRIP,
                material,
                "strip",
                Box(wall, from_face(layout, zone, near, far), z),
                "z",
                "y",
                Place(bay=bay.name, wall=side),
                thickness,
            )


def _drawer_parts(
    spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace, drawer: PlacedDrawer
) -> Iterator[Part]:
    size, rules = drawer.sizes, spec.drawers
    box = sheet(spec, rules.box).thickness
    front = sheet(spec, rules.front).thickness
    bottom = sheet(spec, rules.bottom).thickness
    left, right = _centred(bay, size.box_width).low, _centred(bay, size.box_width).high
    z = Span(size.box_bottom, size.box_bottom + size.box_height)
    behind, end = front, front + size.box_depth
    place = drawer.place
    groove = _bottom_groove(spec, size.box_depth, bottom)
    y = from_face(layout, zone, behind, end)
    for x in (Span(left, left + box), Span(right - box, right)):
        yield Part(
            "DS",
            "drawer side",
            Role.DRAWER_SIDE,
            rules.box,
            "sheet",
            Box(x, y, z),
            "y",
            "z",
            place,
            box,
            operations=groove,
        )
    inside = Span(left + box, right - box)
    groove = _bottom_groove(spec, inside.size, bottom)
    for near, far in ((behind, behind + box), (end - box, end)):
        y = from_face(layout, zone, near, far)
        yield Part(
            "DE",
            "drawer box end",
            Role.DRAWER_END,
            rules.box,
            "sheet",
            Box(inside, y, z),
            "x",
            "z",
            place,
            box,
            operations=groove,
        )
    wide, deep = size.bottom_panel
    middle = (behind + end) / 2
    z = Span(size.box_bottom + rules.groove_up, size.box_bottom + rules.groove_up + bottom)
    x = _centred(bay, wide)
    y = from_face(layout, zone, middle - deep / 2, middle + deep / 2)
    yield Part(
        "DB",
        "drawer bottom",
        Role.DRAWER_BOTTOM,
        rules.bottom,
        "sheet",
        Box(x, y, z),
        "x",
        "y",
        place,
        bottom,
    )
    x = _centred(bay, size.front_width)
    z = Span(size.front_bottom, size.front_bottom + size.front_height)
    y = from_face(layout, zone, Fraction(0), front)
    yield Part(
        "DF", "drawer face", Role.DRAWER_FACE, rules.front, "sheet", Box(x, y, z), "x", "z", place, front
    )


def _bottom_groove(spec: Spec, length: Fraction, bottom: Fraction) -> tuple[Operation, ...]:
    centre = (length / 2, spec.drawers.groove_up + bottom / 2)
    return (Operation("groove", "inside", centre, (length, bottom), spec.drawers.groove, "for the bottom"),)
