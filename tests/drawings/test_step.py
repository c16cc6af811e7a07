from __future__ import annotations

import re
from functools import cache
from itertools import combinations

import pytest
import shapely

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.corners import draw_corners
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.shapes import Line, Polyline
from generator.drawings.step import draw_step
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.resources import bundled
from generator.spec.load import read_spec, read_spec_file
from generator.writers.svg import LOOKS, to_svg

BENCHES = ("demo", "wall-bench", "starter")


@cache
def figures(name: str) -> Figures:
    loaded = read_spec_file(bundled("specs") / f"{name}.yml")
    return compute(solve(loaded))[0]


@cache
def drawings(name: str) -> tuple[Drawing, ...]:
    done = figures(name)
    pictures = (draw_step(done, step) for step in done.assembly.steps)
    return (draw_corners(done, Ruler())[0], *(picture for picture in pictures if picture))


@pytest.mark.parametrize("name", BENCHES)
def test_every_step_that_moves_something_has_a_picture(name) -> None:
    ids = {drawing.id for drawing in drawings(name)}
    moving = {f"picture-{step.key}" for step in figures(name).assembly.steps if step.motions}
    assert moving | {"bench-front-right"} == ids


@pytest.mark.parametrize("name", BENCHES)
def test_no_text_collides_or_leaves_the_picture(name) -> None:
    for drawing in drawings(name):
        sheet = Extent(0.0, 0.0, drawing.width, drawing.height)
        for text, box in drawing.text_boxes():
            assert sheet.contains(box), f"{drawing.id}: {text}"
        for (first, a), (second, b) in combinations(drawing.text_boxes(), 2):
            # labels that touch, one above the other, are read as one
            assert not a.grown(1.4).overlaps(b), f"{drawing.id}: {first}, {second}"
        assert drawing.width < 210 - 2 * 10
        assert drawing.height < 150


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
    by_key = {step.key: draw_step(done, step) for step in done.assembly.steps}

    def tints(key: str) -> set[str]:
        drawing = by_key[key]
        assert drawing is not None
        styles = {getattr(shape, "style", "") for shape in drawing.shapes}
        return {style.split("-")[1] for style in styles if re.match("iso-(bar|wood|new)-", style)}

    assert tints("left-ring") == {"new"}
    assert tints("left-posts") == {"bar", "wood", "new"}
    assert tints("grid") == {"new"}
    assert tints("lid") == {"bar", "wood", "new"}


def test_an_arrow_leaves_the_tray_without_crossing_it() -> None:
    done = figures("demo")
    tray = draw_step(done, next(step for step in done.assembly.steps if step.key == "tray"))
    assert tray is not None
    shapes = tray.shapes
    (arrow,) = [s for s in shapes if isinstance(s, Line) and s.style == "iso-arrow"]
    tops = [s for s in shapes if isinstance(s, Polyline) and s.style.startswith("iso-new-top")]
    assert arrow.end[1] > arrow.start[1] > max(y for s in tops for _, y in s.points) - 0.01


def test_a_label_that_makes_way_for_another_lies_over_nothing_new() -> None:
    done = figures("demo")
    drawing = draw_step(done, next(step for step in done.assembly.steps if step.key == "cross"))
    assert drawing is not None
    clip = dict(drawing.text_boxes())["C1 rear clip"]
    faces = [s for s in drawing.shapes if isinstance(s, Polyline) and s.style.startswith("iso-new")]
    area = shapely.box(clip.left, clip.top, clip.right, clip.bottom)
    assert faces
    assert not any(area.intersects(shapely.Polygon(face.points)) for face in faces)


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
        picture = draw_step(done, step)
        for words, _ in picture.text_boxes() if picture else ():
            if words.startswith("Seen from"):
                seen_from[step.title] = words
    assert seen_from["Doors"] == "Seen from the rear left."
    assert seen_from["Totes"] == "Seen from the front right."
