"""`compare`: the figures of two benches, piece by piece by their marks, and what a piece that is cut needs.

A mark is what is written on the wood, so it says which piece is which, also where another piece has become the same.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any

from generator.figures.comparison import (
    ActChange,
    Comparison,
    FieldChange,
    PartChange,
    Piece,
    RowChange,
    StockChange,
)
from generator.figures.model import Figures
from generator.figures.rows.checks import Check
from generator.figures.rows.parts import NotchRow, OperationRow, PartRow, PlacedRow

#: What a cut piece needs, from nothing to another piece.
NEEDS = ("nothing", "rework", "trim", "new piece")
#: A change of these does not touch the wood.
_BESIDE = {"name", "mass", "corner", "where", "along", "across", "grain", "thickness", "rabbet_length"}

#: Sections beside the parts: where they are, and what names a row.
_SECTIONS: Mapping[str, tuple[Callable[[Figures], Iterable[Any]], Callable[[Any], str]]] = {
    "bays": (lambda f: f.layout.bays, lambda row: row.name),
    "zones": (lambda f: f.layout.zones, lambda row: row.name),
    "fits": (lambda f: f.fits, lambda row: row.where),
    "drawers": (lambda f: f.drawers, lambda row: f"{row.bay}/{row.number}"),
    "totes": (lambda f: f.totes, lambda row: f"{row.bay}/{row.number}"),
    "shelves": (lambda f: f.shelves, lambda row: f"{row.bay}/{row.number}"),
    "doors": (lambda f: f.doors, lambda row: f"{row.bay}/{row.leaf}"),
    "pull_outs": (lambda f: f.pull_outs, lambda row: f"{row.bay}/{row.number}"),
    "joins": (lambda f: f.joins, lambda row: f"{row.side} side"),
    "pulls": (lambda f: f.pulls, lambda row: row.part),
    "sticks": (lambda f: f.sticks, lambda row: row.name),
    "spacers": (lambda f: f.spacers, lambda row: row.label),
    "hardware": (lambda f: f.hardware, lambda row: row.item),
    "purchases": (lambda f: f.purchases, lambda row: row.item),
    "diagonals": (lambda f: f.diagonals, lambda row: row.name),
    "casters": (lambda f: [f.casters] if f.casters else [], lambda _: "casters"),
    "finish": (lambda f: f.finish, lambda row: row.coat),
    "mass": (lambda f: [f.mass], lambda _: "mass"),
}


def compare(old: Figures, new: Figures) -> Comparison:
    """All differences between two benches."""
    states = {piece.mark: piece.state for piece in new.record.pieces} if new.record else {}
    before, after = _failing(old), _failing(new)
    return Comparison(
        old=old.spec,
        new=new.spec,
        parts=tuple(_part_changes(pieces(old), pieces(new), states)),
        rows=tuple(_row_changes(old, new)),
        stock=tuple(_stock(old, new)),
        failing=tuple(check for key, check in after.items() if key not in before),
        mended=tuple(check for key, check in before.items() if key not in after),
        old_cost=old.purchase_total.cost,
        new_cost=new.purchase_total.cost,
    )


def pieces(figures: Figures) -> dict[str, Piece]:
    """Every piece by its mark."""
    return {placed.mark: _piece(row, placed) for row in figures.parts for placed in row.pieces}


def alike(parts: Iterable[PartChange]) -> tuple[tuple[tuple[str, ...], PartChange], ...]:
    """Changes that are the same but for the piece's place and mass, with the marks of all of them."""
    groups: dict[Hashable, list[PartChange]] = {}
    for each in parts:
        fields = tuple(
            (field.what, *(() if field.what == "corner" else (str(field.old), str(field.new))))
            for field in shown(each.fields)
        )
        acts = tuple((_spelled(act.old), _spelled(act.new)) for act in each.acts)
        groups.setdefault((each.name, each.change, each.how, each.state, fields, acts), []).append(each)
    return tuple((tuple(each.mark for each in group), group[0]) for group in groups.values())


