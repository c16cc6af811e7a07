"""What comes onto a face of a board, by which distances it is marked, and in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.on_boards import SetOut
from generator.drawings.dimensions import Ruler
from generator.drawings.mark_runs import runs


@dataclass(frozen=True)
class FaceView:
    """What is on one face of one piece, and the other faces that have the same at the same distances."""

    part: str
    face: str
    items: tuple[SetOut, ...]
    others: tuple[tuple[SetOut, ...], ...] = ()
    own_datum: tuple[str, str] = ("", "")
    """The edges from which the piece is measured whose mark the row bears."""

    @property
    def datum(self) -> tuple[str, str]:
        """The edges from which it is measured, along and across the board."""
        return self.items[0].datum


def marked(each: SetOut) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    """Distances from the datum edges, along and across, by which something is marked (mm).

    Of what has an axis that is the axis, with its holes; of a piece its ends, or the edge that carries where it lies.
    """
    (x0, y0), (x1, y1) = each.low, each.high
    if each.axis == "across":
        return ((x0 + x1) / 2,), ()
    if each.axis == "along":
        return (x0, *(at for at, _ in each.holes)), ((y0 + y1) / 2,)
    if not each.mark:
        return (x0, x1), (y0, y1)
    return (x0,), ((y1,) if lies(each) else (y0, y1))


def lies(each: SetOut) -> bool:
    """Whether it is a piece that is longer along the board than across it."""
    return bool(each.mark) and each.high[0] - each.low[0] > each.high[1] - each.low[1]


def caption(view: FaceView) -> list[str]:
    """What the view stands for."""
    same: dict[str, list[str]] = {}
    for own in view.others:
        marks = runs([each.mark for each in own if each.mark])
        name = f"{own[0].part} ({marks})" if marks else own[0].part
        same.setdefault(own[0].face, []).append(name)
    lines = []
    for face, names in sorted(same.items(), key=lambda each: each[0] != view.face):
        how = "The same on" if face == view.face else "Mirrored on"
        lines.append(f"{how} the {face} face of {', '.join(names)}.")
    return lines


def common(shown: Sequence[FaceView], ruler: Ruler) -> list[str]:
    """What no row of distances says, once for all views."""
    items = [each for view in shown for each in view.items]
    lines = []
    if any(lies(each) for each in items):
        lines.append("Mark a level strip by its upper edge.")
    if any(each.axis == "across" and each.low[0] == each.high[0] for each in items):
        lines.append("Chain lines at the upper edge: screws from above.")
    deep = {e.name: e.high[1] - e.low[1] for e in items if e.axis == "across" and e.high[0] > e.low[0]}
    lines += [f"A {name} reaches {ruler.text(size)} below the upper edge." for name, size in deep.items()]
    return lines


def describe(shown: Sequence[FaceView], ruler: Ruler) -> str:
    """The drawing in words."""
    text = []
    for view in shown:
        along, across = view.datum
        text.append(f"{view.part}, {view.face} face, from the {along} and the {across} edge:")
        for each in view.items:
            places = [" and ".join(map(ruler.text, found)) for found in marked(each)]
            said = ", ".join(place for place in places if place)
            text.append(f"{each.mark or each.name} at {said}.")
        text += caption(view)
    text += common(shown, ruler)
    return " ".join(text)
