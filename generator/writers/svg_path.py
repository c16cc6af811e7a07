"""Lines and outlines as the `d` of an SVG path, in as few bytes as they need.

Each place is written from the one before it: equal shapes then have equal words, wherever they are, and those pack
well. Places are rounded before they are compared, so that no rounding adds up along a path.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from generator.drawings.extent import Point
from generator.drawings.shapes import Line

Place = tuple[int, int]
"""A point in whole steps of a power of ten of a millimetre."""


def outline(points: Sequence[Point], digits: int, *, closed: bool) -> str:
    """A run of lines, each corner rounded to so many digits of a millimetre."""
    places = [_place(point, digits) for point in points]
    if closed and len(places) > 2 and places[0] == places[-1]:
        places.pop()
    return f"M{_pair(*places[0], digits)}" + _along(places, digits) + ("z" if closed else "")


def strokes(lines: Iterable[Line], digits: int, *, joined: bool) -> str:
    """Lines as one path. `joined` ones that share an end become one run: only where no dashes would go on in it."""
    ends = [(_place(line.start, digits), _place(line.end, digits)) for line in lines]
    runs = list(_chains(ends)) if joined else [[*each] for each in ends]
    found: list[str] = []
    x, y = 0, 0
    for run in runs:
        closed = len(run) > 3 and run[0] == run[-1]
        start = _pair(run[0][0] - x, run[0][1] - y, digits)
        found.append(f"{'m' if found else 'M'}{start}{_along(run[:-1] if closed else run, digits)}")
        if closed:
            found.append("z")
        # where a `z` leads back to
        x, y = run[-1]
    return "".join(found)


def _place(point: Point, digits: int) -> Place:
    try:
        return round(point[0] * 10**digits), round(point[1] * 10**digits)
    except (ValueError, OverflowError) as error:
        raise ValueError(f"a drawing has no place for {point}") from error


def _chains(ends: Sequence[tuple[Place, Place]]) -> Iterator[list[Place]]:
    """Lines as runs, in the order of their first lines; a run goes on with the first line that has its end."""
    at: dict[Place, list[int]] = {}
    for number, pair in enumerate(ends):
        for place in pair:
            at.setdefault(place, []).append(number)
    left = dict.fromkeys(range(len(ends)))
    while left:
        run = list(ends[next(iter(left))])
        del left[next(iter(left))]
        while (following := next((n for n in at[run[-1]] if n in left), None)) is not None:
            del left[following]
            start, end = ends[following]
            run.append(end if start == run[-1] else start)
        yield run


def _along(places: Sequence[Place], digits: int) -> str:
    """The way from place to place, upright and level ones by one number."""
    words: list[str] = []
    slanted = False
    x, y = places[0]
    for to_x, to_y in places[1:]:
        dx, dy = to_x - x, to_y - y
        if dx and dy:
            words.append(f"{' ' if slanted else 'l'}{_pair(dx, dy, digits)}")
        elif dx or dy:
            words.append(f"h{_number(dx, digits)}" if dx else f"v{_number(dy, digits)}")
        slanted = bool(dx and dy) or (slanted and not (dx or dy))
        x, y = to_x, to_y
    # what has no length is still drawn by its round ends
    return "".join(words) or "h0"


@lru_cache(maxsize=65536)
def _pair(x: int, y: int, digits: int) -> str:
    return f"{_number(x, digits)} {_number(y, digits)}"


@lru_cache(maxsize=65536)
def _number(value: int, digits: int) -> str:
    """A number of whole steps in millimetres, without a nought that says nothing."""
    size = f"{abs(value):0{digits + 1}d}"
    text = f"{size[:-digits]}.{size[-digits:]}".rstrip("0").rstrip(".") if digits else size
    text = text.removeprefix("0") if text != "0" and text[1:2] == "." else text
    return f"-{text}" if value < 0 else text
