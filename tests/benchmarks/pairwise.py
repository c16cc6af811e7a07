"""Filling, stand, top, unit and joints of timber frames, pairwise: `python -m tests.benchmarks.pairwise [EVERY]`.

The cases are few, and every two values of different columns meet in one of them. Each bench is solved, computed and
its pages are made. Judged by geometry and counts of their own: solids in one place, the order replayed with another
geometry library, sums, volumes, tenons and mortises, hardware by the joints, pieces on the sheets, glued bodies.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import combinations, product

import manifold3d as m3

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fasteners import fastener_name, nut_name
from generator.bench.model import Bench
from generator.bench.piece import TENONS, Part
from generator.bench.solids import solid_bodies
from generator.bench.solve import solve
from generator.calculators.bodies import Body
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import SpecError
from generator.geometry import AXES, FACES
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.load import read_spec
from tests.benchmarks.timbers import faults
from tests.replay import collisions
from tests.solid_models import board, cube, turned

#: Column -> its values: the words of the spec in millimetres and in inches.
FILLINGS: Mapping[str, tuple[str, str]] = {
    "drawers": ("stack: [{drawer: share}, {drawer: share 2}]", "stack: [{drawer: share}, {drawer: share 2}]"),
    "drawer below an open space": ("stack: [{drawer: share}, {open: 120}]", "stack: [{drawer: share}, {open: 5}]"),
    "pull-out": ("stack: [{pull-out: 120}]", "stack: [{pull-out: 5}]"),
    "shelves": ("stack: [{shelf: 80}, {shelf: 260}]", "stack: [{shelf: 3}, {shelf: 10}]"),
    "rack": ("stack: [{rack: share, slots: 3}]", "stack: [{rack: share, slots: 3}]"),
    "totes": ("stack: [{totes: tote, count: 2}]", "stack: [{totes: tote, count: 2}]"),
    "nothing": ("stack: []", "stack: []"),
    "shelf behind a door": ("stack: [{shelf: 200}], door: {hinge: left}", "stack: [{shelf: 8}], door: {hinge: left}"),
    "drawer behind a pair": (
        "stack: [{drawer: share}, {open: 150}], door: {hinge: pair}",
        "stack: [{drawer: share}, {open: 6}], door: {hinge: pair}",
    ),
}  # fmt: skip
STANDS: Mapping[str, tuple[str, str]] = {
    "casters": ("{count: 4, plate: {size: [220, 200]}}", "{count: 4, plate: {size: [8 3/4, 8], thickness: 1/2}}"),
    "feet": (
        "{feet: foot, count: 4, plate: {size: [180, 180], thickness: 12}}",
        "{feet: foot, count: 4, plate: {size: [8, 8], thickness: 1/2}}",
    ),
    "six feet": (
        "{feet: foot, count: 6, plate: {size: [180, 180], thickness: 12}}",
        "{feet: foot, count: 6, plate: {size: [8, 8], thickness: 1/2}}",
    ),
    "feet and casters": (
        "{casters: caster, feet: sleeve, lift: 6, count: 4, plate: {size: [260, 200], thickness: 12}}",
        "{casters: caster, feet: sleeve, lift: 1/4, count: 4, plate: {size: [10 3/4, 8], thickness: 1/2}}",
    ),
    "plinth": ("{plinth: {setback: 60}, count: 4}", "{plinth: {setback: 2 1/2}, count: 4}"),
}  # fmt: skip
TOPS: Mapping[str, tuple[str, str]] = {
    "board": ("{material: board, bracket: bracket}", "{material: board, bracket: bracket}"),
    "solid wood": ("{material: beech, bracket: angle}", "{material: beech, bracket: angle}"),
    "two boards": (
        "{material: board, boards: [share, share], bracket: bracket}",
        "{material: board, boards: [share, share], bracket: bracket}",
    ),
    "two layers": ("{material: board, layers: 2, bracket: bracket}", "{material: board, layers: 2, bracket: bracket}"),
    "edging": (
        "{material: board, edging: {material: oak, corners: mitred}, bracket: bracket}",
        "{material: board, edging: {material: oak, corners: mitred}, bracket: bracket}",
    ),
    "overhang": (
        "{material: board, overhang: 30, bracket: bracket}",
        "{material: board, overhang: 1, bracket: bracket}",
    ),
    "holes and a slot": (
        "{material: board, bracket: bracket, holes: {}, slots: [{name: s, along: y, at: 300, width: 19, depth: 8}]}",
        "{material: board, bracket: bracket, holes: {diameter: 3/4, pitch: 4, edge: 2 1/2, keep_clear: 1/8}, "
        "slots: [{name: s, along: y, at: 13, width: 3/4, depth: 3/8}]}",
    ),
    "vise": (
        "{material: board, layers: 2, bracket: bracket, "
        "vise: [{at: left front, jaw: [170, 60], reach: 220, drop: 110}]}",
        "{material: board, layers: 2, bracket: bracket, "
        "vise: [{at: left front, jaw: [7, 2 1/2], reach: 9, drop: 6 1/2}]}",
    ),
}  # fmt: skip
UNITS = ("mm", "in")
#: Joints: default, that of the long rails, that of the heads of the inner posts; and how high the rails are.
JOINTS: Mapping[str, tuple[str, bool]] = {
    "tenons and bolts": ("{default: tenon, long_rails_to_corner_posts: bolt, inner_post_tops: tenon}", True),
    "laps and screws": ("{default: lap, long_rails_to_corner_posts: screw, inner_post_tops: lap}", True),
    "tenons and screws": (
        "{default: tenon, long_rails_to_corner_posts: screw, inner_post_tops: tenon}",
        True,
    ),
    "bolts": ("{default: bolt, long_rails_to_corner_posts: bolt, inner_post_tops: bolt}", False),
}
COLUMNS: tuple[tuple[str, ...], ...] = (
    tuple(FILLINGS), tuple(STANDS), tuple(TOPS), UNITS, tuple(JOINTS),
)  # fmt: skip
Case = tuple[str, ...]
"""Filling, stand, top, unit, joints."""


def pairs_of(case: Case) -> set[tuple[int, str, int, str]]:
    """Every two values of a case, with their columns."""
    return {(i, one, j, other) for (i, one), (j, other) in combinations(enumerate(case), 2)}


@cache
def cases() -> list[Case]:
    """Few cases in which every two values meet: again and again the one with the most pairs that are still missing."""
    every = [Case(each) for each in product(*COLUMNS)]
    missing = set().union(*(pairs_of(case) for case in every))
    found = []
    while missing:
        best = max(every, key=lambda case: len(pairs_of(case) & missing))
        missing -= pairs_of(best)
        found.append(best)
    return found


_MM = """
bench: {length: 1700, depth: 800, height: 900}
materials:
  leg: {kind: timber, section: [70, 70], species: beech, density: 720 kg/m^3, stock: [{length: 3000}]}
  rail: {kind: timber, section: [70, HIGH], species: beech, density: 720 kg/m^3, stock: [{length: 3000}]}
  ply-12: {use: plywood 12, thickness: 11.7}
  board: {use: plywood 18}
  beech: {kind: sheet, label: glued beech, species: American beech, thickness: 30, density: 700 kg/m^3, modulus: 11 GPa}
  oak: {use: strip 50 x 20, species: white oak}
  cleat: {use: strip 50 x 20}
  packing: {use: strip 50 x 45}
  thick: {use: strip 50 x 45, thickness: 60}
