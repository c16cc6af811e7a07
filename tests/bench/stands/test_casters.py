"""Casters as a stand: the worked height, what is bought, and a wheel drawn as round as blocks can be."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from generator.bench.law import Case
from generator.bench.stands import stand_kind
from generator.bench.stands.casters import KIND, RATING, SWEEP
from generator.findings import Change
from tests.bench.benches import DEMO, changed, faults, solved

FOUR = changed(DEMO, ("count: 6, plate", "count: 4, plate"))


def test_the_worked_stand() -> None:
    """Caster 127 and plate 10 under the frame; trail 40 behind each axis; rated 180 kg; its middle half way up."""
    bench = solved()
    kind, stand = stand_kind(bench.spec), bench.stand
    assert kind.height(bench.loaded).floor_to_frame == 137
    assert (stand.kind, stand.inward, stand.rating) == (KIND, 40, 180)
    (lump,) = stand.lumps
    assert lump.points == stand.points
    assert stand.laws.rating is RATING
    assert RATING in kind.laws


@pytest.mark.parametrize(("text", "count"), [(DEMO, 6), (FOUR, 4)], ids=["six", "four"])
def test_what_is_bought(text: str, count: int) -> None:
    """A caster and a plate each, four bolts and four screws; those at the corners have brakes."""
    bought = {each.item: each for each in solved(text).stand.fixings}
    assert {item: each.count for item, each in bought.items()} == {
        "caster": count, "caster plate": count, "caster plate bolt": 4 * count, "caster screw": 4 * count,
    }  # fmt: skip
    lots = bought["caster"].lots
    assert [number for number, _ in lots] == ([4, 2] if count == 6 else [])


def test_two_brakes_are_at_the_front() -> None:
    (caster,) = (
        each for each in solved(changed(FOUR, ("count: 4", "count: 4, brakes: 2"))).stand.fixings if each.lots
    )
    assert caster.lots == ((2, "swivel with brake"), (2, "swivel without brake"))
    assert "at the front corners" in caster.use


@pytest.mark.parametrize(("text", "share"), [(DEMO, 4), (FOUR, 3)], ids=["six", "four"])
def test_the_load_on_one(text: str, share: int) -> None:
    """400 kg on three of four wheels, or four of six; a quarter more for rolling."""
    rule = solved(text).stand.rule
    load = rule.load(400.0, 6 if share == 4 else 4)
    assert (load.each, load.required) == pytest.approx((400 / share, 500 / share))
    assert f"on {'three' if share == 3 else 'four'} wheels" in rule.summary


def test_wheels_inside_the_footprint() -> None:
    """A trail of 40 and half of 100 are 90, inside the corner's 100; a wheel of 130 reaches 105."""
    bench = solved()
    judged = stand_kind(bench.spec).judge(bench.loaded, bench.layout, bench.stand, bench.stand.parts)
    verdicts = {each.law: each for each in judged}
    assert (verdicts[SWEEP].value, verdicts[SWEEP].limit, verdicts[SWEEP].ok) == (90, 100, True)
    for wheel, ok in ((120, True), (121, False)):
        other = solved(changed(DEMO, ("wheel: 100", f"wheel: {wheel}")))
        judged = stand_kind(other.spec).judge(other.loaded, other.layout, other.stand, [])
        assert next(each for each in judged if each.law is SWEEP).ok is ok


def test_a_shorter_trail_brings_the_wheel_inside() -> None:
    """A wheel that reaches 105.2 of 100 wants a trail of 40 less 5.2, which a tape shows as 34.8."""
    bench = solved()
    assert not isinstance(SWEEP.cure, str)
    case = Case(bench.loaded, bench.layout, ("base", "casters"), Fraction("105.2"), Fraction(100), True)
    assert SWEEP.cure(case) == (Change("hardware.caster.trail", "34.8 mm"),)


def test_a_wheel_is_drawn_on_the_floor_as_round_as_its_blocks() -> None:
    """The wheel of 100 touches the floor 137 below the frame; its axle trails 40 behind X 100."""
    bench = solved()
    picture = bench.stand.pictures[0]
    blocks = picture.blocks
    assert min(each[2] for each in blocks) == pytest.approx(-137)
    assert max(each[5] for each in blocks) == pytest.approx(-10)
    wheel = [each for each in blocks if each[5] <= -137 + 100 + 1e-9]
    area = sum((each[3] - each[0]) * (each[5] - each[2]) for each in wheel)
    assert area == pytest.approx(math.pi * 50**2, rel=0.03)
    assert {(each[0] + each[3]) / 2 for each in wheel} == {140}
    assert max(each[3] for each in wheel) <= 140 + 50


def test_a_caster_is_drawn_with_its_own_plate_on_its_axis() -> None:
    """105 x 80 about X 100, Y 100, under the bench's plate; the fork between it and the wheel's top at -37."""
    blocks = solved().stand.pictures[0].blocks
    plate = blocks[0]
    assert (plate[0], plate[3], plate[1], plate[4]) == (47.5, 152.5, 60, 140)
    assert plate[5] == -10
    fork = blocks[1]
    assert (fork[2], fork[5]) == (-37, plate[2])
    # it reaches from the swivel to the axle, and no wider than the wheel
    assert fork[0] < 100 < 140 < fork[3]
    assert 100 - 50 / 3 * 2 <= fork[1] < fork[4] <= 100 + 50 / 3 * 2


@pytest.mark.parametrize(
    ("keys", "lots"),
    [
        (
            "fixed: left, count: 6",
            ((2, "swivel with brake"), (2, "swivel without brake"), (2, "fixed with brake")),
        ),
        (
            "fixed: right, brakes: 2, count: 4",
            (
                (1, "swivel with brake"),
                (1, "swivel without brake"),
                (1, "fixed with brake"),
                (1, "fixed without brake"),
            ),
        ),
        ("brakes: 4, count: 4", ()),
    ],
)
def test_casters_that_do_not_swivel_are_at_one_end(keys: str, lots: tuple[tuple[int, str], ...]) -> None:
    old = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"
    stand = solved(changed(DEMO, (old, f"base: {{{keys}}}"))).stand
    (caster,) = (each for each in stand.fixings if each.kind == "caster")
    assert caster.lots == lots
    assert ("do not swivel" in " ".join(stand.step.notes)) is ("fixed" in keys)


def test_feet_alone_have_no_caster_that_could_be_fixed() -> None:
    old = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"
    text = changed(
        DEMO,
        (old, "base: {feet: foot, fixed: left}"),
        ("\nhardware:\n", "\nhardware:\n  foot: {use: foot M10}\n"),
    )
    assert [fault.code for fault in faults(text)] == ["stand-two"]
