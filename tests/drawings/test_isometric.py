"""The painted order against a ray from the viewer: what a ray meets first is what was painted last."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.drawings.isometric import COS, DrawnBlock, faces_of, ordered, project, visible_faces


def nearest_on_ray(solids: list[DrawnBlock], point: tuple[float, float]) -> tuple[str, float]:
    """The piece that a ray along (-1, -1, -1) meets first, and how far (mm) it is from any edge of a face."""
    x, y = point
    start = (y - x / COS / 2, y + x / COS / 2, 0.0)
    best, name, margin = float("-inf"), "", float("inf")
    for solid in solids:
        block = solid.block
        low = max(block[axis] - start[axis] for axis in range(3))
        high = min(block[axis + 3] - start[axis] for axis in range(3))
        margin = min(margin, abs(high - low))
        if high > low and high > best:
            best, name = high, solid.name
    return name, margin


def painted_last(faces, point: tuple[float, float]) -> str:
    name = ""
    for face in faces:
        turns = [
            (x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)
            for (x0, y0), (x1, y1) in zip(face.corners, (*face.corners[1:], face.corners[0]), strict=True)
        ]
        if min(turns) >= 0 or max(turns) <= 0:
            name = face.solid.name
    return name


def apart(one, other) -> bool:
    return any(one[a] >= other[a + 3] or other[a] >= one[a + 3] for a in range(3))


coordinate = st.integers(0, 8).map(lambda n: 30.0 * n)
blocks = st.builds(
    lambda a, b, c, u, v, w: (a, b, c, a + u, b + v, c + w),
    *[coordinate] * 3,
    *[st.sampled_from([20.0, 30.0, 90.0, 210.0])] * 3,
)


@st.composite
def scenes(draw: st.DrawFn) -> list[DrawnBlock]:
    chosen = []
    for block in draw(st.lists(blocks, min_size=2, max_size=14)):
        if all(apart(block, other) for other in chosen):
            chosen.append(block)
    return [DrawnBlock(str(index), block, "bar") for index, block in enumerate(chosen)]


def check(solids: list[DrawnBlock]) -> None:
    faces = [face for solid in ordered(solids) for face in faces_of(solid)]
    xs = [x for face in faces for x, _ in face.corners]
    ys = [y for face in faces for _, y in face.corners]
    # off the round places on which edges lie: a point on an edge belongs to either face
    places = [(step - 0.3819) / 23.5 for step in range(1, 24)]
    for i in places:
        for j in places:
            point = (min(xs) + (max(xs) - min(xs)) * i, min(ys) + (max(ys) - min(ys)) * j)
            name, margin = nearest_on_ray(solids, point)
            if margin > 0.5:
                assert painted_last(faces, point) == name, point


@given(scenes())
@settings(max_examples=60, deadline=None)
def test_what_is_nearest_is_painted_last(solids) -> None:
    check(solids)


def test_three_bars_that_hide_each_other_in_turn_are_cut() -> None:
    ring = [
        DrawnBlock("1", (0, 0, 0, 100, 10, 10), "bar"),
        DrawnBlock("2", (0, 10, -60, 10, 20, 60), "bar"),
        DrawnBlock("3", (-10, -60, 10, 0, 60, 20), "bar"),
    ]
    check(ring)
    cyclic = [
        DrawnBlock("1", (0, 20, 10, 100, 30, 20), "bar"),
        DrawnBlock("2", (20, 0, 0, 30, 100, 10), "bar"),
        DrawnBlock("3", (10, 10, -40, 20, 20, 100), "bar"),
    ]
    check(cyclic)


def test_a_face_that_nothing_shows_of_is_left_out() -> None:
    front, hidden = (
        DrawnBlock("front", (0, 0, 0, 100, 100, 100), "bar"),
        DrawnBlock("hidden", (-20, -20, 0, -1, -1, 20), "bar"),
    )
    assert {face.solid.name for face in visible_faces([hidden, front])} == {"front"}


def test_the_axes_are_thirty_degrees_and_lengths_are_true() -> None:
    for axis in range(3):
        point = [0.0, 0.0, 0.0]
        point[axis] = 100.0
        x, y = project(point)
        assert (x**2 + y**2) ** 0.5 == pytest.approx(100)
    assert project((100, 0, 0))[1] / -project((100, 0, 0))[0] == pytest.approx(0.57735, abs=1e-4)


def test_no_pair_of_blocks_is_lost_in_the_sweep() -> None:
    solids = [DrawnBlock(str(i), (i * 10.0, 0, 0, i * 10.0 + 8, 8, 8), "bar") for i in range(12)]
    order = [solid.name for solid in ordered(solids)]
    assert all(order.index(str(a)) < order.index(str(b)) for a, b in combinations(range(12), 2))
