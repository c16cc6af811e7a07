"""Drawers on slides on packing strips: their boxes, their faces, and the strips that bring them past the bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.box_body import block_about
from generator.bench.fillings.facts import FillingKind, Placed, Slot, Solved, Ways, bay_of
from generator.bench.fillings.walls import PLAY, both_walls, centred, from_face
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.panels import panel_rules, trim_thickness
from generator.bench.piece import Operation, Part
from generator.bench.place import ENDS, End, Item, Place
from generator.bench.role import DRAWER, Role
from generator.calculators import drawers as drawer_rules
from generator.calculators.assembly import Placing
from generator.calculators.bodies import Body
from generator.calculators.drawers import OVER_SLIDE, DrawerSizes
from generator.calculators.fits import packing_thickness
from generator.codes import Code
from generator.findings import Finding, Severity
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.lookup import sheet, slide, strip
from generator.spec.schema import Spec
from generator.working import constant, greatest, least

#: A strip stands this much above the base rail and ends this much below the tray's trim (mm).
STRIP_ABOVE_RAIL = constant(2, "a packing strip stands above the base rail by")
STRIP_BELOW_TRAY = constant(15, "a packing strip ends below the tray's trim by")


@dataclass(frozen=True)
class PlacedDrawer:
    """A drawer in its bay, heights above the frame's underside.

    `slide_front` and the `stations` of the slide's holes are measured back from the front's face; `spacer` is the
    block under its slide.
    """

    bay: str
    number: int
    sizes: DrawerSizes
    slide_front: Fraction
    stations: tuple[Fraction, ...]
    spacer: Fraction

    @property
    def place(self) -> Place:
        """Where its boards are."""
        return Place(bay=self.bay, item=Item("drawer", self.number))

    @property
    def name(self) -> str:
        """What the drawer is called as one body."""
        return f"drawer {self.bay}.{self.number}"

    def slide_name(self, end: End) -> str:
        """What one of its two slides is called as a body."""
        return f"slide {self.bay}.{self.number} {end}"

    @property
    def fills_width(self) -> Span | None:
        """Strips pass behind its face."""
        return None


class Drawers(FillingKind[PlacedDrawer]):
    """A box between two slides, its face before the posts."""

    kind, placed, goes_in = "drawer", PlacedDrawer, 1

    def place(
        self, spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[Slot]
    ) -> Iterator[PlacedDrawer]:
        """Sizes by their fronts' heights, the spacer blocks each on the one below."""
        if not slots:
            return
        rules = drawer_constants(spec)
        sizes = [drawer_rules.drawer_sizes(rules, bay.clear, slot.height, slot.bottom) for slot in slots]
        blocks = drawer_rules.spacers(
            [size.slide_lower_edge for size in sizes], rules.slide_height, layout.levels.base_top
        )
        front = sheet(spec, spec.drawers.front).thickness + spec.drawers.slide_setback
        stations = tuple(front + hole for hole in slide(spec).holes)
        for number, (size, block) in enumerate(zip(sizes, blocks, strict=True), 1):
            yield PlacedDrawer(bay.name, number, size, front, stations, block)

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[Slot], placed: Sequence[PlacedDrawer]
    ) -> Iterator[Finding]:
        """Boxes and faces of no size."""
        indices = [next(i for i, each in enumerate(bay.spec.stack) if each is slot.item) for slot in slots]
        sizes = [drawer.sizes for drawer in placed]
        return drawers_without_size(loaded, bay, list(zip(indices, sizes, strict=True)))

    def parts(
        self,
        spec: Spec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedDrawer],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """Packing strips of the bay, then the boards of each drawer."""
        if placed:
            for run in _strip_runs(spec, layout, bay, placed, all_):
                yield from _packing_parts(spec, layout, zone, bay, placed[0], run)
        for drawer in placed:
            yield from _drawer_parts(spec, layout, zone, bay, drawer)

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Closed slides, between the packing and the drawer's box."""
        spec = bench.spec
        for drawer in bench.storage.of(PlacedDrawer):
            zone, bay = bay_of(bench, drawer.bay)
            item, proud = slide(spec), spec.drawers.proud
            y = from_face(bench.layout, zone, drawer.slide_front, drawer.slide_front + item.length)
            z = Span(drawer.sizes.slide_lower_edge, drawer.sizes.slide_lower_edge + item.height)
            left, right = bay.x.low + proud, bay.x.high - proud
            sides = (Span(left, left + item.thickness), Span(right - item.thickness, right))
            for end, x in zip(ENDS, sides, strict=True):
                name = drawer.slide_name(end)
                yield Body(name, name, "slide", (block_about(Box(x, y, z)),))

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Placing]:
        """All slides, then box by box."""
        boxes: dict[Place, list[Part]] = {}
        for part in bench.of(*DRAWER):
            boxes.setdefault(part.place, []).append(part)
        drawers = bench.storage.of(PlacedDrawer)
        for drawer in drawers:
            out, after = ways.out(drawer.bay), ways.walls_of(drawer.bay)
            for name in _slide_names(drawer):
                yield Placing(name, "slides", (ways.bodies[name],), out=(out,), after=after)
        for drawer in drawers:
            for part in _boxing(boxes[drawer.place]):
                body = ways.bodies[part.mark]
                yield Placing(part.mark, "drawers", (body,), into=drawer.name, out=("+x",))
            out = ways.out(drawer.bay)
            yield Placing(drawer.name, "drawers", brings=drawer.name, out=(out,), after=_slide_names(drawer))


