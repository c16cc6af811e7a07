"""A sheet problem in whole numbers, and guillotine layouts as trees of cuts.

With kerf k, pieces are k wider and higher and the usable sheet too: then cuts have no width. This is exact on each
axis as for bars. The origin is the lower left corner of the usable sheet; the kerf is right of and above a piece.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from generator.calculators.cutting.core.job import BarJob

#: Cuts one within the other, at most, in what a table leads to.
DEEPEST = 300


class ShopRule(NamedTuple):
    """What a saw operator asks of a cut, in whole steps; all 0 where nothing is asked.

    Every part in a row is cut off with the fence at its size, and what is left behind the last cut is `least` long, so
    that no cut runs beside the part. What goes to the saw is `feed` long on its longest side.
    """

    kerf: int = 0
    least: int = 0
    feed: int = 0

    @property
    def gap(self) -> int:
        """What the last cut in a row takes, with what is left behind it."""
        return self.kerf + self.least if self.least else 0

    def fed(self, across: int, room: int, sizes: Sequence[int]) -> bool:
        """Whether parts are cut off a room one after the other, the largest last, from pieces that are large enough."""
        rest = room - sum(sizes) + max(sizes, default=0)
        return max(across, rest) - self.kerf >= self.feed or list(sizes) == [room]

    def in_order(self, across: int, room: int, sizes: Sequence[int]) -> list[int]:
        """Places of the sizes, the largest first; the largest last where what is left would be too small to feed."""
        order = sorted(range(len(sizes)), key=lambda place: -sizes[place])
        rest = room - sum(sizes) + min(sizes, default=0)
        small = max(across, rest) - self.kerf < self.feed
        return [*order[1:], *order[:1]] if small else order


NO_RULE = ShopRule()


@dataclass(frozen=True)
class SheetJob:
    """Sizes with the kerf, in whole steps. A piece that `turns` may lie either way; prices in whole steps.

    A layout has at most this many `stages`. A part longer than `longest` does not go to the fence: it is broken down
    first, and what comes off is too large by the `allowance`. That cut takes `wider` more than a piece has for its
    kerf, or less where it is below 0.
    """

    pieces: tuple[tuple[int, int], ...]
    turns: tuple[bool, ...]
    demands: tuple[int, ...]
    sheets: tuple[tuple[int, int], ...]
    prices: tuple[int, ...]
    limits: tuple[int | None, ...]
    stages: int | None = None
    longest: int | None = None
    allowance: int = 0
    wider: int = 0
    rule: ShopRule = NO_RULE
    keep: tuple[int, int] = (0, 0)
    """The smallest off-cut that is kept, lying either way; (0, 0) where none is."""

    @property
    def areas(self) -> BarJob:
        """The same job by area alone: what `core.bounds`, `core.master` and `core.covering` need to know of it."""
        return BarJob(
            tuple(width * height for width, height in self.pieces),
            self.demands,
            tuple(width * height for width, height in self.sheets),
            self.prices,
            self.limits,
        )

    @property
    def slivers(self) -> tuple[bool, ...]:
        """Which pieces are so narrow that a table, where pieces repeat, would lay them in rows of hundreds."""
        longest = max(max(sheet) for sheet in self.sheets)
        return tuple(min(piece) * DEEPEST < longest for piece in self.pieces)

    def ways(self, piece: int) -> list[tuple[int, int, bool]]:
        """Width, height and whether turned, for each way that a piece may lie."""
        width, height = self.pieces[piece]
        ways = [(width, height, False)]
        if self.turns[piece] and width != height:
            ways.append((height, width, True))
        return ways


class Leaf(NamedTuple):
    """A rectangle that is one piece (`piece` its place, `turned` how it lies) or, with piece -1, waste."""

    width: int
    height: int
    piece: int = -1
    turned: bool = False


class Split(NamedTuple):
    """A rectangle cut from edge to edge: upright at x = `at` from its left, or level at y = `at` from below.

    The second part ends where the rectangle does. It begins at `at`, or behind it where the saw takes more than a
    piece has for its kerf, or before it where the saw takes less.
    """

    width: int
    height: int
    upright: bool
    at: int
    first: Layout
    second: Layout

    @property
    def over(self) -> int:
        """Where the second part begins."""
        return self.width - self.second.width if self.upright else self.height - self.second.height


Layout = Leaf | Split

#: A sheet: its stock and how it is cut.
Sheet = tuple[int, Layout]


def split(width: int, height: int, upright: bool, at: int, first: Layout, second: Layout) -> Layout:
    """A cut, unless nothing is on one side of it or both sides are waste."""
    if at == 0:
        return second
    if at == (width if upright else height):
        return first
    if isinstance(first, Leaf) and isinstance(second, Leaf) and first.piece < 0 and second.piece < 0:
        return Leaf(width, height)
    return Split(width, height, upright, at, first, second)


def leaves(layout: Layout) -> Iterator[tuple[Leaf, int, int]]:
    """Every rectangle that is not cut further, with its lower left corner."""
    parts: list[tuple[Layout, int, int]] = [(layout, 0, 0)]
    while parts:  # a deep layout would pay for every level of a recursive generator, at every leaf
        part, x, y = parts.pop()
        if isinstance(part, Leaf):
            yield part, x, y
        else:
            second = part.second  # a property would be called for every cut of every layout
            over = (
                (x + part.width - second.width, y) if part.upright else (x, y + part.height - second.height)
            )
            parts.append((second, *over))
            parts.append((part.first, x, y))


def reach(layout: Layout) -> tuple[int, int]:
    """How far the pieces of a layout reach across and up."""
    ends = [(x + leaf.width, y + leaf.height) for leaf, x, y in leaves(layout) if leaf.piece >= 0]
    return (max(x for x, _ in ends), max(y for _, y in ends)) if ends else (0, 0)


def cropped(layout: Layout, width: int, height: int) -> Layout:
    """The layout in a smaller rectangle that its pieces do not reach out of."""
    if isinstance(layout, Leaf):
        return layout if layout.piece >= 0 else Leaf(width, height)
    if layout.upright:
        at = min(layout.at, width)
        first = cropped(layout.first, at, height)
        return split(width, height, True, at, first, cropped(layout.second, width - at, height))
    at = min(layout.at, height)
    first = cropped(layout.first, width, at)
    return split(width, height, False, at, first, cropped(layout.second, width, height - at))


def counts_of(layout: Layout, pieces: int) -> tuple[int, ...]:
    """How many of each piece a layout holds."""
    counts = [0] * pieces
    for piece in pieces_in(layout):
        counts[piece] += 1
    return tuple(counts)


def without(layout: Layout, surplus: list[int]) -> Layout:
    """The layout with `surplus` pieces turned into waste, whole parts of it first; counts the surplus down."""
    counts = Counter(pieces_in(layout))
    if all(surplus[piece] >= count for piece, count in counts.items()):
        for piece, count in counts.items():
            surplus[piece] -= count
        return Leaf(layout.width, layout.height)
    if isinstance(layout, Leaf):
        return layout
    first = without(layout.first, surplus)
    second = without(layout.second, surplus)
    return split(layout.width, layout.height, layout.upright, layout.at, first, second)


def pieces_in(layout: Layout) -> list[int]:
    """The pieces of a layout, in the order of `leaves`."""
    found = []
    parts = [layout]
    while parts:
        part = parts.pop()
        if isinstance(part, Split):
            parts.append(part.second)
            parts.append(part.first)
        elif part.piece >= 0:
            found.append(part.piece)
    return found


def row(layout: Layout, upright: bool) -> list[Layout]:
    """The parts that cuts in one direction make of a layout."""
    if isinstance(layout, Split) and layout.upright is upright:
        return [*row(layout.first, upright), *row(layout.second, upright)]
    return [layout]


def in_row(width: int, height: int, upright: bool, parts: Sequence[Layout]) -> Layout:
    """A rectangle of parts one after the other, all waste at the far end."""
    used = [part for part in parts if not (isinstance(part, Leaf) and part.piece < 0)]
    sizes = [part.width if upright else part.height for part in used]
    rest = (width if upright else height) - sum(sizes)
    across = height if upright else width
    result: Layout = Leaf(rest, across) if upright else Leaf(across, rest)
    for part, size in zip(reversed(used), reversed(sizes), strict=True):
        if rest:
            shape = (size + rest, across) if upright else (across, size + rest)
            result = split(*shape, upright, size, part, result)
        else:
            result = part
        rest += size
    return result


def tidied(layout: Layout) -> Layout:
    """The same pieces with cuts as a saw likes them: strips off the near edge one by one, the widest first.

    Parts that are side by side may change places; equal ones come together for one fence setting. Each part is no
    longer than its pieces reach, and all waste of a row becomes one strip at its far end.
    """
    if isinstance(layout, Leaf):
        return layout
    upright = layout.upright
    parts = [
        _tight(tidied(part), upright)
        for part in row(layout, upright)
        if not (isinstance(part, Leaf) and part.piece < 0)
    ]
    parts.sort(key=lambda part: -(part.width if upright else part.height))
    return in_row(layout.width, layout.height, upright, parts)


def _tight(layout: Layout, upright: bool) -> Layout:
    """A part of a row no longer than its pieces reach along the row."""
    wide, high = reach(layout)
    return cropped(layout, wide if upright else layout.width, layout.height if upright else high)


def stages(layout: Layout) -> int:
    """How many times the direction of the cuts changes, plus one: 0 for a sheet that is not cut."""

    def depth(part: Layout, upright: bool | None) -> int:
        if isinstance(part, Leaf):
            return 0
        inner = max(depth(part.first, part.upright), depth(part.second, part.upright))
        return inner + (part.upright is not upright)

    return depth(layout, None)


@dataclass(frozen=True)
class SheetCut:
    """One layout on one kind of sheet, `times` times."""

    stock: int
    layout: Layout
    counts: tuple[int, ...]
    times: int


def cost_of(job: SheetJob, cuts: Sequence[SheetCut]) -> int:
    """The price of a plan, in whole steps."""
    return sum(job.prices[cut.stock] * cut.times for cut in cuts)
