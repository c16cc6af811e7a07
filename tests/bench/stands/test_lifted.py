"""Casters and feet together: the height of the work, feet clear of the wheels as they swivel, both loads judged."""

from __future__ import annotations

from math import dist

import pytest

from generator.bench.stands.lifted import KIND
from generator.findings import SpecError
from tests.bench.benches import DEMO, changed, solved

ON_CASTERS = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"


def on_both(count: int = 6, lift: str = "lift: 6, ", casters: str = "casters: caster, ") -> str:
    base = f"base: {{{casters}feet: pad, {lift}count: {count}, plate: {{size: [240, 170], thickness: 10}}}}"
    card = "\n  pad: {use: foot M12 with sleeve}\n"
    return changed(DEMO, (ON_CASTERS, base), ("\nhardware:\n", f"\nhardware:{card}"))


def test_the_height_is_that_of_the_work_with_the_wheels_in_the_air() -> None:
    """A caster of 127, 6 of lift and a plate of 10."""
    bench = solved(on_both())
    assert bench.stand.kind == KIND
    assert bench.layout.levels.floor_to_frame == 127 + 6 + 10


@pytest.mark.parametrize("count", [4, 6])
def test_a_wheel_swivels_clear_of_its_foot_and_no_bolt_meets_a_hole(count: int) -> None:
    """A wheel of 100 that trails by 40 reaches 90, the pad 30; heads of M8 are 13 across, the stem is M12."""
    bench = solved(on_both(count))
    (rolling,) = bench.stand.others
    assert len(bench.stand.points) == len(rolling.points) == count
    for foot, caster in zip(bench.stand.points, rolling.points, strict=True):
        assert dist(foot, caster) >= 90 + 30 + 5
    holes = [(part, op) for part in bench.stand.parts for op in part.operations if op.op == "tapped hole"]
    assert len(holes) == 5 * count
    for part, op in holes:
        at = (part.box.x.low + op.at[0], part.box.y.low + op.at[1])
        for bolt in bench.stand.bolts:
            assert dist(at, bolt.at) > (float(op.size) + 13) / 2


def test_the_bench_tips_over_its_feet_which_are_further_out_than_casters_alone() -> None:
    both, alone = solved(on_both()), solved(DEMO)
    assert both.stand.inward is None
    assert min(y for _, y in both.stand.points) < min(y for _, y in alone.stand.points)


@pytest.mark.parametrize(("lift", "casters"), [("", "casters: caster, "), ("lift: 6, ", "")])
def test_both_without_a_lift_and_a_lift_without_both_are_refused(lift: str, casters: str) -> None:
    with pytest.raises(SpecError) as caught:
        solved(on_both(lift=lift, casters=casters))
    assert [finding.code for finding in caught.value.findings] == ["stand-lift"]
