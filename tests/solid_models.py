"""The bench once more as solids, by an independent geometry library and from the parts' own data.

Bars are polygons drawn out, holes are round, boards are cubes less cubes. Nothing here knows how the tool
builds its blocks, so agreement of the two means something.
"""

from __future__ import annotations

from collections.abc import Iterable

import manifold3d as m3
import numpy as np

from generator.bench.model import Bench, Part
from generator.calculators.fasteners import THREADS
from generator.geometry import AXES, FACES
from generator.spec.goods import Profile
from generator.spec.schema import Spec

SEGMENTS = 64


def cube(low: Iterable[float], high: Iterable[float]) -> m3.Manifold:
    low, high = np.array(list(low), float), np.array(list(high), float)
    return m3.Manifold.cube(high - low).translate(low)


def box(part: Part) -> tuple[list[float], list[float]]:
    return ([float(part.box.span(a).low) for a in AXES], [float(part.box.span(a).high) for a in AXES])


def turned(solid: m3.Manifold, along: str) -> m3.Manifold:
    """A solid drawn out along Z, turned so that its length lies along an axis."""
    if along == "z":
        return solid
    swap = {"x": [[0, 0, 1], [0, 1, 0], [1, 0, 0]], "y": [[1, 0, 0], [0, 0, 1], [0, 1, 0]]}[along]
    matrix = np.hstack([np.array(swap, float), np.zeros((3, 1))])
    return solid.transform(matrix)


def bar(part: Part, profile: Profile) -> m3.Manifold:
    s, slot = float(profile.section), profile.slot
    w, d, lip, u = (float(v) for v in (slot.opening, slot.depth, slot.lip, slot.undercut))

    def rectangle(width: float, near: float, far: float) -> m3.CrossSection:
        return m3.CrossSection.square((width, far - near)).translate((-width / 2, near - s / 2))

    notch = rectangle(w, -1, lip) + rectangle(u, lip, d)
    section = m3.CrossSection.square((s, s), center=True)
    for quarter in range(4):
        section -= notch.rotate(90 * quarter)
    solid = section.translate((s / 2, s / 2)).extrude(float(part.length))
    low, high = box(part)
    solid = turned(solid, part.along).translate(low)
    for op in part.operations:
        solid -= hole(part, op, low, high)
    return solid


def hole(part: Part, op, low: list[float], high: list[float]) -> m3.Manifold:
    axis = next(a for a in AXES if op.face in FACES[a])
    index, end = AXES.index(axis), FACES[axis].index(op.face)
    depth = float(op.depth) if op.depth is not None else high[index] - low[index] + 2
    start = (high[index] - depth if end else low[index]) if op.depth is not None else low[index] - 1
    centre = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    if axis != part.along:
        centre[AXES.index(part.along)] = low[AXES.index(part.along)] + float(op.at[0])
    centre[index] = start
    if op.op == "relief":
        along, across = (float(v) for v in op.size)
        size = [across] * 3
        size[index], size[AXES.index(part.along)] = depth, along
        corner = [c - v / 2 for c, v in zip(centre, size, strict=True)]
        corner[index] = start
        return cube(corner, [c + v for c, v in zip(corner, size, strict=True)])
    round_hole = m3.Manifold.cylinder(depth, float(op.size) / 2, circular_segments=SEGMENTS)
    return turned(round_hole, axis).translate(centre)


def board(part: Part, drawer=None) -> m3.Manifold:
    low, high = box(part)
    solid = cube(low, high)
    thin = next(i for i, a in enumerate(AXES) if a not in (part.along, part.across))
    if part.fit is not None and part.tongues:
        rabbet, length = float(part.fit.rabbet_depth), float(part.fit.rabbet_length)
        for edge in part.tongues:
            axis = next(i for i, a in enumerate(AXES) if edge in FACES[a])
            for face in (0, 1):
                start, stop = [v - 1 for v in low], [v + 1 for v in high]
                if FACES[AXES[axis]].index(edge):
                    start[axis] = high[axis] - length
                else:
                    stop[axis] = low[axis] + length
                if face:
                    start[thin] = high[thin] - rabbet
                else:
                    stop[thin] = low[thin] + rabbet
                solid -= cube(start, stop)
    for notch in part.notches:
        start, stop = [v - 1 for v in low], [v + 1 for v in high]
        for edge in notch.corner.split():
            axis = next(i for i, a in enumerate(AXES) if edge in FACES[a])
            size = float(notch.along if AXES[axis] == part.along else notch.across)
            if FACES[AXES[axis]].index(edge):
                start[axis] = high[axis] - size
            else:
                stop[axis] = low[axis] + size
        solid -= cube(start, stop)
    for op in part.operations:
        if op.op == "cut-out":
            start, stop = [v - 1 for v in low], [v + 1 for v in high]
            for a, at, size in zip((part.along, part.across), op.at, op.size, strict=True):
                i = AXES.index(a)
                start[i], stop[i] = low[i] + float(at - size / 2), low[i] + float(at + size / 2)
            solid -= cube(start, stop)
        if op.op == "groove" and drawer is not None:
            start, stop = [v - 1 for v in low], [v + 1 for v in high]
            up = AXES.index(part.across)
            start[up] = low[up] + float(op.at[1] - op.size[1] / 2)
            stop[up] = low[up] + float(op.at[1] + op.size[1] / 2)
            if (low[thin] + high[thin]) / 2 < drawer[thin]:
                start[thin] = high[thin] - float(op.depth)
            else:
                stop[thin] = low[thin] + float(op.depth)
            solid -= cube(start, stop)
    return solid