def by_need(parts: Sequence[PartChange]) -> list[tuple[str, Sequence[tuple[Sequence[str], PartChange]]]]:
    """Changed pieces by what one that is cut needs, the worst first; equal changes together."""
    groups = [(need, alike(each for each in parts if each.how == need)) for need in reversed(NEEDS)]
    return [(need, rows) for need, rows in groups if rows]


def shown(changed: Iterable[FieldChange]) -> tuple[FieldChange, ...]:
    """What is worth showing: where a piece is and what it weighs only when nothing else changed."""
    listed = tuple(changed)
    return tuple(each for each in listed if each.what not in ("corner", "mass")) or listed[:1]


def touched(comparison: Comparison) -> set[str]:
    """Marks of the pieces whose wood is another now."""
    return {each.mark for each in comparison.parts if each.change != "removed" and each.how != "nothing"}


def apply(changes: Iterable[PartChange], old: Mapping[str, Piece]) -> dict[str, Piece]:
    """The pieces of the new bench from those of the old one and the list of changes. Raises KeyError when it lacks."""
    result = dict(old)
    for change in changes:
        if change.change == "removed":
            del result[change.mark]
        elif change.piece is not None:
            result[change.mark] = change.piece
        else:
            values = {each.what: each.new for each in change.fields}
            result[change.mark] = _with_acts(replace(result[change.mark], **values), change.acts)
    return result


def _with_acts(piece: Piece, acts: Sequence[ActChange]) -> Piece:
    gone = [each.old for each in acts if each.old]
    come = [each.new for each in acts if each.new]
    notches, operations = list(piece.notches), list(piece.operations)
    for act in gone:
        (notches if isinstance(act, NotchRow) else operations).remove(act)  # type: ignore[arg-type]
    notches += [act for act in come if isinstance(act, NotchRow)]
    operations += [act for act in come if isinstance(act, OperationRow)]
    return replace(piece, notches=_in_order(notches), operations=_in_order(operations))


def _piece(row: PartRow, placed: PlacedRow) -> Piece:
    return Piece(
        mark=placed.mark,
        name=row.name,
        group=row.group,
        material=row.material,
        kind=row.kind,
        length=row.cut_size[0],
        width=row.cut_size[1],
        bands=tuple(sorted(row.bands.items())),
        thickness=row.thickness,
        mass=row.mass,
        along=row.along,
        across=row.across,
        grain=row.grain,
        tongue_thickness=row.tongue_thickness,
        rabbet_depth=row.rabbet_depth,
        rabbet_length=row.rabbet_length,
        corner=placed.corner,
        where=placed.where,
        tongues=tuple(sorted(row.tongues.items())),
        notches=_in_order(row.notches),
        operations=_in_order(row.operations),
    )


def _in_order(acts: Iterable[Any]) -> tuple[Any, ...]:
    return tuple(sorted(acts, key=_spelled))


def _spelled(value: Any) -> str:
    """A value in letters, the same for equal numbers whatever their working."""
    if is_dataclass(value):
        return " ".join(_spelled(getattr(value, field.name)) for field in fields(value))
    return " ".join(map(_spelled, value)) if isinstance(value, tuple) else str(value)


# --- parts


def _part_changes(
    old: Mapping[str, Piece], new: Mapping[str, Piece], states: Mapping[str, str]
) -> Iterator[PartChange]:
    for mark, piece in old.items():
        if mark not in new:
            yield PartChange(mark, piece.name, "removed", "nothing", False, "")
    for mark, piece in new.items():
        state = states.get(mark, "to cut")
        if mark not in old:
            yield PartChange(mark, piece.name, "added", "new piece", True, state, piece=piece)
        elif piece != old[mark]:
            changed = tuple(_fields(old[mark], piece, ("notches", "operations")))
            acts = tuple(_acts(old[mark], piece))
            how = max((*map(_need, changed), *map(_act_need, acts)), key=NEEDS.index)
            yield PartChange(mark, piece.name, "changed", how, how == "new piece", state, changed, acts)


def _fields(old: Any, new: Any, without: Sequence[str] = ()) -> Iterator[FieldChange]:
    for field in fields(new):
        before, after = getattr(old, field.name), getattr(new, field.name)
        if field.name not in without and before != after:
            yield FieldChange(field.name, before, after)


