"""What the kinds of joint say together of the holes that they need."""

from __future__ import annotations

from generator.bench.joints import TO_SLOT
from tests.bench.benches import solved


def test_a_hole_for_a_key_ends_in_the_slot_and_one_for_a_screw_goes_through() -> None:
    """Of the worked bench's joints: the key reaches a clip's screw in the slot; a through-screw crosses the bar."""
    bench = solved()
    endless = {
        hole.op: hole.for_key for each in bench.joinings.values() for hole in each.holes if hole.depth is None
    }
    assert endless == {"access hole": True, "through hole": False}
    assert {op for op, for_key in endless.items() if for_key} == TO_SLOT