def angle(part: Part) -> m3.Manifold:
    low, high = box(part)
    t = float(part.thickness)
    inner = (list(low), list(high))
    inner[0][2] += t
    if part.place.side == "front":
        inner[0][1] += t
    else:
        inner[1][1] -= t
    return cube(low, high) - cube(*inner)


def model(part: Part, spec: Spec) -> m3.Manifold:
    if part.kind == "profile":
        return bar(part, spec.materials[spec.frame.material])
    return angle(part) if part.kind == "angle" else board(part)


def models(bench: Bench) -> dict[str, m3.Manifold]:
    spec = bench.spec
    middles: dict[str, list[float]] = {}
    for part in bench.parts:
        if part.group == "drawer bottom":
            middles[part.place] = [float(part.box.span(a).middle) for a in AXES]
    return {
        part.mark: board(part, middles.get(part.place))
        if part.group.startswith("drawer")
        else model(part, spec)
        for part in bench.parts
    }


def centre(solid: m3.Manifold) -> np.ndarray:
    """Centre of mass, from the tetrahedra between the origin and each triangle."""
    mesh = solid.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3][np.asarray(mesh.tri_verts)]
    volumes = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6
    return (corners.sum(axis=1) / 4 * volumes[:, None]).sum(axis=0) / volumes.sum()


#: Heads of cap screws (mm), off the printed tables of ISO 4762 and ASME B18.3; from memory.
CAP_SCREW_HEADS = {
    "M6": 10.0,
    "M8": 13.0,
    "M10": 16.0,
    "1/4-20": 9.525,
    "5/16-18": 11.9126,
    "3/8-16": 14.2748,
}


def fastener_solid(joint, member: Part, crossing: Part, item, profile: Profile) -> m3.Manifold:
    """Clip and button head in the crossing slot, or the screw from its counterbore, as round solids."""
    axis = next(a for a in AXES if joint.end in FACES[a])
    index, sign = AXES.index(axis), 1 if FACES[axis].index(joint.end) else -1
    face = float(member.box.span(axis).high if sign > 0 else member.box.span(axis).low)
    middle = [float(member.box.span(a).middle) for a in AXES]
    diameter = float(THREADS[item.screw.thread].diameter)

    def cylinder(near: float, far: float, width: float) -> m3.Manifold:
        low = min(face + sign * near, face + sign * far)
        at = list(middle)
        at[index] = low
        return turned(
            m3.Manifold.cylinder(abs(far - near), width / 2, circular_segments=SEGMENTS), axis
        ).translate(at)

    if item.kind == "through screw":
        floor = float(profile.section - item.counterbore.depth)
        shank = cylinder(floor - float(item.screw.length), floor, diameter)
        return shank + cylinder(floor, floor + diameter, CAP_SCREW_HEADS[item.screw.thread])
    long, wide, thick = (float(v) for v in item.clip)
    lip = float(profile.slot.lip)
    size = [wide] * 3
    size[AXES.index(crossing.along)], size[index] = long, thick
    centre_at = list(middle)
    centre_at[index] = face + sign * (lip + thick / 2)
    plate = cube(
        [c - v / 2 for c, v in zip(centre_at, size, strict=True)],
        [c + v / 2 for c, v in zip(centre_at, size, strict=True)],
    )
    under = lip + thick
    shank = cylinder(under - float(item.screw.length), under, diameter)
    return plate + shank + cylinder(under, under + float(item.head_height), 1.75 * diameter)


def all_models(bench: Bench, bodies) -> dict[str, m3.Manifold]:
    """Every body of a bench; slides and totes, which are blocks, straight from their outlines."""
    spec = bench.spec
    solids = models(bench)
    parts = {part.mark: part for part in bench.parts}
    profile = spec.materials[spec.frame.material]
    for joint in bench.joints:
        item = spec.hardware[joint.fastener]
        name = f"{joint.member} {joint.end} {'clip' if item.kind == 'end clip' else 'screw'}"
        solids[name] = fastener_solid(joint, parts[joint.member], parts[joint.crossing], item, profile)
    for body in bodies:
        if body.name not in solids:
            solids[body.name] = m3.Manifold.compose([cube(b[:3], b[3:]) for b in body.blocks])
    return solids
