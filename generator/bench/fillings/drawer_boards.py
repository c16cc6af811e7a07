"""A drawer in its bay, and its boards: box, bottom, face."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings import pulls
from generator.bench.fillings.covers import Cover, aside_of
from generator.bench.fillings.drawer_grips import grip_in
from generator.bench.fillings.facts import FillingPicture, Seen, Solved, StackSlot
from generator.bench.fillings.on_slides import FIXED_STRIPS, OnSlides, box_front, slide_of
from generator.bench.fillings.walls import centred, from_face
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.piece import Operation, Part
from generator.bench.role import Role
from generator.calculators import drawers as drawer_rules
from generator.calculators.drawers import OVER_SLIDE, DrawerSizes
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.units.format import format_inch, format_mm

#: How the boards of a box come together, in the words of the step.
BOXED = ("Join one side and the two ends.", "Slide the bottom into its grooves.", "Join the other side.")
FIXED = (
    ("a drawer bottom is smaller than inside plus both grooves by", drawer_rules.BOTTOM_PLAY),
    *FIXED_STRIPS,
)


@dataclass(frozen=True)
class PlacedDrawer(OnSlides):
    """A drawer in its bay. Behind what closes its bay it is a box without a face."""

    sizes: DrawerSizes

    @property
    def name(self) -> str:
        """What the drawer is called as one body."""
        return f"drawer {self.called}"


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


def drawer_size(
    rules: drawer_rules.DrawerRules, cover: Cover | None, clear: Fraction, slot: StackSlot
) -> DrawerSizes:
    """Sizes of one drawer in a bay `clear` wide (mm): with a face, or a narrower box behind what closes the bay."""
    if cover is None:
        return drawer_rules.drawer_sizes(rules, clear, slot.height, slot.bottom)
    size = drawer_rules.drawer_sizes(rules, clear - cover.sides, slot.height, slot.bottom)
    return replace(size, front_width=Fraction(0))


#: How both halves of a slide come together.
HUNG = "Put both drawer members into the slides on the walls."


def hang_words(bench: Solved) -> tuple[str, ...]:
    """How boxes come onto their slides: alike for all, for a slide is one height above the box's lower edge."""
    drawers = bench.storage.of(PlacedDrawer)
    if not drawers:
        return ()
    first, back = drawers[0].sizes, bench.spec.drawers.slide_setback
    height = _both(bench.spec, first.slide_axis - first.box_bottom)
    front = (
        f"{_both(bench.spec, back)} behind the front of the box"
        if back
        else "flush with the front of the box"
    )
    holes = len(slide_of(bench.loaded).holes)
    return (
        f"Screw the drawer member of a slide to each side of the box, with {holes} slide screws each.",
        f"Its axis is {height} above the box's lower edge.",
        f"Its front end is {front}.",
        HUNG,
        "Push the drawer in: it runs all the way by hand.",
    )


def _both(spec: Spec, length: Fraction) -> str:
    """A length in both units, that of the spec first."""
    metric, imperial = f"{format_mm(length)} mm", f"{format_inch(length, 64)} in"
    return f"{imperial} ({metric})" if spec.units == "in" else f"{metric} ({imperial})"


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
