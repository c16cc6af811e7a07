"""Casters: the worked bench, and a caster's screws beside the bars they must clear."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.casters import caster_centre, caster_load

lengths = st.integers(20, 160).map(Fraction)


def test_the_worked_bench() -> None:
    """552.8 kg on six: three or four in contact, a quarter more: 173. The centres are 100 from both outer faces."""
    assert caster_load(552.8, 6).each == pytest.approx(138.2)
    assert caster_load(552.8, 6).required == pytest.approx(173, abs=0.5)
    assert caster_load(552.8, 4).each == pytest.approx(184.3, abs=0.05)
    assert caster_load(552.8, 4).required == pytest.approx(230.3, abs=0.05)
    assert caster_centre(Fraction(40), (Fraction(80), Fraction(60))) == 100


@given(section=lengths, wide=lengths, deep=lengths)
def test_a_driver_has_room_beside_both_bars(section: Fraction, wide: Fraction, deep: Fraction) -> None:
    """Whichever way the caster is turned, its nearest screw is 20 from the bars: nut radius + 2 and a driver."""
    centre = caster_centre(section, (wide, deep))
    rooms = [centre - pattern / 2 - section for pattern in (wide, deep)]
    assert min(rooms) == 20
    assert caster_centre(section, (deep, wide)) == centre
