"""What hangs on a pair of slides, whatever it is: its slides, the strips behind them, the blocks under them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.box_body import block_about
from generator.bench.fillings.covers import Cover, beside
from generator.bench.fillings.facts import Placed, Solved
from generator.bench.fillings.walls import PLAY, both_walls, from_face
from generator.bench.frames.panels import panel_rules, trim_thickness
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.place import ENDS, End, Item, Place
from generator.bench.role import Role
from generator.calculators import drawers as drawer_rules
from generator.calculators.bodies import Body
from generator.calculators.fits import packing_thickness
from generator.geometry import Box, Span
from generator.provenance import constant, greatest, least
from generator.spec.goods import Slide
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: A strip begins this much above the base rail and ends this much below the tray's trim (mm).
STRIP_ABOVE_RAIL = constant(2, "a packing strip begins above the base rail by")
STRIP_BELOW_TRAY = constant(15, "a packing strip ends below the tray's trim by")
FIXED_STRIPS = (
    ("a packing strip begins above the base rail by", STRIP_ABOVE_RAIL),
    ("a packing strip ends below the tray's trim by", STRIP_BELOW_TRAY),
)

#: The half of a slide on what hangs there, and its half on the wall.
HUNG_HALF, WALL_HALF = "drawer member", "wall member"


@dataclass(frozen=True)
class OnSlides:
    """A thing of a `kind` on slides in its bay, heights above the frame's underside (mm).

    `slide_front` and the `stations` of the slide's holes are measured back from the bars' face; `spacer` is the block
    under its slide. `cover` is what closes its bay. Nothing else has room at the heights that it `takes`.
    """

    kind: str
    bay: str
    number: int
    takes: Span
    slide_axis: Fraction
    slide_lower_edge: Fraction
    slide_front: Fraction
    stations: tuple[Fraction, ...]
    cover: Cover | None
    spacer: Fraction

    @property
    def place(self) -> Place:
        """Where its boards are."""
        return Place(bay=self.bay, item=Item(self.kind, self.number))

    @property
    def called(self) -> str:
        """What a picture calls it."""
        return f"{self.bay}.{self.number}"

    @property
    def fills_width(self) -> Span | None:
        """Strips pass behind it."""
        return None

    def slide_name(self, end: End) -> str:
        """What one of its two slides is called as a body."""
        return f"slide {self.called} {end}"

    @property
    def slide_names(self) -> tuple[str, ...]:
        """Both."""
        return tuple(self.slide_name(end) for end in ENDS)


def slide_of(loaded: LoadedSpec) -> Slide:
    """The slide of all drawers; there is one even on a bench without drawers."""
    return loaded.goods.slides[loaded.spec.drawers.slide]


def packing_of(loaded: LoadedSpec) -> Fraction:
    """Thickness of the packing strips (mm)."""
    return packing_thickness(panel_rules(loaded).fit.offset, loaded.spec.drawers.proud)


def packing_material(spec: Spec, taken: Fraction) -> str:
    """The strip behind the slides; another one may bring them past an open door, which has `taken` of the bay (mm)."""
    return (spec.doors.packing or spec.drawers.packing) if taken else spec.drawers.packing


def box_front(loaded: LoadedSpec, cover: Cover | None) -> Fraction:
    """How far behind the bars' face a box begins (mm): behind its own face, or behind what closes its bay."""
    return loaded.goods.sheets[loaded.spec.drawers.front].thickness if cover is None else cover.depth


def slide_place(loaded: LoadedSpec, cover: Cover | None) -> tuple[Fraction, tuple[Fraction, ...]]:
    """Front end of the slides and their holes, behind the bars' face (mm): the same for all that one bay holds."""
    front = box_front(loaded, cover) + loaded.spec.drawers.slide_setback
    return front, tuple(front + hole for hole in slide_of(loaded).holes)


