"""Which long faces of a bar are drawn."""

from __future__ import annotations

from generator.figures.rows.parts import PartRow
from generator.geometry import AXES, FACES


def side_faces(row: PartRow) -> tuple[str, ...]:
    """The four long faces."""
    return tuple(face for axis in AXES if axis != row.along for face in FACES[axis])


def faces_drawn(row: PartRow) -> tuple[str, ...]:
    """The long faces that carry operations, or one face when none does."""
    worked = {operation.face for operation in row.operations}
    drawn = tuple(face for face in side_faces(row) if face in worked)
    return drawn or (("top",) if row.along != "z" else ("front",))


def opposite(face: str) -> str:
    """The face across from one."""
    pair = next(pair for pair in FACES.values() if face in pair)
    return pair[1 - pair.index(face)]


def same_from_both_sides(row: PartRow, face: str) -> bool:
    """Whether the face across has the same cuts from here to there, all in the middle: one strip shows both."""
    own, other = (
        sorted((op.op, op.at, op.size, op.depth or 0) for op in row.operations if op.face == each)
        for each in (face, opposite(face))
    )
    breadth = row.width if row.across not in (row.along, axis_of(face)) else row.thickness
    in_the_middle = all(isinstance(size, tuple) and at[1] * 2 == breadth for _, at, size, _ in own)
    return bool(own) and own == other and in_the_middle


def axis_of(face: str) -> str:
    """The axis across a face."""
    return next(axis for axis, faces in FACES.items() if face in faces)


def drawn_from_below(row: PartRow, face: str) -> bool:
    """Whether a face that lies with the datum end at the left has its left, front or bottom edge below.

    That is so where the axis of the bar, the other axis of the face and the way out of it are a right-handed system.
    """
    own = next(axis for axis, faces in FACES.items() if face in faces)
    other = next(axis for axis in AXES if axis not in (row.along, own))
    is_right_handed = f"{row.along}{other}" in ("xy", "yz", "zx")
    return is_right_handed == (face == FACES[own][1])
