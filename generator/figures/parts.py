"""Distinct parts: pieces that are cut and machined the same, whichever way they are turned."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Any

from generator.bench.frames import frame_kind
from generator.bench.frames.trays import HALF_LAP
from generator.bench.model import Bench, Operation, Part
from generator.bench.place import in_words
from generator.calculators.mass import angle_section, hole_area, solid_mass
from generator.figures.material_labels import material_labels
from generator.figures.rows.parts import NotchRow, PartRow, PlacedRow
from generator.figures.rows.parts import OperationRow as FigureOperation
from generator.geometry import AXES, FACES
from generator.provenance import constant

#: Aluminium, EN 1999-1-1 cl. 3.2.5 (from memory), kg/m³; for plates.
ALUMINIUM = constant(
    2700, "density of aluminium", "EN 1999-1-1, 3.2.5, not checked against the text", "kg/m^3"
)

OPPOSITE = dict(FACES.values()) | {high: low for low, high in FACES.values()}


def part_rows(bench: Bench) -> tuple[PartRow, ...]:
    """One row a distinct part, in the order of the bench; the first piece represents all."""
    rows: dict[Any, list[Part]] = {}
    for part in bench.parts:
        rows.setdefault(_signature(part), []).append(part)
    labels = material_labels(bench)
    return tuple(
        _row(bench, pieces, _other_hand(own, rows), labels[pieces[0].material])
        for own, pieces in rows.items()
    )


def _signature(part: Part, mirrored: bool = False) -> Any:
    """A key that is equal for equal parts; `mirrored`: the key of the part's mirror image."""
    turned = _bar_turns(part, mirrored) if part.is_bar else _board_turns(part)
    return (part.group, part.material, part.length, part.width, part.thickness, part.grain, min(turned))


def _other_hand(own: Any, rows: Mapping[Any, list[Part]]) -> str:
    """Mark of the part that is the mirror image of `own` ones; empty when there is none, or when it is the same."""
    mirrored = _signature(rows[own][0], mirrored=True)
    if mirrored == own or mirrored not in rows:
        return ""
    return rows[mirrored][0].mark


def _bar_turns(part: Part, mirrored: bool = False) -> Iterable[tuple[Any, ...]]:
    """The bar's machining in each position in which it looks the same: turned about its length, either end first."""
    acts = [_from_middle(part, op) for op in part.operations]
    first, second = (part.box.span(axis).size for axis in AXES if axis != part.along)
    for flipped in (False, True):
        for turn in range(4) if first == second else (0, 2):
            way = 1 if flipped == mirrored else -1
            yield tuple(
                sorted(
                    (
                        op,
                        _turned(looks, flipped, way, turn),
                        _turned(at, flipped, way, turn),
                        sizes[:: 1 - turn % 2 * 2],
                    )
                    for op, looks, at, sizes in acts
                )
            )


_Vector = tuple[Fraction, Fraction, Fraction]


def _turned(at: _Vector, flipped: bool, way: int, turn: int) -> _Vector:
    """A place from the middle of a bar when that is flipped end for end and turned by quarters about its length."""
    along, one, other = (-at[0] if flipped else at[0]), at[1], at[2] * way
    for _ in range(turn):
        one, other = -other, one
    return along, one, other


def _from_middle(
    part: Part, op: Operation
) -> tuple[tuple[Any, ...], _Vector, _Vector, tuple[Fraction, Fraction]]:
    """An act with the way it looks, its place from the middle of the bar, and its sizes across the bar's length."""
    axes = (part.along, *(axis for axis in AXES if axis != part.along))
    axis = next(axis for axis, faces in FACES.items() if op.face in faces)
    ends = {each: Fraction(part.box.span(each).size) / 2 for each in axes}
    ways = {axis: Fraction(1 if op.face == FACES[axis][1] else -1)}
    at, size = {axis: ways[axis] * ends[axis]}, op.size if isinstance(op.size, tuple) else (op.size, op.size)
    if axis == part.along:
        other = next(each for each in axes[1:] if each != part.across)
        at |= {part.across: Fraction(op.at[1]) - ends[part.across], other: Fraction(op.aside)}
        long, wide = Fraction(0), (Fraction(size[0]), Fraction(size[1]))
    else:
        other = next(each for each in axes[1:] if each != axis)
        at |= {part.along: Fraction(op.at[0]) - ends[part.along], other: Fraction(op.at[1]) - ends[other]}
        nothing = Fraction(0)
        long, wide = (
            Fraction(size[0]),
            (Fraction(size[1]), nothing) if axes[1] == other else (nothing, Fraction(size[1])),
        )
    looks, place = (tuple(found.get(each, Fraction(0)) for each in axes) for found in (ways, at))
    return (op.op, long, Fraction(op.depth or 0)), looks, place, wide  # type: ignore[return-value]


