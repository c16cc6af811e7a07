"""Where a piece sits in the bench, as values that can be compared; the reader's words are made of them last."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

End = Literal["left", "right"]
Side = Literal["front", "back"]
Level = Literal["base", "tray", "top"]

ENDS: tuple[End, End] = ("left", "right")
#: The two long sides, front first.
SIDES: tuple[Side, Side] = ("front", "back")
#: The reader's words for them. The wall `back`, the groups and a zone of that name are names of the spec and stay.
SIDE_WORDS: Mapping[str, str] = {"front": "front", "back": "rear", "": ""}


@dataclass(frozen=True)
class Item:
    """One thing of a bay's stack, numbered from below among its kind."""

    kind: str
    number: int


@dataclass(frozen=True)
class Place:
    """Where a piece sits; what says nothing about it stays empty.

    `end` is where along the length, `side` the long side or edge, `level` the ring of bars. `row` counts the rows of
    posts from the front, 0 the front one; `lines` are the lines of posts that it is on or between, 1 the left end
    frame. `zone` and `bay` are the spec's names, to be compared as a whole and never to be read. `wall` is the bay's
    wall that it is fixed to, `item` what it belongs to in the bay's stack.
    """

    end: End | Literal["middle", ""] = ""
    side: Side | Literal[""] = ""
    level: Level | Literal[""] = ""
    row: int | None = None
    lines: tuple[int, ...] = ()
    zone: str = ""
    bay: str = ""
    wall: End | Literal[""] = ""
    item: Item | None = None


def in_words(place: Place) -> str:
    """The place in the reader's words: `front P2`, `left end, spine`, `bay F1, drawer 2`."""
    if place.bay:
        return _in_bay(place)
    lines = " to ".join(f"P{line}" for line in place.lines)
    if place.zone:
        return f"{place.zone} zone, {place.end} end" if place.end else f"{place.zone} {lines}"
    if place.row is not None:
        row = row_name(place)
        if place.end:
            return f"{place.end} end, {row}"
        return f"{row}{',' if len(place.lines) > 1 else ''} {lines}"
    if place.level and place.side:
        return f"{place.level} {SIDE_WORDS[place.side]}{f', {lines}' if lines else ''}"
    words = (SIDE_WORDS[place.side], place.end, lines)
    return " ".join(word for word in words if word) or _ALONE[place.level]


#: What is alone on its level, and what the spec places by itself.
_ALONE = {
    "base": "",
    "tray": "on the end rails and all walls",
    "top": "on the frame",
    "": "as placed by the spec",
}


def row_name(place: Place) -> str:
    """What a row of posts is called: front, spine (spine 2 ...), rear."""
    return SIDE_WORDS[place.side] or ("spine" if place.row == 1 else f"spine {place.row}")


def _in_bay(place: Place) -> str:
    if place.side:
        return f"{SIDE_WORDS[place.side]} edge of the tray, bay {place.bay}"
    item = f"{place.item.kind} {place.item.number}" if place.item else ""
    wall = f"{place.wall} wall" if place.wall else ""
    return ", ".join(word for word in (f"bay {place.bay}", item, wall) if word)
