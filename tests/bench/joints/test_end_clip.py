"""The end clip's facts, by the worked bench's stack of lip, clip and head."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.joints import joining, joinings
from generator.bench.joints.end_clip import EndClips
from tests.bench.benches import DEMO, changed, solved


def test_the_worked_clip() -> None:
    """Lip 4.5 + clip 3 + head 4.4 = 11.9 of 12.3; of the screw's 25 there are 17.5 in the bore; key 5, hole 8."""
    fixing = joining(solved().goods, "end-clip")
    assert fixing.in_slot is not None
    assert (fixing.in_slot.length, fixing.in_slot.stack) == (36, Fraction("11.9"))
    assert fixing.in_slot.left == Fraction("12.3") - Fraction("11.9")
    assert (fixing.engaged, fixing.key) == (Fraction("17.5"), 5)
    assert fixing.key_from == pytest.approx(11.9)
    (hole,) = fixing.holes
    assert (hole.op, hole.size, hole.depth) == ("access hole", 8, None)
    screw, clip, head = fixing.solids
    # the screw's point is 17.5 inside the member, the head's top 11.9 inside the crossing bar, one upon the other
    assert screw.depths == (-17.5, 4.5)
    assert (clip.depths, clip.along, clip.across) == ((4.5, 7.5), 36, 14)
    assert head.depths == pytest.approx((7.5, 11.9))
    # M8 button heads are 14 across, ISO 7380-1; from memory
    assert (head.along, head.across) == (14, 14)
    assert [(each.kind, each.item) for each in fixing.bought] == [
        ("end clip", "end-clip"), ("end clip screw", "M8x25 button-head screw"),
    ]  # fmt: skip
    assert fixing.slides_along


def test_a_clip_goes_on_before_the_bars_meet_or_is_rolled_in() -> None:
    slid = joining(solved().goods, "end-clip")
    rolled = joining(
        solved(changed(DEMO, ("access_hole: 8, entry: slide-in", "access_hole: 8, entry: roll-in"))).goods,
        "end-clip",
    )
    assert (slid.fitted, slid.unproved) == (True, "")
    assert (rolled.fitted, rolled.unproved) == (False, "rolled into the slot through its opening")


def test_which_hardware_joins_bars() -> None:
    goods = solved().goods
    found = joinings(goods)
    assert {name: each.kind for name, each in found.items()} == {
        "end-clip": "end clip",
        "through-screw": "through screw",
    }
    with pytest.raises(KeyError, match="slot-nut"):
        joining(goods, "slot-nut")


def test_its_usual_mass_is_that_of_its_steel() -> None:
    assert float(EndClips().usual_masses["end clip"]) == pytest.approx(
        steel(36 * 14 * 3 + 3.14159 * (16 * 25 + 49 * 4.4)), rel=0.35
    )


def steel(volume: float) -> float:
    """Kilograms of so many mm³."""
    return volume * 7.85e-6
