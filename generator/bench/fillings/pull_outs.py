"""Pull-outs: boards on slides, at the heights that the spec says, with a lip that keeps what is on them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import ClassVar

from generator.bench.driven import Driven
from generator.bench.fillings.covers import cover_of
from generator.bench.fillings.drawer_fits import BOX, PACKING
from generator.bench.fillings.drawer_screws import LIPS
from generator.bench.fillings.facts import (
    BAY,
    Clearance,
    FillingGoods,
    FillingPicture,
    FillStep,
    Off,
    Opening,
    Placed,
    Sagging,
    Seen,
    Sliding,
    Solved,
    StackSlot,
    StickMark,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.fillings.on_slides import FIXED_STRIPS, slide_of, slide_place
from generator.bench.fillings.pull_out_boards import (
    BOARD,
    KIND,
    LAWS,
    LEAST_LIP,
    LIP,
    OVER_SLIDE,
    RATING,
    SAG,
    PlacedPullOut,
    key_of,
    lip_screws,
    pieces,
    pull_out_parts,
    pull_out_verdicts,
)
from generator.bench.law import Verdict
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.fit_verdicts import ON_SLIDES
from generator.calculators.wood_screws import into_edge
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Span
from generator.spec.load import LoadedSpec

STEP, SCREW = LIPS, "pull-out screw"
#: Screws into a lip, thickest first: a thicker one would come out at its upper edge. Common practice, no source.
LIP_SIZES = ("3.5", "3")
ON_TWO_SIDES = "board held at two sides, its load spread"


class PullOutFilling(FillingKind[PlacedPullOut]):
    """A board that slides out of its bay."""

    kind, placed, stacks, goes_in = KIND, PlacedPullOut, False, 2
    sections = ("drawers", "shelves")
    coated: ClassVar = {BOARD: "shelves", LIP: "shelves"}
    seen_edges: ClassVar = {BOARD: "open"}
    held = (STEP,)
    laws = LAWS
    terms = (
        TermWords("pull-out", "A board on slides, closed at three sides.", ("pull-outs", "pull-out board")),
        TermWords(
            "pull-out lip", "A strip along an edge of a pull-out. Nothing rolls off it.", ("pull-out lips",)
        ),
    )
    fixed = (*FIXED_STRIPS, ("a lip of a pull-out is above its slides by", OVER_SLIDE))
    bought = (FillingGoods(SCREW, STEP, "screwdriver", use="lips to boards of pull-outs", screw=True),)

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[PlacedPullOut]:
        """From below, whatever the order in the stack."""
        heights = sorted(height for item in bay.spec.stack if (height := getattr(item, KIND)) is not None)
        if not heights:
            return
        rules, slide, cover = loaded.spec.drawers, slide_of(loaded), cover_of(loaded, bay)
        sheets = loaded.goods.sheets
        thickness = sheets[loaded.spec.shelves.material].thickness
        sides = cover.sides if cover else 0
        width = bay.clear - sides - 2 * rules.proud - 2 * slide.side_space
        lip = slide.height - thickness + OVER_SLIDE
        front, stations = slide_place(loaded, cover)
        for number, height in enumerate(heights, 1):
            top = layout.levels.base_top + height
            low = top - thickness
            yield PlacedPullOut(
                KIND, bay.name, number, Span(low, top + lip), low + slide.height / 2, low, front, stations, cover,
                Fraction(0), top, width, slide.length, thickness, cover.depth if cover else Fraction(0), lip,
                sheets[rules.box].thickness,
            )  # fmt: skip

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[StackSlot], placed: Sequence[PlacedPullOut]
    ) -> Iterator[Finding]:
        """Boards and lips of no size."""
        for pull_out in placed:
            inside = pull_out.width - 4 * pull_out.lip_thickness
            if inside <= 0:
                yield loaded.fault(
                    Code.NO_SIZE, f"bay {bay.name} is too narrow for a pull-out", *key_of(pull_out, bay)[:4], "width",
                    found=loaded.say(bay.clear), allowed=f"more than {loaded.say(bay.clear - inside)}",
                )  # fmt: skip
            if pull_out.lip < LEAST_LIP:
                most = pull_out.thickness - LEAST_LIP + pull_out.lip
                yield loaded.fault(
                    Code.NO_SIZE, f"the board of the pull-out in bay {bay.name} is too thick for its slides",
                    "shelves", "material", found=loaded.say(pull_out.thickness),
                    allowed=f"{loaded.say(most)} or less, or a slide that is higher",
                )  # fmt: skip
            if pull_out.depth <= 4 * pull_out.lip_thickness:
                yield loaded.fault(
                    Code.NO_SIZE, "this slide is too short for a pull-out", "hardware", loaded.spec.drawers.slide,
                    "length", found=loaded.say(pull_out.depth),
                    allowed=f"more than {loaded.say(4 * pull_out.lip_thickness)}",
                )  # fmt: skip

    def parts(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedPullOut],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """Board and lips of each."""
        for pull_out in placed:
            yield from pull_out_parts(loaded, layout, zone, bay, pull_out)

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Board with its lips, then as one onto its slides."""
        for pull_out in bench.storage.of(PlacedPullOut):
            name = pull_out.name
            for group in (BOARD, LIP):
                for part in pieces(bench, group, pull_out):
                    yield Motion(part.mark, STEP, (ways.bodies[part.mark],), into=name, out=("+z",))
            out = (ways.out(pull_out.bay),)
            yield Motion(name, STEP, brings=name, out=out, after=pull_out.slide_names, called=pull_out.called)

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """Boards to lips, from below. Its slides' screws are with those of all slides."""
        lips = pieces(bench, LIP)
        if not lips:
            return
        spec, (first, *_) = bench.spec, bench.storage.of(PlacedPullOut)
        through, edge = first.thickness, first.lip_thickness
        screw = into_edge(LIP_SIZES, spec.units, through, edge)
        yield Driven(
            SCREW, screw, sum(lip_screws(lip.length) for lip in lips), through, first.lip, "pull-out's lip",
            ("shelves", "material"), edge, holds="drawers.box", usual=screw,
        )  # fmt: skip

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Board by board."""
        parts = (*pieces(bench, BOARD), *pieces(bench, LIP))
        if parts:
            yield FillStep(
                STEP,
                "Pull-outs",
                parts,
                "from the open face",
                (
                    "Measure every bay at the slides, then cut the boards.",
                    "Glue the pull-out lips to the board, flush with its left, right and rear edges.",
                    "Pre-drill and screw each of them from below, or its edge splits.",
                    "Screw the inner parts of the slides to their outsides, flush with the underside of the board.",
                    "Slide the board in.",
                ),
                ("The board runs out and in without a jerk.",),
            )

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """The clear height above each, to the next thing or to the opening's top."""
        levels = bench.layout.levels
        for each in bench.storage.of(PlacedPullOut):
            lows = [
                other.takes.low
                for other in bench.storage.items
                if other.bay == each.bay and other.takes and other.takes.low >= each.takes.high
            ]
            top = min(lows, default=levels.base_top + levels.opening)
            yield Opening(each.bay, f"above {KIND} {each.number}", top - each.top, each.top, top)

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """The front edge, the rear lip behind it, the axis of its slides."""
        for each in bench.storage.of(PlacedPullOut):
            n, low = each.number, each.takes.low
            board, lip = Span(low, each.top), Span(each.top, each.takes.high)
            aside = each.cover.aside if each.cover else Fraction(0)
            yield FillingPicture(
                each.bay,
                f"Pull-out {n}",
                (
                    Seen(each.width, board, "fill-wood", aside=aside),
                    Seen(each.width, lip, "hidden", aside=aside),
                ),
                ((low, f"board {n} underside"), (each.top, f"board {n} top")),
                f"Pull-out {n}: top at {{}}, slide axis at {{}}.",
                (each.top, each.slide_axis),
                room=1,
                axis=each.slide_axis,
                note="Dashed: pull-out lips. Dash-dot: the slides' axes.",
            )

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """Underside of the board, where its slides begin."""
        datum = bench.layout.levels.base_top
        for each in bench.storage.of(PlacedPullOut):
            yield StickMark(
                each.bay, each.slide_lower_edge - datum, f"slide of pull-out {each.number}, lower edge"
            )
            yield StickMark(
                each.bay, each.slide_axis - datum, f"slide of pull-out {each.number}, axis", "centre"
            )

    def payload(self, bench: Solved) -> Fraction:
        """As much as a drawer, a board."""
        return bench.spec.loads.drawer * len(bench.storage.of(PlacedPullOut))

    def sliding(self, bench: Solved) -> Iterator[Sliding]:
        """Each with half of its slides."""
        slide = slide_of(bench.loaded)
        for each in bench.storage.of(PlacedPullOut):
            yield Sliding(
                item=each,
                name=f"{KIND} {each.bay}/{each.number}",
                on=bench.spec.drawers.slide,
                rating=slide.rating,
                law=RATING,
                travel=slide.travel,
                load=bench.spec.loads.drawer,
                load_key=("loads", "drawer"),
                rests_in=BOARD,
                together="pull-outs, empty, with half of their slides",
                stays="slides, the part that stays",
                moving="mass of the slides that goes out with a drawer or board",
                staying="mass of the slides that stays",
            )

    def sagging(self, bench: Solved) -> Iterator[Sagging]:
        """The widest, between its slides."""
        boards = pieces(bench, BOARD)
        if boards:
            widest = max(boards, key=lambda part: part.length)
            marks = tuple(part.mark for part in boards if part.length == widest.length)
            yield Sagging(
                BOARD, "the widest", widest, marks, bench.spec.loads.drawer, widest.length, None, True,
                ON_TWO_SIDES, SAG, ("shelves", "material"),
            )  # fmt: skip

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Its laws."""
        return pull_out_verdicts(bench)

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """The first of each width, between two slides as thick as their card says."""
        widths = {each.width: each for each in bench.storage.of(PlacedPullOut)}
        proud, slide = bench.spec.drawers.proud, slide_of(bench.loaded)
        for width, each in widths.items():
            bay = bay_of(bench.layout, each.bay)[1]
            taken = each.cover.sides if each.cover else Fraction(0)
            packing = Off("packing, thickness", proud, PACKING)
            yield Clearance(
                "pull-out between its slides",
                f"bay {each.bay}",
                bay.width - taken - 2 * proud - 2 * slide.thickness - width,
                (Off("bay, width", bay.width, BAY), packing, packing, Off("board, width", width, BOX)),
                ON_SLIDES,
                "Measure the bay at the slides in three places, and cut the board by the smallest.",
            )
