"""What carries a thing that is put down, by cases whose answer is plain to see."""

from __future__ import annotations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import box

from generator.calculators.bodies import Block, Body
from generator.calculators.holding import PLAY, contacts, lies

FLOOR = -100.0


def body(*blocks: Block) -> Body:
    return Body("thing", "thing", "board", blocks)


#: A plank 100 long, 10 high, its underside at 50; trestles below its ends, 10 wide.
PLANK = body((0, 0, 50, 100, 10, 60))
LEFT, RIGHT = body((0, 0, 0, 10, 10, 50)), body((90, 0, 0, 100, 10, 50))


@pytest.mark.parametrize(
    ("standing", "carried"),
    [
        ((LEFT, RIGHT), True),
        ((LEFT,), False),
        ((RIGHT,), False),
        ((body((45, 0, 0, 55, 10, 50)),), True),
        ((body((0, 20, 0, 100, 30, 50)),), False),
        ((body((0, 0, 60, 100, 10, 70)),), False),
        ((), False),
    ],
    ids=["both ends", "left end", "right end", "its middle", "beside it", "above it", "nothing"],
)
def test_a_plank_lies_when_its_middle_is_over_what_carries_it(
    standing: tuple[Body, ...], carried: bool
) -> None:
    assert lies([PLANK], standing, FLOOR) is carried


def test_a_thing_lies_on_blocks_at_the_floor_and_sinks_by_its_play() -> None:
    assert lies([PLANK], [], 50.0)
    low = body((0, 0, 0, 100, 10, 50 - PLAY))
    assert lies([PLANK], [low], FLOOR)
    assert not lies([PLANK], [body((0, 0, 0, 100, 10, 49 - PLAY))], FLOOR)
    assert contacts([PLANK], [LEFT], FLOOR) == ((0, 0, 10, 10),)


def test_a_thing_that_hangs_over_lies_when_its_heavy_end_does() -> None:
    heavy = body((0, 0, 50, 10, 10, 200), (10, 0, 50, 40, 10, 52))
    assert lies([heavy], [LEFT], FLOOR)


sizes = st.tuples(*[st.integers(1, 30)] * 2)
places = st.tuples(*[st.integers(-30, 30)] * 2)


@settings(max_examples=50)
@example(size=(9, 8), at=(-4, -3))
@example(size=(9, 8), at=(15, 6))
@given(size=sizes, at=places)
def test_what_carries_a_board_is_what_its_outline_shares_with_it(
    size: tuple[int, int], at: tuple[int, int]
) -> None:
    """Seen from above, by a geometry library: the common rectangle, or nothing."""
    carrier = body((at[0], at[1], 0, at[0] + size[0], at[1] + size[1], 50))
    board = body((0, 0, 50, 20, 10, 60))
    common = box(0, 0, 20, 10).intersection(box(at[0], at[1], at[0] + size[0], at[1] + size[1]))
    expected = (tuple(common.bounds),) if common.area > 0 else ()
    assert contacts([board], [carrier], FLOOR) == expected