hardware:
  bracket: {use: bracket 40}
  angle: {use: bracket 40, holes: [22], slot: 21}
  pull: {use: pull 128}
  hinge: {use: cup hinge 35 full}
  foot: {use: foot M10}
  sleeve: {use: foot M12 with sleeve}
  tenon: {use: tenon 23}
  lap: {use: half lap}
  bolt: {use: barrel bolt M8}
  screw:
    {kind: structural screw, diameter: 8, length: 160, head: [10, 6], hole: 8.5, pilot: 5.5,
     recess: {diameter: 12, depth: 10}, count: 2, apart: 50}
totes: {tote: {use: tote 145}}
zones:
  - {name: front, depth: share, bays: [{width: share}, {name: it, width: WIDE, FILLED}, {width: share}]}
"""
_INCH = """
bench: {length: 67, depth: 31 1/2, height: 36}
materials:
  leg: {kind: timber, section: [3 1/2, 3 1/2], species: Douglas fir, density: 540 kg/m^3, stock: [{length: 120}]}
  rail: {kind: timber, section: [3 1/2, HIGH], species: Douglas fir, density: 540 kg/m^3, stock: [{length: 120}]}
  ply-12: {use: plywood 1/2 in}
  board: {use: plywood 3/4 in}
  beech: {kind: sheet, label: glued beech, species: American beech, thickness: 1 1/4, density: 700 kg/m^3}
  oak: {use: strip 2 x 3/4 in, species: white oak}
  cleat: {use: strip 2 x 3/4 in}
  packing: {use: strip 2 x 1 3/4 in, thickness: 1 9/16, width: 2 1/2}
  thick: {use: strip 2 x 1 3/4 in, thickness: 2 1/2}
