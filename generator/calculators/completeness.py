"""Does every edge of a board have its groove, its support or its reason, and every groove its tongue? Millimetres.

Limits are common practice without a source unless one is named.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from generator.calculators.bodies import Block

Edge = tuple[int, int]
State = Literal["grooved", "supported", "free"]

#: A tongue in its groove holds from this depth on; its middle may be this much off the groove's.
LEAST_GRIP, OFF_CENTRE = 6.0, 0.1
#: This much of a grooved edge may be outside the groove: corners, notches, the end of a bar.
CORNER = 50.0
#: Two faces that are nearer than this touch.
TOUCH = 0.05
#: A board bridges this much for each millimetre of its thickness: 600 for a sheet of 12.
SPAN_PER_THICKNESS = 50.0


@dataclass(frozen=True)
class BoardOutline:
    """A board's outline, the axis of its thickness (0 to 2) and its tongues by (axis, end).

    `notched` is what its notches take of an edge, at its low and at its high end (mm).
    """

    mark: str
    outline: Block
    thin: int
    tongues: frozenset[Edge] = frozenset()
    notched: Mapping[Edge, tuple[float, float]] = field(default_factory=dict)

    @property
    def edges(self) -> tuple[Edge, ...]:
        """All four edges as (axis, end 0 low or 1 high)."""
        return tuple((axis, end) for axis in range(3) if axis != self.thin for end in (0, 1))


@dataclass(frozen=True)
class Bar:
    """A slotted bar's outline, the axis of its length, and the depth of its slots."""

    mark: str
    outline: Block
    along: int
    slot_depth: float


@dataclass(frozen=True)
class EdgeState:
    """How an edge is held. `by` names what holds it, `span` is the longest run (mm) that nothing holds.

    `off` is how far the tongue's middle misses the groove's, `grip` how deep the edge is in it.
    """

    board: str
    edge: Edge
    state: State
    by: tuple[str, ...]
    span: float
    off: float = 0.0
    grip: float = 0.0

    @property
    def in_groove(self) -> bool:
        """True when a bar takes this edge, well or badly."""
        return self.grip > 0


def edge_state(
    board: BoardOutline, edge: Edge, bars: Iterable[Bar], rests: Sequence[tuple[str, Block]]
) -> EdgeState:
    """How one edge is held: by the bars that run along it, or by `rests` that touch the board there."""
    along = next(axis for axis in range(3) if axis not in (board.thin, edge[0]))
    start, stop = board.outline[along], board.outline[along + 3]
    grooves = [bar for bar in bars if bar.along == along and _grip(board, edge, bar) > 0]
    if grooves:
        runs = [(bar.outline[along], bar.outline[along + 3]) for bar in grooves]
        cut = board.notched.get(edge, (0.0, 0.0))
        start, stop = start + cut[0], stop - cut[1]
        off = max(
            (_middle(bar.outline, board.thin) - _middle(board.outline, board.thin) for bar in grooves),
            key=abs,
        )
        grip = min(_grip(board, edge, bar) for bar in grooves)
        names = tuple(bar.mark for bar in grooves)
        return EdgeState(board.mark, edge, "grooved", names, longest_gap(start, stop, runs), off, grip)
    found = [(name, block) for name, block in rests if _rests(board, edge, block)]
    runs = [(block[along], block[along + 3]) for _, block in found]
    names = tuple(dict.fromkeys(name for name, _ in found))
    return EdgeState(
        board.mark, edge, "supported" if found else "free", names, longest_gap(start, stop, runs)
    )


def _middle(block: Block, axis: int) -> float:
    return (block[axis] + block[axis + 3]) / 2


def _grip(board: BoardOutline, edge: Edge, bar: Bar) -> float:
    """How deep the edge is within a bar that runs along it; 0 outside it or past its slot."""
    axis, end = edge
    own, other = board.outline, bar.outline
    along = bar.along
    if min(own[along + 3], other[along + 3]) - max(own[along], other[along]) <= TOUCH:
        return 0.0
    if min(own[board.thin + 3], other[board.thin + 3]) - max(own[board.thin], other[board.thin]) <= TOUCH:
        return 0.0
    depth = own[axis + 3] - other[axis] if end else other[axis + 3] - own[axis]
    return depth if 0 < depth <= bar.slot_depth else 0.0


def _rests(board: BoardOutline, edge: Edge, block: Block) -> bool:
    """True when a block carries the board at an edge: under a lying board near it, or under a standing one."""
    own, (axis, end) = board.outline, edge
    across = [each for each in range(3) if each != 2]
    if any(min(own[a + 3], block[a + 3]) - max(own[a], block[a]) <= TOUCH for a in across):
        return False
    if abs(block[5] - own[2]) > TOUCH:
        return False
    if axis == 2:
        return end == 0
    # a lying board: the support is within a hand's breadth of the edge
    return block[axis + 3] > own[axis + 3] - CORNER if end else block[axis] < own[axis] + CORNER


def longest_gap(start: float, stop: float, runs: Iterable[tuple[float, float]]) -> float:
    """The longest stretch between two places that no run covers."""
    covered = start
    longest = 0.0
    for low, high in sorted(runs):
        longest = max(longest, min(low, stop) - covered)
        covered = max(covered, high)
    return max(longest, stop - covered, 0.0)


def tongue_faults(
    board: BoardOutline, states: Sequence[EdgeState], clearance: float
) -> tuple[tuple[str, EdgeState], ...]:
    """(code, edge) for every tongue without a groove, groove without a tongue, and tongue beside its groove."""
    found = []
    for state in states:
        has_tongue = state.edge in board.tongues
        if has_tongue and not state.in_groove:
            found.append(("tongue-without-groove", state))
        elif not has_tongue and state.in_groove:
            found.append(("edge-without-tongue", state))
        elif has_tongue and abs(state.off) > max(clearance / 2, OFF_CENTRE):
            found.append(("tongue-off-groove", state))
        elif has_tongue and state.grip < LEAST_GRIP:
            found.append(("tongue-shallow", state))
        elif has_tongue and state.span > CORNER:
            found.append(("groove-too-short", state))
    return tuple(found)


def lying_span(board: BoardOutline, rests: Iterable[Block]) -> float:
    """The widest space (mm) along X that a lying board bridges between what carries it."""
    own = board.outline
    runs = [
        (block[0], block[3])
        for block in rests
        if abs(block[5] - own[2]) <= TOUCH
        and all(min(own[a + 3], block[a + 3]) - max(own[a], block[a]) > TOUCH for a in (0, 1))
    ]
    return longest_gap(own[0], own[3], runs)
