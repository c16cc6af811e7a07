"""Strips at full scale: story sticks and drilling templates, in tiles that are joined, or in one piece.

Every tile bears absolute positions. A join is on both of its tiles at the same coordinate. All lengths along
and across a strip are multiplied by the stamp's correction; lettering is not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.flags import TIER, Flag, draw_flags, place_flags, tiers
from generator.drawings.letter_sizes import SMALL_TEXT, text_width
from generator.drawings.lettering import shortened
from generator.drawings.paper import TRUE_SCALE, Paper, Scale
from generator.drawings.sheet import Content, Heading, Stamp, room

OVERLAP = Fraction(10)
"""How far the next tile repeats the end of the one before, in mm; the join is in its middle."""

PAPER_LIMIT = Fraction(500)
"""Longer strips of paper are for labels: paper moves 0.1 to 0.2 % with damp, and joins add up."""

BAND = 9.0
"""Height of a stick's own band."""
TITLE_ROOM, FOOT_ROOM = 5.0, 9.0
"""Above the labels: the tile's title. Below the band: numbers of the scale, then the joins."""
INSET = 1.0
"""Clear mm between the frame and the end of a tile."""
GAP = 3.0
"""Clear mm between two strips on a sheet."""
LEAST_CROSS = 3.0
"""Narrower stretches in mm get no X."""
TARGET = 1.5
"""Radius in mm of the mark of a join."""

CLEAR = 0.5
"""Clear mm between the line of a join and a number of the scale: one that it would cross is left out."""

TICKS = {"mm": (Fraction(5), 2, 10), "in": (Fraction(127, 20), 4, 8)}
"""Step of the scale in mm; after how many steps a longer tick follows; after how many a number."""


@dataclass(frozen=True)
class Position:
    """A mark across the strip at `at` mm from its datum end, with words; `kind` is edge or centre."""

    at: Fraction
    words: str
    kind: str


@dataclass(frozen=True)
class StripHole:
    """A hole or a rectangle on the strip, its centre `across` mm above the lower edge."""

    at: Fraction
    across: Fraction
    size: Fraction | tuple[Fraction, Fraction]


@dataclass(frozen=True)
class MarkingStrip:
    """Something long to be marked from, `length` by `band` mm, from its datum end at the left."""

    name: str
    datum: str
    lies_on: str
    length: Fraction
    positions: tuple[Position, ...]
    band: float = BAND
    holes: tuple[StripHole, ...] = ()
    crosses: tuple[tuple[Fraction, Fraction], ...] = ()
    """Stretches in mm from the datum where a member is."""


@dataclass(frozen=True)
class Tile:
    """The part of a strip from `low` to `high` mm, number `n` of `of`; `pitch` is 0 for a strip in one piece."""

    strip: MarkingStrip
    low: Fraction
    high: Fraction
    n: int = 1
    of: int = 1
    pitch: Fraction = Fraction(0)
    gaps: frozenset[int] = frozenset()
    """Joins at which the tile beside is not printed."""

    @property
    def is_empty(self) -> bool:
        """Whether nothing is drilled here: where it begins is measured, no paper says it better."""
        marked = any(self.low <= position.at <= self.high for position in self.strip.positions)
        return bool(self.strip.holes) and not marked

    @property
    def joins(self) -> tuple[tuple[int, Fraction], ...]:
        """(number, place in mm from the datum) of the joins that this tile bears."""
        numbers = [n for n in (self.n - 1, self.n) if 0 < n < self.of and n not in self.gaps]
        return tuple((n, n * self.pitch + OVERLAP / 2) for n in numbers)


def tile(strip: MarkingStrip, pitch: Fraction) -> list[Tile]:
    """A strip in tiles, each `pitch` mm on from the one before and longer by the overlap."""
    count = max(1, ceil((strip.length - OVERLAP) / pitch))
    return [
        Tile(strip, n * pitch, min(strip.length, (n + 1) * pitch + OVERLAP), n + 1, count, pitch)
        for n in range(count)
    ]


def printed(strip: MarkingStrip, pitch: Fraction) -> list[Tile]:
    """The tiles of a strip but for those on which nothing is drilled."""
    tiles = tile(strip, pitch)
    gaps = frozenset(join for each in tiles if each.is_empty for join in (each.n - 1, each.n))
    return [replace(each, gaps=gaps) for each in tiles if not each.is_empty]


