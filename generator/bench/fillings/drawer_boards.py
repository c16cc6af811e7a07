"""A drawer in its bay, and its boards: packing strips, box, bottom, face."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings import pulls
from generator.bench.fillings.covers import Cover, aside_of, beside
from generator.bench.fillings.drawer_grips import grip_in
from generator.bench.fillings.facts import FillingPicture, Placed, Seen, StackSlot
from generator.bench.fillings.walls import PLAY, both_walls, centred, from_face
from generator.bench.frames.panels import panel_rules, trim_thickness
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.piece import Operation, Part
from generator.bench.place import ENDS, End, Item, Place
from generator.bench.role import Role
from generator.calculators import drawers as drawer_rules
from generator.calculators.drawers import OVER_SLIDE, DrawerSizes
from generator.calculators.fits import packing_thickness
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.provenance import constant, greatest, least
from generator.spec.goods import Slide
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: A strip begins this much above the base rail and ends this much below the tray's trim (mm).
STRIP_ABOVE_RAIL = constant(2, "a packing strip begins above the base rail by")
STRIP_BELOW_TRAY = constant(15, "a packing strip ends below the tray's trim by")
#: How the boards of a box come together, in the words of the step.
BOXED = ("Join one side and the two ends.", "Slide the bottom into its grooves.", "Join the other side.")
FIXED = (
    ("a drawer bottom is smaller than inside plus both grooves by", drawer_rules.BOTTOM_PLAY),
    ("a packing strip begins above the base rail by", STRIP_ABOVE_RAIL),
    ("a packing strip ends below the tray's trim by", STRIP_BELOW_TRAY),
)


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
    cover: Cover | None = None
    """What closes its bay: such a drawer is a box without a face."""

    @property
    def place(self) -> Place:
        """Where its boards are."""
        return Place(bay=self.bay, item=Item("drawer", self.number))

    @property
    def name(self) -> str:
        """What the drawer is called as one body."""
        return f"drawer {self.called}"

    @property
    def called(self) -> str:
        """What a picture calls it."""
        return f"{self.bay}.{self.number}"

    def slide_name(self, end: End) -> str:
        """What one of its two slides is called as a body."""
        return f"slide {self.bay}.{self.number} {end}"

    @property
    def fills_width(self) -> Span | None:
        """Strips pass behind its face."""
        return None

    @property
    def takes(self) -> Span:
        """Its face."""
        return Span(self.sizes.front_bottom, self.sizes.front_bottom + self.sizes.front_height)


def strip_runs(
    loaded: LoadedSpec,
    layout: Layout,
    bay: BayPlace,
    drawers: Sequence[PlacedDrawer],
    all_: Sequence[Placed],
) -> Iterator[Span]:
    """The heights that packing strips cover: the whole wall, or between what fills the width of a mixed bay."""
    levels = layout.levels
    is_end = bay.left_line == 0 or bay.right_line == layout.length - layout.section
    ceiling = levels.tray_bottom - trim_thickness(loaded) - STRIP_BELOW_TRAY
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
            face = last.front_bottom + last.front_height
            # what is above may reach down behind the face
            high = other.low if other.low in (wall.high, min(face, other.low)) else face
            yield Span(low, high)
        floor = greatest(floor, other.high)


def packing_parts(
    loaded: LoadedSpec,
    layout: Layout,
    zone: ZonePlace,
    bay: BayPlace,
    drawer: PlacedDrawer,
    z: Span,
) -> Iterator[Part]:
    """Strips of one run of heights on both walls, one at each station of the slides."""
    offset = panel_rules(loaded).fit.offset
    clear = (layout.section, layout.section + zone.y.size)
    for index, side in enumerate(ENDS):
        taken = beside(drawer.cover, side)
        material = packing_material(loaded.spec, taken)
        thickness = packing_thickness(offset, loaded.spec.drawers.proud) + taken
        _, wall = both_walls(bay, offset, thickness)[index]
        for station in drawer.stations:
            near, far = drawer_rules.strip_span(station, loaded.goods.strips[material].width, clear, PLAY)
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
                planed=True,
            )


def drawer_parts(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, drawer: PlacedDrawer
) -> Iterator[Part]:
    """Sides, ends, bottom and face; behind a door no face, and a grip in the front of the box."""
    size, rules, sheets = drawer.sizes, loaded.spec.drawers, loaded.goods.sheets
    front = box_front(loaded, drawer.cover)
    depth = Span(front, front + size.box_depth)
    left, right, end, rear = _walls(loaded, layout, zone, bay, drawer, depth)
    face: tuple[Part, ...] = ()
    if drawer.cover is None:
        y = from_face(layout, zone, Fraction(0), front)
        box = Box(centred(bay, size.front_width), y, drawer.takes)
        closed = Part(
            "DF", "drawer face", Role.DRAWER_FACE, rules.front, "sheet", box, "x", "z", drawer.place, front
        )
        closed, end = pulls.worked(loaded, closed, end)
        face = (closed,)
    else:
        end = replace(end, operations=(*end.operations, grip_in(end)))
    yield from (left, right, end, rear)
    wide, deep = size.bottom_panel
    bottom, middle = sheets[rules.bottom].thickness, (depth.low + depth.high) / 2
    low = size.box_bottom + rules.groove_up
    y = from_face(layout, zone, middle - deep / 2, middle + deep / 2)
    box = Box(centred(bay, wide, aside_of(drawer.cover)), y, Span(low, low + bottom))
    yield Part(
        "DB", "drawer bottom", Role.DRAWER_BOTTOM, rules.bottom, "sheet", box, "x", "y", drawer.place, bottom
    )
    yield from face


def box_front(loaded: LoadedSpec, cover: Cover | None) -> Fraction:
    """How far behind the bars' face a box begins (mm): behind its own face, or behind what closes its bay."""
    return loaded.goods.sheets[loaded.spec.drawers.front].thickness if cover is None else cover.depth


