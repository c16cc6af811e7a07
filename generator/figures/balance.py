"""Where the mass of a bench lies: every part at its middle, casters at theirs, small hardware spread evenly."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.bench.model import Bench, Part, PlacedDrawer
from generator.figures.mass import piece_of_hardware
from generator.figures.model import HardwareRow
from generator.figures.parts import piece_mass
from generator.figures.strength_model import Balance
from generator.spec.lookup import caster
from generator.spec.schema import Spec

DRAWER_GROUPS = ("drawer side", "drawer front and back", "drawer bottom", "drawer face")
#: Of a pair of slides, the part that goes out with the drawer. Common practice, no source.
MOVING = 0.5


@dataclass(frozen=True)
class PointMass:
    """A mass (kg) at X, Y, Z of the frame (mm), and of what group it is."""

    mass: float
    at: tuple[float, float, float]
    group: str = ""


@dataclass(frozen=True)
class MovingDrawer:
    """A drawer with what moves of its slides, and the place of its load."""

    drawer: PlacedDrawer
    own: PointMass
    load: PointMass


@dataclass(frozen=True)
class Masses:
    """All of a bench: `fixed`, `drawers`, and the loads on top, shelves and in totes."""

    fixed: tuple[PointMass, ...]
    drawers: tuple[MovingDrawer, ...]
    loads: tuple[PointMass, ...]

    def balance(self) -> Balance:
        """Centres of gravity of the empty and the loaded bench."""
        empty = (*self.fixed, *(each.own for each in self.drawers))
        loaded = (*empty, *self.loads, *(each.load for each in self.drawers))
        return Balance(_middle(empty), _middle(loaded))


def masses(spec: Spec, bench: Bench, rows: Sequence[HardwareRow]) -> Masses:
    """Every mass of the bench and of what the spec puts on it, at its place."""
    slides = {row.item: row for row in rows if row.item in spec.hardware}
    slide = slides.get(spec.drawers.slide)
    pair = float(piece_of_hardware(spec, slide)) if slide and bench.storage.drawers else 0.0
    drawers = tuple(_drawer(spec, bench, each, pair * MOVING) for each in bench.storage.drawers)
    parts = [_of_part(spec, part) for part in bench.parts if part.group not in DRAWER_GROUPS]
    standing = [
        PointMass(pair * (1 - MOVING), each.own.at, "slides, the part that stays") for each in drawers
    ]
    wheel = _wheels(spec, bench, slides.get(spec.base.casters))
    counted = {spec.drawers.slide, spec.base.casters}
    small = sum(float(piece_of_hardware(spec, row)) * row.count for row in rows if row.item not in counted)
    spread = [PointMass(small, _middle(parts), "screws, clips and nuts")]
    return Masses((*parts, *standing, *wheel, *spread), drawers, tuple(_loads(spec, bench)))


def _of_part(spec: Spec, part: Part) -> PointMass:
    return PointMass(float(piece_mass(spec, part)), _centre(part), part.group)


def _centre(part: Part) -> tuple[float, float, float]:
    return (float(part.box.x.middle), float(part.box.y.middle), float(part.box.z.middle))


def _middle(rows: Iterable[PointMass]) -> tuple[float, float, float]:
    rows = tuple(rows)
    whole = sum(row.mass for row in rows)
    x, y, z = (sum(row.mass * row.at[axis] for row in rows) / whole for axis in range(3))
    return (x, y, z)


def _drawer(spec: Spec, bench: Bench, drawer: PlacedDrawer, slides: float) -> MovingDrawer:
    where = f"bay {drawer.bay}, drawer {drawer.number}"
    boards = [part for part in bench.in_group(*DRAWER_GROUPS) if part.where == where]
    rows = [_of_part(spec, part) for part in boards]
    bottom = next(part for part in boards if part.group == "drawer bottom")
    box = _centre(bottom)
    own = (*rows, PointMass(slides, box))
    return MovingDrawer(
        drawer,
        PointMass(sum(row.mass for row in own), _middle(own), "drawers, empty, with half of their slides"),
        PointMass(float(spec.loads.drawer), box),
    )


def _wheels(spec: Spec, bench: Bench, row: HardwareRow | None) -> tuple[PointMass, ...]:
    if row is None:
        return ()
    below = -float(spec.base.plate.thickness + caster(spec).height / 2)
    mass = float(piece_of_hardware(spec, row))
    return tuple(PointMass(mass, (float(x), float(y), below), "casters") for x, y in bench.casters)


def _loads(spec: Spec, bench: Bench) -> Iterable[PointMass]:
    top = bench.in_group("top")[0]
    yield PointMass(float(spec.loads.top), (*_centre(top)[:2], float(top.box.z.high)))
    for shelf in bench.in_group("shelf"):
        yield PointMass(float(spec.loads.shelf), (*_centre(shelf)[:2], float(shelf.box.z.high)))
    for tote in bench.storage.totes:
        zone, bay = next((z, b) for z in bench.layout.zones for b in z.bays if b.name == tote.bay)
        at = (float(bay.x.middle), float(zone.y.middle), float((tote.bottom + tote.top) / 2))
        yield PointMass(float(spec.totes[tote.kind].load), at)