def _need(change: FieldChange) -> str:
    """What a changed size asks of a piece that is cut: smaller can be trimmed, a deeper rabbet cut, the rest not."""
    if change.what in _BESIDE:
        return "nothing"
    if change.what == "bands":
        return "rework"
    if change.what in ("length", "width"):
        return "trim" if change.new < change.old else "new piece"
    if change.what == "rabbet_depth" and None not in (change.old, change.new):
        return "rework" if change.new > change.old else "new piece"
    if change.what == "tongue_thickness" and None not in (change.old, change.new):
        return "rework" if change.new < change.old else "new piece"
    return "new piece"


def _acts(old: Piece, new: Piece) -> Iterator[ActChange]:
    """Operations and notches that are not on both; what sits on one face for one purpose is the same one, moved."""
    for mine, theirs in ((old.notches, new.notches), (old.operations, new.operations)):
        gone, come = _only(mine, theirs), _only(theirs, mine)
        for act in gone:
            twin = next((other for other in come if _kind(other) == _kind(act)), None)
            if twin is not None:
                come.remove(twin)
            yield ActChange(act, twin)
        yield from (ActChange(None, act) for act in come)


def _only(one: Sequence[Any], other: Sequence[Any]) -> list[Any]:
    """What the first has more of than the second."""
    rest, left = list(other), []
    for item in one:
        if item in rest:
            rest.remove(item)
        else:
            left.append(item)
    return left


def _kind(act: NotchRow | OperationRow) -> Hashable:
    return ("notch", act.corner) if isinstance(act, NotchRow) else (act.op, act.face, act.purpose)


def _act_need(change: ActChange) -> str:
    """What is cut out can be made larger where it is, never smaller and never moved."""
    old, new = change.old, change.new
    if old is None:
        return "rework"
    if new is None or type(old) is not type(new):
        return "new piece"
    if isinstance(old, NotchRow) and isinstance(new, NotchRow):
        if (old.along, old.across) == (new.along, new.across):
            return "nothing"
        return "rework" if new.along >= old.along and new.across >= old.across else "new piece"
    assert isinstance(old, OperationRow)
    assert isinstance(new, OperationRow)
    if old.at != new.at:
        return "new piece"
    if (old.size, old.depth) == (new.size, new.depth):
        return "nothing"
    larger = _at_least(new.size, old.size) and (new.depth is None or (old.depth or 0) <= new.depth)
    return "rework" if larger else "new piece"


def _at_least(one: Fraction | tuple[Fraction, ...], other: Fraction | tuple[Fraction, ...]) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return all(a >= b for a, b in zip(one, other, strict=True))
    return not isinstance(one, tuple) and not isinstance(other, tuple) and one >= other


# --- the rest


def _row_changes(old: Figures, new: Figures) -> Iterator[RowChange]:
    for section, (rows, name) in _SECTIONS.items():
        before, after = ({name(row): row for row in rows(figures)} for figures in (old, new))
        for key in before.keys() - after.keys():
            yield RowChange(section, key, "removed")
        for key, row in after.items():
            if key not in before:
                yield RowChange(section, key, "added")
            elif row != before[key]:
                yield RowChange(section, key, "changed", tuple(_fields(before[key], row)))


def _stock(old: Figures, new: Figures) -> Iterator[StockChange]:
    before, after = _bought(old), _bought(new)
    for material in dict.fromkeys((*before, *after)):
        one, other = before.get(material, (0, None)), after.get(material, (0, None))
        if one != other:
            yield StockChange(material, one[0], other[0], one[1], other[1])


def _bought(figures: Figures) -> dict[str, tuple[int, float | None]]:
    plans = figures.cutting
    bars = {row.material: (row.bars, row.cost) for row in plans.summaries}
    return bars | {row.material: (row.sheets, row.cost) for row in plans.sheet_summaries}


def _failing(figures: Figures) -> dict[tuple[str, str], Check]:
    return {(check.code, check.where): check for check in figures.checks if not check.ok}
