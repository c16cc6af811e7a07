"""A plane frame of bars whose ends may turn in their joints, by the stiffness method.

Elastic bending, shear and stretching of straight bars, small displacements (any handbook of structural analysis).
Plain numbers: mm, N, MPa. Forces and displacements are positive to the right and up, turns counterclockwise.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

SOURCE = "plane frame by the stiffness method, any handbook of structural analysis"

Matrix = NDArray[np.float64]
#: How far a bed gives that rests on a support (mm/N).
RIGID = 1e-9
Place = tuple[float, float]
"""X and Z of a node (mm)."""


@dataclass(frozen=True)
class FrameBar:
    """A straight bar through `nodes`, one after the other along it. EI in N mm², EA in N.

    A spring (N mm/rad) at its first or last node lets that end turn against the node; None: it is rigid there.
    `shearing` is κGA (N), by which a bar also gives way across; None: it does not.
    """

    nodes: tuple[int, ...]
    bending: float
    stretching: float
    springs: tuple[float | None, float | None] = (None, None)
    shearing: float | None = None


@dataclass(frozen=True)
class Bed:
    """Nodes that rest on something which gives, and which holds them sideways.

    `gives` is how far each goes down under 1 N down on each (mm/N), a row a node.
    """

    nodes: tuple[int, ...]
    gives: Matrix


@dataclass(frozen=True)
class PlaneFrame:
    """Nodes, bars through them, and the nodes that rest on the floor; the first of these does not move sideways.

    Other nodes rest on beds, each in one of them at most.
    """

    nodes: tuple[Place, ...]
    bars: tuple[FrameBar, ...]
    supports: tuple[int, ...]
    beds: tuple[Bed, ...] = ()

    def settlements(self, loads: Sequence[Mapping[int, float]]) -> Matrix:
        """How far each node moves down (mm) under each set of loads: node -> force down (N). Shape (sets, nodes).

        Raises ValueError where the frame is a mechanism.
        """
        stiffness = _Stiffness(3 * len(self.nodes))
        for bar in self.bars:
            stiffness.add(self.nodes, bar)
        for bed in self.beds:
            stiffness.parts.append(([3 * node + 1 for node in bed.nodes], _against(bed.gives)))
        fixed = {3 * node + 1 for node in self.supports} | {3 * node for node in self.supports[:1]}
        fixed |= {3 * node for bed in self.beds for node in bed.nodes}
        free = [row for row in range(stiffness.size) if row not in fixed]
        forces = np.zeros((stiffness.size, len(loads)))
        for column, each in enumerate(loads):
            for node, force in each.items():
                forces[3 * node + 1, column] -= force
        found = np.zeros_like(forces)
        matrix = stiffness.whole()[np.ix_(free, free)]
        try:
            found[free] = np.linalg.solve(matrix, forces[free])
        except np.linalg.LinAlgError as error:
            raise ValueError("the frame is a mechanism") from error
        return -found[1 : 3 * len(self.nodes) : 3].T


@dataclass
class _Stiffness:
    """The matrix in the making; an end on a spring has a turn of its own behind those of the nodes."""

    size: int
    parts: list[tuple[list[int], Matrix]] = field(default_factory=list)

    def add(self, places: Sequence[Place], bar: FrameBar) -> None:
        """A bar piece by piece, and the springs at its ends."""
        turns = [3 * node + 2 for node in bar.nodes]
        for end, spring in zip((0, -1), bar.springs, strict=True):
            if spring is not None:
                own, self.size = self.size, self.size + 1
                self.parts.append(([turns[end], own], spring * np.array([[1.0, -1.0], [-1.0, 1.0]])))
                turns[end] = own
        for piece in range(len(bar.nodes) - 1):
            a, b = bar.nodes[piece : piece + 2]
            rows = [3 * a, 3 * a + 1, turns[piece], 3 * b, 3 * b + 1, turns[piece + 1]]
            self.parts.append((rows, _piece(places[a], places[b], bar)))

    def whole(self) -> Matrix:
        """All parts added up."""
        matrix = np.zeros((self.size, self.size))
        for rows, part in self.parts:
            matrix[np.ix_(rows, rows)] += part
        return matrix


def _against(gives: Matrix) -> Matrix:
    """The stiffness of a bed; what does not give at all gives by a little, so that it has one."""
    return np.asarray(np.linalg.inv(gives + RIGID * np.eye(len(gives))), dtype=np.float64)


def _piece(a: Place, b: Place, bar: FrameBar) -> Matrix:
    """A beam between two nodes in the frame's directions, by Timoshenko where it gives way in shear."""
    along = np.array(b) - np.array(a)
    length = float(np.hypot(*along))
    cosine, sine = along / length
    shear = 0.0 if bar.shearing is None else 12 * bar.bending / (bar.shearing * length**2)
    axial, bend = bar.stretching / length, bar.bending / (length**3 * (1 + shear))
    near, far = (4 + shear) * length**2, (2 - shear) * length**2
    own = np.zeros((6, 6))
    own[np.ix_([0, 3], [0, 3])] = axial * np.array([[1, -1], [-1, 1]])
    own[np.ix_([1, 2, 4, 5], [1, 2, 4, 5])] = bend * np.array(
        [
            [12, 6 * length, -12, 6 * length],
            [6 * length, near, -6 * length, far],
            [-12, -6 * length, 12, -6 * length],
            [6 * length, far, -6 * length, near],
        ]
    )
    turn = np.eye(6)
    turn[np.ix_([0, 1], [0, 1])] = turn[np.ix_([3, 4], [3, 4])] = [[cosine, sine], [-sine, cosine]]
    return np.asarray(turn.T @ own @ turn, dtype=np.float64)
