"""Each filling in three sizes and both zones, over each stand, bare and banded: `-m tests.benchmarks.outfitting`.

Each bench is solved, computed and proved, and its solids are compared pair by pair. Doors are turned in steps of five
degrees, as outlines in plan, against all that stands at their heights: geometry of its own, not that of the checks.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from itertools import combinations
from math import cos, radians, sin
from typing import NamedTuple

from generator.bench.fillings import FILLINGS
from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.bench.solids import solid_bodies
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import SpecError
from generator.spec.load import read_spec

#: Less than this overlap in all three directions (mm) is rounding.
NOTHING = 0.02
#: Bay widths of each filling (mm), small to large.
WIDTHS = {
    "{drawer: share}": (340, 480, 700),
    "{drawer: share}, {drawer: share 2}, {open: 80}": (340, 480, 700),
    "{pull-out: 120}": (340, 480, 700),
    "{shelf: 80}, {shelf: 260}": (250, 500, 800),
    "{rack: share, slots: 3}": (250, 400, 600),
    "{totes: tote, count: 2}": (400, 402, 410),
    "": (200, 500, 800),
}
NARROWEST_PAIR = 260
DOORS = ("", "left", "right", "pair")
#: The same doors before the posts, on hinges with a cup.
OVERLAY = "overlay "
#: Behind a door a tote needs more width, because it must pass the open door.
BEHIND_A_DOOR = {"{totes: tote, count: 2}": (440, 450, 460)}
STANDS = {
    "casters": "{count: 6}",
    "feet": "{feet: foot, count: 6}",
    "both": "{casters: caster, feet: foot, lift: 6, count: 6, plate: {size: [240, 170]}}",
    "plinth": "{plinth: {}, count: 6}",
}


#: Thickness of the banding (mm), and by how many bands the two sizes of a board are smaller.
BAND = 1
BANDED = {"door": (2, 2), "drawer face": (2, 2)} | dict.fromkeys(
    ("shelf", "pull-out board", "rack board", "rack upright"), (0, 1)
)


class Case(NamedTuple):
    """One bench: what fills a bay of this width in the zone, behind which door, on what it stands; edges banded."""

    zone: str
    stack: str
    door: str
    width: int
    stand: str
    banded: bool


def cases() -> list[Case]:
    """Every filling with every door, size and zone, the stands in turn; leg room on its own."""
    found = [
        (zone, stack, door, width)
        for zone in ("front", "back")
        for stack, usual in WIDTHS.items()
        for door in DOORS
        for width in (BEHIND_A_DOOR.get(stack, usual) if door else usual)
    ]
    found += [
        (zone, stack, OVERLAY + door, width)
        for zone in ("front", "back")
        for stack, usual in WIDTHS.items()
        for door in DOORS[1:]
        for width in BEHIND_A_DOOR.get(stack, usual)
    ]
    found += [(zone, "knee", "", width) for zone in ("front", "back") for width in (600, 700, 800)]
    # of a pair, no door may be narrower than 120
    found = [
        (zone, stack, door, max(width, NARROWEST_PAIR) if door.endswith("pair") else width)
        for zone, stack, door, width in found
    ]
    stands = list(STANDS)
    return [
        Case(*each, "feet" if each[1] == "knee" else stands[number % len(stands)], banded)
        for number, each in enumerate(found)
        for banded in (False, True)
    ]


def spec_of(case: Case) -> str:
    """A bench of two zones, the bay between two that take what is left."""
    filled = "knee: true" if case.stack == "knee" else f"stack: [{case.stack}]"
    side, over = case.door.removeprefix(OVERLAY), case.door.startswith(OVERLAY)
    door = f", door: {{hinge: {side}}}" if case.door else ""
    mine = f"bays: [{{width: share}}, {{name: it, width: {case.width}, {filled}{door}}}, {{width: share}}]"
    other = "bays: [{width: share, stack: []}]"
    front, back = (mine, other) if case.zone == "front" else (other, mine)
    foot = "foot M12 with sleeve" if case.stand == "both" else "foot M10"
    feet = "" if case.stand in ("casters", "plinth") else f", foot: {{use: {foot}}}"
    band = f", band: {{use: edge banding 1 x 22, thickness: {BAND}}}" if case.banded else ""
    cup = ", cup: {use: cup hinge 35 slot}" if over else ""
    mount = ", mount: overlay, hinge: cup" if over else ""
    edges = "edges: {banding: band}" if case.banded else ""
    return f"""spec: 1
title: Case
bench: {{length: 1900, depth: 1190, height: 900}}
materials: {{bar: {{use: profile 40}}, thick: {{use: strip 50 x 45, width: 100}}, ply-18: {{use: plywood 18}}}}
hardware: {{pull: {{use: pull 128}}, latch: {{use: latch}}{feet}{band}{cup}}}
totes: {{tote: {{use: tote 145}}}}
zones:
  - {{name: front, depth: share, {front}}}
  - {{name: back, depth: share, {back}}}