hardware:
  bracket: {use: bracket 1 1/2 in}
  angle: {use: bracket 1 1/2 in, holes: [7/8], slot: 7/8}
  pull: {use: pull 3 in}
  hinge: {use: cup hinge 35 full}
  foot: {use: foot 3/8 in}
  sleeve: {use: foot M12 with sleeve}
  tenon: {kind: mortise and tenon, thickness: 1, length: 1 3/4, stub: 1/2, shoulder: 3/8}
  lap: {kind: half lap, stub: 1/2}
  bolt:
    {kind: barrel bolt, screw: 5/16-18 x 6, hole: 11/32, washer: [1, 1/16],
     barrel: {diameter: 1/2, length: 1 1/2, from_end: 2 1/4}, recess: {diameter: 1 1/8, depth: 1/2}, beyond: 5/8}
  screw: {use: structural screw 5/16 x 7 in, recess: {diameter: 3/4, depth: 1/2}, count: 2, apart: 2}
totes: {tote: {use: tote 145}}
zones:
  - {name: front, depth: share, bays: [{width: share}, {name: it, width: WIDE, FILLED}, {width: share}]}
panels: {groove_clearance: 1/128}
"""


#: Clear width of the bay where it is not the usual one: rims of totes with their play.
_WIDTHS = {"totes": ("405", "15 7/8")}


def spec_of(case: Case) -> str:
    """A bench of three bays; the middle one is filled."""
    filling, stand, top, unit, joints = case
    inch = unit == "in"
    names, high = JOINTS[joints]
    body = (_INCH if inch else _MM).replace("FILLED", FILLINGS[filling][inch])
    body = body.replace("WIDE", _WIDTHS.get(filling, ("450", "18"))[inch])
    body = body.replace("HIGH", ("5 1/2" if inch else "95") if high else ("3 1/2" if inch else "70"))
    return f"""spec: 1
title: Case
units: {unit}
{body}
frame: {{system: timber, posts: leg, rails: rail, groove: {"3/8" if inch else 10}, joints: {names}}}
drawers: {{packing: packing, pull: pull, slide_setback: 2 mm}}
shelves: {{cleat: cleat}}
doors: {{material: board, hinge: hinge, pull: pull, packing: thick, mount: overlay}}
tray: {{material: ply-12}}
top: {TOPS[top][inch]}
base: {STANDS[stand][inch]}
"""


# --- solids of another geometry library


def timber_model(part: Part) -> m3.Manifold:
    """A timber between its shoulders, with its tenons and laps, less all that is cut into it; holes are round."""
    box = part.shoulders
    solid = cube(*(_ends(box, end) for end in ("low", "high")))
    operations = sorted(part.operations, key=lambda op: op.op not in TENONS)
    for op in operations:
        solid = solid + _cut(part, op) if op.op in TENONS else solid - _cut(part, op)
    return solid


def _ends(box: object, end: str) -> list[float]:
    return [float(getattr(box.span(axis), end)) for axis in AXES]  # type: ignore[attr-defined]


def _cut(part: Part, op: object) -> m3.Manifold:
    """What an operation takes or leaves, from the face of the part's outline as deep as it says."""
    face, size, at, depth = op.face, op.size, op.at, op.depth  # type: ignore[attr-defined]
    axis = next(each for each in AXES if face in FACES[each])
    low, high = _ends(part.box, "low"), _ends(part.box, "high")
    i = AXES.index(axis)
    deep = float(depth) if depth is not None else high[i] - low[i]
    start = high[i] - deep if FACES[axis].index(face) else low[i]
    others = [each for each in AXES if each != axis]
    middle, extent = dict[str, float](), dict[str, float]()
    for number, each in enumerate(others):
        j = AXES.index(each)
        if axis == part.along:
            middle[each] = (
                low[j] + float(at[1]) if each == part.across else (low[j] + high[j]) / 2 + float(op.aside)
            )  # type: ignore[attr-defined]
        else:
            middle[each] = low[j] + float(at[0] if each == part.along else at[1])
        if isinstance(size, tuple):
            pick = number if axis == part.along else (0 if each == part.along else 1)
            extent[each] = float(size[pick])
    if not isinstance(size, tuple):
        hole = turned(m3.Manifold.cylinder(deep, float(size) / 2, circular_segments=64), axis)
        return hole.translate([start if each == axis else middle[each] for each in AXES])
    first = [start if each == axis else middle[each] - extent[each] / 2 for each in AXES]
    last = [start + deep if each == axis else middle[each] + extent[each] / 2 for each in AXES]
    return cube(first, last)


