"""Dimensions in the step pictures: each is as long as it says, from feature to feature, and meets nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations, product
from math import cos, hypot, radians, sin

import numpy as np
import pytest
import shapely

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.eye import BELOW, Eye, lying
from generator.drawings.shapes import Circle, Line, Polyline, Text
from generator.drawings.step import draw_step, draw_step_twice
from generator.drawings.step_homes import pictured
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.drawings.step_pictures import arrows, corners_of, leaders, letters_of, windows

BENCHES = ("demo", "samples/cart", "samples/joiner", "samples/desk")
FIGURE = re.compile(r"\d+(\.\d+)?")


@cache
def figures(name: str) -> Figures:
    return compute(solve(read_spec_file(bundled("specs") / f"{name}.yml")))[0]


@cache
def shown(name: str, *, both: bool = False) -> tuple[tuple[Step, Drawing], ...]:
    """Wide pictures and slim ones, each with its step."""
    found = []
    for step in figures(name).assembly.steps:
        for each in pictured(figures(name), step):
            for drawing in draw_step_twice(figures(name), each.step, Ruler(both=both)) or ():
                found.append((each.step, drawing))
    return tuple(found)


def dimension_lines(drawing: Drawing) -> list[Line]:
    """Those of the scene: a dimension of a part that is cut has no rim of paper."""
    rims = {(s.start, s.end) for s in drawing.shapes if isinstance(s, Line) and s.style == "iso-halo"}
    lines = [s for s in drawing.shapes if isinstance(s, Line) and s.style == "dimension"]
    return [line for line in lines if (line.start, line.end) in rims]


def numbers(drawing: Drawing) -> list[Text]:
    """The figures of dimensions: numbers that are on no arrow and in no sentence."""
    discs = [s.centre for s in drawing.shapes if isinstance(s, Circle) and s.style == "hole" and s.radius > 2]
    found = [text for text in drawing.texts() if FIGURE.fullmatch(text.text) and text.style == "text"]
    return [text for text in found if all(hypot(text.at[0] - x, text.at[1] - y) > 2 for x, y in discs)]


@dataclass(frozen=True)
class Scene:
    """A picture with where it is seen from: paper and bench, one from the other."""

    drawing: Drawing
    eye: Eye
    scale: float

    def paper(self, point: Sequence[float]) -> tuple[float, float]:
        """30 degrees to both sides and upright, nothing foreshortened."""
        a, b, c = (sign * point[axis] for axis, sign in self.eye.axes)
        x, y = (b - a) * cos(radians(30)), (a + b) * sin(radians(30)) - c
        left, top = self.drawing.origin
        return left + self.scale * x, top + self.scale * (-y if self.eye.below else y)

    def back(self, at: tuple[float, float], axis: int, value: float) -> list[float]:
        """The point of the bench in a plane across an axis that is at a point of the paper."""
        zero = np.array(self.paper([0.0, 0.0, 0.0]))
        columns = [np.array(self.paper([float(i == j) for i in range(3)])) - zero for j in range(3)]
        free = [i for i in range(3) if i != axis]
        matrix = np.column_stack([columns[i] for i in free])
        first, second = np.linalg.solve(matrix, np.array(at) - zero - value * columns[axis])
        point = [value, value, value]
        point[free[0]], point[free[1]] = float(first), float(second)
        return point


def scene_of(drawing: Drawing, eyes: Sequence[Eye], body: Sequence[float]) -> Scene:
    """The eye and the scale under which the corners of a body are corners of what is painted."""
    corners = np.array(
        [
            point
            for shape in drawing.shapes
            if isinstance(shape, Polyline) and shape.style.startswith("iso-")
            for point in shape.points
        ]
        + [
            point
            for shape in drawing.shapes
            if isinstance(shape, Line) and shape.style.startswith("iso-edge")
            for point in (shape.start, shape.end)
        ]
    )
    own = list(product(*zip(body[:3], body[3:], strict=True)))

    def off(scene: Scene) -> float:
        """How far painted corners are from the nearest five of the body: others are hidden, or have a tongue."""
        return sum(
            sorted(float(np.abs(corners - np.array(scene.paper(p))).sum(axis=1).min()) for p in own)[:5]
        )

    rough = min(
        (Scene(drawing, eye, float(scale)) for eye in eyes for scale in np.arange(0.02, 0.201, 0.001)),
        key=off,
    )
    near = np.linspace(rough.scale - 0.001, rough.scale + 0.001, 201)
    found = min((Scene(drawing, rough.eye, float(scale)) for scale in near), key=off)
    assert off(found) < 0.25, (drawing.id, off(found))
    return found


def box(shape: Shape) -> tuple[float, ...]:
    lows, highs = zip(*((block[:3], block[3:]) for block in shape.whole), strict=True)
    return (*map(min, zip(*lows, strict=True)), *map(max, zip(*highs, strict=True)))


def largest(shape: Shape) -> tuple[float, ...]:
    """Its block without tongues."""
    return max(shape.whole, key=lambda b: (b[3] - b[0]) * (b[4] - b[1]) * (b[5] - b[2]))


def on_walls(name: str) -> Iterator[tuple[Step, Drawing, Shape, list[Shape]]]:
    shapes = {shape.mark: shape for shape in figures(name).assembly.shapes}
    for step in (step for step in figures(name).assembly.steps if step.key == "strips"):
        for each in pictured(figures(name), step):
            drawing = draw_step(figures(name), each.step, Ruler())
            assert drawing is not None
            marks = [m for motion in each.step.motions for m in motion.marks]
            strips = [shapes[m] for m in marks if shapes[m].kind == "strip"]
            (wall,) = [shapes[m] for m in (*marks, *each.step.standing) if shapes[m].kind == "board"]
            yield each.step, drawing, wall, strips


@pytest.mark.parametrize("name", BENCHES)
def test_a_dimension_on_a_wall_is_the_distance_from_its_edge_to_a_strip(name: str) -> None:
    """Back through the isometric, its lines are on the wall's first edges and those of strips, as far as it says."""
    count = 0
    for step, drawing, wall, strips in on_walls(name):
        own = box(wall)
        normal = "xyz".index(step.lies[1])
        flat = own[normal + 3] if step.lies[0] == "+" else own[normal]
        scene = scene_of(drawing, list(lying(step.lies)), largest(wall))
        axes = [i for i in range(3) if i != normal]
        edges = {i: {own[i]} | {box(strip)[i] for strip in strips} for i in axes}
        out: set[tuple[int, float]] = set()
        for line in dimension_lines(drawing):
            first, second = (scene.back(at, normal, flat) for at in (line.start, line.end))
            for axis in axes:
                if abs(first[axis] - second[axis]) < 0.1:
                    # a line that leads out, at the place of a feature; or the dimension line, outside
                    at = [edge for edge in edges[axis] if abs(first[axis] - edge) < 0.5]
                    assert at or not own[axis] - 1 < first[axis] < own[axis + 3] + 1, drawing.id
                    out |= {(axis, edge) for edge in at}
        assert len(numbers(drawing)) == len(out - {(axis, own[axis]) for axis in axes})
        for text in numbers(drawing):
            value = float(text.text)
            measured = [axis for axis, edge in out if abs(edge - own[axis] - value) < 0.06]
            assert any((axis, own[axis]) in out for axis in measured), (drawing.id, text)
            at = scene.back((text.at[0], text.at[1] - text.height / 2), normal, flat)
            places = [(abs(at[axis] - own[axis] - value), axis) for axis in measured]
            far, axis = min(places)
            others = [edge for i, edge in out if i == axis and abs(edge - own[axis] - value) > 1.0]
            assert all(far < abs(at[axis] - edge) or len(others) == 1 for edge in others), (drawing.id, text)
            count += 1
        # what is measured by a line is not said in words
        words = " ".join(text.text for text in drawing.texts())
        for axis, edge in (("front", 1), ("bottom", 2)):
            said = re.findall(rf"(\d+\.?\d*) from {axis}", words)
            drawn = {text.text for text in numbers(drawing)}
            expected = {
                f"{box(s)[edge] - own[edge]:g}" for s in strips if abs(box(s)[edge] - own[edge]) > 0.5
            }
            assert not said or not (set(said) & drawn & expected), drawing.id
    assert count > 3


