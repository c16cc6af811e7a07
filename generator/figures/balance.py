"""Where the mass of a bench is: every part at its middle, what it stands on at theirs, small hardware spread evenly.

Like pieces are taken together, then groups, each under its own name: so a moment is a sum that can be read.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Sliding
from generator.bench.model import Bench
from generator.bench.place import Place
from generator.bench.role import Role
from generator.bench.stands.facts import Lump
from generator.bench.tops.vises import VISE
from generator.figures.hardware import card_of
from generator.figures.mass import mass_of, piece_of_hardware
from generator.figures.rows.hardware import HardwareRow
from generator.figures.rows.parts import PartRow, PlacedRow
from generator.figures.rows.strength import Balance
from generator.provenance import constant, inexact, named

#: Of a pair, the part that goes out.
MOVING = inexact(constant("1/2", "part of a pair of slides that goes out with the drawer", unit=""))

MIDDLE = "The centre of mass: each mass times its place, added up, divided by the whole mass."
AXES = ("from the left", "from the front")


@dataclass(frozen=True)
class PointMass:
    """A mass (kg) at X, Y, Z of the frame (mm), and of what group it is."""

    mass: float
    at: tuple[float, float, float]
    group: str = ""


@dataclass(frozen=True)
class Moving:
    """What slides out with what moves of its slides, and the place of its load."""

    fact: Sliding
    own: PointMass
    load: PointMass

    @property
    def bay(self) -> str:
        """Where it is pulled out."""
        return self.fact.item.bay

    @property
    def name(self) -> str:
        """As the manual calls it: F1/2."""
        return f"{self.bay}/{self.fact.item.number}"


@dataclass(frozen=True)
class Masses:
    """All of a bench: `fixed` by group, what is `sliding` out, loads in place; empty, and with all loads."""

    fixed: tuple[PointMass, ...]
    sliding: tuple[Moving, ...]
    loads: tuple[PointMass, ...]
    empty: PointMass
    loaded: PointMass

    def balance(self) -> Balance:
        """Centres of gravity of the empty and the loaded bench."""
        return Balance(self.empty.at, self.loaded.at)


def masses(bench: Bench, rows: Sequence[PartRow], hardware: Sequence[HardwareRow]) -> Masses:
    """Every mass of the bench and of what the spec puts on it, at its place."""
    spec = bench.spec
    bought = {row.item: row for row in hardware if card_of(spec, row)}
    facts = [each for kind in FILLINGS for each in kind.sliding(bench)]
    pairs = {each.on: _pair(bench, bought.get(each.on), each) for each in facts}
    places = {each.item.place for each in facts}
    moving = {part.group for part in bench.parts if part.place in places}
    boards = [row for row in rows if row.group in moving]
    place_of = {part.mark: part.place for part in bench.parts}
    here = [(row, _by_place(row.pieces, place_of)) for row in boards]
    sliding = tuple(_moving(here, each, pairs[each.on][0]) for each in facts)
    groups = dict.fromkeys(row.group for row in rows if row.group not in moving)
    parts = [
        combined_mass([_pieces(row, row.pieces) for row in rows if row.group == group], group)
        for group in groups
    ]
    standing: dict[str, list[PointMass]] = {}
    for each in sliding:
        standing.setdefault(each.fact.stays, []).append(replace(each.own, mass=pairs[each.fact.on][1]))
    stay = [combined_mass(masses, called) for called, masses in standing.items()]
    stands = _stands(bench, bought)
    counted = {
        id(row) for row in (*map(bought.get, pairs), *(bought.get(lump.item) for lump in bench.stand.lumps))
    }
    small = sum(piece_of_hardware(bench, row) * row.count for row in hardware if id(row) not in counted)
    vises = tuple(_let_in(bench, hardware))
    counted |= {id(row) for row in hardware if row.kind == VISE}
    spread = replace(combined_mass(parts, "all parts that stay"), mass=small, group="small hardware")
    fixed, loads = (*parts, *stay, *stands, *vises, spread), tuple(_loads(bench))
    empty = combined_mass((*fixed, *(each.own for each in sliding)), "the empty bench")
    loaded = combined_mass((empty, *loads, *(each.load for each in sliding)), "the loaded bench")
    return Masses(fixed, sliding, loads, empty, loaded)


def combined_mass(rows: Sequence[PointMass], name: str) -> PointMass:
    """Several masses as one, at their common middle, under a name."""
    if len(rows) == 1:
        return replace(rows[0], group=name)
    mass = named(sum(row.mass for row in rows), f"mass of {name}", "The sum of its masses.", "statics")

    def middle(axis: int) -> float:
        place = sum(row.mass * row.at[axis] for row in rows) / mass
        return named(place, f"middle of {name}, {AXES[axis]}", MIDDLE, "statics")

    # nothing that is printed rests on a height
    high = sum(float(row.mass) * row.at[2] for row in rows) / float(mass)
    return PointMass(mass, (middle(0), middle(1), high), name)


def _pieces(row: PartRow, pieces: Sequence[PlacedRow], where: str = "") -> PointMass:
    """Like pieces of a part as one mass, in the middle of all of them."""
    count = len(pieces)
    name = f"middle of part {row.mark}" if count == 1 else f"middle of the {count} pieces of part {row.mark}"

    says = "Half of its size from its corner." if count == 1 else "The mean of the middles of its pieces."

    def middle(axis: int) -> float:
        whole = sum((each.corner[axis] + each.size[axis] / 2 for each in pieces), Fraction(0))
        return inexact(
            named(whole / count if count > 1 else whole, f"{name}{where}, {AXES[axis]}", says, "geometry")
        )

    high = sum(float(each.corner[2] + each.size[2] / 2) for each in pieces) / count
    return PointMass(mass_of(row, count), (middle(0), middle(1), high), row.group)


def _pair(bench: Bench, row: HardwareRow | None, fact: Sliding) -> tuple[float, float]:
    """Of a pair, what goes out and what stays (kg)."""
    pair = piece_of_hardware(bench, row) if row else 0.0
    moves = named(pair * MOVING, fact.moving, "Half of a pair.", "geometry")
    return moves, named(pair - pair * MOVING, fact.staying, "Half of a pair.", "geometry")


Pieces = Mapping[Place, Sequence[PlacedRow]]


def _by_place(pieces: Sequence[PlacedRow], place_of: Mapping[str, Place]) -> Pieces:
    """Pieces by the place in the bench that they are part of."""
    found: dict[Place, list[PlacedRow]] = {}
    for piece in pieces:
        if place := place_of.get(piece.mark):
            found.setdefault(place, []).append(piece)
    return found


def _moving(boards: Sequence[tuple[PartRow, Pieces]], fact: Sliding, slides: float) -> Moving:
    own = [
        _pieces(row, mine, f" in {fact.name}")
        for row, pieces in boards
        if (mine := pieces.get(fact.item.place))
    ]
    box = next(each.at for each in own if each.group == fact.rests_in)
    return Moving(
        fact,
        replace(combined_mass([*own, PointMass(slides, box)], fact.name), group=fact.together),
        PointMass(inexact(fact.load), box),
    )


def _stands(bench: Bench, bought: Mapping[str, HardwareRow]) -> tuple[PointMass, ...]:
    """What the bench stands on, each kind of it in the middle of its places."""
    return tuple(
        _lump(piece_of_hardware(bench, bought[lump.item]), lump)
        for lump in bench.stand.lumps
        if lump.item in bought
    )


def _let_in(bench: Bench, hardware: Sequence[HardwareRow]) -> Iterable[PointMass]:
    """Each vise in the middle of its place below the top."""
    over, high = bench.spec.top.overhang, float(bench.layout.levels.frame_height)
    row = next((row for row in hardware if row.kind == VISE), None)
    for each in bench.features:
        if row is not None and each.kind == VISE:
            x, y = (inexact(at - less) for at, less in zip(each.at, (over.left, over.front), strict=True))
            yield PointMass(piece_of_hardware(bench, row), (x, y, high), each.name)


def _lump(kilograms: float, lump: Lump) -> PointMass:
    count = len(lump.points)
    x, y = (sum((place[axis] for place in lump.points), Fraction(0)) / count for axis in (0, 1))
    return PointMass(kilograms * count, (inexact(x), inexact(y), -lump.below), lump.called)


def _loads(bench: Bench) -> Iterable[PointMass]:
    spec = bench.spec
    boxes = [part.box for part in bench.of(Role.TOP, Role.TOP_EDGING)]
    x, y = ((min(span.low for span in spans) + max(span.high for span in spans)) / 2
            for spans in ([box.x for box in boxes], [box.y for box in boxes]))  # fmt: skip
    yield _load(spec.loads.top, (x, y, max(box.z.high for box in boxes)))
    for kind in reversed(FILLINGS):
        for each in kind.loads(bench):
            yield _load(each.mass, each.at)


def _load(mass: Fraction, at: tuple[Fraction, Fraction, Fraction]) -> PointMass:
    return PointMass(inexact(mass), (inexact(at[0]), inexact(at[1]), float(at[2])))
