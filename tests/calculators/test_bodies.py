import pytest

from generator.calculators.bodies import Body, block_volume, carve, slotted_section

CUBE = (0.0, 0.0, 0.0, 10.0, 10.0, 10.0)
BAR_40 = {"section": 40, "opening": 8.2, "depth": 12.3, "lip": 4.5, "undercut": 15}


def area(rectangles: tuple[tuple[float, float, float, float], ...]) -> float:
    return sum((u - a) * (v - b) for a, b, u, v in rectangles)


@pytest.mark.parametrize(
    ("void", "left"),
    [
        ((2, 2, 2, 4, 4, 4), 1000 - 8),
        ((-5, -5, -5, 5, 5, 5), 1000 - 125),
        ((-5, -5, -5, 15, 15, 15), 0),
        ((10, 0, 0, 20, 10, 10), 1000),
        ((4, -1, 4, 6, 11, 6), 1000 - 40),
    ],
)
def test_carving_takes_the_common_volume_and_no_more(void, left) -> None:
    assert sum(map(block_volume, carve([CUBE], void))) == pytest.approx(left)


def test_carved_blocks_never_overlap() -> None:
    blocks = carve([CUBE], (2, 2, 2, 4, 4, 4))
    for index, one in enumerate(blocks):
        for other in blocks[index + 1 :]:
            assert any(one[a] >= other[a + 3] or other[a] >= one[a + 3] for a in range(3))


def test_the_section_of_a_bar_is_the_square_less_four_slots() -> None:
    rectangles = slotted_section(**BAR_40)
    slot = 8.2 * 4.5 + 15 * (12.3 - 4.5)
    assert area(rectangles) == pytest.approx(40 * 40 - 4 * slot)


@pytest.mark.parametrize("side", range(4))
@pytest.mark.parametrize(
    ("across", "below", "solid"),
    [(20, 2, False), (20, 12, False), (20, 12.4, True), (25, 2, True), (25, 6, False), (28, 6, True)],
)
def test_every_side_has_the_slot_of_its_card(side, across, below, solid) -> None:
    a, b = {0: (across, below), 1: (across, 40 - below), 2: (below, across), 3: (40 - below, across)}[side]
    inside = [r for r in slotted_section(**BAR_40) if r[0] <= a < r[2] and r[1] <= b < r[3]]
    assert len(inside) == solid


def test_a_body_knows_its_bounds_volume_and_centre() -> None:
    body = Body("L", "L", "trim", ((0, 0, 0, 2, 10, 10), (2, 0, 0, 10, 10, 2)))
    assert body.bounds == (0, 0, 0, 10, 10, 10)
    assert body.volume == 200 + 160
    assert body.centre == pytest.approx(((200 * 1 + 160 * 6) / 360, 5, (200 * 5 + 160 * 1) / 360))
