"""What holds drawers: slides on their packing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from generator.bench.fillings.drawer_laws import PACKING_EDGE, drawer_verdicts
from generator.bench.fillings.on_slides import loose_slides
from generator.bench.role import Role
from generator.geometry import Span
from tests.bench.benches import DEMO, changed, solved


@pytest.mark.parametrize("proud", ["1", "0"])
def test_slides_lie_on_packing_at_each_hole(proud: str) -> None:
    """Flush with the bars too, where a strip ends at the bay's own edge."""
    assert list(loose_slides(solved(changed(DEMO, ("proud: 1", f"proud: {proud}"))))) == []


def test_a_slide_above_a_short_strip_is_loose() -> None:
    """Slides of the worked bay lie at Z 80, 248, 381 and 491: one strip that ends at 400 leaves the uppermost."""
    bench = solved()
    strip = next(
        part for part in bench.of(Role.PACKING_STRIP) if (part.place.bay, part.place.wall) == ("F1", "left")
    )
    box = replace(strip.box, z=Span(strip.box.z.low, Fraction(400)))
    parts = tuple(replace(part, box=box) if part is strip else part for part in bench.parts)
    assert list(loose_slides(replace(bench, parts=parts))) == ["slide F1.4 left"]


def test_holes_are_judged_in_zones_that_have_drawers() -> None:
    """The worked bench has drawers in front only; the strip behind its post lies 25 off the slide's last hole."""
    found = [each for each in drawer_verdicts(solved()) if each.law is PACKING_EDGE]
    assert [(each.where, each.path) for each in found] == [
        ("zone front", ("drawers", "slide_setback")),
        ("zone front", ("zones", 0, "depth")),
    ]
