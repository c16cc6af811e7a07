"""How drawers come together and go in: their slides first, then box by box."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.kind import Ways
from generator.bench.fillings.on_slides import OnSlides
from generator.bench.piece import Part
from generator.bench.place import Place
from generator.bench.role import DRAWER, Role
from generator.calculators.assembly import Motion


def drawer_motions(bench: Solved, ways: Ways) -> Iterator[Motion]:
    """All slides, then each drawer from its boards and onto its slides."""
    boxes: dict[Place, list[Part]] = {}
    for part in bench.of(*DRAWER):
        boxes.setdefault(part.place, []).append(part)
    for hung in bench.storage.of(OnSlides):
        out, after = (ways.out(hung.bay),), ways.walls_of(hung.bay)
        for name in hung.slide_names:
            bodies = (ways.bodies[name],)
            yield Motion(name, "slides", bodies, out=out, after=after, called=hung.called)
    for drawer in bench.storage.of(PlacedDrawer):
        out, after = (ways.out(drawer.bay),), drawer.slide_names
        for part in _boxing(boxes[drawer.place]):
            # a face comes from outside
            own = out if part.role is Role.DRAWER_FACE else ("+x",)
            yield Motion(part.mark, "drawers", (ways.bodies[part.mark],), into=drawer.name, out=own)
        yield Motion(drawer.name, "drawers", brings=drawer.name, out=out, after=after, called=drawer.called)


def _boxing(parts: Sequence[Part]) -> list[Part]:
    """One side, the two ends, the bottom into its grooves, the other side, the face."""
    sides = sorted((part for part in parts if part.role is Role.DRAWER_SIDE), key=lambda part: part.box.x.low)
    ends = [part for part in parts if part.role is Role.DRAWER_END]
    bottoms = [part for part in parts if part.role is Role.DRAWER_BOTTOM]
    faces = [part for part in parts if part.role is Role.DRAWER_FACE]
    return [*sides[:1], *ends, *bottoms, *sides[1:], *faces]