def solids_of(bench: Bench, bodies: Sequence[Body]) -> dict[str, m3.Manifold]:
    """Every body: timbers and boards from their machining, bought goods from their outlines."""
    solids = {
        part.mark: timber_model(part) for part in bench.parts if part.is_bar
    } | {
        part.mark: board(part)
        for part in bench.parts
        if not part.is_bar and not part.group.startswith(("drawer", "rack", "top"))
    }  # fmt: skip
    solids |= dict(_fasteners(bench, {body.name: body for body in bodies}))
    for body in bodies:
        if body.name not in solids:
            solids[body.name] = m3.Manifold.compose([cube(b[:3], b[3:]) for b in body.blocks])
    return solids


def _round(block: Sequence[float]) -> m3.Manifold:
    """A screw, a head or a nut: the cylinder of a block that is as wide as it is thick."""
    sizes = [block[i + 3] - block[i] for i in range(3)]
    i = next(i for i in range(3) if abs(sizes[i - 1] - sizes[i - 2]) < 1e-6)
    solid = m3.Manifold.cylinder(sizes[i], sizes[i - 1] / 2, circular_segments=64)
    middle = [block[j] if j == i else (block[j] + block[j + 3]) / 2 for j in range(3)]
    return turned(solid, AXES[i]).translate(middle)


def _fasteners(bench: Bench, bodies: Mapping[str, Body]) -> Iterator[tuple[str, m3.Manifold]]:
    """Screws and bolts as cylinders; a round nut with the hole of its bolt."""
    for joint in bench.joints:
        name, nut = fastener_name(joint, bench.joinings[joint.fastener]), nut_name(joint)
        if name not in bodies:
            continue
        screw = m3.Manifold.compose([_round(block) for block in bodies[name].blocks])
        yield name, screw
        if nut in bodies:
            yield nut, _round(bodies[nut].bounds) - screw


# --- what is wrong with a case


def wrong_with(case: Case, pages: bool = True, replay: bool = True) -> list[str]:
    """What is wrong with one bench, in words: refused, an error that the checks find, or a law that does not hold.

    Without `replay` the solids of the other library are left out, which take most of the time.
    """
    try:
        bench = solve(read_spec(spec_of(case), "case.yml"))
    except SpecError as error:
        return [
            f"refused: {each.code.value} {each.where and each.where.path}: {each.message}"
            for each in error.findings
        ]
    figures, findings = compute(bench)
    found = [f"{each.code.value}: {each}" for each in findings if each.severity.name == "ERROR"]
    found += faults(bench)
    found += _replayed(bench) if replay else ()
    found += _in_the_plan(bench, figures)
    if pages:
        manual = Manual(bench.loaded, figures, "case.yml")
        found += [f"{page.slug} is empty" for page in PAGES if len(manual.page(page)) < 100]
    return found


def _replayed(bench: Bench) -> Iterator[str]:
    """Solids that share a volume on their way in, and timbers whose volume is not that of their blocks."""
    done = assembly_proof(bench)
    solids = solids_of(bench, done.bodies)
    blocks = {body.name: body for body in solid_bodies(bench)}
    for part in bench.parts:
        if part.is_bar and solids[part.mark].volume() < blocks[part.mark].volume - 1:
            yield f"{part.mark}: {solids[part.mark].volume():.0f} mm³ by its machining, {blocks[part.mark].volume:.0f}"
    for moving, standing, far, volume in collisions(done.proof, solids)[:3]:
        yield f"{moving} meets {standing} {far} mm before its place: {volume:.1f} mm³"


def _in_the_plan(bench: Bench, figures: Figures) -> Iterator[str]:
    """Every timber is cut once, as long as it is."""
    lengths = {part.mark: part.length for part in bench.parts if part.is_bar}
    cut = Counter[str]()
    for bar in figures.cutting.bars:
        for mark, length in zip(bar.pieces, bar.lengths, strict=True):
            cut[mark] += 1
            if mark in lengths and length != lengths[mark]:
                yield f"{mark} is cut {float(length)}, its length is {float(lengths[mark])}"
    wrong = sorted(mark for mark in lengths if cut[mark] != 1)
    if wrong:
        yield f"not cut once: {wrong}"


def main() -> None:
    """Each case that has something wrong, then how many have nothing."""
    every = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    tried = cases()[::every]
    good = 0
    for number, case in enumerate(tried):
        wrong = wrong_with(case)
        good += not wrong
        if wrong:
            print(number, *case, *wrong[:6], sep="\n  ", flush=True)
    print(f"{good} of {len(tried)} benches have nothing wrong")


if __name__ == "__main__":
    main()