def drawer_size(
    rules: drawer_rules.DrawerRules, cover: Cover | None, clear: Fraction, slot: StackSlot
) -> DrawerSizes:
    """Sizes of one drawer in a bay `clear` wide (mm): with a face, or a narrower box behind what closes the bay."""
    if cover is None:
        return drawer_rules.drawer_sizes(rules, clear, slot.height, slot.bottom)
    size = drawer_rules.drawer_sizes(rules, clear - cover.sides, slot.height, slot.bottom)
    return replace(size, front_width=Fraction(0))


def packing_material(spec: Spec, taken: Fraction) -> str:
    """The strip behind the slides; another one may bring them past an open door, which has `taken` of the bay (mm)."""
    return (spec.doors.packing or spec.drawers.packing) if taken else spec.drawers.packing


def _walls(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, drawer: PlacedDrawer, depth: Span
) -> Iterator[Part]:
    """Two sides and two ends between them, over a `depth` behind the face's front, grooved for the bottom."""
    size, rules, sheets = drawer.sizes, loaded.spec.drawers, loaded.goods.sheets
    box, bottom = sheets[rules.box].thickness, sheets[rules.bottom].thickness
    x = centred(bay, size.box_width, aside_of(drawer.cover))
    z = Span(size.box_bottom, size.box_bottom + size.box_height)

    def wall(mark: str, name: str, role: Role, x: Span, y: Span, along: str, length: Fraction) -> Part:
        return Part(
            mark, name, role, rules.box, "sheet", Box(x, y, z), along, "z", drawer.place, box,
            operations=_bottom_groove(loaded.spec, length, bottom),
        )  # fmt: skip

    y = from_face(layout, zone, depth.low, depth.high)
    for side in (Span(x.low, x.low + box), Span(x.high - box, x.high)):
        yield wall("DS", "drawer side", Role.DRAWER_SIDE, side, y, "y", size.box_depth)
    inside = Span(x.low + box, x.high - box)
    for end in (Span(depth.low, depth.low + box), Span(depth.high - box, depth.high)):
        y = from_face(layout, zone, end.low, end.high)
        yield wall("DE", "drawer box end", Role.DRAWER_END, inside, y, "x", inside.size)


def _bottom_groove(spec: Spec, length: Fraction, bottom: Fraction) -> tuple[Operation, ...]:
    centre = (length / 2, spec.drawers.groove_up + bottom / 2)
    return (Operation("groove", "inside", centre, (length, bottom), spec.drawers.groove, "for the bottom"),)


def slide_of(loaded: LoadedSpec) -> Slide:
    """The slide of all drawers; there is one even on a bench without drawers."""
    return loaded.goods.slides[loaded.spec.drawers.slide]


def packing_of(loaded: LoadedSpec) -> Fraction:
    """Thickness of the packing strips (mm)."""
    return packing_thickness(panel_rules(loaded).fit.offset, loaded.spec.drawers.proud)


