"""A small table in the foot of a step picture: the sub-assemblies that it stands for in other sizes, piece by piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from generator.drawings.callouts import BETWEEN
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler
from generator.drawings.letter_sizes import BOLD, SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import MARGIN, PAGE_WIDTH, wrapped
from generator.drawings.mark_runs import by_number, runs
from generator.drawings.slim import draw_list
from generator.drawings.step_counts import screws_in
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step

#: A cell's lines of text.
Cell = tuple[str, ...]

#: Above the table, and between two of its columns and two of its rows (mm).
TITLE, APART, ROWS_APART = "In other sizes", 3.0, 1.2
#: The narrowest and the widest column (mm).
LEAST, WIDEST = 17.0, 32.0
#: What follows the name of what a sub-assembly is built on.
WITH = " with "


@dataclass(frozen=True)
class SizedPiece:
    """Pieces of one kind and size: what they are called, both sizes as text, their marks."""

    group: str
    along: str
    across: str
    marks: tuple[str, ...]

    @property
    def size(self) -> str:
        """Both sizes, or the length of a bar."""
        return f"{self.along} × {self.across}" if self.across else self.along


@dataclass(frozen=True)
class OtherSize:
    """Sub-assemblies of one size: their names, their pieces, how many of a screw where not all take as many."""

    names: tuple[str, ...]
    pieces: tuple[SizedPiece, ...]
    screws: tuple[tuple[str, int], ...]


def other_sizes(figures: Figures, step: Step, homes: Sequence[str], ruler: Ruler) -> tuple[OtherSize, ...]:
    """Those of `homes`, which are made in the step as the one that it shows; of one size together."""
    motions = [motion for each in figures.assembly.steps for motion in each.motions]
    counts = _counts(figures, step, [motion.called for motion in step.motions])
    found: dict[tuple[object, ...], OtherSize] = {}
    for home in homes:
        own = [motion.called for motion in motions if motion.into == home]
        pieces = tuple(_pieces(figures, own, ruler))
        many = _counts(figures, step, own)
        screws = tuple(many.items())
        key = (tuple((each.group, each.size) for each in pieces), screws)
        before = found.get(key, OtherSize((), (), screws))
        if before.pieces:
            both = zip(before.pieces, pieces, strict=True)
            pieces = tuple(replace(first, marks=(*first.marks, *more.marks)) for first, more in both)
        found[key] = OtherSize((*before.names, home.partition(WITH)[0]), pieces, screws)
    other = {item for each in found.values() for item, count in each.screws if count != counts[item]}
    return tuple(
        replace(each, screws=tuple(own for own in each.screws if own[0] in other)) for each in found.values()
    )


def _pieces(figures: Figures, marks: Sequence[str], ruler: Ruler) -> Iterator[SizedPiece]:
    """In the order of the work."""
    rows = {mark: row for row in figures.parts for mark in row.marks}
    found: dict[tuple[str, str, str], list[str]] = {}
    for mark in marks:
        if mark in rows:
            row = rows[mark]
            across = "" if row.width == row.thickness else ruler.text(row.width)
            found.setdefault((row.group, ruler.text(row.length), across), []).append(mark)
    for size, own in found.items():
        yield SizedPiece(*size, tuple(sorted(own, key=by_number)))


def _counts(figures: Figures, step: Step, marks: Sequence[str]) -> dict[str, int]:
    return {each.item: screws_in(figures, each.item, marks) for each in step.fixings}


def draw_sizes(canvas: Canvas, others: Sequence[OtherSize], at: tuple[float, float], *, slim: bool) -> None:
    """The table from an upper left corner; a list of sentences where its columns would be too narrow."""
    if not others:
        return
    x, y = at
    canvas.text((x, y + TEXT), TITLE, TEXT, style="mark")
    y += TEXT + BETWEEN
    columns = list(_columns(others)) if _alike(others) else []
    first = BOLD * max(text_width(_named(other), SMALL_TEXT) for other in others)
    room = (PAGE_WIDTH - 2 * MARGIN - first) / max(1, len(columns)) - APART
    if slim or not columns or room < LEAST:
        draw_list(canvas, [(_named(other), _sentence(other)) for other in others], (x, y))
        return
    names = [("",), *((_named(other),) for other in others)]
    widths = [first, *(min(room, WIDEST) for _ in columns)]
    for number, cells in enumerate(zip(names, *columns, strict=True)):
        y = _draw_row(canvas, cells, widths, (x, y), is_head=not number)
        canvas.line((x, y), (x + sum(widths) + APART * len(columns), y), "hatch")
        y += ROWS_APART


def _draw_row(
    canvas: Canvas, cells: Sequence[Cell], widths: Sequence[float], at: tuple[float, float], *, is_head: bool
) -> float:
    """A row of the table; its lower edge."""
    (x, y), line, high = at, line_height(SMALL_TEXT), 1
    for column, (cell, width) in enumerate(zip(cells, widths, strict=True)):
        bold = is_head or not column
        rows = [row for text in cell for row in wrapped(text, width / (BOLD if bold else 1.0), SMALL_TEXT)]
        for number, row in enumerate(rows):
            style = "mark" if bold else "text"
            canvas.text((x, y + SMALL_TEXT + number * line), row, SMALL_TEXT, style=style)
        x += width + APART
        high = max(high, len(rows))
    return y + high * line + ROWS_APART / 2


def _alike(others: Sequence[OtherSize]) -> bool:
    return len({tuple(each.group for each in other.pieces) for other in others}) == 1


def _named(other: OtherSize) -> str:
    """`F1.2, F4.2`, without the word that their names begin with."""
    return ", ".join(name.rpartition(" ")[2] for name in other.names)


def _columns(others: Sequence[OtherSize]) -> Iterator[list[Cell]]:
    """A kind of piece each, with a size that all share in its head; then a kind of screw each."""
    for pieces in zip(*(other.pieces for other in others), strict=True):
        shared = {each.along for each in pieces} if all(each.across for each in pieces) else set[str]()
        if len(shared) == 1:
            head: Cell = (pieces[0].group, f"{pieces[0].along} ×")
            yield [head, *((each.across, runs(each.marks)) for each in pieces)]
        else:
            yield [(pieces[0].group,), *((each.size, runs(each.marks)) for each in pieces)]
    for item in dict.fromkeys(item for other in others for item, _ in other.screws):
        yield [(f"{item}s",), *((str(dict(other.screws)[item]),) for other in others)]


def _sentence(other: OtherSize) -> str:
    pieces = [f"{each.group} {each.size} ({runs(each.marks)})" for each in other.pieces]
    return "; ".join((*pieces, *(f"{count} × {item}" for item, count in other.screws)))
