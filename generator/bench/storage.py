"""What fills the bays: drawers on slides and packing, totes on runners, shelves on cleats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.model import (
    OpenSpace,
    Operation,
    Part,
    PlacedDrawer,
    PlacedShelf,
    PlacedTote,
    Storage,
)
from generator.bench.panels import panel_rules, trim_thickness
from generator.calculators import drawers as drawer_rules
from generator.calculators import totes as tote_rules
from generator.calculators.fits import packing_thickness
from generator.calculators.spacing import Share, divide
from generator.findings import Finding, Severity
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.lookup import sheet, slide, strip
from generator.spec.schema import Spec, StackItem

#: A strip stands this much above the base rail and ends this much below the tray's trim (mm).
STRIP_ABOVE_RAIL, STRIP_BELOW_TRAY = Fraction(2), Fraction(15)
#: Play between a strip and a post, at each end of a runner, a shelf's end, a shelf's edge (mm).
PLAY = Fraction(1)
#: A shelf's cleat ends this much before the zone's ends, and is this high (mm).
CLEAT_SHORT, CLEAT_HIGH = Fraction(10), Fraction(40)


@dataclass(frozen=True)
class _Slot:
    """One item of a stack at its height; totes are one slot for the whole set."""

    item: StackItem
    bottom: Fraction
    height: Fraction


def default_runner_gap(rim_width: Fraction, body_width: Fraction) -> Fraction:
    """The gap (mm) that a tote card leaves out: the middle of the range that carries it."""
    return sum(tote_rules.runner_gap_range(rim_width, body_width), Fraction(0)) / 2


def fill_bays(loaded: LoadedSpec, layout: Layout) -> tuple[Storage, tuple[Finding, ...]]:
    """Place every item of every stack. Findings: stacks that do not fill their opening, by how much."""
    drawers: list[PlacedDrawer] = []
    totes: list[PlacedTote] = []
    shelves: list[PlacedShelf] = []
    spaces: list[OpenSpace] = []
    faults: list[Finding] = []
    for zone in layout.zones:
        for bay in zone.bays:
            slots = _slots(loaded, layout, bay, faults)
            drawers += _place_drawers(loaded.spec, layout, bay, slots)
            totes += _place_totes(loaded.spec, bay, slots)
            shelves += _place_shelves(loaded.spec, layout, zone, bay)
            opens = [slot for slot in slots if slot.item.open is not None]
            spaces += [OpenSpace(bay.name, n, s.bottom, s.height) for n, s in enumerate(opens, 1)]
    return Storage(tuple(drawers), tuple(totes), tuple(shelves), tuple(spaces)), tuple(faults)


def _slots(loaded: LoadedSpec, layout: Layout, bay: BayPlace, faults: list[Finding]) -> list[_Slot]:
    """Heights of all items but shelves: fronts and gaps fill the opening, totes alone float in it."""
    items = [item for item in bay.spec.stack if item.shelf is None]
    if not items:
        return []
    spec, bottom, opening = loaded.spec, layout.levels.base_top, layout.levels.opening
    if all(item.totes for item in items):
        return _tote_slots(loaded, layout, bay, items, faults)
    gap = spec.drawers.gap
    division = divide(opening - (len(items) + 1) * gap, [_wanted(spec, item) for item in items])
    if not division.ok:
        amount = loaded.say(abs(division.residual))
        by = f"{amount} too high" if division.residual < 0 else f"{amount} missing"
        if division.residual == 0:
            by = "nothing is left for the shares"
        faults.append(
            _stack_fault(
                loaded,
                bay,
                f"the {len(items)} items of bay {bay.name} and {len(items) + 1} gaps of {loaded.say(gap)} "
                f"do not fill the opening of {loaded.say(opening)}: {by}",
                "heights that fill the opening exactly, or one of them as `share`",
            )
        )
    slots, at = [], bottom + gap
    for item, height in zip(items, division.sizes, strict=True):
        slots.append(_Slot(item, at, height))
        at += height + gap
    return slots


def _stack_fault(loaded: LoadedSpec, bay: BayPlace, message: str, allowed: str) -> Finding:
    where = loaded.where("zones", bay.zone, "bays", bay.index, "stack")
    return Finding("stack-sum", Severity.ERROR, message, where, allowed=allowed)


def _wanted(spec: Spec, item: StackItem) -> Fraction | Share:
    if item.totes is not None:
        card = spec.totes[item.totes]
        # in a mixed stack each tote needs its lift, the uppermost too
        return item.count * (card.height + card.lift)
    wanted = item.drawer if item.drawer is not None else item.open
    assert wanted is not None
    return wanted


def _tote_slots(
    loaded: LoadedSpec, layout: Layout, bay: BayPlace, items: Sequence[StackItem], faults: list[Finding]
) -> list[_Slot]:
    spec, bottom, opening = loaded.spec, layout.levels.base_top, layout.levels.opening
    cards = [spec.totes[item.totes] for item in items for _ in range(item.count) if item.totes]
    needed = sum((card.height for card in cards), Fraction(0))
    needed += sum((card.lift for card in cards[:-1]), Fraction(0))
    if needed > opening:
        faults.append(
            _stack_fault(
                loaded,
                bay,
                f"the {len(cards)} totes of bay {bay.name} need {loaded.say(needed)}, {loaded.say(needed - opening)} "
                f"more than the opening of {loaded.say(opening)}",
                "fewer or lower totes",
            )
        )
    slots, at = [], bottom + (opening - needed) / 2
    for item in items:
        if item.totes is None:
            continue
        card = spec.totes[item.totes]
        height = tote_rules.stack_height(card.height, card.lift, item.count)
        slots.append(_Slot(item, at, height))
        at += height + card.lift
    return slots


def drawer_constants(spec: Spec) -> drawer_rules.DrawerRules:
    """The rules of the spec's drawers as the calculator takes them."""
    rules, runner = spec.drawers, slide(spec)
    return drawer_rules.DrawerRules(
        proud=rules.proud,
        side_space=runner.side_space,
        gap=rules.gap,
        below=rules.below,
        above=rules.above,
        slide_axis=rules.slide_axis,
        slide_length=runner.length,
        slide_height=runner.height,
        box_thickness=sheet(spec, rules.box).thickness,
        groove=rules.groove,
    )