drawers: {{pull: pull}}
doors: {{pull: pull, catch: latch, packing: thick{mount}}}
base: {STANDS[case.stand]}
{edges}
"""


def overlaps(bench: Bench) -> list[tuple[str, str]]:
    """Pairs of solids that are in one place."""
    bodies = solid_bodies(bench)
    return [
        (one.name, other.name)
        for one, other in combinations(bodies, 2)
        if _deep(one.bounds, other.bounds) > NOTHING
        and any(_deep(a, b) > NOTHING for a in one.blocks for b in other.blocks)
    ]


def _deep(a: Sequence[float], b: Sequence[float]) -> float:
    return min(min(a[axis + 3], b[axis + 3]) - max(a[axis], b[axis]) for axis in range(3))


def swept(bench: Bench) -> Iterator[tuple[str, str]]:
    """Doors that meet a part on their way to a right angle, in steps of five degrees from the fifth on."""
    parts = {part.mark: part for part in bench.parts}
    for swing in (each for kind in FILLINGS for each in kind.swings(bench)):
        door = parts[swing.part]
        left = any(d.hinge_side == "left" for d in bench.storage.of(_placed(bench)) if d.place == door.place)
        others = [p for p in bench.parts if p.mark != door.mark and p.box.z.overlap(door.box.z) > NOTHING]
        for degrees in range(5, 91, 5):
            outline = _turned(bench, door, left, degrees, swing.turning.pin)
            for other in others:
                if _meets(outline, other):
                    yield door.mark, f"{other.mark} at {degrees}"


def blocked(bench: Bench) -> Iterator[tuple[str, str]]:
    """What slides out of the bay behind a door and meets that door, which stands open at a right angle."""
    parts = {part.mark: part for part in bench.parts}
    for swing in (each for kind in FILLINGS for each in kind.swings(bench)):
        door = parts[swing.part]
        left = any(d.hinge_side == "left" for d in bench.storage.of(_placed(bench)) if d.place == door.place)
        across = [x for x, _ in _turned(bench, door, left, 90, swing.turning.pin)]
        for other in bench.parts:
            slides = other.place.bay == door.place.bay and other.group.startswith(("drawer", "pull-out"))
            if slides and float(other.box.x.low) < max(across) and min(across) < float(other.box.x.high):
                yield door.mark, other.mark


def _placed(bench: Bench) -> type:
    return next(kind.placed for kind in FILLINGS if kind.kind == "door")


def _turned(
    bench: Bench, door: Part, left: bool, degrees: int, pin: tuple[float, float]
) -> list[tuple[float, float]]:
    """Corners of the door in plan, turned out about the outer edge at its hinges, where the pin is.

    A hinge with a cup has no pin: there it is the `pin` about which the program turns the door.
    """
    box = door.box
    rear = bench.layout.depth / 2 < box.y.middle
    gap = float(bench.spec.doors.gap) / 2
    pin_x = float(box.x.low) - gap if left else float(box.x.high) + gap
    pin_y = float(box.y.high if rear else box.y.low)
    if bench.spec.doors.mount == "overlay":
        pin_x, pin_y = pin
    way = radians(degrees) * (-1 if left else 1) * (-1 if rear else 1)
    inset = 0.01
    corners = [
        (x, y)
        for x, y in (
            (float(box.x.low) + inset, float(box.y.low) + inset),
            (float(box.x.high) - inset, float(box.y.low) + inset),
            (float(box.x.high) - inset, float(box.y.high) - inset),
            (float(box.x.low) + inset, float(box.y.high) - inset),
        )
    ]
    return [
        (
            pin_x + (x - pin_x) * cos(way) - (y - pin_y) * sin(way),
            pin_y + (x - pin_x) * sin(way) + (y - pin_y) * cos(way),
        )
        for x, y in corners
    ]


def _meets(outline: Sequence[tuple[float, float]], part: Part) -> bool:
    """Whether two convex outlines overlap: no edge of either parts them."""
    x, y = part.box.x, part.box.y
    other = [
        (float(a), float(b)) for a, b in ((x.low, y.low), (x.high, y.low), (x.high, y.high), (x.low, y.high))
    ]
    for shape in (outline, other):
        for (ax, ay), (bx, by) in zip(shape, [*shape[1:], shape[0]], strict=True):
            nx, ny = ay - by, bx - ax
            mine = [nx * px + ny * py for px, py in outline]
            theirs = [nx * px + ny * py for px, py in other]
            if max(mine) <= min(theirs) + NOTHING or max(theirs) <= min(mine) + NOTHING:
                return False
    return True


def wrongly_cut(bench: Bench, figures: Figures, banded: bool) -> Iterator[str]:
    """Pieces on the sheets that are not as large as their boards less their bands."""
    boards = {part.mark: part for part in bench.parts}
    for sheet in figures.cutting.sheets:
        for piece in sheet.pieces:
            part = boards[piece.mark]
            along, across = BANDED.get(part.group, (0, 0)) if banded else (0, 0)
            needed = sorted((part.length - along * BAND, part.width - across * BAND))
            if sorted((piece.l, piece.w)) != needed:
                yield f"{piece.mark} is cut {float(piece.l):g} x {float(piece.w):g}"


def wrong_with(case: Case) -> list[str]:
    """What is wrong with one bench: refused, an error that the checks find, solids in one place, doors that hit."""
    try:
        bench = solve(read_spec(spec_of(case), "case.yml"))
    except SpecError as error:
        return [f"refused: {each.code}: {each.message}" for each in error.findings]
    figures, findings = compute(bench)
    found = [str(each) for each in findings if each.severity.name == "ERROR"]
    found += [f"{one} and {other} in one place" for one, other in overlaps(bench)]
    found += wrongly_cut(bench, figures, case.banded)
    found += [f"{what} slides out into the open {door}" for door, what in blocked(bench)]
    return [*found, *(f"{door} meets {what}" for door, what in swept(bench))]


def main() -> None:
    """Each case that has something wrong, then how many have nothing."""
    every = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    tried = cases()[::every]
    good = 0
    for case in tried:
        wrong = wrong_with(case)
        good += not wrong
        if wrong:
            print(*case, *wrong[:3], sep="\n  ")
    print(f"{good} of {len(tried)} benches have nothing wrong")


if __name__ == "__main__":
    main()
