"""The step pictures of the shipped benches, and the shapes that mean something in them."""

from __future__ import annotations

from functools import cache

import shapely

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.corners import draw_corners
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.shapes import Circle, Line, Polyline
from generator.drawings.step import draw_step
from generator.drawings.step_homes import pictured
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.resources import bundled
from generator.spec.load import read_spec_file

BENCHES = ("demo", "wall-bench", "starter")


@cache
def figures(name: str) -> Figures:
    loaded = read_spec_file(bundled("specs") / f"{name}.yml")
    return compute(solve(loaded))[0]


@cache
def drawings(name: str) -> tuple[Drawing, ...]:
    done = figures(name)
    shown = (each.step for step in done.assembly.steps for each in pictured(done, step))
    pictures = (draw_step(done, step, Ruler(both=True)) for step in shown)
    return (draw_corners(done, Ruler())[0], *(picture for picture in pictures if picture))


def leaders(drawing: Drawing) -> list[shapely.LineString]:
    """From a label to a point of its piece."""
    dots = {s.centre for s in drawing.shapes if isinstance(s, Circle) and s.style == "arrow"}
    lines = [s for s in drawing.shapes if isinstance(s, Line) and s.style == "thin" and s.end in dots]
    return [shapely.LineString((line.start, line.end)) for line in lines]


def arrows(drawing: Drawing) -> list[shapely.Polygon]:
    """The fat ones, not the heads of the signpost."""
    found = [s.points for s in drawing.shapes if isinstance(s, Polyline) and s.style == "arrow"]
    return [shapely.Polygon(points) for points in found if len(points) > 3]


def windows(drawing: Drawing) -> list[Circle]:
    """The round ones, into a joint."""
    return [s for s in drawing.shapes if isinstance(s, Circle) and s.radius > 10 and s.style == "outline"]


def rings(drawing: Drawing) -> list[Circle]:
    """Those about joints, and those on the rims of windows that bear their letters."""
    found = [s for s in drawing.shapes if isinstance(s, Circle) and s.style in ("outline", "hidden")]
    return [ring for ring in found if 1 < ring.radius < 10]


def letters_of(drawing: Drawing) -> list[tuple[str, Extent, Circle]]:
    """The letters in rings: each with the room that it takes and its ring."""
    found = []
    for ring in rings(drawing):
        own = [(t, box) for t, box in drawing.text_boxes() if ring.extent().grown(0.1).contains(box)]
        found += [(text, box, ring) for text, box in own if text in ("a", "b", "c")]
    return found


def corners_of(box: Extent) -> tuple[float, float, float, float]:
    return (box.left, box.top, box.right, box.bottom)
