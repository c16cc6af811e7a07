"""A pull-out in its bay: a board on slides with a lip on three sides, and its laws."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from generator.bench.fillings.covers import aside_of
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.on_slides import OnSlides
from generator.bench.fillings.walls import centred, from_face
from generator.bench.law import Case, Law, Verdict, at_least, at_most, bay_path, by_the_check, to_write
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.remedies import thicker
from generator.bench.role import Role
from generator.codes import Code
from generator.findings import Change, Steps
from generator.geometry import Box, Span
from generator.provenance import constant, inexact
from generator.spec.load import LoadedSpec

KIND, BOARD, LIP = "pull-out", "pull-out board", "pull-out lip"
#: How far a lip is above the upper edge of the slide that is screwed to it (mm). Common practice, no source.
OVER_SLIDE = constant(5, "a pull-out's lip is above its slides by")
#: A lip that a slide's screw can hold in (mm). Common practice, no source.
LEAST_LIP = constant(20, "least height of a pull-out's lip")
#: Width over depth from which a board on slides racks. Common practice, no source.
RACKS = constant("3/2", "width to depth from which a pull-out racks", unit="")
NEVER = constant(2, "width to depth of a pull-out that needs synchronised slides", unit="")
#: Screws of a lip are so far apart (mm). Common practice, no source.
SCREW_APART = 150
SLIDE_STEP = Fraction(50)

SAG = Law(
    Code.SAG_PULL_OUT, "warning", "The pull-out board is stiff enough", "The pull-out board sags too far",
    "Use a thicker board, a narrower bay, or a lighter load.", "A sagging board drags and jams its slides.",
    thicker(lambda spec: spec.shelves.material),
    quantity="sag in the middle, loaded for years",
)  # fmt: skip
RATING = Law(
    Code.PULL_OUT_RATING, "error", "The slides carry the heaviest pull-out with its load",
    "The slides are not rated for the heaviest pull-out with its load", "Take slides of a higher rating.",
    "Overloaded slides bend and jam, and the open board can fall.", by_the_check,
    quantity="pull-out with its load",
)  # fmt: skip
HEIGHT = Law(
    Code.PULL_OUT_HEIGHT, "error", "The pull-out is inside its opening", "The pull-out is not inside its opening",
    "Write another height.", "It hits the bar below it or the tray above it.", by_the_check,
    quantity="edge of the pull-out, above the frame's underside",
)  # fmt: skip
MEETS = Law(
    Code.PULL_OUT_MEETS, "error", "Nothing is in the way of the pull-out", "Something is in the way of the pull-out",
    "Move the pull-out, or take something out of the stack.", "The board does not go in.",
    "what else is in the stack shares in it: which of the two moves is the maker's choice",
)  # fmt: skip


def _longer_slide(case: Case) -> tuple[Change, ...]:
    """So deep that the board no longer racks, by whole steps of slides."""
    path = ("hardware", case.spec.drawers.slide, "length")
    depth = case.goods.slides[case.spec.drawers.slide].length
    return case.length(path, ceil(case.value * depth / RACKS / SLIDE_STEP) * SLIDE_STEP)


WIDE = Law(
    Code.WIDE_PULL_OUT, "error", "The pull-out is narrow enough not to jam",
    "The pull-out is too wide for its depth: it jams",
    "Make it narrower or deeper, or use synchronised slides.",
    "A push at one end jams it and wears out the slides.", _longer_slide,
    quantity="width divided by depth",
)  # fmt: skip
LAWS = (SAG, RATING, HEIGHT, MEETS, WIDE)


@dataclass(frozen=True)
class PlacedPullOut(OnSlides):
    """A pull-out: upper face above the frame's underside, size of its board (mm).

    `front` is where the board begins behind the bars' face, `lip` the height of its lips and `lip_thickness` theirs.
    """

    top: Fraction
    width: Fraction
    depth: Fraction
    thickness: Fraction
    front: Fraction
    lip: Fraction
    lip_thickness: Fraction

    @property
    def called(self) -> str:
        """What a picture calls it; a drawer of its bay may have its number."""
        return f"{self.bay} {KIND} {self.number}"

    @property
    def name(self) -> str:
        """What it is called as one body."""
        return f"{KIND} {self.bay}.{self.number}"


def pull_out_parts(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, pull_out: PlacedPullOut
) -> Iterator[Part]:
    """The board, then its lips: left and right as long as the board, the rear one between them."""
    spec = loaded.spec
    x = centred(bay, pull_out.width, aside_of(pull_out.cover))
    front, thick = pull_out.front, pull_out.lip_thickness
    y = from_face(layout, zone, front, front + pull_out.depth)
    rear = from_face(layout, zone, front + pull_out.depth - thick, front + pull_out.depth)
    yield Part(
        "PB", BOARD, Role.FILLING, spec.shelves.material, "sheet",
        Box(x, y, Span(pull_out.top - pull_out.thickness, pull_out.top)), "x", "y", pull_out.place,
        pull_out.thickness, own_group=BOARD, waits=True,
    )  # fmt: skip
    z = Span(pull_out.top, pull_out.top + pull_out.lip)
    lips = (
        (Span(x.low, x.low + thick), y, "y"),
        (Span(x.high - thick, x.high), y, "y"),
        (Span(x.low + thick, x.high - thick), rear, "x"),
    )
    for across, along, axis in lips:
        yield Part(
            "PL", LIP, Role.FILLING, spec.drawers.box, "sheet", Box(across, along, z), axis, "z", pull_out.place,
            thick, own_group=LIP, waits=True,
        )  # fmt: skip


def pieces(bench: Solved, group: str, pull_out: PlacedPullOut | None = None) -> tuple[Part, ...]:
    """Boards or lips, of one pull-out where it is named."""
    return tuple(
        part
        for part in bench.of(Role.FILLING)
        if part.own_group == group and (pull_out is None or part.place == pull_out.place)
    )


def lip_screws(length: Fraction) -> int:
    """Screws through the board into one lip: near both ends, and so far apart."""
    return max(2, ceil(length / SCREW_APART))


def pull_out_verdicts(bench: Solved) -> Iterator[Verdict]:
    """Inside its opening, clear of all else, not too wide."""
    levels = bench.layout.levels
    for pull_out in bench.storage.of(PlacedPullOut):
        bay = bay_of(bench.layout, pull_out.bay)[1]
        where, key = f"bay {pull_out.bay}, {KIND} {pull_out.number}", key_of(pull_out, bay)
        low, high = levels.base_top, levels.base_top + levels.opening
        lowest = to_write(bench.spec, key, pull_out.thickness)
        highest = to_write(bench.spec, key, levels.opening - pull_out.lip, down=True)
        yield at_least(HEIGHT, pull_out.takes.low, low, where, key, remedy=lowest)
        yield at_most(HEIGHT, pull_out.takes.high, high, where, key, remedy=highest)
        meets = list(_met(bench, pull_out))
        yield Verdict(MEETS, not meets, ", ".join([where, *meets]), key)
        ratio = pull_out.width / pull_out.depth
        limit, severity = (NEVER, "error") if ratio > NEVER else (RACKS, "warning")
        path = (*bay_path(bay), "stack")
        yield Verdict(
            WIDE, ratio <= RACKS, where, path, inexact(ratio), inexact(limit), unit="", severity=severity
        )


def key_of(pull_out: PlacedPullOut, bay: BayPlace) -> Steps:
    """The key of its height: they are numbered from below, whatever their order in the stack."""
    heights = [
        (getattr(item, KIND), index)
        for index, item in enumerate(bay.spec.stack)
        if getattr(item, KIND) is not None
    ]
    return (*bay_path(bay), "stack", sorted(heights)[pull_out.number - 1][1], KIND)


def _met(bench: Solved, pull_out: PlacedPullOut) -> Iterator[str]:
    """All else in its bay that is at its height; a pull-out below counts, one above does not."""
    for other in bench.storage.items:
        above = isinstance(other, PlacedPullOut) and other.number >= pull_out.number
        if other.bay != pull_out.bay or above or other.takes is None or other.place.item is None:
            continue
        if other.place.item.kind != "door" and other.takes.overlap(pull_out.takes) > 0:
            yield f"{other.place.item.kind} {other.place.item.number}"