def with_blocks(loaded: LoadedSpec, layout: Layout, items: Sequence[Placed]) -> tuple[Placed, ...]:
    """What one bay holds, with the blocks under the slides: each on the slide below, the first on the base rail."""
    hung = sorted(
        (each for each in items if isinstance(each, OnSlides)), key=lambda each: each.slide_lower_edge
    )
    if not hung:
        return tuple(items)
    edges = [each.slide_lower_edge for each in hung]
    blocks = drawer_rules.spacers(edges, slide_of(loaded).height, layout.levels.base_top)
    found = {id(each): replace(each, spacer=block) for each, block in zip(hung, blocks, strict=True)}
    return tuple(found.get(id(each), each) for each in items)


def strip_runs(loaded: LoadedSpec, layout: Layout, bay: BayPlace, all_: Iterable[Placed]) -> Iterator[Span]:
    """The heights that packing strips cover: the whole wall, or between what fills the width of a mixed bay."""
    levels = layout.levels
    is_end = bay.left_line == 0 or bay.right_line == layout.length - layout.section
    ceiling = levels.tray_bottom - trim_thickness(loaded) - STRIP_BELOW_TRAY
    wall = Span(
        levels.base_top + STRIP_ABOVE_RAIL, least(ceiling, levels.end_rail_bottom) if is_end else ceiling
    )
    items = list(all_)
    taken = sorted(
        (each.fills_width for each in items if each.fills_width is not None), key=lambda span: span.low
    )
    hung = sorted((each.takes for each in items if isinstance(each, OnSlides)), key=lambda span: span.low)
    floor = wall.low
    for other in [*taken, Span(wall.high, wall.high)]:
        inside = [span for span in hung if floor <= span.low < other.low]
        if inside:
            low = floor if floor == wall.low else inside[0].low
            face = max(span.high for span in inside)
            # what is above may reach down behind the face
            high = other.low if other.low in (wall.high, min(face, other.low)) else face
            yield Span(low, high)
        floor = greatest(floor, other.high)


def packing_parts(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, all_: Sequence[Placed]
) -> Iterator[Part]:
    """Strips on both walls of a bay that holds something on slides, one at each station of the slides."""
    hung = next((each for each in all_ if isinstance(each, OnSlides)), None)
    if hung is not None:
        for run in strip_runs(loaded, layout, bay, all_):
            yield from _run(loaded, layout, zone, bay, hung, run)


def _run(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, hung: OnSlides, z: Span
) -> Iterator[Part]:
    offset = panel_rules(loaded).fit.offset
    clear = (layout.section, layout.section + zone.y.size)
    for index, side in enumerate(ENDS):
        taken = beside(hung.cover, side)
        material = packing_material(loaded.spec, taken)
        thickness = packing_thickness(offset, loaded.spec.drawers.proud) + taken
        _, wall = both_walls(bay, offset, thickness)[index]
        for station in hung.stations:
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


def slide_bodies(bench: Solved) -> Iterator[Body]:
    """Closed slides, between the packing and what hangs on them."""
    item, proud = slide_of(bench.loaded), bench.spec.drawers.proud
    for hung in bench.storage.of(OnSlides):
        zone, bay = bay_of(bench.layout, hung.bay)
        y = from_face(bench.layout, zone, hung.slide_front, hung.slide_front + item.length)
        z = Span(hung.slide_lower_edge, hung.slide_lower_edge + item.height)
        left, right = bay.x.low + proud, bay.x.high - proud
        left, right = left + beside(hung.cover, "left"), right - beside(hung.cover, "right")
        sides = (Span(left, left + item.thickness), Span(right - item.thickness, right))
        for name, x in zip(hung.slide_names, sides, strict=True):
            yield Body(name, name, "slide", (block_about(Box(x, y, z)),))


def loose_slides(bench: Solved) -> Iterator[str]:
    """Names of slides that do not lie on packing at each of their holes."""
    for hung in bench.storage.of(OnSlides):
        bay = bay_of(bench.layout, hung.bay)[1]
        for end, wall in zip(ENDS, (bay.x.low, bay.x.high), strict=True):
            at = Place(bay=bay.name, wall=end)
            strips = (part.box for part in bench.of(Role.PACKING_STRIP) if part.place == at)
            reach = [
                box
                for box in strips
                if box.x.low <= wall <= box.x.high and box.z.low <= hung.slide_axis <= box.z.high
            ]
            if len(reach) < len(hung.stations):
                yield hung.slide_name(end)
