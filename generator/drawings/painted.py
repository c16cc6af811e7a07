"""What shows at a point of a picture that is painted face by face."""

from __future__ import annotations

from collections.abc import Collection, Sequence

import numpy as np
from numpy.typing import NDArray

from generator.drawings.extent import Point
from generator.drawings.isometric import VisibleFace

#: A point whose turn about a face's edge is smaller is on that edge (mm²).
EDGE = 1e-3


class Painted:
    """The faces of a picture in the order of their painting, and which of them cover a point."""

    def __init__(self, faces: Sequence[VisibleFace]) -> None:
        self.faces = faces
        #: A picture that is drawn in several sizes asks the same each time.
        self._known: dict[tuple[tuple[Point, ...], frozenset[str]], list[bool]] = {}
        corners = np.array([face.corners for face in faces]).reshape(-1, 4, 2)
        # x and y; corners x 1 x faces, which are side by side in memory since all are asked at once
        self._corners = np.ascontiguousarray(corners.transpose(2, 1, 0))[:, :, None]
        self._edges = np.roll(self._corners, -1, axis=1) - self._corners

    def covers(self, points: Sequence[Point], own: Collection[str]) -> list[bool]:
        """For each point, whether no face of the pieces `own` shows there, or another one is painted over it.

        A point on the edge of a face belongs to it, and is not covered by it.
        """
        asked = (tuple(points), frozenset(own))
        if asked not in self._known:
            self._known[asked] = self._covers(points, own)
        return self._known[asked]

    def _covers(self, points: Sequence[Point], own: Collection[str]) -> list[bool]:
        low, high = self._turns(points)
        mine = np.array([face.solid.name in own for face in self.faces])
        reached = ((low > -EDGE) | (high < EDGE)) & mine
        inside = ((low > EDGE) | (high < -EDGE)) & ~mine
        places = np.arange(1, len(self.faces) + 1)
        top = (reached * places).max(axis=1, initial=0)
        covered: list[bool] = ((top == 0) | ((inside * places).max(axis=1, initial=0) > top)).tolist()
        return covered

    def _turns(self, points: Sequence[Point]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Least and greatest of each face's turns about a point (points x faces): of one sign when it is inside.

        A turn is twice the area of the triangle between the point and an edge of the face.
        """
        x, y = np.array(points).reshape(-1, 2).T[:, None, :, None] - self._corners
        turns = self._edges[0] * y - self._edges[1] * x
        return turns.min(axis=0), turns.max(axis=0)
