"""What comes onto a board: outlines, distances and marks on its sheet are those of the pieces in their places.

All is read back from the drawing: a board of known size, what is on it, and the numbers with the edge that is 0.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import combinations

import pytest

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_for_page, draw_on_page, draw_slim
from generator.drawings.shapes import Line, Polyline, Text
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.parts import PlacedRow
from generator.readings import other_reading, own_reading
from generator.resources import bundled
from generator.spec.load import read_spec, read_spec_file

BENCHES = ("demo", "wall-bench", "samples/cart", "samples/joiner", "samples/outfeed")
AXES = "xyz"
#: Axis across the face, and the end of it, by the face's name; what is at the reader's left who looks at it.
FACES = {"left": (0, 0), "right": (0, 1), "front": (1, 0), "rear": (1, 1), "bottom": (2, 0), "top": (2, 1)}
AT_LEFT = {"left": (1, 1), "right": (1, 0), "front": (0, 0), "rear": (0, 1)}
HEAD = re.compile(r"(\w+), (\w+) face")
RUN = re.compile(r"([A-Z]+)(\d+)(?:–[A-Z]+(\d+))?")


@cache
def figures(name: str) -> Figures:
    return compute(solve(read_spec_file(bundled("specs") / f"{name}.yml")))[0]


@dataclass(frozen=True)
class View:
    """One face as drawn: piece, face, the board and the strips (mm of paper: left, top, right, bottom), all texts."""

    piece: str
    face: str
    board: tuple[float, float, float, float]
    strips: tuple[tuple[float, float, float, float], ...]
    texts: tuple[Text, ...]


def views(drawing: Drawing) -> Iterator[View]:
    """The views of a drawing: each begins with its board."""
    runs: list[list[object]] = []
    for shape in drawing.shapes:
        if isinstance(shape, Polyline) and shape.style == "fill-wood":
            runs.append([])
        runs[-1].append(shape)
    for run in runs:
        boxes = {
            style: [s.extent() for s in run if isinstance(s, Polyline) and s.style == style]
            for style in ("fill-wood", "fill-new")
        }
        texts = tuple(s for s in run if isinstance(s, Text))
        piece, face = next(match.groups() for text in texts if (match := HEAD.fullmatch(text.text)))
        yield View(
            piece, face, tuple(boxes["fill-wood"][0]), tuple(tuple(box) for box in boxes["fill-new"]), texts
        )


def on_face(done: Figures, wall: PlacedRow, face: str) -> dict[str, tuple[float, float, float, float]]:
    """Mark -> from the left, the right, the foot and the head of the face, as who looks at it sees it (mm)."""
    axis, end = FACES[face]
    across, side = AT_LEFT[face]
    found = {}
    for row in done.parts:
        if row.kind != "strip":
            continue
        for piece in row.pieces:
            at = wall.corner[axis] + (wall.size[axis] if end else 0)
            touches = piece.corner[axis] == at if end else piece.corner[axis] + piece.size[axis] == at
            low, high = piece.corner[across] - wall.corner[across], piece.corner[across] + piece.size[across]
            rest = wall.corner[across] + wall.size[across] - high
            up = piece.corner[2] - wall.corner[2]
            beside = low + piece.size[across] > 0 and rest + piece.size[across] > 0
            if touches and beside and 0 <= up < wall.size[2]:
                left, right = (rest, low) if side else (low, rest)
                head = wall.size[2] - up - piece.size[2]
                found[piece.mark] = (float(left), float(right), float(up), float(head))
    return found


def named(done: Figures, text: str) -> set[str]:
    """All marks in a text, runs among them."""
    found = set()
    for letters, first, last in RUN.findall(text):
        found |= {f"{letters}{number}" for number in range(int(first), int(last or first) + 1)}
    return found & {mark for row in done.parts for mark in row.marks}


@pytest.mark.parametrize("name", BENCHES)
def test_strips_are_drawn_where_they_are_in_the_bench(name: str) -> None:
    done = figures(name)
    pieces = {piece.mark: piece for row in done.parts for piece in row.pieces}
    seen = 0
    for row in done.parts:
        if row.group not in ("divider", "end panel"):
            continue
        drawing = draw_on_page(done, row, Ruler("mm"))
        shown = list(views(drawing)) if drawing else []
        for view in shown:
            wall = pieces[view.piece]
            across = AT_LEFT[view.face][0]
            left, top, right, bottom = view.board
            wide, high = float(wall.size[across]) / (right - left), float(wall.size[2]) / (bottom - top)
            drawn = sorted(
                ((x0 - left) * wide, (right - x1) * wide, (bottom - y1) * high, (y0 - top) * high)
                for x0, y0, x1, y1 in view.strips
            )
            placed = sorted(on_face(done, wall, view.face).values())
            assert len(drawn) == len(placed), (row.mark, view.piece, view.face)
            for one, other in zip(drawn, placed, strict=True):
                assert one == pytest.approx(other, abs=0.5), (view.piece, view.face)
            seen += len(placed)
        # what is not drawn is named: as the same, or in a mirror
        said = named(done, " ".join(text.text for view in shown for text in view.texts))
        wanted = {
            mark for piece in row.pieces for face in ("left", "right") for mark in on_face(done, piece, face)
        }
        assert wanted <= said, row.mark
    assert seen


@pytest.mark.parametrize("name", BENCHES)
def test_every_number_is_a_distance_from_the_edge_that_is_named_zero(name: str) -> None:
    """A strip's number is how far its nearer end is from that edge, an upper edge's how high it is."""
    done = figures(name)
    pieces = {piece.mark: piece for row in done.parts for piece in row.pieces}
    for row in done.parts:
        drawing = draw_on_page(done, row, Ruler("mm")) if row.group in ("divider", "end panel") else None
        for view in views(drawing) if drawing else ():
            words = [text.text for text in view.texts]
            zero = [words[n + 1] for n, word in enumerate(words) if word == "0"]
            assert zero[-1] == "bottom"
            (axis, at_left) = AT_LEFT[view.face]
            names = ("left", "right") if axis == 0 else ("front", "rear")
            from_left = zero[0] == names[at_left]
            assert zero[0] in names
            for left, right, up, head in on_face(done, pieces[view.piece], view.face).values():
                assert Ruler("mm").text(_exact(left if from_left else right)) in words
                tall = float(pieces[view.piece].size[2]) - up - head
                wide = float(pieces[view.piece].size[axis]) - left - right
                tops = Ruler("mm").text(_exact(float(pieces[view.piece].size[2]) - head))
                assert tops in words
                if tall > wide:
                    assert Ruler("mm").text(_exact(up)) in words


def _exact(value: float) -> Fraction:
    return Fraction(value).limit_denominator(10000)


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_pockets_and_screws_from_above_are_at_the_places_that_their_step_says(name: str) -> None:
    done = figures(name)
    places = {
        place.part: place
        for step in done.assembly.steps
        for place in step.places
        if place.item in ("pocket", "screw through the tray")
    }
    found = 0
    for row in done.parts:
        drawing = draw_on_page(done, row, Ruler("mm")) if places.keys() & set(row.marks) else None
        for view in views(drawing) if drawing else ():
            place = places.get(view.piece)
            if place is None or place.face not in (view.face, "top"):
                continue
            words = [text.text for text in view.texts]
            zero = next(words[n + 1] for n, word in enumerate(words) if word == "0")
            along = row.length if zero == "front" else None
            for at in place.at:
                from_zero = at if along is not None else row.length - at
                assert Ruler("mm").text(from_zero) in words, (view.piece, view.face)
                found += 1
    assert found or not places


PULLED = (
    (bundled("specs") / "demo.yml")
    .read_text(encoding="utf-8")
    .replace("hardware:\n", "hardware:\n  bow: {use: pull 128}\n", 1)
)


@pytest.mark.parametrize("name", ["demo", "samples/cart", "samples/row"])
def test_the_box_is_where_it_is_behind_its_face_and_the_slide_where_it_is_on_the_side(name: str) -> None:
    done = figures(name)
    pieces = {piece.mark: (row, piece) for row in done.parts for piece in row.pieces}
    seen = set()
    for row in done.parts:
        if row.group not in ("drawer face", "drawer side"):
            continue
        drawings = [draw_for_page(done, row, Ruler("mm")), draw_on_page(done, row, Ruler("mm"))]
        drawing = next(
            each for each in drawings if each and any(HEAD.fullmatch(text.text) for text in each.texts())
        )
        words = [text.text for text in drawing.texts()]
        match = next(m for w in words if (m := HEAD.fullmatch(w)))
        piece = pieces[match[1]][1]
        if row.group == "drawer face":
            # all boards of the same drawer, by the words of their place
            box = [
                other
                for each, other in pieces.values()
                if other.where == piece.where and each.group in ("drawer side", "drawer front and back")
            ]
            low = min(other.corner[0] for other in box) - piece.corner[0]
            high = max(other.corner[0] + other.size[0] for other in box) - piece.corner[0]
            foot = min(other.corner[2] for other in box) - piece.corner[2]
            head = max(other.corner[2] + other.size[2] for other in box) - piece.corner[2]
            for value in (low, high, foot, head):
                assert Ruler("mm").text(value) in words, row.mark
        else:
            bay, number = re.fullmatch(r"bay (.+), drawer (\d+)", piece.where).groups()  # type: ignore[union-attr]
            drawer = next(each for each in done.drawers if (each.bay, each.number) == (bay, int(number)))
            assert Ruler("mm").text(drawer.slide_axis - drawer.box_bottom) in words
            front = min(
                abs(each.corner[1] - edge)
                for _, each in [pieces[match[1]]]
                for edge in (0, done.layout.depth)
            )
            rear = min(
                abs(each.corner[1] + each.size[1] - edge)
                for _, each in [pieces[match[1]]]
                for edge in (0, done.layout.depth)
            )
            for at in drawer.hole_stations:
                assert Ruler("mm").text(at - min(front, rear)) in words, (row.mark, words)
        seen.add(row.group)
    assert len(seen) == 2


def test_a_face_that_has_a_pull_shows_its_holes_and_the_box() -> None:
    text = PULLED.replace("drawers: {", "drawers: {pull: bow, ", 1)
    done = compute(solve(read_spec(text, "bench.yml")))[0]
    face = next(row for row in done.parts if row.group == "drawer face")
    main, on = draw_for_page(done, face, Ruler("mm")), draw_on_page(done, face, Ruler("mm"))
    assert on is not None
    pull = next(each for each in done.pulls if each.part == face.mark)
    words = [text.text for text in main.texts()]
    assert pull.holes
    for along, up in pull.holes:
        assert {Ruler("mm").text(along), Ruler("mm").text(up)} <= set(words)
    assert "box" in [text.text for text in on.texts()]
    assert any(isinstance(shape, Polyline | Line) and shape.style == "hidden" for shape in on.shapes)


@pytest.mark.parametrize("name", BENCHES)
def test_a_phone_has_the_same_faces_in_its_width(name: str) -> None:
    done, found = figures(name), 0
    for row in done.parts:
        slim = draw_slim(done, row, Ruler("mm"))
        wide = draw_on_page(done, row, Ruler("mm")) or draw_for_page(done, row, Ruler("mm"))
        if slim:
            assert slim.width <= 118.01, row.mark
            faces = [
                {text.text for text in each.texts() if HEAD.fullmatch(text.text)} for each in (slim, wide)
            ]
            assert faces[0] == faces[1]
            for boxes in map(slim.text_boxes, (own_reading, other_reading)):
                crossed = [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.overlaps(two)]
                assert crossed == [], row.mark
            found += 1
    assert found