def _board_turns(part: Part) -> Iterable[tuple[Any, ...]]:
    """The board's edges and machining, turned over either way: both faces are worked the same."""
    # the working of a place has no part in this, and would be drawn up for each turn
    drilled = [
        (op, Fraction(op.at[0]), Fraction(op.at[1]), f"{op.size} {_own_face(op)}") for op in part.operations
    ]
    length, width = Fraction(part.length), Fraction(part.width)
    for along in (False, True):
        for across in (False, True):
            flip = _flipper(part, along, across)
            tongues = tuple(sorted((flip(edge), size) for edge, size in part.tongues.items()))
            notches = tuple(
                sorted(
                    (tuple(sorted(flip(edge) for edge in notch.corner.split())), notch.along, notch.across)
                    for notch in part.notches
                )
            )
            bands = tuple(sorted(flip(edge) for edge in (*part.bands, *part.mitres)))
            operations = tuple(
                sorted(
                    (op.op, length - x if along else x, width - y if across else y, size, op.depth or 0)
                    for op, x, y, size in drilled
                )
            )
            yield (tongues, notches, operations, bands)


def _own_face(op: Operation) -> str:
    """The face of what is not the same from the other face: each piece of a tray keeps its drawing."""
    return op.face if op.op == HALF_LAP else ""


def _flipper(part: Part, along: bool, across: bool) -> Callable[[str], str]:
    turned = {*(FACES[part.along] if along else ()), *(FACES[part.across] if across else ())}
    return lambda edge: OPPOSITE[edge] if edge in turned else edge


def _row(bench: Bench, pieces: list[Part], other_hand: str, made_of: str) -> PartRow:
    first = pieces[0]
    fit = first.fit
    return PartRow(
        mark=first.mark,
        marks=tuple(piece.mark for piece in pieces),
        name=first.name,
        group=first.group,
        material=first.material,
        kind=first.kind,
        count=len(pieces),
        length=first.length,
        width=first.width,
        thickness=first.thickness,
        mass=piece_mass(bench, first),
        tongues=dict(first.tongues),
        notches=tuple(NotchRow(n.corner, n.along, n.across, n.reason) for n in first.notches),
        operations=tuple(
            FigureOperation(op.op, op.face, op.at, op.size, op.depth, op.purpose, op.corner, op.aside)
            for op in first.operations
        ),
        along=first.along,
        across=first.across,
        tongue_thickness=fit.tongue_thickness if fit else None,
        rabbet_depth=fit.rabbet_depth if fit else None,
        rabbet_length=fit.rabbet_length if fit else None,
        grain=first.grain,
        other_hand=other_hand,
        waits=first.waits,
        planed=first.planed,
        bands=dict(first.bands),
        horns=dict(first.horns),
        floating=first.floating,
        mitres=first.mitres,
        style=first.style,
        made_of=made_of,
        metal=first.metal or first.kind in ("profile", "angle"),
        pieces=tuple(
            PlacedRow(
                piece.mark,
                (piece.box.x.low, piece.box.y.low, piece.box.z.low),
                piece.box.size,
                in_words(piece.place),
                (
                    (piece.shoulders.x.low, piece.shoulders.y.low, piece.shoulders.z.low),
                    piece.shoulders.size,
                ),
            )
            for piece in pieces
        ),
    )


def piece_mass(bench: Bench, part: Part) -> float:
    """Mass of one piece (kg), without its notches, cut-outs and top holes; rabbets and holes of slotted bars stay in.

    A timber weighs what its tenons, mortises, grooves and holes leave of it.
    """
    goods = bench.goods
    if part.is_bar:
        return frame_kind(bench.spec).mass(goods, part)
    if angle := goods.angles.get(part.material):
        return solid_mass(part.length * angle_section(angle.leg, angle.thickness), angle.density)
    wood = goods.sheets.get(part.material) or goods.strips.get(part.material)
    return solid_mass(_net_area(part) * part.thickness, wood.density if wood else ALUMINIUM)


def _net_area(part: Part) -> Fraction | float:
    """Area (mm²) of a board without its notches and what goes through it."""
    area: Fraction | float = part.length * part.width
    for notch in part.notches:
        area -= notch.along * notch.across
    # like openings are counted: a top has hundreds, and one step of the sum for each would be too deep a working
    for size, count in Counter(op.size for op in part.operations if op.depth is None).items():
        area -= (size[0] * size[1] if isinstance(size, tuple) else hole_area(size)) * count
    return area