def _slide_names(drawer: PlacedDrawer) -> tuple[str, ...]:
    return tuple(drawer.slide_name(end) for end in ENDS)


def _boxing(parts: Sequence[Part]) -> list[Part]:
    """One side, the two ends, the bottom into its grooves, the other side, the face."""
    sides = sorted((part for part in parts if part.role is Role.DRAWER_SIDE), key=lambda part: part.box.x.low)
    ends = [part for part in parts if part.role is Role.DRAWER_END]
    bottoms = [part for part in parts if part.role is Role.DRAWER_BOTTOM]
    faces = [part for part in parts if part.role is Role.DRAWER_FACE]
    return [*sides[:1], *ends, *bottoms, *sides[1:], *faces]


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


def _strip_runs(
    spec: Spec,
    layout: Layout,
    bay: BayPlace,
    drawers: Sequence[PlacedDrawer],
    all_: Sequence[Placed],
) -> Iterator[Span]:
    """Heights over which packing strips stand: the whole wall, or between what fills the width of a mixed bay."""
    levels = layout.levels
    is_end = bay.left_line == 0 or bay.right_line == layout.length - layout.section
    ceiling = levels.tray_bottom - trim_thickness(spec) - STRIP_BELOW_TRAY
    wall = Span(
        levels.base_top + STRIP_ABOVE_RAIL, least(ceiling, levels.end_rail_bottom) if is_end else ceiling
    )
    taken = sorted(
        (each.fills_width for each in all_ if each.fills_width is not None), key=lambda span: span.low
    )
    floor = wall.low
    for other in [*taken, Span(wall.high, wall.high)]:
        inside = [d for d in drawers if floor <= d.sizes.front_bottom < other.low]
        if inside:
            first, last = inside[0].sizes, inside[-1].sizes
            low = floor if floor == wall.low else first.front_bottom
            high = wall.high if other.low == wall.high else last.front_bottom + last.front_height
            yield Span(low, high)
        floor = greatest(floor, other.high)


def _packing_parts(
    spec: Spec,
    layout: Layout,
    zone: ZonePlace,
    bay: BayPlace,
    drawer: PlacedDrawer,
    z: Span,
) -> Iterator[Part]:
    material, offset = spec.drawers.packing, panel_rules(spec).fit.offset
    thickness = packing_thickness(offset, spec.drawers.proud)
    clear = (layout.section, layout.section + zone.y.size)
    for side, wall in both_walls(bay, offset, thickness):
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
    left, right = centred(bay, size.box_width).low, centred(bay, size.box_width).high
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
    x = centred(bay, wide)
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
    x = centred(bay, size.front_width)
    z = Span(size.front_bottom, size.front_bottom + size.front_height)
    y = from_face(layout, zone, Fraction(0), front)
    yield Part(
        "DF", "drawer face", Role.DRAWER_FACE, rules.front, "sheet", Box(x, y, z), "x", "z", place, front
    )


def _bottom_groove(spec: Spec, length: Fraction, bottom: Fraction) -> tuple[Operation, ...]:
    centre = (length / 2, spec.drawers.groove_up + bottom / 2)
    return (Operation("groove", "inside", centre, (length, bottom), spec.drawers.groove, "for the bottom"),)


def drawers_without_size(
    loaded: LoadedSpec, bay: BayPlace, drawers: Sequence[tuple[int, DrawerSizes]]
) -> Iterator[Finding]:
    """Boxes and faces of no size. `drawers` are the bay's, each with its place in the stack."""
    spec, at = loaded.spec, ("zones", bay.zone, "bays", bay.index)
    rules, card = spec.drawers, slide(spec)
    box, floor = sheet(spec, rules.box).thickness, 4 * sheet(spec, rules.bottom).thickness
    for number, (index, size) in enumerate(drawers, 1):
        where = f"drawer {number} of bay {bay.name}"
        if size.box_height <= 0:
            least = rules.below + rules.above + card.height + OVER_SLIDE
            yield _no_box(
                loaded, f"the box of {where} would be {loaded.say(size.box_height)} high", size.front_height,
                f"a front of {loaded.say(least)} or more; take an item out of the stack, or make the bench higher",
                *at, "stack", index, "drawer",
            )  # fmt: skip
    for _, size in drawers[:1]:
        where = f"the drawers of bay {bay.name}"
        if size.ends_length <= 0:
            least = bay.clear - size.ends_length + floor
            yield _no_box(
                loaded, f"between their sides {where} would be {loaded.say(size.ends_length)} wide", bay.clear,
                f"a bay of {loaded.say(least)} or more, or a bench as much longer", *at, "width",
            )  # fmt: skip
        if size.front_width <= 0:
            yield _no_box(
                loaded, f"the fronts of bay {bay.name} would be {loaded.say(size.front_width)} wide", rules.gap,
                f"a gap under {loaded.say(bay.clear / 2)}; 3 mm is usual", "drawers", "gap",
            )  # fmt: skip
        inside = size.box_depth - 2 * box
        if inside <= 0:
            yield _no_box(
                loaded, f"between their ends {where} would be {loaded.say(inside)} deep", card.length,
                f"a slide of {loaded.say(2 * box + floor)} or more", "hardware", rules.slide, "length",
            )  # fmt: skip


def _no_box(loaded: LoadedSpec, message: str, found: Fraction, allowed: str, *path: str | int) -> Finding:
    return Finding(
        Code.NO_SIZE, Severity.ERROR, message, loaded.where(*path), found=loaded.say(found), allowed=allowed
    )
