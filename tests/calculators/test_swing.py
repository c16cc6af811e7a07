"""The angle at which a door meets something, against a swept outline made of many turned ones."""

from __future__ import annotations

from math import atan2, degrees
from random import Random

import pytest
from shapely import Polygon, affinity, unary_union

from generator.calculators.swing import Turning, doors_meet, first_contact, rectangle


def door(width: float = 400, thick: float = 18, way: int = -1, angle: float = 110) -> Turning:
    """Hung at the left, its pin 1.5 beside it on the front; it opens towards smaller y (way -1)."""
    return Turning(rectangle((1.5, 1.5 + width), (0, thick)), (0.0, 0.0), way, angle)


def swept(turning: Turning, upto: float) -> Polygon:
    """What the door passes, by turned copies a tenth of a degree apart, of a library that knows nothing of circles."""
    outline = Polygon(turning.outline)
    steps = int(upto * 10)
    return unary_union([
        affinity.rotate(outline, turning.way * step / 10, origin=turning.pin) for step in range(steps + 1)
    ])  # fmt: skip


def test_a_pull_before_the_next_bay_is_met_where_its_corner_is() -> None:
    """A bow 30 before the front, 100 to 110 left of the pin: the door's front meets the corner that is nearest."""
    angle = first_contact(door(angle=180), rectangle((-110, -100), (-30, 0)))
    # the door's front passes the pin: its angle is that of the corner
    assert angle == pytest.approx(180 - degrees(atan2(30, 100)))
    assert first_contact(door(angle=110), rectangle((-110, -100), (-30, 0))) is None


@pytest.mark.parametrize("way", [-1, 1])
def test_against_a_swept_outline(way: int) -> None:
    """Random blocks about random doors: both say the same, but within a tenth of a degree of the end."""
    chance, met = Random(7), 0
    for _ in range(60):
        turning = door(chance.uniform(100, 500), chance.uniform(12, 40), way, chance.uniform(90, 180))
        x, y = chance.uniform(-350, 350), chance.uniform(-350, 350)
        block = rectangle((x, x + chance.uniform(5, 120)), (y, y + chance.uniform(5, 120)))
        angle = first_contact(turning, block)
        if angle is None:
            assert swept(turning, turning.angle).intersection(Polygon(block)).area < 0.5
        else:
            met += 1
            before = swept(turning, angle - 0.2) if angle > 0.2 else Polygon()
            assert before.intersection(Polygon(block)).area < 0.5
            assert swept(turning, angle + 0.3).intersects(Polygon(block))
    assert 10 < met < 50


def test_a_thick_narrow_door_catches_the_post_behind_its_free_edge() -> None:
    """Its rear corner is sqrt(61.5² + 38²) = 72.3 from the pin, and the post begins at 64.5; of 400 by 18 it passes."""
    narrow = door(width=60, thick=38)
    assert first_contact(narrow, rectangle((64.5, 104.5), (0, 40))) is not None
    assert first_contact(door(), rectangle((404.5, 444.5), (0, 40))) is None


def test_two_doors_on_one_post_meet_only_beyond_a_right_angle() -> None:
    def pair(angle: float) -> tuple[Turning, Turning]:
        right = Turning(rectangle((-441.5, -41.5), (0, 18)), (-40.0, 0.0), 1, angle)
        return door(angle=angle), right

    assert not doors_meet(*pair(90))
    assert doors_meet(*pair(110))