def drawers_without_size(
    loaded: LoadedSpec, bay: BayPlace, drawers: Sequence[tuple[int, DrawerSizes]]
) -> Iterator[Finding]:
    """Boxes and faces of no size. `drawers` are the bay's, each with its place in the stack."""
    spec, at = loaded.spec, ("zones", bay.zone, "bays", bay.index)
    rules, card = spec.drawers, slide_of(loaded)
    box, floor = loaded.goods.sheets[rules.box].thickness, 4 * loaded.goods.sheets[rules.bottom].thickness
    for number, (index, size) in enumerate(drawers, 1):
        if size.box_height <= 0:
            least = rules.below + rules.above + card.height + OVER_SLIDE
            yield _no_box(
                loaded, f"this front is too low for a box (drawer {number} of bay {bay.name})", size.front_height,
                f"{loaded.say(least)} or more",
                f"Write {loaded.say(least)} or more. Or take an item out of the stack, or make the bench higher.",
                *at, "stack", index, "drawer",
            )  # fmt: skip
    for _, size in drawers[:1]:
        if size.ends_length <= 0:
            least = bay.clear - size.ends_length + floor
            yield _no_box(
                loaded, "this bay is too narrow for drawer boxes", bay.clear, f"{loaded.say(least)} or more",
                f"Write {loaded.say(least)} or more, or make the bench longer by what is missing.", *at, "width",
            )  # fmt: skip
        if size.front_width <= 0 and bay.spec.door is None:
            yield _no_box(
                loaded, f"this gap leaves no width for the fronts of bay {bay.name}", rules.gap,
                f"less than {loaded.say(bay.clear / 2)}",
                "Write a smaller gap (3 mm is usual), or make the bay wider.", "drawers", "gap",
            )  # fmt: skip
        inside = size.box_depth - 2 * box
        if inside <= 0:
            yield _no_box(
                loaded, "this slide is too short for the drawer boxes", card.length,
                f"{loaded.say(2 * box + floor)} or more", "", "hardware", rules.slide, "length",
            )  # fmt: skip


def _no_box(
    loaded: LoadedSpec, message: str, found: Fraction, allowed: str, advice: str, *path: str | int
) -> Finding:
    return loaded.fault(Code.NO_SIZE, message, *path, found=loaded.say(found), allowed=allowed, advice=advice)


def drawer_constants(loaded: LoadedSpec) -> drawer_rules.DrawerRules:
    """The rules of the spec's drawers as the calculator takes them."""
    rules, runner = loaded.spec.drawers, slide_of(loaded)
    return drawer_rules.DrawerRules(
        proud=rules.proud,
        side_space=runner.side_space,
        gap=rules.gap,
        below=rules.below,
        above=rules.above,
        slide_axis=rules.slide_axis,
        slide_length=runner.length,
        slide_height=runner.height,
        box_thickness=loaded.goods.sheets[rules.box].thickness,
        groove=rules.groove,
    )


def drawer_picture(loaded: LoadedSpec, drawer: PlacedDrawer) -> FillingPicture:
    """The face in outline, the box behind it dashed, the slide's axis as a centre line; without a face the box."""
    size, n = drawer.sizes, drawer.number
    box = Span(size.box_bottom, size.box_bottom + size.box_height)
    face, axis = drawer.takes, size.slide_axis
    if drawer.cover is not None:
        return FillingPicture(
            drawer.bay, f"Drawer {n}", (Seen(size.box_width, box, "fill-front", aside=aside_of(drawer.cover)),),
            ((box.low, f"box {n} bottom"), (axis, f"slide {n} axis"), (box.high, f"box {n} top")),
            f"Drawer {n}: box from {{}} to {{}}, slide axis at {{}}.", (box.low, box.high, axis), room=0, axis=axis,
            note="Dash-dot: the slides' axes.",
        )  # fmt: skip
    return FillingPicture(
        drawer.bay,
        f"Drawer {n}",
        (
            Seen(size.front_width, face, "fill-front"),
            Seen(size.box_width, box, "hidden"),
            *pulls.seen(loaded, size.front_width, face),
        ),
        ((face.low, f"face {n} bottom"), (axis, f"slide {n} axis"), (face.high, f"face {n} top")),
        f"Drawer {n}: front from {{}} to {{}}, slide axis at {{}}.",
        (face.low, face.high, axis),
        room=1,
        beside=2 if loaded.goods.pull else None,
        axis=axis,
        face=(size.front_width, face),
        note="Dashed: drawer boxes. Dash-dot: the slides' axes.",
    )
