"""What stands above one another in a step and goes in the same way: it has one arrow, and labels in its order."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from generator.drawings.eye import Eye
from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion, moved

Box = tuple[float, ...]

#: What overlaps by less than this (mm) is beside one another.
LEAST_OVERLAP = 5.0


def box_of(moves: Sequence[DrawnMotion]) -> Box:
    """Low and high corner about pieces where they are drawn (mm of the bench)."""
    return bounds(
        [moved(block, move.offset) for move in moves for shape in move.shapes for block in shape.whole]
    )


def stacked(moving: Sequence[DrawnMotion], view: Eye) -> list[list[DrawnMotion]]:
    """The pieces that are drawn off their place: those of one stack together, each other one alone.

    Of a stack are pieces that go in across the way that is up on paper, alike and above one another; a pair that
    has one name is one piece of it. Members of a frame are never stacked: each has its own joints.
    """
    up = view.up[0]
    alone: list[list[DrawnMotion]] = []
    named: dict[tuple[str, str], list[DrawnMotion]] = {}
    for move in (move for move in moving if any(move.offset)):
        way = move.motion.way
        if not way or "xyz".index(way[1]) == up or any(shape.is_frame for shape in move.shapes):
            alone.append([move])
        else:
            named.setdefault((move.motion.called, way), []).append(move)
    boxes = {key: box_of(moves) for key, moves in named.items()}
    home = {key: key for key in named}
    for one, other in combinations(named, 2):
        if one[1] == other[1] and _above(boxes[one], boxes[other], up):
            first, second = home[one], home[other]
            home = {key: first if of == second else of for key, of in home.items()}
    found: dict[tuple[str, str], list[DrawnMotion]] = {}
    for key, moves in named.items():
        found.setdefault(home[key], []).extend(moves)
    return sorted((*alone, *found.values()), key=lambda moves: moving.index(moves[0]))


def stacks_of(moving: Sequence[DrawnMotion], view: Eye) -> dict[str, int]:
    """The number of the stack by the name of each piece that is in one with another."""
    return {
        move.motion.called: number
        for number, moves in enumerate(stacked(moving, view))
        if len({move.motion.called for move in moves}) > 1
        for move in moves
    }


def _above(one: Box, other: Box, up: int) -> bool:
    """Whether one box is above or below another, not beside it."""
    over = [min(one[i + 3], other[i + 3]) - max(one[i], other[i]) for i in range(3)]
    return over[up] < LEAST_OVERLAP and all(far > LEAST_OVERLAP for i, far in enumerate(over) if i != up)