class TilePainter:
    """Draws one tile, its datum side at `left`, its upper edge at y = 0."""

    def __init__(self, tile: Tile, ruler: Ruler, left: float, width: float, scale: Scale) -> None:
        self.tile, self.ruler, self.left, self.scale = tile, ruler, left, scale
        flags = [
            Flag(self.x(p.at), ruler.text(p.at), p.words)
            for p in tile.strip.positions
            if tile.low <= p.at <= tile.high
        ]
        self.flags = place_flags(flags, left, left + width)
        self.width = width

    @property
    def height(self) -> float:
        """Height of the tile with all its lettering."""
        return TITLE_ROOM + tiers(self.flags) * TIER + 1.5 + self.band + FOOT_ROOM

    @property
    def band(self) -> float:
        """Height of the band on the paper."""
        return self.tile.strip.band * (self.scale.y if self.tile.strip.holes else 1.0)

    def x(self, at: Fraction) -> float:
        """The paper's x of a place on the strip."""
        return self.left + float(at - self.tile.low) * self.scale.x

    def draw(self) -> Canvas:
        """The tile on a canvas of its own."""
        canvas, tile = Canvas(), self.tile
        canvas.text((self.left, 3.4), self.title(), SMALL_TEXT, style="mark")
        top = self.height - FOOT_ROOM - self.band
        ends = (self.x(tile.low), self.x(tile.high))
        for y in (top, top + self.band):
            canvas.line((ends[0], y), (ends[1], y))
        for x, at in zip(ends, (Fraction(0), tile.strip.length), strict=True):
            # an end at which no tile follows is measured from, not joined
            open_end = (tile.n - 1 if x == ends[0] else tile.n) in tile.gaps
            whole = open_end or at in (tile.low, tile.high)
            canvas.line((x, top), (x, top + self.band), "outline" if whole else "hidden")
        self.ticks(canvas, top + self.band)
        self.holes(canvas, top)
        for position in tile.strip.positions:
            if tile.low <= position.at <= tile.high:
                x = self.x(position.at)
                style = "centre" if position.kind == "centre" else "outline"
                canvas.line((x, top), (x, top + self.band), style)
        self.crosses(canvas, top)
        draw_flags(canvas, self.flags, top)
        self.joins(canvas, top)
        return canvas

    def title(self) -> str:
        """What the tile is, where it begins and ends, and where the strip belongs."""
        strip, tile, ruler = self.tile.strip, self.tile, self.ruler
        words = [strip.name]
        if tile.of > 1:
            low, high = (ruler.text(at) for at in (tile.low, tile.high))
            words.append(f"tile {tile.n} of {tile.of}: {low} to {high} {ruler.units}")
        if tile.n - 1 in tile.gaps and tile.n > 1:
            words.append(f"measure {ruler.text(tile.low)} from 0 to its left end with a tape")
        words += [f"0 = {strip.datum}", f"hold it against {strip.lies_on}" if strip.lies_on else ""]
        return shortened(" · ".join(word for word in words if word), self.width / 1.12, SMALL_TEXT)

    def ticks(self, canvas: Canvas, y: float) -> None:
        """A scale along the lower edge as one comb, with numbers below it."""
        step, long, numbered = TICKS[self.ruler.units]
        first = ceil(self.tile.low / step)
        comb = []
        number = first
        while number * step <= self.tile.high:
            x = self.x(number * step)
            tall = 3.4 if number % numbered == 0 else 2.2 if number % long == 0 else 1.2
            comb += [(x, y), (x, y - tall), (x, y)]
            if number % numbered == 0:
                text = self.ruler.text(number * step)
                half = text_width(text, SMALL_TEXT) / 2
                at = min(max(x, self.left + half), self.left + self.width - half)
                if not any(abs(self.x(join) - at) < half + CLEAR for _, join in self.tile.joins):
                    canvas.text((at, y + 3.4), text, SMALL_TEXT, "middle")
            number += 1
        if len(comb) > 1:
            canvas.polyline(comb, "thin")

    def holes(self, canvas: Canvas, top: float) -> None:
        """Holes with their centre lines, as far as they are on this tile."""
        tile = self.tile
        for hole in tile.strip.holes:
            size = hole.size if isinstance(hole.size, tuple) else (hole.size, hole.size)
            if not tile.low <= hole.at - size[0] / 2 <= hole.at + size[0] / 2 <= tile.high:
                continue
            width, height = float(size[0]) * self.scale.x, float(size[1]) * self.scale.y
            x, y = self.x(hole.at), top + self.band - float(hole.across) * self.scale.y
            if isinstance(hole.size, tuple):
                canvas.rect(x - width / 2, y - height / 2, width, height, "hole")
            else:
                canvas.circle((x, y), float(hole.size) * self.scale.mean / 2, "hole")
            reach = height / 2 + 1.5
            canvas.line((x - width / 2 - 1.5, y), (x + width / 2 + 1.5, y), "thin")
            canvas.line((x, y - reach), (x, y + reach), "thin")

    def crosses(self, canvas: Canvas, top: float) -> None:
        """An X in every stretch where a member is."""
        for low, high in self.tile.strip.crosses:
            low, high = max(low, self.tile.low), min(high, self.tile.high)
            if high - low < LEAST_CROSS:
                continue
            half = min(2.2, float(high - low) * 0.4)
            x, y = self.x((low + high) / 2), top + self.band * 0.36
            canvas.line((x - half, y - half), (x + half, y + half), "thin")
            canvas.line((x - half, y + half), (x + half, y - half), "thin")

    def joins(self, canvas: Canvas, top: float) -> None:
        """Lines on which two tiles are laid over each other, a target below them, and their coordinate.

        Not a cross: an X is where a member is.
        """
        for number, at in self.tile.joins:
            x, low = self.x(at), top + self.band + 6.6
            canvas.line((x, top - 1.0), (x, low), "thin")
            canvas.circle((x, low - TARGET), TARGET, "thin")
            canvas.line((x - TARGET, low - TARGET), (x + TARGET, low - TARGET), "thin")
            words = f"join {number} @ {self.ruler.text(at)}"
            begins = number == self.tile.n - 1
            canvas.text(
                (x + (3.0 if begins else -3.0), low + 1.2), words, SMALL_TEXT, "start" if begins else "end"
            )