def _place_drawers(
    spec: Spec, layout: Layout, bay: BayPlace, slots: Sequence[_Slot]
) -> Iterator[PlacedDrawer]:
    slots = [slot for slot in slots if slot.item.drawer is not None]
    if not slots:
        return
    rules = drawer_constants(spec)
    sizes = [drawer_rules.drawer_sizes(rules, bay.width, slot.height, slot.bottom) for slot in slots]
    blocks = drawer_rules.spacers(
        [size.slide_lower_edge for size in sizes], rules.slide_height, layout.levels.base_top
    )
    front = sheet(spec, spec.drawers.front).thickness + spec.drawers.slide_setback
    stations = tuple(front + hole for hole in slide(spec).holes)
    for number, (size, block) in enumerate(zip(sizes, blocks, strict=True), 1):
        yield PlacedDrawer(bay.name, number, size, front, stations, block)


def _place_totes(spec: Spec, bay: BayPlace, slots: Sequence[_Slot]) -> Iterator[PlacedTote]:
    offset = panel_rules(spec).fit.offset
    number = 0
    for slot in slots:
        if slot.item.totes is None:
            continue
        card = spec.totes[slot.item.totes]
        gap = card.runner_gap or default_runner_gap(card.rim_width, card.body_width)
        for i in range(slot.item.count):
            number += 1
            bottom = slot.bottom + i * (card.height + card.lift)
            yield PlacedTote(
                bay.name,
                number,
                slot.item.totes,
                bottom,
                bottom + card.height,
                bottom + card.height - card.rim_height,
                tote_rules.runner_width(bay.width, offset, gap),
            )


