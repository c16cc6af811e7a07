"""Random benches of timber, each proved by geometry of its own: `python -m tests.benchmarks.timbers 200`.

Counted: benches that follow, overlaps between any two solids, tenons that do not fill their mortises, sums that do not
close, volumes that are not what the machining leaves, hardware that is not what the joints ask for, orders not proved.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Iterator
from itertools import combinations

import numpy as np

from generator.bench.assembly_proof import assembly_proof
from generator.bench.model import Bench
from generator.bench.piece import MORTISES, TENONS, Operation, Part
from generator.bench.solids import solid_bodies
from generator.bench.solve import solve
from generator.calculators.bodies import Body
from generator.figures.hardware import hardware
from generator.figures.parts import piece_mass
from generator.findings import SpecError
from generator.geometry import FACES
from generator.spec.load import read_spec

#: Where two cuts meet, a mass counts both: of a timber so much at most.
MEETING_CUTS = 2e-3
#: Less than this (mm³) is rounding.
NOTHING = 1e-3


def spec_of(seed: int) -> str:
    """A spec of a bench of timber that a shop could ask for."""
    dice = random.Random(seed)
    post = dice.choice((70, 75, 80, 90))
    rail = dice.choice((post, post + 20, post + 30))
    length, depth = dice.randrange(1100, 2400, 10), dice.randrange(620, 1000, 10)
    zones = 2 if depth > 850 and dice.random() < 0.6 else 1
    tenon = dice.choice((20, 23, 25))
    tops = dice.choice(("tenon", "bolt" if rail == post else "tenon", "pocket", "bridle"))
    grip = dice.choice((50, 60))
    shortest = 2 + post - 12 + grip + 6
    default = dice.choice(("tenon", "tenon", "lap", "bolt" if rail == post else "tenon", "bridle", "pocket"))
    if zones > 1 and "pocket" in (default, tops):
        default = tops = "bridle"  # a post between two zones has grooves where its pockets would be: refused
    corner = dice.choice(("bolt", "bolt", "screw", "pocket"))
    return f"""spec: 1
title: Random {seed}
bench: {{length: {length}, depth: {depth}, height: {dice.randrange(850, 960, 10)}}}
materials:
  leg: {{kind: timber, section: [{post}, {post}], density: 500 kg/m^3}}
  lie: {{kind: timber, section: [{post}, {rail}], density: 500 kg/m^3}}
  ply-12: {{use: plywood 12, thickness: {dice.choice((11.5, 11.7, 12))}}}
  packing: {{use: strip 50 x 45}}
