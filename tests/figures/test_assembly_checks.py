"""Checks of the assembly: what is advised is what the spec has."""

from __future__ import annotations

import pytest

from generator.figures.compute import compute
from tests.bench.benches import DEMO, changed, solved


@pytest.mark.parametrize("name", ["end-clip", "corner clip"])
def test_where_two_screws_meet_the_joint_that_leaves_the_bar_free_is_advised(name: str) -> None:
    """Through-screws at every end: two of them cross in the rails' ends. The clip is called as the spec calls it."""
    text = changed(DEMO, ("default: end-clip", "default: through-screw")).replace("end-clip:", f"{name}:")
    (found,) = {each.advice for each in compute(solved(text))[1] if each.code == "screws-meet"}
    assert found.startswith("Join one of the two members by ")
    assert f"`{name}`" in found
    assert "through-screw" not in found
