"""Step pictures: what they show, and that nothing in them collides."""

from __future__ import annotations

import re
from itertools import combinations, product
from math import hypot

import pytest
import shapely

from generator.bench.solve import solve
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, around
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.shapes import Again, Circle, Line, Polyline, Rect
from generator.drawings.step import draw_step
from generator.drawings.step_homes import image_of, pictured
from generator.figures.compute import compute
from generator.resources import bundled
from generator.spec.load import read_spec
from generator.writers.svg import LOOKS, to_svg
from tests.drawings.step_pictures import (
    BENCHES,
    arrows,
    corners_of,
    drawings,
    figures,
    leaders,
    letters_of,
    rings,
    windows,
)


@pytest.mark.parametrize("name", BENCHES)
def test_every_step_has_a_picture(name) -> None:
    ids = {drawing.id for drawing in drawings(name) if "-picture-" not in drawing.id}
    steps = {f"picture-{step.key}" for step in figures(name).assembly.steps}
    assert steps | {"bench-front-right"} == ids


@pytest.mark.parametrize("name", BENCHES)
def test_nothing_collides_or_leaves_the_picture(name) -> None:
    """Letters, leaders and arrows, against each other; a number on an arrow is painted over what passes below it."""
    for drawing in drawings(name):
        sheet = Extent(0.0, 0.0, drawing.width, drawing.height)
        boxes = drawing.text_boxes()
        for text, box in boxes:
            assert sheet.contains(box), f"{drawing.id}: {text}"
        for (first, a), (second, b) in combinations(boxes, 2):
            assert not a.overlaps(b), f"{drawing.id}: {first}, {second}"
        keyed = [box for _, box, _ in letters_of(drawing)]
        discs = [s.extent() for s in drawing.shapes if isinstance(s, Circle) and s.style == "hole"]
        letters = [
            (text, shapely.box(*corners_of(box)))
            for text, box in boxes
            if box not in keyed and not (text.isdigit() and any(disc.overlaps(box) for disc in discs))
        ]
        for leader, (text, room) in product(leaders(drawing), letters):
            assert not leader.intersects(room), f"{drawing.id}: {text}"
        for arrow, (text, room) in product(arrows(drawing), letters):
            assert not arrow.intersects(room), f"{drawing.id}: {text}"
        for one, other in combinations(leaders(drawing), 2):
            assert not one.crosses(other), drawing.id
        for ring in (*rings(drawing), *windows(drawing)):
            disc = shapely.Point(ring.centre).buffer(ring.radius)
            for text, room in letters:
                assert not disc.intersects(room), f"{drawing.id}: {text}"
            for arrow in arrows(drawing):
                assert not disc.intersects(arrow), drawing.id
        assert drawing.width <= PAGE_WIDTH
        assert drawing.height < 150


@pytest.mark.parametrize("name", BENCHES)
def test_every_leader_ends_on_something_new_that_shows_and_no_arrow_hides_its_end(name) -> None:
    for drawing in drawings(name)[1:]:
        faces = [
            (shape.style, shapely.Polygon(shape.points))
            for shape in drawing.shapes
            if isinstance(shape, Polyline) and re.match("iso-(bar|wood|dark|tote|new)-", shape.style)
        ]
        dots = [
            shapely.Point(s.centre) for s in drawing.shapes if isinstance(s, Circle) and s.style == "arrow"
        ]
        assert len(dots) == len(leaders(drawing)) > 0, drawing.id
        for dot in dots:
            (*_, top) = [style for style, face in faces if face.buffer(0.02).contains(dot)]
            near = [style for style, face in faces if face.distance(dot) < 0.1]
            # the edge of a thin board may be nearer than a tenth of a millimetre
            assert top.startswith("iso-new") or any(style.startswith("iso-new") for style in near), drawing.id
            assert not any(arrow.contains(dot) for arrow in arrows(drawing)), drawing.id