hardware:
  slide-300: {{use: slide 300}}
  tenon: {{kind: mortise and tenon, thickness: {tenon}, length: {dice.randrange(30, 70, 5)}}}
  bolt:
    {{kind: barrel bolt, screw: M8x{-(-shortest // 10) * 10}, hole: 9, washer: [24, 2],
     barrel: {{diameter: 12, length: 40, from_end: {grip}}}, recess: {{diameter: 26, depth: 12}}}}
  lap: {{kind: half lap}}
  bridle: {{kind: bridle}}
  pocket: {{kind: pocket screw, screw: 4x60, count: {dice.choice((1, 2))}}}
  screw:
    {{kind: structural screw, diameter: 8, length: {post + 90}, head: [15, 6], hole: 8.5, pilot: 5.5,
     recess: {{diameter: 18, depth: 10}}, count: {dice.choice((1, 2))}}}
frame:
  {{system: timber, posts: leg, rails: lie, groove: {dice.choice((8, 10))},
   joints: {{default: {default}, long_rails_to_corner_posts: {corner},
   inner_post_tops: {tops}}}}}
drawers: {{packing: packing, slide: slide-300}}
zones:
{"".join(_zone(dice, number, length, post) for number in range(zones))}
base: {{{dice.choice(("feet: foot, count: 4", "count: 4"))}, plate: {{size: [220, 200], thickness: 12}}}}
"""


def _zone(dice: random.Random, number: int, length: int, post: int) -> str:
    bays = dice.randint(1, max(1, min(4, (length - post) // (330 + post))))
    stacks = ("[{shelf: 150}]", "[]", "[{drawer: share}, {drawer: share}]", "[{drawer: share}]")
    rows = "".join(f"      - {{width: share, stack: {dice.choice(stacks)}}}\n" for _ in range(bays))
    return f"  - name: zone {number}\n    depth: share\n    bays:\n{rows}"


def faults(bench: Bench) -> Iterator[str]:
    """All that is wrong with a bench, in words."""
    bodies = solid_bodies(bench)
    yield from _overlaps(bodies)
    yield from _sums(bench)
    yield from _volumes(bench, {body.name: body for body in bodies})
    yield from _joints(bench)
    yield from _holes(bench)
    if not assembly_proof(bench).proof.ok:
        yield "the order is not proved"


def _overlaps(bodies: tuple[Body, ...]) -> Iterator[str]:
    """Every pair of blocks of different bodies, all at once: no tree, no bounds, no tolerance but rounding."""
    blocks = np.array([block for body in bodies for block in body.blocks])
    owner = np.array([number for number, body in enumerate(bodies) for _ in body.blocks])
    for number, block in enumerate(blocks):
        rest = blocks[number + 1 :]
        common = np.minimum(block[3:], rest[:, 3:]) - np.maximum(block[:3], rest[:, :3])
        hit = (common > 1e-6).all(axis=1) & (owner[number + 1 :] != owner[number])
        for at in np.flatnonzero(hit):
            if common[at].prod() > NOTHING:
                names = (bodies[owner[number]].name, bodies[owner[number + 1 + at]].name)
                yield f"{names[0]} and {names[1]} overlap by {common[at]}"


def _sums(bench: Bench) -> Iterator[str]:
    plan = bench.layout
    for zone in plan.zones:
        if sum(bay.width for bay in zone.bays) + (len(zone.bays) + 1) * plan.section != plan.length:
            yield f"{zone.name} does not close"
    if sum(zone.y.size for zone in plan.zones) + (len(plan.zones) + 1) * plan.section != plan.depth:
        yield "the depth does not close"
    for part in bench.parts:
        if part.is_bar and part.length != part.shoulders.span(part.along).size + sum(part.tenons.values()):
            yield f"{part.mark} is not its shoulders and tenons"


def _volumes(bench: Bench, bodies: dict[str, Body]) -> Iterator[str]:
    """The solid against the outline, its tenons and laps and a fine count of what the voids take, each cell once."""
    for part in bench.parts:
        if not part.is_bar:
            continue
        box = part.shoulders
        whole = [
            ([float(box.span(axis).low) for axis in "xyz"], [float(box.span(axis).high) for axis in "xyz"])
        ]
        whole += [_void(part, op) for op in part.operations if op.op in TENONS]
        left = _left(whole, [_void(part, op) for op in part.operations if op.op not in TENONS])
        yield from _weighs(bench, part, left)
        if abs(bodies[part.mark].volume - left) > 1:
            yield f"{part.mark}: {bodies[part.mark].volume} mm³, by its machining {left}"


def _weighs(bench: Bench, part: Part, left: float) -> Iterator[str]:
    """Its mass against the wood that is left: a round hole leaves the corners of its square, a pocket half its box."""
    for op in part.operations:
        low, high = _void(part, op)
        box = float(np.prod(np.subtract(high, low)))
        left += box * ((1 - np.pi / 4) * (not isinstance(op.size, tuple)) + (op.op == "screw pocket") / 2)
    weight = left * float(bench.goods.timbers[part.material].density) * 1e-9
    if abs(piece_mass(bench, part) / weight - 1) > MEETING_CUTS:
        yield f"{part.mark}: {piece_mass(bench, part)} kg, its wood {weight}"


_Corners = tuple[list[float], list[float]]


def _void(part: Part, op: Operation) -> _Corners:
    """Low and high corner of what an operation cuts away; round holes are the squares about them."""
    axis = next(axis for axis, faces in FACES.items() if op.face in faces)
    along, wide = op.size if isinstance(op.size, tuple) else (op.size, op.size)
    others = [each for each in "xyz" if each != axis]
    spans = {each: (float(part.box.span(each).low), float(part.box.span(each).high)) for each in "xyz"}
    if op.depth is not None:
        low, high = spans[axis]
        spans[axis] = (
            (low, low + float(op.depth)) if op.face == FACES[axis][0] else (high - float(op.depth), high)
        )
    for each in others:
        low, high = (float(part.box.span(each).low), float(part.box.span(each).high))
        if axis == part.along:
            middle = low + float(op.at[1]) if each == part.across else (low + high) / 2 + float(op.aside)
            size = float(along if each == others[0] else wide)
        else:
            at, extent = (op.at[0], along) if each == part.along else (op.at[1], wide)
            middle, size = low + float(at), float(extent)
        spans[each] = (max(low, middle - size / 2), min(high, middle + size / 2))
    return [spans[each][0] for each in "xyz"], [spans[each][1] for each in "xyz"]


def _left(whole: list[_Corners], voids: list[_Corners]) -> float:
    """Volume of some boxes less others, by the cells between all their faces."""
    edges = [np.unique([corner[axis] for box in (*whole, *voids) for corner in box]) for axis in range(3)]
    taken = np.zeros([len(each) - 1 for each in edges], dtype=bool)
    for boxes, there in ((whole, True), (voids, False)):
        for low, high in boxes:
            cells = tuple(
                slice(*np.searchsorted(each, (low[axis], high[axis]))) for axis, each in enumerate(edges)
            )
            taken[cells] = there
    sizes = (
        np.diff(edges[0])[:, None, None] * np.diff(edges[1])[None, :, None] * np.diff(edges[2])[None, None, :]
    )
    return float(sizes[taken].sum())


#: A kind of joint, what each of its fasteners takes, and the holes that it has.
_GOODS = (
    (
        "barrel bolt", ("barrel bolt", "barrel nut", "bolt washer"),
        ("bolt hole", "washer recess", "barrel hole", "end bolt hole"),
    ),
    ("structural screw", ("structural screw",), ("screw hole", "screw recess", "end pilot hole")),
    ("pocket screw", ("pocket-hole screw",), ("screw pocket", "pocket pilot hole")),
)  # fmt: skip


def _joints(bench: Bench) -> Iterator[str]:
    """A mortise for each tenon, as wide and 2 deeper; a notch for each lap; for each bolted end its goods and holes."""
    tenons: dict[str, list[Operation]] = {}
    mortises: dict[str, list[Operation]] = {}
    for part in bench.parts:
        for op in part.operations:
            if op.op in TENONS:
                tenons.setdefault(f"{part.mark}, {op.face} end", []).append(op)
            elif op.op in MORTISES:
                mortises.setdefault(op.purpose, []).append(op)
    for end, own in tenons.items():
        wanted = [(sorted(op.size), op.depth + 2 * (op.op == "tenon")) for op in own]  # type: ignore[arg-type, operator]
        if wanted != [(sorted(hole.size), hole.depth) for hole in mortises.pop(end, [])]:  # type: ignore[arg-type]
            yield f"{end}: its mortises are not {wanted}"
    if mortises:
        yield f"mortises without a tenon: {sorted(mortises)}"
    kinds = Counter(joint.kind for joint in bench.joints)
    bought = {row.kind: row.count for row in hardware(bench)}
    holes = Counter(op.op for part in bench.parts for op in part.operations)
    for kind, goods, drilled in _GOODS:
        count = sum(
            len(bench.joinings[joint.fastener].places) for joint in bench.joints if joint.kind == kind
        )
        if {bought.get(each, 0) for each in goods} | {holes[each] for each in drilled} != {count}:
            yield f"{kinds[kind]} ends with {kind}, and {bought}, {holes}"


#: Holes of one joint that are meant to meet.
_OWN = (
    {"washer recess", "bolt hole"}, {"barrel hole", "end bolt hole"}, {"screw recess", "screw hole"},
    {"screw pocket", "pocket pilot hole"},
)  # fmt: skip


def _holes(bench: Bench) -> Iterator[str]:
    """Holes and mortises of different joints that meet in one timber; the holes of one joint do."""
    for part in bench.parts:
        if not part.is_bar:
            continue
        cuts = [(op, _void(part, op)) for op in part.operations if op.op not in (*TENONS, "panel groove")]
        for (one, first), (other, second) in combinations(cuts, 2):
            if {one.op, other.op} not in _OWN and _meet(first, second):
                yield f"{part.mark}: {one.op} ({one.purpose}) meets {other.op} ({other.purpose})"


def _meet(one: _Corners, other: _Corners) -> bool:
    return all(
        min(a, b) - max(c, d) > 1e-6 for a, b, c, d in zip(one[1], other[1], one[0], other[0], strict=True)
    )


def tried(seed: int) -> list[str]:
    """What is wrong with one random bench; a refusal is told as such."""
    try:
        return list(faults(solve(read_spec(spec_of(seed), f"random-{seed}.yml"))))
    except SpecError as error:
        return [f"refused: {each.message}" for each in error.findings]


def main() -> None:
    """Try as many as the command line asks for, and say what is wrong."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    wrong = {seed: found for seed in range(count) if (found := tried(seed))}
    refused = sum(any(each.startswith("refused") for each in found) for found in wrong.values())
    for seed, found in wrong.items():
        print(seed, *found[:4], sep="\n  ")
    print(f"{count} benches, {refused} refused, {len(wrong) - refused} with faults")


if __name__ == "__main__":
    main()