def _place_shelves(spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace) -> Iterator[PlacedShelf]:
    offset = panel_rules(spec).fit.offset
    thickness = sheet(spec, spec.shelves.material).thickness
    heights = sorted(item.shelf for item in bay.spec.stack if item.shelf is not None)
    for number, height in enumerate(heights, 1):
        top = layout.levels.base_top + height
        yield PlacedShelf(
            bay.name,
            number,
            top,
            bay.width + 2 * offset - 2 * PLAY,
            zone.y.size - 2 * PLAY,
            top - thickness,
        )


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
) -> tuple[tuple[str, Span], tuple[str, Span]]:
    """X spans of a strip of `thickness` on the left and on the right wall of a bay."""
    left, right = bay.x.low - offset, bay.x.high + offset
    return (("left", Span(left, left + thickness)), ("right", Span(right - thickness, right)))


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
        x = Span(bay.x.low - offset + PLAY, bay.x.high + offset - PLAY)
        y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
        where = f"bay {bay.name}, shelf {shelf.number}"
        yield Part(
            "SH",
            "shelf",
            "shelf",
            spec.shelves.material,
            "sheet",
            Box(x, y, Span(shelf.top - thickness, shelf.top)),
            "x",
            "y",
            where,
            thickness,
        )
        for side, wall in _both_walls(bay, offset, cleat.thickness):
            y = Span(zone.y.low + CLEAT_SHORT, zone.y.high - CLEAT_SHORT)
            z = Span(shelf.cleat_top - CLEAT_HIGH, shelf.cleat_top)
            yield Part(
                "SC",
                "shelf cleat",
                "shelf cleat",
                spec.shelves.cleat,
                "strip",
                Box(wall, y, z),
                "y",
                "z",
                f"{where}, {side} wall",
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
                "tote runner",
                material,
                "strip",
                Box(wall, y, Span(tote.runner_top - thickness, tote.runner_top)),
                "y",
                "x",
                f"bay {bay.name}, tote {tote.number}, {side} wall",
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
        levels.base_top + STRIP_ABOVE_RAIL, min(ceiling, levels.end_rail_bottom) if is_end else ceiling
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
        floor = max(floor, tote.high)


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
                "packing strip",
                material,
                "strip",
                Box(wall, from_face(layout, zone, near, far), z),
                "z",
                "y",
                f"bay {bay.name}, {side} wall",
                thickness,
            )


def _drawer_parts(
    spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace, drawer: PlacedDrawer
) -> Iterator[Part]:
    size, rules = drawer.sizes, spec.drawers
    box = sheet(spec, rules.box).thickness
    front = sheet(spec, rules.front).thickness
    bottom = sheet(spec, rules.bottom).thickness
    left = bay.x.middle - size.box_width / 2
    right = left + size.box_width
    z = Span(size.box_bottom, size.box_bottom + size.box_height)
    behind, end = front, front + size.box_depth
    where = f"bay {bay.name}, drawer {drawer.number}"
    groove = _bottom_groove(spec, size.box_depth, bottom)
    y = from_face(layout, zone, behind, end)
    for x in (Span(left, left + box), Span(right - box, right)):
        yield Part(
            "DS",
            "drawer side",
            "drawer side",
            rules.box,
            "sheet",
            Box(x, y, z),
            "y",
            "z",
            where,
            box,
            operations=groove,
        )
    inside = Span(left + box, right - box)
    groove = _bottom_groove(spec, inside.size, bottom)
    for near, far in ((behind, behind + box), (end - box, end)):
        y = from_face(layout, zone, near, far)
        yield Part(
            "DE",
            "drawer front and back",
            "drawer front and back",
            rules.box,
            "sheet",
            Box(inside, y, z),
            "x",
            "z",
            where,
            box,
            operations=groove,
        )
    wide, deep = size.bottom_panel
    middle = (behind + end) / 2
    z = Span(size.box_bottom + rules.groove_up, size.box_bottom + rules.groove_up + bottom)
    x = Span(bay.x.middle - wide / 2, bay.x.middle + wide / 2)
    y = from_face(layout, zone, middle - deep / 2, middle + deep / 2)
    yield Part(
        "DB", "drawer bottom", "drawer bottom", rules.bottom, "sheet", Box(x, y, z), "x", "y", where, bottom
    )
    x = Span(bay.x.low + rules.gap, bay.x.high - rules.gap)
    z = Span(size.front_bottom, size.front_bottom + size.front_height)
    y = from_face(layout, zone, Fraction(0), front)
    yield Part("DF", "drawer face", "drawer face", rules.front, "sheet", Box(x, y, z), "x", "z", where, front)


def _bottom_groove(spec: Spec, length: Fraction, bottom: Fraction) -> tuple[Operation, ...]:
    centre = (length / 2, spec.drawers.groove_up + bottom / 2)
    return (Operation("groove", "inside", centre, (length, bottom), spec.drawers.groove, "for the bottom"),)