def test_every_strip_of_the_demo_is_measured_with_lines() -> None:
    for _, drawing, wall, strips in on_walls("demo"):
        own = box(wall)
        wanted = {f"{box(strip)[axis] - own[axis]:g}" for strip in strips for axis in (1, 2)}
        assert {text.text for text in numbers(drawing)} == wanted, drawing.id


def test_a_plate_below_a_rail_is_measured_from_the_end_of_the_frame() -> None:
    done = figures("demo")
    step = next(step for step in done.assembly.steps if step.key == "casters")
    drawing = draw_step(done, step, Ruler())
    assert drawing is not None
    frame = [box(shape) for shape in done.assembly.shapes if shape.is_frame]
    right = max(each[3] for each in frame)
    plates = {body.name: body.bounds for body in done.assembly.solids if body.name.startswith("CP")}
    (text,) = numbers(drawing)
    assert float(text.text) == pytest.approx(right - plates["CP5"][3])
    # both lines that lead out, as far apart as the picture says
    lows, highs = zip(*((each[:3], each[3:]) for each in frame), strict=True)
    rail = (*map(min, zip(*lows, strict=True)), *map(max, zip(*highs, strict=True)))
    scene = scene_of(drawing, [BELOW["front right"]], rail)
    places = sorted(scene.back(line.start, 2, rail[2])[0] for line in dimension_lines(drawing)[:2])
    assert places == pytest.approx([plates["CP5"][3], right], abs=8.0)
    assert "CP5 caster plate 170 × 170 flush rear" in " ".join(text.text for text in drawing.texts())