@pytest.mark.parametrize("name", BENCHES)
def test_every_piece_that_moves_in_is_named_and_an_arrow_can_be_seen(name) -> None:
    by_id = {drawing.id: drawing for drawing in drawings(name)}
    for step in figures(name).assembly.steps:
        drawing = by_id.get(f"picture-{step.key}")
        if drawing is None or (not step.assembly and "bench" not in {motion.into for motion in step.motions}):
            continue
        written = {text.text for text in drawing.texts()}
        for mark in step.parts if step.assembly else ():
            assert mark in written, f"{drawing.id}: {mark}"
        for arrow in arrows(drawing):
            left, top, right, bottom = arrow.bounds
            # as wide as a tablet's page
            assert hypot(right - left, bottom - top) * 820 / drawing.width >= 24, drawing.id


def test_what_lies_on_the_floor_is_drawn_lying_and_what_comes_from_below_is_seen_from_there() -> None:
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    posts = draw_step(done, by_key["left-posts"], Ruler())
    assert posts is not None
    words = " ".join(text.text for text in posts.texts())
    assert "The frame is flat on blocks, its outer face down." in words
    assert {"front", "top"} <= {text.text for text in posts.texts()}
    for arrow in arrows(posts):
        # a post goes in along the floor, never down to it: on paper at 30 degrees
        (x0, y0, x1, y1), centre = arrow.bounds, arrow.centroid
        assert (x1 - x0) > (y1 - y0)
        assert centre.x > 0
    below = draw_step(done, by_key["casters"], Ruler())
    assert below is not None
    texts = {text.text for text in below.texts()}
    assert {f"CP{number}" for number in range(1, 7)} <= texts
    assert any(text.startswith("Seen from below") for text in texts)
    # nearer is higher on paper: the front is up there
    (front,) = [text for text in below.texts() if text.text == "front"]
    (origin,) = {line.start for line in below.shapes if isinstance(line, Line) and line.style == "outline"}
    assert front.at[1] < origin[1]


def test_a_wall_lies_flat_for_its_strips_and_is_turned_over_for_those_of_its_other_face() -> None:
    """FD1 has packing on its left and runners on its right, FD2 runners on both, FD3 what FD1 has the other way."""
    done = figures("demo")
    strips = next(step for step in done.assembly.steps if step.key == "strips")
    shown = list(pictured(done, strips))
    first, over = shown[:2]
    assert (first.home, first.mirrored, first.turned) == (
        "FD1 with its strips",
        ("FD3 with its strips",),
        False,
    )
    assert (over.home, over.turned) == ("FD1 with its strips", True)
    assert [motion.name for motion in first.step.motions] == ["FD1", "PK4", "PK5", "PK6"]
    assert [motion.name for motion in over.step.motions] == ["TR1", "TR3", "TR5"]
    assert [each.home[:3] for each in shown] == ["FD1", "FD1", "FD2", "FD2", "BD1", "BD1", "EF1", "EB1"]
    faces = []
    for each in (first, over):
        picture = draw_step(done, each.step, Ruler())
        assert picture is not None
        faces += [text.text for text in picture.texts() if text.text.startswith("Seen from above.")]
        for arrow in arrows(picture):
            # down onto the wall
            assert arrow.bounds[3] - arrow.bounds[1] > 2 * (arrow.bounds[2] - arrow.bounds[0])
    # the marks are those of what a picture adds, in the order of the work
    assert (first.also, over.also) == ("Mirrored: FD3 (PK7, PK8, PK9).", "Mirrored: FD3 (TR8, TR10, TR12).")
    assert "The wall is laid flat: its left face is up." in faces[0]
    assert "FD1 is turned over: its right face is up." in faces[1]


