"""The bench in three dimensions, read by an independent reader of meshes."""

from __future__ import annotations

import io
import json
import struct
from functools import cache
from typing import Any

import pytest
import trimesh

from generator.drawings.solid_scene import solid_scene
from generator.pages.page import ruler_for
from generator.writers.glb import to_glb
from tests.prints.bench import figures_of


@cache
def data(name: str) -> bytes:
    figures = figures_of(name)
    return to_glb(solid_scene(figures, ruler_for(figures)))


def read(name: str) -> trimesh.Scene:
    scene = trimesh.load(io.BytesIO(data(name)), file_type="glb")
    assert isinstance(scene, trimesh.Scene)
    return scene


def extras(name: str) -> dict[str, dict[str, Any]]:
    """What each node says of its piece."""
    size, kind = struct.unpack_from("<I4s", data(name), 12)
    assert kind == b"JSON"
    nodes = json.loads(data(name)[20 : 20 + size])["nodes"]
    return {node["name"]: node["extras"] for node in nodes if "extras" in node}


def test_the_bench_is_as_large_as_its_figures_say() -> None:
    """In metres, Y up, the front towards +Z."""
    layout, scene = figures_of("demo").layout, read("demo")
    sizes = [float(size) / 1000 for size in (layout.length, layout.height, layout.depth)]
    assert scene.extents == pytest.approx(sizes, abs=1e-6)
    assert scene.bounds[0][0] == pytest.approx(0, abs=1e-6)
    assert scene.bounds[1][2] == pytest.approx(0, abs=1e-6)


def test_every_piece_is_there_with_its_volume_size_and_step() -> None:
    """Normals outward: a mesh turned inside out has a volume below zero."""
    figures, scene = figures_of("demo"), read("demo")
    steps = {step.n: step for step in figures.assembly.steps}
    rows = {mark: row for row in figures.parts for mark in row.marks}
    bodies = {body.name: body for body in figures.assembly.solids}
    said = extras("demo")
    assert set(rows) <= set(bodies) <= set(scene.graph.nodes_geometry)
    for mark, body in bodies.items():
        place, mesh = scene.graph.get(mark)
        low = [body.bounds[0], body.bounds[2], -body.bounds[4]]
        shown = scene.geometry[mesh].copy().apply_transform(place)
        assert shown.volume == pytest.approx(body.volume / 1e9, rel=1e-4), mark
        assert shown.bounds[0] == pytest.approx([value / 1000 for value in low], abs=1e-5), mark
        assert said[mark]["mark"] == mark
        assert any(mark in motion.marks for motion in steps[said[mark]["step"]].motions)
        if mark in rows:
            row = rows[mark]
            assert said[mark]["size_mm"] == [float(each) for each in (row.length, row.width, row.thickness)]