def test_a_stick_shows_in_its_place_with_the_posts_that_it_sets() -> None:
    done = figures("demo")
    step = next(step for step in done.assembly.steps if step.key == "base-square")
    drawing = draw_step(done, step, Ruler())
    assert drawing is not None
    rail = next(box(shape) for shape in done.assembly.shapes if shape.mark == "B1")
    posts = [
        box(shape) for shape in done.assembly.shapes if shape.is_frame and shape.mark in ("D1", "D2", "D3")
    ]
    assert sorted(float(text.text) for text in numbers(drawing)) == sorted(
        post[0] - rail[0] for post in posts
    )
    assert "X-front stick" in {text.text for text in drawing.texts()}


@pytest.mark.parametrize("both", [False, True])
@pytest.mark.parametrize("name", BENCHES)
def test_a_dimension_meets_nothing(name: str, both: bool) -> None:
    """Its figures meet no lettering, line, ring, arrow, window or body; its lines no lettering, ring or arrow."""
    seen = 0
    for _, drawing in shown(name, both=both):
        lines = [shapely.LineString((line.start, line.end)) for line in dimension_lines(drawing)]
        if not lines:
            continue
        seen += 1
        keyed = [box for _, box, _ in letters_of(drawing)]
        texts = [text for text in drawing.texts() if text.extent() not in keyed]
        boxes = [(text, shapely.box(*corners_of(text.extent()))) for text in texts]
        for (one, a), (other, b) in combinations(boxes, 2):
            assert a.intersection(b).area < 0.01, (drawing.id, one, other)
        figures_of = [(text, room) for text, room in boxes if any(line.distance(room) < 2 for line in lines)]
        for line, (text, room) in product((*lines, *leaders(drawing)), boxes):
            assert not line.intersects(room), (drawing.id, text.text)
        rings = [s for s in drawing.shapes if isinstance(s, Circle) and s.radius > 1.5]
        discs = [shapely.Point(s.centre).buffer(s.radius) for s in (*rings, *windows(drawing))]
        for shape in (*discs, *arrows(drawing)):
            assert not any(shape.intersects(line) for line in lines), drawing.id
            for text, room in figures_of:
                assert text.text.isdigit() or not shape.intersects(room), (drawing.id, text.text)
    assert seen


def test_figures_are_large_enough_on_a_phone() -> None:
    """118 mm on 358 px: capitals of 2.5 mm are letters of 10 px."""
    for _, drawing in shown("demo"):
        if drawing.id.endswith("-slim"):
            for text in numbers(drawing):
                assert text.height / 0.729 * 358 / 118 >= 10