def test_equal_sub_assemblies_share_a_picture_and_the_second_end_frame_names_the_first() -> None:
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    (cross,) = pictured(done, by_key["cross"])
    assert (cross.home, cross.same) == ("C1 with its posts", ("C2 with its posts", "C3 with its posts"))
    picture = draw_step(done, cross.step, Ruler(), also=cross.also)
    assert picture is not None
    written = " ".join(text.text for text in picture.texts())
    assert "Make 3: C1 with D4, C2 with D5, C3 with D6." in written
    assert "1 ×, through C1: bottom face 520 from its front end" in written
    image = image_of(done, by_key["right-panels"], done.assembly.steps)
    assert image == (by_key["left-panels"], True)
    assert image_of(done, by_key["cross"], done.assembly.steps) is None


PHONE = ("bars", "boards", "left-posts", "strips", "casters")


def test_a_picture_for_a_phone_shows_what_the_wide_one_has_painted_in_letters_that_can_be_read() -> None:
    """118 mm on 358 px: letters of 2.5 mm capitals are 10 px; the faces are in the page once."""
    done = figures("demo")
    for step in (step for step in done.assembly.steps if step.key in PHONE):
        shown = next(pictured(done, step)).step
        wide = draw_step(done, shown, Ruler())
        assert wide is not None
        slim = draw_step(done, shown, Ruler(), slim_of=wide)
        assert slim is not None
        assert slim.width <= 118.01
        groups = {f"{wide.id}-{name}" for name, _, _ in wide.groups}
        again = [shape for shape in slim.shapes if isinstance(shape, Again)]
        assert {shape.source for shape in again} <= groups
        (base,) = [shape for shape in again if shape.source.endswith("-base")]
        first, *_ = wide.shapes
        assert isinstance(first, Polyline)
        x, y = first.points[0]
        # the same corner, where it falls now
        assert base.room.grown(0.5).contains(
            around([(base.at[0] + base.scale * x, base.at[1] + base.scale * y)])
        )
        marks = {text.text for text in wide.texts() if text.style == "mark" and text.link}
        assert marks <= {text.text for text in slim.texts()}
        assert len(to_svg(slim).inline) < len(to_svg(wide).inline)


def test_bars_that_are_only_laid_down_say_how_far_apart_and_what_needs_no_tool_says_so() -> None:
    done = figures("samples/cart")
    by_key = {step.key: step for step in done.assembly.steps}
    written = {}
    for key in ("left-ring", "left-panels", "left-posts"):
        picture = draw_step(done, by_key[key], Ruler())
        assert picture is not None
        written[key] = " ".join(text.text for text in picture.texts())
    low, high = (
        next(shape.whole[0] for shape in done.assembly.shapes if shape.mark == mark) for mark in ("C3", "C5")
    )
    assert f"Lay C3 and C5 on blocks, {high[2] - low[5]:.1f} apart inside." in written["left-ring"]
    assert "By hand." in written["left-ring"]
    assert "By hand." in written["left-panels"]
    assert "By hand." not in written["left-posts"]


def test_a_label_says_the_size_and_how_far_the_piece_slides() -> None:
    """A divider is within the slots from the posts' heads down; below its tongues it has notches."""
    done = figures("demo")
    step = next(step for step in done.assembly.steps if step.key == "divider")
    drawing = draw_step(done, step, Ruler())
    assert drawing is not None
    texts = [text.text for text in drawing.texts()]
    parts = {mark: row for row in done.parts for mark in row.marks}
    shapes = {shape.mark: shape for shape in done.assembly.shapes}
    posts = [mark for mark in step.standing if mark in parts and parts[mark].group == "inner post"]
    for mark in ("FD1", "BD1"):
        row = parts[mark]
        assert f"{row.length} × {row.width}" in texts
        foot = min(block[2] for block in shapes[mark].whole)
        head = max(block[5] for post in posts for block in shapes[post].whole)
        notch = min(each.across for each in row.notches if "bottom" in each.corner)
        assert f"slides {head - foot - notch:.0f}" in texts


