"""A flat part in words: its cuts at the rows of distances, the notes below its drawing, all that it shows."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.bench.frames.trays import HALF_LAP
from generator.drawings.dimensions import Ruler
from generator.drawings.face import Face
from generator.drawings.profile import words
from generator.figures.rows.parts import OperationRow
from generator.geometry import FACES

#: Seen from where, by the axes that are on the paper.
VIEWS = {"xy": "from above", "xz": "from the front", "yz": "from the right"}
#: The face that is drawn, and the one that is away from the reader, by the same axes.
NEAR_FACES = {"xy": FACES["z"][1], "xz": FACES["y"][0], "yz": FACES["x"][1]}
FAR_FACES = {"xy": FACES["z"][0], "xz": FACES["y"][1], "yz": FACES["x"][0]}


def runs_through(face: Face, operation: OperationRow, axis: int) -> bool:
    """True for a groove from edge to edge, rightward (`axis` 0) or upward (1)."""
    return isinstance(operation.size, tuple) and face.measured(operation.size)[axis] >= face.size[axis]


def grooves(face: Face, operations: Iterable[OperationRow]) -> list[OperationRow]:
    """Those that run across the whole part, so that only their row can name them."""
    return [operation for operation in operations if runs_through(face, operation, 0)]


def cut_words(operations: Iterable[OperationRow], face: Face, ruler: Ruler) -> str:
    """The different sizes cut in one column or row: a diameter, rightward × upward, or a groove's width."""
    sizes = []
    for operation in operations:
        if not isinstance(operation.size, tuple):
            sizes.append(words(operation, ruler))
            continue
        measured = face.measured(operation.size)
        size = ruler.size(*measured)
        for axis in (0, 1):
            if runs_through(face, operation, axis):
                size = f"{ruler.text(measured[1 - axis])} wide"
        deep = operation.depth
        sizes.append(size if deep is None else f"{operation.op} {size}, {ruler.text(deep)} deep")
    return ", ".join(dict.fromkeys(sizes))


def plane_of(face: Face) -> str:
    """The axes that are on the paper, in their order; none for what is no board and may lie any way."""
    return "".join(sorted((face.right, face.up))) if face.row.is_board else ""


def is_from_behind(face: Face, operation: OperationRow) -> bool:
    """Whether a hole goes in from the face that is away from the reader, and not through."""
    return operation.depth is not None and operation.face == FAR_FACES.get(plane_of(face))


def facts(face: Face, ruler: Ruler) -> list[str]:
    """Notes below the drawing."""
    row = face.row
    view = VIEWS.get(plane_of(face), "")
    lines = [
        f"{row.made_of}, {ruler.fine(row.thickness)} thick. {ruler.note}" + (f" Seen {view}." if view else "")
    ]
    if any(operation.op != HALF_LAP for operation in row.operations):
        lines.append(
            f"Positions are centres, from the {face.edges['left']} and the {face.edges['bottom']} edge."
        )
    behind = [operation for operation in row.operations if is_from_behind(face, operation)]
    if any(not isinstance(operation.size, tuple) for operation in behind):
        lines.append(
            f"Drill the dashed holes into the {FAR_FACES[plane_of(face)]} face: turn the board over."
        )
    for operation in row.operations:
        if operation.op == HALF_LAP and isinstance(operation.size, tuple):
            low = operation.at[0] < row.length / 2
            lines.append(
                f"Half lap at the {face.edges['left' if low else 'right']} edge, in the {operation.face} face: "
                f"{ruler.fine(operation.size[0])} wide, {ruler.fine(operation.depth or Fraction(0))} deep, "
                f"{operation.purpose}."
            )
    if row.tongues:
        tongues = ", ".join(f"{edge} {ruler.fine(length)}" for edge, length in sorted(row.tongues.items()))
        lines.append(
            f"Tongues, included in the outer size: {tongues}. Dashed line: the bar's face."
            if row.rabbet_depth
            else f"Edges that go in, included in the outer size: {tongues}. Dashed line: how far they go in."
        )
    if row.bands:
        lines.append(f"Banding, included in the outer size. Without it: {ruler.size(*row.cut_size)}.")
    if face.scales[0] != face.scales[1]:
        lines.append("Length and width are not to one scale.")
    return lines


def describe(face: Face, ruler: Ruler) -> str:
    """The drawing in words."""
    row = face.row
    text = [f"{row.name} {row.mark}, {ruler.size(row.length, row.width)}, {ruler.fine(row.thickness)} thick."]
    text += [f"Tongue on the {edge} edge, {ruler.fine(length)}." for edge, length in row.tongues.items()]
    text += [f"Notch at {n.corner}, {ruler.size(n.along, n.across)}." for n in row.notches]
    for operation in row.operations:
        x, y = operation.at
        text.append(f"{operation.op} at {ruler.text(x)}, {ruler.text(y)}: {words(operation, ruler)}.")
    return " ".join(text)
