"""Screws whose places a step lists: those in pockets of walls, and those through a board that lies on them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from math import cos, radians, sin

from generator.calculators.bodies import Body
from generator.drawings.mark_runs import by_number
from generator.drawings.step_screws import HEAD, PlacedScrew, driven
from generator.figures.model import Figures
from generator.figures.rows.assembly import Fixing, PlaceRow, Step

#: A pocket's slope, and the wood before the head of its screw (mm): as the screws of the tray are chosen.
SLOPE, BEFORE_HEAD = 15.0, 16.0
#: A pocket is so many times as wide as the head of its screw.
POCKET = 1.15
#: The faces that are the far ones of their axes.
FAR = ("right", "rear", "top")
#: What a list of places calls it.
IN_POCKET = "pocket"


def placed(
    figures: Figures, step: Step, bodies: Mapping[str, Body]
) -> Iterator[tuple[PlacedScrew, int, str]]:
    """Screws whose places the step lists, each with the axis across which a section shows it and what it goes into."""
    for row in step.places:
        body = bodies.get(row.part)
        for fixing in step.fixings:
            if body is None or not fixing.tool:
                continue
            if row.item == IN_POCKET and row.item in fixing.item:
                yield from (
                    (each, 1, f"in the {row.face} face of {row.part}, up")
                    for each in _pockets(figures, fixing, row, body)
                )
            elif row.item == "hole" and IN_POCKET not in fixing.item and "tray" in fixing.item:
                for at in row.at:
                    head = (
                        body.bounds[0] + float(row.across or 0),
                        body.bounds[1] + float(at),
                        body.bounds[5],
                    )
                    down = (0.0, 0.0, -1.0)
                yield driven(figures, fixing, head, down, row.part), 1, f"down through {row.part}"


def _pockets(figures: Figures, fixing: Fixing, row: PlaceRow, wall: Body) -> Iterator[PlacedScrew]:
    x0, y0, _, x1, _, z1 = wall.bounds
    side = 1 if row.face in FAR else -1
    way = (-side * sin(radians(SLOPE)), 0.0, cos(radians(SLOPE)))
    for at in row.at:
        top = ((x0 + x1) / 2, y0 + float(at), z1)
        head = tuple(value - BEFORE_HEAD * along for value, along in zip(top, way, strict=True))
        one = driven(figures, fixing, head, way, row.part)
        yield replace(one, pocket=POCKET * HEAD * one.shank)


def pocket_faces(step: Step) -> str:
    """`pockets in the left face of BD1, FD1; right face of FD3`, of all walls that have some; nothing without any."""
    faces: dict[str, list[str]] = {}
    for row in step.places:
        if row.item == IN_POCKET:
            faces.setdefault(row.face, []).append(row.part)
    listed = (f"{face} face of {', '.join(sorted(own, key=by_number))}" for face, own in faces.items())
    return f"pockets in the {'; '.join(listed)}" if faces else ""
