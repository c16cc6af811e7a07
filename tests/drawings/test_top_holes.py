"""The holes of a perforated top in the pictures and in the scene: as many, and where the setting out has them."""

from __future__ import annotations

import json
from functools import cache
from itertools import product
from pathlib import Path

import numpy as np
import pytest

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.shapes import Polyline
from generator.drawings.solid_scene import solid_scene
from generator.drawings.step import draw_step
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.pages.page import ruler_for
from generator.resources import bundled
from generator.spec.load import read_spec
from generator.writers.scene_js import to_scene_js

DATA = Path(__file__).parents[1] / "data"
NAMES = ("demo", "wall-bench", "starter")
PLACES = {
    **{name: bundled("specs") / f"{name}.yml" for name in NAMES},
    # two layers of boards whose seams run through holes
    "assembly": bundled("specs") / "samples" / "assembly.yml",
    # an edging in front, an overhang, a recess and a slot
    "every-key": DATA / "every-key.yml",
}
benches = pytest.mark.parametrize("name", PLACES)


@cache
def figures_of(name: str) -> Figures:
    return compute(solve(read_spec(PLACES[name].read_text(encoding="utf-8"), name)))[0]


def set_out(figures: Figures) -> list[tuple[float, float]]:
    """The middles as page and stick have them, from the left front corner of the finished top."""
    grid = figures.top
    columns = [grid.margin_x + grid.pitch * n for n in range(grid.columns)]
    rows = [grid.margin_y + grid.pitch * n for n in range(grid.rows)]
    middles = set(
        product(
            (x for x in columns if x not in grid.omitted_columns),
            (y for y in rows if y not in grid.omitted_rows),
        )
    )
    return sorted((float(x), float(y)) for x, y in middles - set(grid.left_out))


def rings(picture: Drawing) -> list[tuple[float, float]]:
    """The middles of round holes on paper, in the order of drawing: closed lines of more than four corners."""
    return [
        (float(np.mean([x for x, _ in shape.points])), float(np.mean([y for _, y in shape.points])))
        for shape in picture.shapes
        if isinstance(shape, Polyline) and shape.style == "iso-slot-new" and len(shape.points) > 4
    ]


@pytest.mark.parametrize("name", NAMES)
def test_the_step_of_the_top_shows_each_hole_where_it_is_set_out(name: str) -> None:
    """One map of the plane onto the paper takes all middles of the plan to those of the picture (least squares)."""
    figures = figures_of(name)
    top = next(step for step in figures.assembly.steps if step.key == "top")
    picture = draw_step(figures, top, Ruler())
    assert picture
    drawn, plan = np.array(rings(picture)), np.array(set_out(figures))
    assert len(drawn) == len(plan) == figures.top.holes > 0
    plane = np.column_stack([plan, np.ones(len(plan))])
    found, *_ = np.linalg.lstsq(plane, drawn, rcond=None)
    assert np.abs(plane @ found - drawn).max() < 0.02
    # it is drawn at thirty degrees: along and across are equally long on paper, and 120 degrees apart
    along, across = found[0], found[1]
    lengths = np.hypot(*along), np.hypot(*across)
    assert lengths[0] == pytest.approx(lengths[1], rel=0.001)
    assert along @ across / (lengths[0] * lengths[1]) == pytest.approx(
        0.5 if along[1] * across[1] < 0 else -0.5, abs=0.01
    )


@benches
def test_the_scene_has_each_hole_within_its_board(name: str) -> None:
    """The script is read as the page reads it. One on the seam of two boards is in both, and so in each layer."""
    figures = figures_of(name)
    script = to_scene_js(solid_scene(figures, ruler_for(figures)), {})
    pieces = json.loads(script.removeprefix("window.benchScene = ").removesuffix(";\n"))["pieces"]
    found = []
    for piece in pieces:
        if len(piece) > 10:
            low, numbers = piece[7], piece[10]
            found += [
                (low[0] + x, low[1] + y, size)
                for x, y, size in zip(numbers[::3], numbers[1::3], numbers[2::3], strict=True)
            ]
    names = {mark: row.name for row in figures.parts for mark in row.marks if not row.is_bar}
    tops = [body.bounds for body in figures.assembly.solids if "top" in names.get(body.name, "")]
    left, front = min(bounds[0] for bounds in tops), min(bounds[1] for bounds in tops)
    assert {size for *_, size in found} == {float(figures.top.diameter)}
    places = sorted({(round(x - left, 2), round(y - front, 2)) for x, y, _ in found})
    assert np.array(places) == pytest.approx(np.array(set_out(figures)), abs=0.01)
