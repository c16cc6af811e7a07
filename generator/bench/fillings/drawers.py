"""Drawers on slides on packing strips: how they are placed, fixed, hung and described."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.acts import CHECKED, MEASURE, Act
from generator.bench.driven import Driven, Path
from generator.bench.fillings import pulls
from generator.bench.fillings.covers import cover_of
from generator.bench.fillings.drawer_boards import (
    BOXED,
    FIXED,
    HUNG,
    PlacedDrawer,
    drawer_constants,
    drawer_parts,
    drawer_picture,
    drawer_size,
    drawers_without_size,
    hang_words,
)
from generator.bench.fillings.drawer_fits import drawer_clearances, drawer_swelling
from generator.bench.fillings.drawer_grips import grip_refusals
from generator.bench.fillings.drawer_laws import (
    LAWS,
    SAG_DRAWER_BOTTOM,
    SLIDE_RATING,
    drawer_verdicts,
)
from generator.bench.fillings.drawer_motions import drawer_motions
from generator.bench.fillings.drawer_screws import drawer_screws
from generator.bench.fillings.drawer_set_out import drawer_set_out
from generator.bench.fillings.facts import (
    Block,
    Clearance,
    Effect,
    FillingGoods,
    FillingPicture,
    FillStep,
    Need,
    Opening,
    Placed,
    PlacedPull,
    Sagging,
    Sliding,
    Solved,
    StackSlot,
    StickMark,
    Swelling,
    Thing,
    ToMeasure,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.fillings.on_slides import (
    HUNG_HALF,
    OnSlides,
    loose_slides,
    packing_parts,
    slide_bodies,
    slide_of,
    slide_place,
)
from generator.bench.law import Verdict
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.on_boards import SetOut
from generator.bench.piece import Part
from generator.bench.role import DRAWER, Role
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.findings import Finding
from generator.geometry import Span
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

BOTTOM = "board held at its four edges, its load spread"


#: A slide comes closed; its holes for the wall are behind its other half.
TAKEN_OUT = f"Take the {HUNG_HALF} out of each slide: a later step needs it."


class DrawerFilling(FillingKind[PlacedDrawer]):
    """A box between two slides, its face before the posts."""

    kind, placed, goes_in = "drawer", PlacedDrawer, 1
    terms = (
        TermWords(
            "drawer slide",
            "A pair of metal rails. A drawer rolls out on them.",
            ("drawer slides",),
            ("drawer runner",),
        ),
        TermWords(
            "packing strip",
            "A strip between the wall and the slide. It brings the slide in front of the posts.",
            ("packing strips",),
        ),
        TermWords(
            "spacer block",
            "A piece cut to a height. A slide rests on it while you screw the slide on.",
            ("spacer blocks",),
        ),
        *pulls.TERMS,
    )
    sections = ("drawers",)
    fixed = FIXED
    held = ("drawers",)
    laws = (*LAWS, *pulls.LAWS)
    strips: ClassVar = {Role.PACKING_STRIP: ("drawers", "packing")}
    seen_edges: ClassVar = {Role.DRAWER_FACE.value: "all"}
    bought = (
        FillingGoods("slide", "slides", mass="1.3"),
        *pulls.BOUGHT,
        FillingGoods(
            "slide screw",
            "slides",
            "screwdriver",
            use="slides to packing and boxes",
            screw=True,
            lists_uses=True,
        ),
        FillingGoods("drawer box screw", "drawers", "screwdriver", use="box corners", screw=True),
        FillingGoods(
            "drawer front screw", "drawers", "screwdriver", use="faces to boxes, from inside", screw=True
        ),
    )

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[PlacedDrawer]:
        """Sizes by their fronts' heights."""
        if not slots:
            return
        rules, cover = drawer_constants(loaded), cover_of(loaded, bay)
        sizes = [drawer_size(rules, cover, bay.clear, slot) for slot in slots]
        front, stations = slide_place(loaded, cover)
        for number, size in enumerate(sizes, 1):
            face = Span(size.front_bottom, size.front_bottom + size.front_height)
            yield PlacedDrawer(
                self.kind, bay.name, number, face, size.slide_axis, size.slide_lower_edge, front, stations, cover,
                Fraction(0), size,
            )  # fmt: skip

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[StackSlot], placed: Sequence[PlacedDrawer]
    ) -> Iterator[Finding]:
        """Boxes and faces of no size."""
        indices = [next(i for i, each in enumerate(bay.spec.stack) if each is slot.item) for slot in slots]
        sizes = [drawer.sizes for drawer in placed]
        boxes = list(zip(indices, sizes, strict=True))
        yield from drawers_without_size(loaded, bay, boxes)
        if bay.spec.door is not None:
            yield from grip_refusals(loaded, bay, boxes)
            return
        above = loaded.spec.drawers.above
        cut = [
            (n, size.front_height, above + size.box_height) for n, size in zip(indices, sizes, strict=True)
        ]
        yield from pulls.refusals(loaded, bay, cut)

    def parts(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedDrawer],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """Packing strips of the bay, then the boards of each drawer: by the bay as it is measured at its slides."""
        yield from packing_parts(loaded, layout, zone, bay, all_)
        for drawer in placed:
            for part in drawer_parts(loaded, layout, zone, bay, drawer):
                style = "fill-front" if part.role is Role.DRAWER_FACE else ""
                yield replace(part, waits=True, style=style)

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Closed slides, between the packing and what hangs on them."""
        return slide_bodies(bench)

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """Its slides."""
        return {"slide": ("hardware", spec.drawers.slide)}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """All slides, then box by box."""
        return drawer_motions(bench, ways)

    def needs(self, bench: Solved) -> Iterator[Need]:
        """A pair of slides for each thing on slides, and the pulls."""
        spec = bench.spec
        count = len(bench.storage.of(OnSlides))
        if count:
            yield Need(
                "slide",
                spec.drawers.slide,
                count,
                f"one pair for each {_hung(bench)}",
                "pairs, {} long",
                (slide_of(bench.loaded).length,),
            )
        yield from pulls.needs(bench)

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """Slides to packing and boxes, corners, faces."""
        return drawer_screws(bench)

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Slides, then boxes and fronts."""
        bays = Counter(hung.bay for hung in bench.storage.of(OnSlides))
        if not bays:
            return
        pairs = ((bay, f"{count} pair{'s' if count > 1 else ''}") for bay, count in bays.items())
        by_bay = ", ".join(f"{count} in bay {bay}" for bay, count in pairs)
        boards, faces = bench.of(*DRAWER), bench.of(Role.DRAWER_FACE)
        hung_in = hang_words(bench)
        measured = ("Measure every bay at the slides.", f"Then cut the {'boxes' if boards else 'boards'}.")
        yield FillStep(
            "slides",
            "Slides on the packing strips",
            (),
            "from the open face",
            (
                f"Each {_hung(bench)} needs a left and a right slide: {by_bay}.",
                TAKEN_OUT,
                "Rest each slide on its spacer block.",
                "Screw it on.",
                *measured,
            ),
            (
                f"The left and right slides of each {_hung(bench)} are at the same height within 0.3 mm (1/64 in). "
                "If not, set one on its spacer block again.",
            ),
            shown=(TAKEN_OUT,),
            acts=(Act(MEASURE, CHECKED, " ".join(measured)),),
        )
        if not boards:
            return
        yield FillStep(
            "drawers",
            "Drawer boxes and faces" if faces else "Drawer boxes",
            boards,
            "from the open face",
            (
                *BOXED,
                *(pulls.face_notes(bench) if faces else ()),
                *hung_in,
            ),
            ("The box width comes from the measured bay, not from this page alone.",),
            # its picture shows how both halves of a slide come together
            shown=tuple(line for line in hung_in if line != HUNG),
        )

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """Its slides."""
        if bench.storage.of(OnSlides):
            yield "hardware", bench.spec.drawers.slide
            if bench.storage.of(PlacedDrawer) and bench.spec.drawers.pull:
                yield "hardware", bench.spec.drawers.pull

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """Its face."""
        for each in bench.storage.of(PlacedDrawer):
            size = each.sizes
            top = size.front_bottom + size.front_height
            yield Opening(each.bay, f"drawer {each.number}", size.front_height, size.front_bottom, top)

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """Face and slide."""
        drawers, datum = bench.storage.of(PlacedDrawer), bench.layout.levels.base_top
        for drawer in drawers:
            size, n, bay = drawer.sizes, drawer.number, drawer.bay
            lower = size.slide_lower_edge - datum
            if drawer.cover is None:
                yield StickMark(bay, size.front_bottom - datum, f"face {n} bottom")
                yield StickMark(bay, size.front_bottom + size.front_height - datum, f"face {n} top")
            yield StickMark(bay, lower, f"slide {n} lower edge")
            yield StickMark(bay, lower + slide_of(bench.loaded).height / 2, f"slide {n} axis", "centre")

    def payload(self, bench: Solved) -> Fraction:
        """So much a drawer."""
        return bench.spec.loads.drawer * len(bench.storage.of(PlacedDrawer))

    def sliding(self, bench: Solved) -> Iterator[Sliding]:
        """Each with half of its slides."""
        spec = bench.spec
        for each in bench.storage.of(PlacedDrawer):
            yield Sliding(
                item=each,
                name=f"drawer {each.bay}/{each.number}",
                on=spec.drawers.slide,
                rating=slide_of(bench.loaded).rating,
                law=SLIDE_RATING,
                travel=slide_of(bench.loaded).travel,
                load=spec.loads.drawer,
                load_key=("loads", "drawer"),
                rests_in=Role.DRAWER_BOTTOM.value,
                together="drawers, empty, with half of their slides",
                stays="slides, the part that stays",
                moving="mass of the slides that goes out with a drawer",
                staying="mass of the slides that stays",
            )

    def sagging(self, bench: Solved) -> Iterator[Sagging]:
        """The widest bottom, in its grooves."""
        spec, bottoms = bench.spec, bench.of(Role.DRAWER_BOTTOM)
        if not bottoms:
            return
        widest = max(bottoms, key=lambda part: part.length * part.width)
        inside = sorted(size - 2 * spec.drawers.groove for size in (widest.length, widest.width))
        short, long = inside
        marks = tuple(p.mark for p in bottoms if (p.length, p.width) == (widest.length, widest.width))
        yield Sagging(
            "drawer bottom",
            "the widest",
            widest,
            marks,
            spec.loads.drawer,
            long,
            short,
            False,
            BOTTOM,
            SAG_DRAWER_BOTTOM,
            ("drawers", "bottom"),
        )

    def to_measure(self, bench: Solved) -> Iterator[ToMeasure]:
        """Its slides."""
        if bench.storage.of(OnSlides):
            card, path = slide_of(bench.loaded), f"hardware.{bench.spec.drawers.slide}"
            yield ToMeasure("Slide: length", "Slide, length", f"{path}.length", card.length)
            key, space = f"{path}.side_space", card.side_space
            yield ToMeasure("Slide: space each side", "Slide, space it needs", key, space, fine=True)

    def effects(self, bench: Solved) -> Iterator[Effect]:
        """Its slides."""
        if bench.storage.of(OnSlides):
            path = f"hardware.{bench.spec.drawers.slide}"
            yield Effect(
                "Slide length", f"{path}.length", "box depth, strips' places, the depth a zone needs"
            )
            yield Effect("Slide space", f"{path}.side_space", "box widths and bottoms")

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """Face, box and axis."""
        return (drawer_picture(bench.loaded, each) for each in bench.storage.of(PlacedDrawer))

    def blocks(self, bench: Solved) -> Iterator[Block]:
        """Under the slides."""
        for hung in bench.storage.of(OnSlides):
            yield Block(hung.spacer, "slide spacer", hung)

    def swelling(self, bench: Solved) -> Iterator[Swelling]:
        """The widest box."""
        return drawer_swelling(bench)

    def hanging(self, bench: Solved) -> Iterator[str]:
        """Slides without a packing strip at each hole."""
        return loose_slides(bench)

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Boxes, slides and packing, then pulls."""
        yield from drawer_verdicts(bench)
        yield from pulls.verdicts(bench)

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """Each width of bay."""
        return drawer_clearances(bench)

    def pulls(self, bench: Solved) -> Iterator[PlacedPull]:
        """One a face."""
        return pulls.pulls(bench)

    def set_out(self, bench: Solved) -> Iterator[SetOut]:
        """Slides on the sides, the box on the face."""
        return drawer_set_out(bench)

    def things(self, bench: Solved) -> Iterator[Thing]:
        """Pulls before the faces."""
        return pulls.things(bench)


def _hung(bench: Solved) -> str:
    """What hangs on slides, in the singular."""
    kinds = dict.fromkeys(each.kind for each in bench.storage.of(OnSlides))
    return " and each ".join(kinds)