def strip_sheets(
    strips: Sequence[MarkingStrip], ruler: Ruler, paper: Paper, stamp: Stamp, document: str
) -> list[Content]:
    """All tiles of the strips on sheets that lie on their long side, as many on a sheet as it holds."""
    lying = paper.turned()
    free = room(lying, full_scale=True)
    pitch, scale = Fraction(paper.pitch), stamp.scale(lying=True)
    while float(pitch + OVERLAP) * scale.x > free.width - 2 * INSET:
        pitch -= OVERLAP
    width = float(pitch + OVERLAP) * scale.x
    painters = [
        TilePainter(part, ruler, free.left + INSET, width, scale)
        for strip in strips
        for part in printed(strip, pitch)
    ]
    return [content(page, free, document) for page in pages(painters, free.height)]


def pages(painters: Sequence[TilePainter], height: float) -> Iterator[list[TilePainter]]:
    """Tiles in the runs that one sheet holds."""
    page: list[TilePainter] = []
    taken = 0.0
    for painter in painters:
        if page and taken + painter.height > height:
            yield page
            page, taken = [], 0.0
        page.append(painter)
        taken += painter.height + GAP
    if page:
        yield page


def content(page: Sequence[TilePainter], free: Extent, document: str) -> Content:
    """One sheet of tiles."""
    canvas, y = Canvas(), free.top + 1.0
    for painter in page:
        canvas.place(painter.draw(), 0.0, y)
        y += painter.height + GAP
    strips = list(dict.fromkeys(painter.tile.strip for painter in page))
    names = ", ".join(strip.name for strip in strips)
    notes = [
        "Measure the four check bars first.",
        "Wrong length? Build with --bar.",
    ]
    if any(strip.length > PAPER_LIMIT for strip in strips):
        limit = page[0].ruler
        notes.append(f"Over {limit.text(PAPER_LIMIT)} {limit.units}, use paper for labels")
        notes.append("only. Measure with a steel tape.")
    datum = "0 is the strip's left end. Measure all from there."
    if any(strip.holes for strip in strips):
        datum += " Clamp the bar before you drill; no gloves."
    heading = Heading(document, names, datum=datum)
    return Content(
        canvas, heading, f"Full-scale strips: {names}", full_scale=True, lying=True, notes=tuple(notes)
    )


def one_piece(strip: MarkingStrip, ruler: Ruler, id: str) -> Drawing:
    """A strip in one piece at full scale, for a wide printer or a screen."""
    whole = Tile(strip, Fraction(0), strip.length)
    canvas = TilePainter(whole, ruler, 0.0, float(strip.length), TRUE_SCALE).draw()
    words = "; ".join(f"{ruler.text(p.at)} {p.words}" for p in strip.positions)
    return canvas.finish(id, f"{strip.name}, full scale", f"From the {strip.datum}: {words}.")
