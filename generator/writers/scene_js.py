"""The scene of a bench as a script for the viewer in a page: it opens from a folder, where a page may fetch nothing.

The rows are lists in the order in which `site_templates/assets/viewer.js` reads them. A surface is numbers in base64
that count in a table of coordinates: six for a face (low corner, the two other coordinates of the high one, direction),
five for an edge (start, the coordinate of its end, axis). Round holes are three numbers each, at the end of a piece:
X, Y and diameter.
"""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable, Mapping
from typing import Any

import numpy as np

from generator.calculators.surfaces import Surface
from generator.drawings.solid_scene import SolidPiece, SolidScene
from generator.readings import other_reading, own_reading

#: Coordinates are written to this many decimals of a millimetre.
DECIMALS = 2


def to_scene_js(scene: SolidScene, links: Mapping[str, str]) -> str:
    """The script; `links` lead from a mark to the sheet of its part."""
    table = _Table()
    meshes = [[table.encoded(_faces(mesh)), table.encoded(_edges(mesh))] for mesh in scene.meshes]
    homes = _Table()
    pieces = [_piece(piece, homes, links) for piece in scene.pieces]
    steps = [
        [step.n, step.key, step.title, homes.at(step.home), step.down, list(step.lit)] for step in scene.steps
    ]
    data = {
        "coordinates": table.values,
        "meshes": [[table.text(numbers) for numbers in mesh] for mesh in meshes],
        "wide": table.wide,
        "homes": homes.values,
        "pieces": pieces,
        "steps": steps,
    }
    text = json.dumps(data, separators=(",", ":"), ensure_ascii=False)
    # in a script of its own a line ends also at these two
    return f"window.benchScene = {text.translate({0x2028: ' ', 0x2029: ' '})};\n"


class _Table:
    """Values that occur many times, each written once and counted from 0."""

    def __init__(self) -> None:
        self.values: list[Any] = []
        self._places: dict[Any, int] = {}

    def at(self, value: Any) -> int:
        """The number of a value."""
        if value not in self._places:
            self._places[value] = len(self.values)
            self.values.append(value)
        return self._places[value]

    @property
    def wide(self) -> bool:
        """Whether the numbers need four bytes instead of two."""
        return len(self.values) > np.iinfo(np.uint16).max

    def encoded(self, rows: Iterable[tuple[list[float], int]]) -> list[int]:
        """Rows of coordinates and a plain number as numbers one after another."""
        found = []
        for coordinates, last in rows:
            found += [*(self.at(round(value, DECIMALS)) for value in coordinates), last]
        return found

    def text(self, numbers: list[int]) -> str:
        """Numbers as base64, the low byte first."""
        return base64.b64encode(np.array(numbers, "<u4" if self.wide else "<u2").tobytes()).decode()


def _faces(mesh: Surface) -> Iterable[tuple[list[float], int]]:
    for quad in mesh.quads:
        others = [quad.high[axis] for axis in range(3) if axis != quad.axis]
        yield [*quad.low, *others], 2 * quad.axis + (quad.sign > 0)


def _edges(mesh: Surface) -> Iterable[tuple[list[float], int]]:
    for edge in mesh.edges:
        yield [*edge.start, edge.end[edge.axis]], edge.axis


def _piece(piece: SolidPiece, homes: _Table, links: Mapping[str, str]) -> list[Any]:
    sizes = [own_reading(piece.size), other_reading(piece.size)]
    moves = [[move.step, move.number, move.count, move.way, homes.at(move.into)] for move in piece.moves]
    words = [piece.mark, piece.name, piece.tint, *sizes, links.get(piece.mark, "")]
    holes = [round(number, DECIMALS) for hole in piece.holes for number in hole]
    return [*words, piece.mesh, list(piece.low), list(piece.apart), moves, *([holes] if holes else [])]
