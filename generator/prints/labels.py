"""Part labels: one for every piece, with its mark, size, machining in short and where it goes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from generator.drawings.dimensions import Ruler
from generator.drawings.labels import Label, label_sheets
from generator.drawings.paper import Paper
from generator.drawings.part_sheet import what
from generator.drawings.sheet import Content, Heading, Stamp, room
from generator.figures.homes import homes
from generator.figures.model import Figures
from generator.figures.rows.parts import OperationRow, PartRow
from generator.geometry import FACES
from generator.prints.homes import pieces, place
from generator.prints.label_faces import lies_on, middle_of
from generator.prints.print import Print

#: What a sheet of labels says of all of them.
DATUM = "Stick each on the face it names, arrows as built."


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """Labels of all pieces in the order of the bench, those for narrow pieces last."""
    steps = homes(figures)
    places = {piece.mark: piece for row in figures.parts for piece in row.pieces}
    middle = middle_of(list(places.values()))
    labels = []
    for row, mark in pieces(figures):
        stuck = lies_on(row, places.get(mark), middle)
        labels.append(
            Label(
                mark,
                size(row, ruler),
                row.name,
                (in_short(row, ruler), in_short(row, ruler, places=False), in_all(row)),
                place(steps.get(mark)),
                stuck.face,
                stuck.right,
                stuck.up,
                float(stuck.breadth),
            )
        )
    heading = Heading("Part labels", "Part labels", datum=DATUM)
    return [Content(canvas, heading, "Labels to cut out") for canvas in label_sheets(labels, room(paper))]


def size(row: PartRow, ruler: Ruler) -> str:
    """Length of a bar, length and width of a board as it is cut."""
    if row.is_bar:
        return f"{ruler.text(row.length)} {ruler.units}"
    return f"{ruler.size(*row.cut_size)}"


def in_short(row: PartRow, ruler: Ruler, *, places: bool = True) -> str:
    """Machining in short: `front Ø8: 20, 545; tap both ends; tongues front, rear; notches front bottom`.

    Without places how many of each: `4 × access hole Ø8; 3 notches`.
    """
    found: dict[str, list[str]] = defaultdict(list)
    parts: list[str] = []
    for op in row.operations if row.group != "top" else ():
        if op.face not in FACES[row.along] or not row.is_bar:
            if op.op == "groove":
                parts.append(f"groove {op.face}")
                continue
            name = f"{op.face} {what(op, ruler)}" if places else _kind(op, ruler)
            found[name].append(ruler.text(op.at[0]))
    parts += [f"{name}: {', '.join(at)}" if places else f"{len(at)} × {name}" for name, at in found.items()]
    ends = [op.face for op in row.operations if op.op == "tap"]
    if ends:
        parts.append(f"tap {' and '.join(ends)}")
    if row.tongues:
        parts.append(f"tongues {', '.join(row.tongues)}" if places else f"{len(row.tongues)} tongues")
    if row.mitres:
        parts.append(f"mitre {', '.join(row.mitres)}")
    if row.bands:
        parts.append(f"banding {', '.join(row.bands)}")
    if row.notches:
        corners = ", ".join(notch.corner for notch in row.notches)
        parts.append(f"notches {corners}" if places else f"{len(row.notches)} notches")
    if row.grain in ("length", "width"):
        parts.append(f"grain along {ruler.text(row.length if row.grain == 'length' else row.width)}")
    if row.group == "top" and row.operations:
        parts.append(f"{len(row.operations)} holes")
    return "; ".join(parts)


def in_all(row: PartRow) -> str:
    """How many places are machined: what any label has room for."""
    count = len(row.operations) + len(row.notches) + len(row.tongues)
    return f"{count} {'place' if count == 1 else 'places'} to machine" if count else ""


def _kind(operation: OperationRow, ruler: Ruler) -> str:
    """What is to be counted: `Ø8`, `counterbore Ø14`, `relief`."""
    if isinstance(operation.size, tuple):
        return operation.op
    said = what(operation, ruler)
    return said.removeprefix(f"{operation.op} ") if "hole" in operation.op else said


PRINT = Print(
    "labels", "Part labels", "one for every piece, with arrows that say how it goes in the bench", contents
)
