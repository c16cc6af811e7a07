"""What is marked on the boards of a drawer: its slides on the sides, its box on the face."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.on_slides import slide_of
from generator.bench.fillings.walls import from_face
from generator.bench.layout import bay_of
from generator.bench.on_boards import SetOut, datum_of, outlined
from generator.bench.piece import Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.geometry import AXES, Box, Span

#: What is marked, in the words of the sheet.
SLIDE, BOX = "slide", "box"
BOARDS = (Role.DRAWER_SIDE, Role.DRAWER_END, Role.DRAWER_FACE)


def drawer_set_out(bench: Solved) -> Iterator[SetOut]:
    """The drawer members of the slides outside of the sides; where the box comes on the rear of the face."""
    boards: dict[tuple[Role, Place], list[Part]] = {}
    for role in BOARDS:
        for part in bench.of(role):
            boards.setdefault((role, part.place), []).append(part)
    for drawer in bench.storage.of(PlacedDrawer):
        sides, ends, faces = (boards.get((role, drawer.place), []) for role in BOARDS)
        opens = bay_of(bench.layout, drawer.bay)[0].opens
        middle = sum((side.box.x.middle for side in sides), Fraction(0)) / max(1, len(sides))
        for side in sides:
            yield _slide(bench, drawer, side, "left" if side.box.x.middle < middle else "right", opens)
        for face in faces:
            yield _box(face, (*sides, *ends), opens)


def _slide(bench: Solved, drawer: PlacedDrawer, side: Part, face: str, opens: str) -> SetOut:
    item, zone = slide_of(bench.loaded), bay_of(bench.layout, drawer.bay)[0]
    reach = from_face(bench.layout, zone, drawer.slide_front, drawer.slide_front + item.length)
    z = Span(drawer.slide_lower_edge, drawer.slide_lower_edge + item.height)
    datum = datum_of(side, opens)
    low, high = outlined(side, Box(side.box.x, reach, z), datum)
    up = (low[1] + high[1]) / 2
    holes = tuple((low[0] + hole, up) for hole in item.holes)
    return SetOut(side.mark, face, "", SLIDE, low, high, datum, holes, "along")


def _box(face: Part, boards: Sequence[Part], opens: str) -> SetOut:
    """All boards of the box from one end to the other; the face is at the side to which the bay opens."""
    spans = (
        Span(
            min(board.box.span(axis).low for board in boards),
            max(board.box.span(axis).high for board in boards),
        )
        for axis in AXES
    )
    datum = datum_of(face, "")
    low, high = outlined(face, Box(*spans), datum)
    return SetOut(face.mark, "front" if opens == "rear" else "rear", "", BOX, low, high, datum)
