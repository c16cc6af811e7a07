"""Surfaces of bodies of blocks, against their volume and counts that follow by hand."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.bodies import Block, block_volume, carve, slotted_section
from generator.calculators.surfaces import surface

CUBE: Block = (0, 0, 0, 10, 10, 10)


def test_a_block_has_six_faces_and_twelve_edges() -> None:
    made = surface([CUBE])
    assert Counter((quad.axis, quad.sign) for quad in made.quads) == Counter(
        (axis, sign) for axis in range(3) for sign in (-1, 1)
    )
    assert Counter(edge.axis for edge in made.edges) == {0: 4, 1: 4, 2: 4}
    assert made.volume == 1000


def test_blocks_that_share_a_body_leave_no_seam() -> None:
    """The same cube from two blocks, and from two that differ by rounding."""
    for middle in (4.0, 4.0 + 1e-9):
        halves: list[Block] = [(0, 0, 0, 4, 10, 10), (middle, 0, 0, 10, 10, 10)]
        made = surface(halves)
        assert len(made.quads) == 6
        assert len(made.edges) == 12


def test_two_blocks_that_touch_along_a_line_keep_their_edge() -> None:
    made = surface([(0, 0, 0, 1, 1, 5), (1, 1, 0, 2, 2, 5)])
    assert sum(edge.axis == 2 and edge.start[:2] == (1, 1) for edge in made.edges) == 1


def test_a_slotted_bar_shows_the_edges_of_its_slots() -> None:
    """A 40 mm section: 4 corners, and in each of its 4 slots the two edges of the lip outside and inside, and the four
    of the undercut."""
    blocks = [
        (a, b, 0.0, c, d, 500.0)
        for a, b, c, d in slotted_section(section=40, opening=8.2, depth=12.3, lip=4.5, undercut=15)
    ]
    made = surface(blocks)
    assert sum(edge.axis == 2 for edge in made.edges) == 4 + 4 * 8
    assert made.volume == pytest.approx(sum(map(block_volume, blocks)))


spans = st.tuples(st.integers(0, 12), st.integers(1, 12)).map(lambda each: (each[0], each[0] + each[1]))


@settings(max_examples=25)
@given(st.lists(st.tuples(spans, spans, spans), max_size=4))
def test_a_surface_encloses_what_is_left_of_a_block(voids: list[tuple[tuple[int, int], ...]]) -> None:
    blocks = (CUBE,)
    for (x, u), (y, v), (z, w) in voids:
        blocks = carve(blocks, (x, y, z, u, v, w))
    if blocks:
        made = surface(blocks)
        assert made.volume == pytest.approx(sum(map(block_volume, blocks)))
        for axis in range(3):  # a closed surface looks as much one way as the other
            area = [0.0, 0.0]
            for quad in made.quads:
                if quad.axis == axis:
                    sides = [quad.high[i] - quad.low[i] for i in range(3) if i != axis]
                    area[quad.sign > 0] += sides[0] * sides[1]
            assert area[0] == pytest.approx(area[1])