@pytest.mark.parametrize("name", BENCHES)
def test_what_is_added_shows_in_its_own_tint_and_a_bolder_line(name) -> None:
    for drawing in drawings(name)[1:]:
        styles = {getattr(shape, "style", "") for shape in drawing.shapes}
        added = {style for style in styles if style.startswith("iso-new")}
        assert added, drawing.id
        edges = {style for style in styles if style.endswith("-edged")} | ({"iso-edge"} & styles)
        bold = {style for style in added if style.endswith("-edged")} | ({"iso-edge-new"} & styles)
        assert bold, drawing.id
        around_it = [LOOKS[style].line for style in edges - added]
        assert min(LOOKS[style].line for style in bold) > 2 * max(around_it, default=0.1), drawing.id


def test_only_a_step_in_the_bench_shows_what_stands_there() -> None:
    done = figures("demo")
    by_key = {step.key: draw_step(done, step, Ruler()) for step in done.assembly.steps}

    def tints(key: str) -> set[str]:
        drawing = by_key[key]
        assert drawing is not None
        small = [shape.extent() for shape in drawing.shapes if isinstance(shape, Rect)]
        small += [window.extent().grown(0.1) for window in windows(drawing)]
        shapes = [s for s in drawing.shapes if not any(room.contains(s.extent()) for room in small)]
        styles = {getattr(shape, "style", "") for shape in shapes}
        return {style.split("-")[1] for style in styles if re.match("iso-(bar|wood|new)-", style)}

    # the wood is what the frame lies on
    assert tints("left-ring") == {"wood", "new"}
    assert tints("left-posts") == {"bar", "wood", "new"}
    assert tints("grid") == {"new"}
    assert tints("lid") == {"bar", "wood", "new"}


def test_new_pieces_are_darker_than_all_others_in_grey() -> None:
    svg = to_svg(drawings("demo")[5]).alone
    colours = dict(re.findall(r"--bm-((?:bar|wood|tote|new)-(?:top|left|right)):#([0-9a-f]{6})", svg))

    def grey(colour: str) -> float:
        r, g, b = (int(colour[i : i + 2], 16) for i in (0, 2, 4))
        return 0.2126 * r + 0.7152 * g + 0.0722 * b

    for face in ("top", "left", "right"):
        others = [grey(colours[f"{tint}-{face}"]) for tint in ("bar", "wood", "tote")]
        assert grey(colours[f"new-{face}"]) < min(others) - 30


@pytest.mark.parametrize("name", BENCHES)
def test_a_picture_is_small_and_every_style_has_a_look(name) -> None:
    for drawing in drawings(name):
        assert len(to_svg(drawing).inline) < 90_000, drawing.id
        assert "nan" not in to_svg(drawing).inline
        assert {shape.style for shape in drawing.shapes if hasattr(shape, "style")} <= set(LOOKS)


def test_what_stands_at_the_back_is_seen_from_there() -> None:
    """Above the tray, doors at the back show by their upper edges alone."""
    demo = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = demo.replace("{name: B1, width: share,", "{name: B1, width: share, door: {hinge: pair},")
    done = compute(solve(read_spec(text, "bench.yml")))[0]
    seen_from = {}
    for step in done.assembly.steps:
        picture = draw_step(done, step, Ruler())
        for words, _ in picture.text_boxes() if picture else ():
            if words.startswith("Seen from"):
                seen_from[step.title] = words
    assert seen_from["Doors"].startswith("Seen from the rear left.")
    assert seen_from["Totes"].startswith("Seen from the front right.")


def test_a_rectangle_is_squared_by_the_diagonals_that_are_drawn() -> None:
    done = figures("demo")
    step = next(step for step in done.assembly.steps if step.key == "square")
    drawing = draw_step(done, step, Ruler())
    assert drawing is not None
    lines = [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.style == "break-down"]
    assert len(lines) == 2 * len(step.squares)
    flats = {row.name: row.flat for row in done.diagonals}
    for square in step.squares:
        flat = flats[square.name]
        assert hypot(*(flat[axis + 3] - flat[axis] for axis in range(3))) == pytest.approx(square.value)
