"""Edge banding on boards: which edges have it, and what the spec says of edges that no board has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.layout import Layout, bay_of
from generator.bench.piece import Part
from generator.codes import Code
from generator.findings import Finding, Severity, nearest, one_of
from generator.geometry import FACES
from generator.spec.load import LoadedSpec

#: What the spec calls a face, where it is not its own name.
_FACE = {"back": "rear"}
_WORD = {face: word for word, face in _FACE.items()}


def banded(loaded: LoadedSpec, layout: Layout, parts: Sequence[Part]) -> tuple[Part, ...]:
    """The parts with the banding of their edges."""
    card = loaded.goods.banding
    if card is None:
        return tuple(parts)
    return tuple(
        replace(part, bands=bands)
        if (bands := dict.fromkeys(_edges(loaded, layout, part), card.thickness))
        else part
        for part in parts
    )


def said_of(loaded: LoadedSpec, part: Part) -> str:
    """The name under `edges.boards` that a board follows, its mark before its group; empty for none."""
    said = loaded.spec.edges.boards
    return next((name for name in (part.mark, part.group) if name in said), "")


def in_spec(edges: Sequence[str]) -> str:
    """Edges as the spec writes them: `[front, back]`."""
    return f"[{', '.join(_WORD.get(edge, edge) for edge in edges)}]"


def _edges(loaded: LoadedSpec, layout: Layout, part: Part) -> tuple[str, ...]:
    edges = loaded.spec.edges
    if not part.is_board or part.metal:
        return ()
    if name := said_of(loaded, part):
        return tuple(dict.fromkeys(_FACE.get(each, each) for each in edges.boards[name]))
    return _seen(layout, part) if edges.sides == "visible" else ()


def _seen(layout: Layout, part: Part) -> tuple[str, ...]:
    """The edges of what fills a bay that are seen from outside."""
    way = next(filter(None, (kind.seen_edges.get(part.group) for kind in FILLINGS)), None)
    if way is None:
        return ()
    if way == "all":
        return (*FACES[part.along], *FACES[part.across])
    zone, _ = bay_of(layout, part.place.bay)
    return ("rear" if zone.opens == "rear" else "front",)


#: More than this (mm) no band is wide, and none is cut longer than its edge. Common practice, no source.
MOST = Fraction(500)


def wrong_bands(loaded: LoadedSpec, parts: Sequence[Part]) -> Iterator[Finding]:
    """Banding that the spec leaves out, names that are no board, edges that a board does not have, boards without size.

    What is wrong with a name is said once, for the first board that has it.
    """
    said, card = loaded.spec.edges.boards, loaded.goods.banding
    boards = [part for part in parts if part.is_board and not part.metal]
    names = dict.fromkeys(name for part in boards for name in (part.group, part.mark))
    if said and card is None:
        yield Finding(
            Code.MISSING_KEY, Severity.ERROR, "these boards have edges to band, and no banding",
            loaded.where("edges", "boards"), advice="Write `edges.banding: NAME`, with its card under `hardware`.",
        )  # fmt: skip
    for name, edges in said.items():
        board = next((part for part in boards if name in (part.mark, part.group)), None)
        where = loaded.where("edges", "boards", name)
        if board is None:
            groups = ", ".join(dict.fromkeys(part.group for part in boards))
            yield Finding(
                Code.UNKNOWN_BOARD, Severity.ERROR,
                "this bench has no board with this mark and no such group of boards", where, found=name,
                allowed=f"a board's mark, or one of {groups}", nearest=nearest(name, names),
            )  # fmt: skip
            continue
        own = (*FACES[board.along], *FACES[board.across])
        for edge in edges:
            if _FACE.get(edge, edge) not in own:
                yield Finding(
                    Code.NOT_AN_EDGE, Severity.ERROR, f"this is a face of {board.mark}, not an edge", where,
                    found=edge, allowed=one_of(_WORD.get(each, each) for each in own),
                )  # fmt: skip
    if card is not None:
        yield from _too_thick(loaded, boards, card.thickness)
        wide = ("hardware", str(loaded.spec.edges.banding), "width"), card.width
        for path, size in ((("edges", "extra"), loaded.spec.edges.extra), wide):
            if size > MOST:
                yield loaded.fault(
                    Code.OUT_OF_RANGE, "this length is too large", *path,
                    found=loaded.say(size), allowed=f"{loaded.say(MOST)} or less",
                )  # fmt: skip


def _too_thick(loaded: LoadedSpec, boards: Sequence[Part], thickness: Fraction) -> Iterator[Finding]:
    """Two bands take all of the narrowest board."""
    board = min(boards, key=lambda part: min(part.length, part.width))
    if 2 * thickness >= min(board.length, board.width):
        yield Finding(
            Code.NO_SIZE, Severity.ERROR, f"two such bands leave nothing of {board.mark}",
            loaded.where("hardware", loaded.spec.edges.banding or "", "thickness"),
            found=loaded.say(thickness), allowed=f"less than {loaded.say(min(board.length, board.width) / 2)}",
        )  # fmt: skip
