"""Openings in the boards of the frame and the bays, cut where the spec says; and openings that cannot be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from generator.bench.piece import Operation, Part
from generator.bench.regions import Region
from generator.codes import Code
from generator.findings import Finding, Steps, nearest
from generator.geometry import AXES
from generator.spec.load import LoadedSpec
from generator.spec.openings import BoardCutout, OpeningShape
from generator.spec.services import HosePort, Service, SocketStrip

#: The face of a board that its drawing shows, by the axis across its thickness.
SHOWN = {"x": "right", "y": "front", "z": "top"}
CUT_OUT = "cut-out"


@dataclass(frozen=True)
class PlacedOpening:
    """An opening of the spec in one board: its machining, its rectangle from the board's datum corner, its place."""

    board: str
    operation: Operation
    region: Region
    path: Steps

    @property
    def name(self) -> str:
        """Words for it in a finding."""
        return f"{self.operation.purpose} in {self.board}"


def openings(loaded: LoadedSpec, parts: Sequence[Part]) -> tuple[PlacedOpening, ...]:
    """Every opening in every board that its key names."""
    return tuple(
        _placed(part, card, path) for path, card in _asked(loaded) for part in named(card.board, parts)
    )


def _asked(loaded: LoadedSpec) -> Iterator[tuple[Steps, BoardCutout]]:
    """Cut-outs that the spec asks for, and those of what it lets into boards."""
    for index, card in enumerate(loaded.spec.panels.cutouts):
        yield ("panels", "cutouts", index), card
    for path, each, item in services(loaded):
        keys: dict[str, Any] = {"in": each.board, "for": called(loaded, each, item), "at": each.at}
        yield path, BoardCutout.model_construct(**dict(item.shape), **keys)


def services(loaded: LoadedSpec) -> Iterator[tuple[Steps, Service, SocketStrip | HosePort]]:
    """Each socket strip and hose port, with its key and its card."""
    for index, each in enumerate(loaded.spec.services):
        yield ("services", index), each, loaded.goods.services[each.item]


def called(loaded: LoadedSpec, each: Service, item: SocketStrip | HosePort) -> str:
    """What it is, with its name in the spec where the bench has another one of its kind."""
    same = {other.item for _, other, card in services(loaded) if card.kind == item.kind}
    return item.kind if len(same) == 1 else f"{item.kind} {each.item}"


def named(board: str, parts: Sequence[Part]) -> tuple[Part, ...]:
    """The boards that a key means: the one with this mark, or all with this name."""
    boards = [part for part in parts if _takes_one(part)]
    by_mark = tuple(part for part in boards if part.mark == board)
    return by_mark or tuple(part for part in boards if board in (part.name, part.group))


def _takes_one(part: Part) -> bool:
    return part.is_board and not part.metal


def opened(loaded: LoadedSpec, parts: Sequence[Part]) -> tuple[Part, ...]:
    """The boards with their openings."""
    found = openings(loaded, parts)
    if not found:
        return tuple(parts)
    return tuple(
        replace(
            part,
            operations=(*part.operations, *(each.operation for each in found if each.board == part.mark)),
        )
        for part in parts
    )


def _placed(part: Part, card: BoardCutout, path: Steps) -> PlacedOpening:
    thin = next(axis for axis in AXES if axis not in (part.along, part.across))
    size = card.size or (card.diameter or Fraction(0))
    corner = Fraction(0) if card.size is None else card.corner
    act = Operation(CUT_OUT, SHOWN[thin], card.at, size, None, card.purpose or "opening", corner)
    return PlacedOpening(part.mark, act, Region.about(card.at, card.outside), path)


# ---- what cannot be


def misplaced(loaded: LoadedSpec, parts: Sequence[Part]) -> Iterator[Finding]:
    """Openings in boards that this bench does not have, and corners rounder than their opening."""
    boards = [part for part in parts if _takes_one(part)]
    for item in dict.fromkeys(each.item for each in loaded.spec.services):
        yield from _no_rim(loaded, item, loaded.goods.services[item])
    told: set[Steps] = set()
    for path, card in _asked(loaded):
        own = ("hardware", loaded.spec.services[int(path[1])].item) if path[0] == "services" else path
        wrong = (
            *too_round(loaded, card, own),
            *_all_of_it(loaded, card, own, named(card.board, parts)),
        )
        yield from wrong if own not in told else ()  # the card of a service is wrong once
        told |= {own} if wrong else set()
        if not named(card.board, parts):
            names = list(
                dict.fromkeys(name for part in boards for name in (part.group, part.name, part.mark))
            )
            groups = ", ".join(dict.fromkeys(part.group for part in boards))
            yield loaded.fault(
                Code.UNKNOWN_BOARD, "this bench has no board with this mark or name", *path, "in",
                found=card.board, allowed=f"a board's mark, or one of {groups}", nearest=nearest(card.board, names),
            )  # fmt: skip


def _no_rim(loaded: LoadedSpec, name: str, item: SocketStrip | HosePort) -> Iterator[Finding]:
    """A rim that falls through its cut-out, and a hose that is wider than its hole."""
    path = ("hardware", name)
    for rim, hole in zip(item.rim, item.shape.outside, strict=True):
        if rim <= hole:
            yield loaded.fault(
                Code.FEATURE_SIZE, "the rim is not wider than its cut-out, so nothing holds it", *path, "flange",
                found=loaded.say(rim), allowed=f"more than {loaded.say(hole)}",
            )  # fmt: skip
            break
    if item.passes > min(item.shape.outside):
        yield loaded.fault(
            Code.FEATURE_SIZE, "the hose does not go through the hole of its port", *path, "hose",
            found=loaded.say(item.passes), allowed=f"{loaded.say(min(item.shape.outside))} or less",
        )  # fmt: skip


def _all_of_it(
    loaded: LoadedSpec, card: OpeningShape, path: Steps, boards: Sequence[Part]
) -> Iterator[Finding]:
    """An opening that leaves nothing of its board, or cuts it in two."""
    for part in boards:
        for size, most in zip(card.outside, (part.length, part.width), strict=True):
            if size >= most:
                key = ("cutout",) if path[0] == "hardware" else ("size",) if card.size else ("diameter",)
                message = f"this opening takes all of {part.mark}, or cuts it in two"
                yield no_feature(loaded, message, (*path, *key), size, most)
                return


def too_round(loaded: LoadedSpec, card: OpeningShape, path: Steps) -> Iterator[Finding]:
    """Corners that would meet."""
    if card.size is not None and 2 * card.corner > min(card.size):
        message = "the corners are rounder than the cut-out"
        yield no_feature(loaded, message, (*path, "corner"), card.corner, min(card.size) / 2)


def no_feature(loaded: LoadedSpec, message: str, path: Steps, found: Fraction, below: Fraction) -> Finding:
    """Something that no board can have, for this value is not below its limit."""
    return loaded.fault(
        Code.FEATURE_SIZE, message, *path, found=loaded.say(found), allowed=f"less than {loaded.say(below)}"
    )
