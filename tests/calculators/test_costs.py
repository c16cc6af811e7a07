"""Time and money of the worked bench."""

from __future__ import annotations

import pytest

from generator.calculators.costs import MINUTES, time_for, with_surcharge

#: Common practice, no source: "tapped end 3 min, relief 6-8, access hole 3, T hole 5, notch 1".
WORK = {"tapped end": 50, "access hole": 35, "through screw hole": 15, "clamp relief": 20}


def test_time_at_the_machines() -> None:
    """50 taps, 35 access holes, 15 through screw holes and 20 reliefs of the worked bench: 470 minutes."""
    assert sum(time_for(count=count, each=MINUTES[name]) for name, count in WORK.items()) == 470
    assert time_for(count=12, each=MINUTES["notch"]) == 12


def test_time_and_money() -> None:
    assert time_for(count=50, each=3) == 150
    # 1187 and a tenth
    assert with_surcharge(price=1187) == pytest.approx(1305.7)
