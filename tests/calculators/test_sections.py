from generator.calculators.bodies import carve
from generator.calculators.sections import section


def area(rectangles) -> float:
    return sum((x1 - x0) * (y1 - y0) for x0, y0, x1, y1 in rectangles)


def test_a_bar_with_a_slot_is_cut_as_its_profile() -> None:
    """40 x 40 with a slot of 8 x 12 along it: its area, and an outline of four sides and three more of the slot."""
    blocks = carve([(0.0, 0.0, 0.0, 500.0, 40.0, 40.0)], (0.0, 16.0, 28.0, 500.0, 24.0, 40.0))
    cut = section(blocks, 0, 250.0)
    assert area(cut.areas) == 40 * 40 - 8 * 12
    assert sum(abs(x1 - x0) + abs(y1 - y0) for (x0, y0), (x1, y1) in cut.edges) == 4 * 40 + 2 * 12
    assert section(blocks, 0, 500.5).areas == ()


def test_a_hole_is_cut_only_where_it_is() -> None:
    blocks = carve([(0.0, 0.0, 0.0, 500.0, 40.0, 40.0)], (96.0, 16.0, 0.0, 104.0, 24.0, 40.0))
    assert area(section(blocks, 0, 100.0).areas) == 40 * 40 - 8 * 40
    assert area(section(blocks, 0, 110.0).areas) == 40 * 40
    assert area(section(blocks, 2, 20.0).areas) == 500 * 40 - 8 * 8
