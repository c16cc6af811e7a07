"""The bench as binary glTF 2.0 (Khronos Group, ISO/IEC 12113): metres, Y up, the front of the bench towards +Z.

One node a piece, named by its mark; mark, size, kind and step are in its extras. Equal pieces share a mesh, every kind
of piece has a material.
"""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from generator.calculators.surfaces import Quad, Surface
from generator.drawings.solid_scene import SolidPiece, SolidScene
from generator.writers.looks import PAPER_TONES

MM_PER_METRE = 1000.0
VERSION = 2
_JSON, _BINARY = b"JSON", b"BIN\0"
_FLOAT, _INDEX = 5126, 5125
_VERTICES, _INDICES = 34962, 34963
_METALS = ("bar", "dark")
"""Tints of what is drawn as metal."""


def to_glb(scene: SolidScene) -> bytes:
    """The file of a scene, the same for the same scene."""
    file = _File()
    tints = tuple(dict.fromkeys(piece.tint for piece in scene.pieces))
    made = [file.geometry(mesh) for mesh in scene.meshes]
    meshes: dict[tuple[int, str], int] = {}
    named: list[dict[str, Any]] = []
    for piece in scene.pieces:
        key = (piece.mesh, piece.tint)
        if key not in meshes:
            meshes[key] = len(named)
            primitive = made[piece.mesh] | {"material": tints.index(piece.tint)}
            named.append({"name": piece.mark, "primitives": [primitive]})
    bench = {"name": scene.title, "children": list(range(1, len(scene.pieces) + 1))}
    nodes = [bench, *(_node(piece, meshes[piece.mesh, piece.tint]) for piece in scene.pieces)]
    document = {
        "asset": {"version": "2.0", "generator": "bench-manual"},
        "scene": 0,
        "scenes": [{"name": scene.title, "nodes": [0]}],
        "nodes": nodes,
        "meshes": named,
        "materials": [_material(tint) for tint in tints],
        "accessors": file.accessors,
        "bufferViews": file.views,
        "buffers": [{"byteLength": len(file.data)}],
    }
    return _container(document, bytes(file.data))


class _File:
    """The binary part while it grows: arrays one after another, each with its view and its accessor."""

    def __init__(self) -> None:
        self.data = bytearray()
        self.views: list[dict[str, int]] = []
        self.accessors: list[dict[str, Any]] = []

    def geometry(self, mesh: Surface) -> dict[str, Any]:
        """A surface as attributes and indices of a primitive."""
        places = np.array([_upright(corner) for quad in mesh.quads for corner in _ring(quad)], "<f4")
        places /= np.float32(MM_PER_METRE)
        normals = np.array([_upright(_normal(quad)) for quad in mesh.quads for _ in range(4)], "<f4")
        first = 4 * np.arange(len(mesh.quads))[:, None]
        corners = (first + np.array([0, 1, 2, 0, 2, 3])).ravel().astype("<u4")
        position = self._add(places, _VERTICES, _FLOAT, "VEC3")
        self.accessors[position] |= {
            "min": places.min(axis=0).tolist(),
            "max": places.max(axis=0).tolist(),
        }
        return {
            "attributes": {"POSITION": position, "NORMAL": self._add(normals, _VERTICES, _FLOAT, "VEC3")},
            "indices": self._add(corners, _INDICES, _INDEX, "SCALAR"),
        }

    def _add(self, values: NDArray[Any], target: int, component: int, kind: str) -> int:
        """Append an array of four-byte numbers; the number of its accessor."""
        view = {"buffer": 0, "byteOffset": len(self.data), "byteLength": values.nbytes, "target": target}
        self.views.append(view)
        self.data += values.tobytes()
        view_number = len(self.views) - 1
        self.accessors.append(
            {"bufferView": view_number, "componentType": component, "count": len(values), "type": kind}
        )
        return len(self.accessors) - 1


def _upright(corner: Sequence[float]) -> tuple[float, float, float]:
    """From X right, Y to the rear, Z up to X right, Y up, Z to the front."""
    return (corner[0], corner[2], -corner[1])


def _normal(quad: Quad) -> tuple[float, float, float]:
    x, y, z = (float(quad.sign) if axis == quad.axis else 0.0 for axis in range(3))
    return (x, y, z)


def _ring(quad: Quad) -> Sequence[tuple[float, ...]]:
    """Its corners, counter-clockwise as seen from outside."""
    along, across = ((quad.axis + turn) % 3 for turn in (1, 2))
    ends = [(0, 0), (1, 0), (1, 1), (0, 1)]
    ring = []
    for a, b in ends if quad.sign > 0 else reversed(ends):
        corner = list(quad.low)
        corner[along] = (quad.low, quad.high)[a][along]
        corner[across] = (quad.low, quad.high)[b][across]
        ring.append(tuple(corner))
    return ring


def _node(piece: SolidPiece, mesh: int) -> dict[str, Any]:
    extras: dict[str, Any] = {"mark": piece.mark, "kind": piece.kind, "size_mm": list(piece.millimetres)}
    if piece.name:
        extras["name"] = piece.name
    if piece.moves:
        extras["step"] = piece.moves[0].step
    place = [round(value / MM_PER_METRE, 6) for value in _upright(piece.low)]
    return {"name": piece.mark, "mesh": mesh, "translation": place, "extras": extras}


def _material(tint: str) -> dict[str, Any]:
    tone = PAPER_TONES[tint].removeprefix("#")
    colour = [_linear(int(tone[i : i + 2], 16) / 255) for i in (0, 2, 4)]
    metal = tint in _METALS
    surface = {
        "baseColorFactor": [*colour, 1],
        "metallicFactor": 0.6 if metal else 0,
        "roughnessFactor": 0.5 if metal else 0.8,
    }
    return {"name": tint, "pbrMetallicRoughness": surface}


def _linear(tone: float) -> float:
    """From sRGB as on a screen to linear light, as glTF asks for it (IEC 61966-2-1)."""
    return round(tone / 12.92 if tone <= 0.04045 else ((tone + 0.055) / 1.055) ** 2.4, 4)


def _container(document: Mapping[str, Any], data: bytes) -> bytes:
    """Header and the two chunks; the text is filled with spaces to whole words of four bytes."""
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=False).encode()
    text += b" " * (-len(text) % 4)
    chunks = [(_JSON, text), (_BINARY, data)]
    body = b"".join(struct.pack("<I4s", len(chunk), kind) + chunk for kind, chunk in chunks)
    return struct.pack("<4sII", b"glTF", VERSION, 12 + len(body)) + body
