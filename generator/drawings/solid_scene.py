"""The bench as a scene of exact bodies that a reader turns, pulls apart and builds again, step by step.

What moves, in which order and along which way is what the proof of the assembly found.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.bodies import Block, Body
from generator.calculators.surfaces import Surface, surface
from generator.drawings.dimensions import Ruler
from generator.drawings.scene import MATERIALS
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.figures.rows.parts import PartRow
from generator.units.format import plain

BENCH = "bench"
#: How far (mm) the first thing is pulled out of the bench, and out of a sub-assembly; what comes later goes farther.
PULL_OF_BENCH, PULL_OF_PART = 220.0, 110.0
#: Damped, so that a long row of steps does not fly away: the distance of the nth grows with this power of n.
DAMPING = 0.8
#: A sub-assembly lies flat while it is put together when its least size is below this part of the next.
FLAT = 1 / 3
DOWN = "-z"
#: Bodies are the same when they agree to this many decimals of a millimetre.
SAME = 3


@dataclass(frozen=True)
class Move:
    """A piece on its way, alone or with what it is in: the `number`th of `count` motions of `step` that join `into`.

    `way` is its way in (`+x` … `-z`; empty: no straight way).
    """

    step: int
    number: int
    count: int
    way: str
    into: str


@dataclass(frozen=True)
class SolidPiece:
    """A body with what a reader wants to know of it.

    `tint` is that of the drawings. `size` is written with its unit, `millimetres` are the same sizes as numbers.
    `mesh` is the number of its surface in the scene, which begins at `low`. `moves` bring it from the first
    sub-assembly into the bench; `apart` is where it goes when the bench is pulled apart (mm along X, Y, Z). `holes` are
    round ones down through it: X and Y of the middle from `low`, and the diameter.
    """

    mark: str
    name: str
    kind: str
    tint: str
    size: str
    millimetres: tuple[float, ...]
    mesh: int
    low: tuple[float, float, float]
    moves: tuple[Move, ...]
    apart: tuple[float, float, float]
    holes: tuple[tuple[float, float, float], ...] = ()


@dataclass(frozen=True)
class ShownStep:
    """A step: the bench or sub-assembly `home` that it shows, which way of the bench is `down` in it.

    `lit` are the marks that it is about though it moves nothing.
    """

    n: int
    key: str
    title: str
    home: str
    down: str
    lit: tuple[str, ...] = ()


@dataclass(frozen=True)
class SolidScene:
    """Pieces, the surfaces that they share, and the steps in order."""

    title: str
    pieces: tuple[SolidPiece, ...]
    meshes: tuple[Surface, ...]
    steps: tuple[ShownStep, ...]


def solid_scene(figures: Figures, ruler: Ruler) -> SolidScene:
    """The scene of a bench, its sizes as the ruler writes them."""
    steps = figures.assembly.steps
    bodies = {body.name: body for body in figures.assembly.solids}
    rows = {mark: row for row in figures.parts for mark in row.marks}
    holes = {shape.mark: shape.holes for shape in figures.assembly.shapes}
    moves = _moves(steps)
    pulls = _pulls(moves)
    meshes: dict[object, int] = {}
    surfaces: list[Surface] = []
    pieces = []
    for mark, kind, blocks, carrier in _solids(figures):
        low = _corner(blocks)
        near = tuple(_from(block, low) for block in blocks)
        if near not in meshes:
            meshes[near] = len(surfaces)
            surfaces.append(surface(near))
        sizes = _sizes(rows.get(mark), blocks)
        own = moves.get(carrier, ())
        pieces.append(
            SolidPiece(
                mark=mark,
                name=rows[mark].name if mark in rows else "",
                kind=kind,
                tint=MATERIALS.get(kind, "dark"),
                size=_written(sizes, ruler),
                millimetres=tuple(plain(size) for size in sizes),
                mesh=meshes[near],
                low=low,
                moves=own,
                apart=_apart(own, pulls),
                holes=tuple((x - low[0], y - low[1], size) for x, y, _, size in holes.get(mark, ())),
            )
        )
    return SolidScene(figures.spec.title, tuple(pieces), tuple(surfaces), _shown(steps, bodies))


def _solids(figures: Figures) -> list[tuple[str, str, tuple[Block, ...], str]]:
    """Mark, kind and blocks of each body and of what is fixed below a plate, and the mark that it moves with."""
    stand = figures.stand.facts
    found = [(body.name, body.kind, body.blocks, body.name) for body in figures.assembly.solids]
    names = {name for name, *_ in found}
    for picture in stand.pictures:
        if picture.blocks and picture.on in names:
            found.append((f"{picture.on} {stand.words.one}", "plate", picture.blocks, picture.on))
    return found


def _corner(blocks: Sequence[Block]) -> tuple[float, float, float]:
    x, y, z = (round(min(block[axis] for block in blocks), SAME) for axis in range(3))
    return (x, y, z)


def _from(block: Block, corner: Sequence[float]) -> Block:
    x0, y0, z0, x1, y1, z1 = (round(value - corner[i % 3], SAME) for i, value in enumerate(block))
    return (x0, y0, z0, x1, y1, z1)


def _moves(steps: Sequence[Step]) -> Mapping[str, tuple[Move, ...]]:
    """The motions of each mark, in order."""
    found: dict[str, list[Move]] = {}
    for step in steps:
        homes = [motion.into for motion in step.motions]
        for index, motion in enumerate(step.motions):
            move = Move(
                step.n, homes[:index].count(motion.into), homes.count(motion.into), motion.way, motion.into
            )
            for mark in motion.marks:
                found.setdefault(mark, []).append(move)
    return {mark: tuple(moves) for mark, moves in found.items()}


def _pulls(moves: Mapping[str, tuple[Move, ...]]) -> Mapping[tuple[str, str], Mapping[int, int]]:
    """For each home and way the rank of each step that goes there: 1 is pulled out least, 0 stays.

    The first step of a home stays with all that goes the way of its first motion: all else is pulled off it.
    """
    ordered = sorted(
        {move for own in moves.values() for move in own}, key=lambda each: (each.step, each.number)
    )
    first: dict[str, Move] = {}
    ranks: dict[tuple[str, str], dict[int, int]] = {}
    for move in ordered:
        start = first.setdefault(move.into, move)
        own = ranks.setdefault((move.into, move.way), {})
        stays = move.step == start.step and move.way == start.way
        own.setdefault(move.step, 0 if stays else 1 + max(own.values(), default=0))
    return ranks


def _apart(
    moves: Sequence[Move], pulls: Mapping[tuple[str, str], Mapping[int, int]]
) -> tuple[float, float, float]:
    away = [0.0, 0.0, 0.0]
    for move in moves:
        rank = pulls[move.into, move.way][move.step]
        if move.way and rank:
            unit = PULL_OF_BENCH if move.into == BENCH else PULL_OF_PART
            sign = -1.0 if move.way[0] == "+" else 1.0
            away["xyz".index(move.way[1])] += sign * unit * rank**DAMPING
    return (round(away[0], 1), round(away[1], 1), round(away[2], 1))


def _shown(steps: Sequence[Step], bodies: Mapping[str, Body]) -> tuple[ShownStep, ...]:
    """A step that moves nothing shows the bench so far, or all of it before there is any."""
    own: dict[str, list[Body]] = {}
    for motion in (motion for step in steps for motion in step.motions):
        own.setdefault(motion.into, []).extend(bodies[mark] for mark in motion.marks if mark in bodies)
    middle = _outside(tuple(bodies.values())) if bodies else ()
    shown, begun = [], False
    for step in steps:
        home = _home(step)
        begun = begun or home == BENCH
        down = DOWN if home in ("", BENCH) else _down(own[home], middle)
        lit = () if home else tuple(step.parts)
        shown.append(ShownStep(step.n, step.key, step.title, home or (BENCH if begun else ""), down, lit))
    return tuple(shown)


def _home(step: Step) -> str:
    """What the step works on: the bench, or of several sub-assemblies the one that stands for all."""
    homes = [motion.into for motion in step.motions]
    return step.assembly or (BENCH if BENCH in homes else homes[0] if homes else "")


def _down(own: Sequence[Body], bench: Sequence[float]) -> str:
    """Which way of the bench points to the floor: flat work lies on its outer face, all other is upright."""
    outside = _outside(own)
    sizes = [outside[axis + 3] - outside[axis] for axis in range(3)]
    thin = min(range(3), key=lambda axis: sizes[axis])
    if thin == 2 or sizes[thin] > FLAT * sorted(sizes)[1]:
        return DOWN
    is_low = outside[thin] + outside[thin + 3] <= bench[thin] + bench[thin + 3]
    return f"{'-' if is_low else '+'}{'xyz'[thin]}"


def _outside(bodies: Sequence[Body]) -> tuple[float, ...]:
    bounds = [body.bounds for body in bodies]
    return tuple((max if i > 2 else min)(each[i] for each in bounds) for i in range(6))


def _sizes(row: PartRow | None, blocks: Sequence[Block]) -> tuple[Fraction, ...]:
    """Length, width and thickness of a part as on the cut list; the outside of anything else, the longest first."""
    if row is not None:
        return (row.length, row.width, row.thickness)
    low = _corner(blocks)
    outside = [max(block[axis + 3] for block in blocks) - low[axis] for axis in range(3)]
    return tuple(sorted((Fraction(str(round(size, 1))) for size in outside), reverse=True))


def _written(sizes: Sequence[Fraction], ruler: Ruler) -> str:
    return f"{' × '.join(ruler.text(size) for size in sizes)} {ruler.either('mm', 'in')}"
