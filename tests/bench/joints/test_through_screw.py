"""The through-screw's facts, by the worked bench and the standard's head."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.joints import joining
from generator.bench.joints.through_screw import ThroughScrews
from tests.bench.benches import solved


def test_the_worked_screw() -> None:
    """M8 x 45 from the floor of a counterbore 14 x 13.5 in a bar of 40: 26.5 through it, 18.5 into the member."""
    fixing = joining(solved().goods, "through-screw")
    assert fixing.engaged == Fraction("18.5")
    through, bore = fixing.holes
    assert (through.op, through.size, through.depth) == ("through hole", 9, None)
    assert (bore.op, bore.size, bore.depth) == ("counterbore", 14, Fraction("13.5"))
    shank, head = fixing.solids
    assert shank.depths == (-18.5, 26.5)
    assert (shank.along, shank.across) == (8, 8)
    # ISO 4762: the head of an M8 cap screw is 13 across and 8 high, its key 6; it lies within the counterbore
    assert head.depths == (26.5, 34.5)
    assert (head.along, head.across) == (13, 13)
    assert (fixing.key, fixing.key_from) == (6, 34.5)
    assert fixing.key_from < 40


def test_it_leaves_the_slot_free_and_goes_in_last() -> None:
    fixing = joining(solved().goods, "through-screw")
    assert fixing.in_slot is None
    assert not fixing.slides_along
    assert not fixing.fitted
    assert fixing.unproved == ""
    assert fixing.across and fixing.face_to_face is None


def test_its_usual_mass_is_that_of_its_steel() -> None:
    """A shank of 8 x 45 and a head of 13 x 8 in steel of 7.85 kg/dm³: 26 g."""
    volume = 3.14159 / 4 * (8**2 * 45 + 13**2 * 8)
    assert float(ThroughScrews().usual_masses["through screw"]) == pytest.approx(volume * 7.85e-6, rel=0.1)
