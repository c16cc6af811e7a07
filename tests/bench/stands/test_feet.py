"""Feet as a stand: the height of their middle, their plates, and the floor that they can level."""

from __future__ import annotations

from itertools import combinations
from math import dist

import pytest

from generator.bench.stands import stand_kind
from generator.bench.stands.feet import KIND
from generator.bench.stands.feet_laws import HOLD, LAWS, REACH, STEM_TOP
from generator.findings import SpecError
from tests.bench.benches import DEMO, changed, solved

ON_CASTERS = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"


def on_feet(count: int = 6, foot: str = "", size: int = 140) -> str:
    base = f"base: {{feet: pad, count: {count}, plate: {{size: [{size}, {size}], thickness: 10}}}}"
    card = f"\n  pad: {{use: foot M10{foot}}}\n"
    return changed(DEMO, (ON_CASTERS, base), ("\nhardware:\n", f"\nhardware:{card}"))


@pytest.mark.parametrize(("foot", "height"), [("", 55), (", range: [60, 80]", 70)])
def test_the_frame_is_as_high_as_the_middle_of_the_range_leaves(foot: str, height: int) -> None:
    bench = solved(on_feet(foot=foot))
    assert bench.stand.kind == KIND
    assert bench.layout.levels.floor_to_frame == height + 10
    assert bench.layout.levels.frame_height == 880 - height - 10 - 18


@pytest.mark.parametrize("count", [4, 6])
def test_a_stem_rises_beside_the_bars_and_clear_of_every_bolt(count: int) -> None:
    """A stem of 10 keeps 5 from each bar above; the heads of M8, 13 across, keep clear of its hole."""
    bench = solved(on_feet(count))
    assert len(bench.stand.points) == count
    lying = [part for part in bench.parts if part.is_bar and part.along != "z" and part.box.z.low == 0]
    for x, y in bench.stand.points:
        for bar in lying:
            aside = max(bar.box.x.low - x, x - bar.box.x.high, bar.box.y.low - y, y - bar.box.y.high)
            assert aside >= 10
        for bolt in bench.stand.bolts:
            assert dist((x, y), bolt.at) > (10 + 13) / 2


@pytest.mark.parametrize("count", [4, 6])
def test_every_bolt_has_a_slot_above_and_room_for_its_nut(count: int) -> None:
    """On the axis of a lying bar, half a nut of M8 (10) from its ends, four a plate."""
    bench = solved(on_feet(count))
    bars = {part.mark: part for part in bench.parts if part.is_bar}
    assert len(bench.stand.bolts) == 4 * count
    for bolt in bench.stand.bolts:
        bar = bars[bolt.member]
        along, across = bar.along, "y" if bar.along == "x" else "x"
        at = dict(zip("xy", bolt.at, strict=True))
        assert bar.box.span(across).middle == at[across]
        assert bar.box.span(along).low + 10 <= at[along] <= bar.box.span(along).high - 10


def test_the_plates_lie_apart_and_each_foot_is_on_its_own() -> None:
    bench = solved(on_feet())
    plates = bench.stand.parts
    assert not any(one.box.overlaps(other.box) for one, other in combinations(plates, 2))
    for plate, (x, y) in zip(plates, bench.stand.points, strict=True):
        (hole,) = (op for op in plate.operations if op.op == "tapped hole")
        assert (plate.box.x.low + hole.at[0], plate.box.y.low + hole.at[1]) == (x, y)
        assert hole.size == 10


def test_what_is_bought_and_carried() -> None:
    """A stiff frame on three of six feet: 400 kg are 133.3 each, 166.7 with a quarter more."""
    stand = solved(on_feet()).stand
    bought = {each.item: each.count for each in stand.fixings}
    assert bought == {"pad": 6, "foot plate": 6, "foot plate bolt": 24}
    load = stand.rule.load(400.0, 6)
    assert (load.each, load.required) == pytest.approx((400 / 3, 500 / 3))


def judged(text: str) -> dict[str, tuple[bool, object, object]]:
    bench = solved(text)
    found = stand_kind(bench.spec).judge(bench.loaded, bench.layout, bench.stand, bench.stand.parts)
    return {each.law.code: (each.ok, each.value, each.limit) for each in found}


def test_the_range_that_a_floor_needs() -> None:
    """Feet 1900 by 800 apart are 2061.55 across: 25.77 at 1 in 80, and 5 in reserve."""
    ok, value, limit = judged(on_feet())[REACH.code]
    assert (ok, value, limit) == (False, 30, pytest.approx(30.769, abs=1e-3))
    assert judged(on_feet(foot=", range: [40, 71]"))[REACH.code][0]


@pytest.mark.parametrize(
    ("foot", "law", "ok"),
    [
        ("", HOLD, True),
        (", thread: M10x37", HOLD, False),  # 7 in at the highest, and 7.5 hold
        ("", STEM_TOP, True),  # 50 less the plate are 40, as high as the base rail
        (", thread: M10x51", STEM_TOP, False),
    ],
)
def test_the_stem_in_its_plate(foot: str, law: object, ok: bool) -> None:
    assert judged(on_feet(foot=foot))[law.code][0] is ok


def test_a_range_that_runs_the_wrong_way_is_refused() -> None:
    with pytest.raises(SpecError, match="lowest height of the foot is above its highest") as caught:
        solved(on_feet(foot=", range: [70, 40]"))
    assert [finding.code for finding in caught.value.findings] == ["foot-range"]


def test_every_law_has_words_of_its_own() -> None:
    assert len({law.fails for law in LAWS}) == len(LAWS)


@pytest.mark.parametrize(("stem", "severity"), [(51, ""), (65, ""), (66, "error")])
def test_a_stem_in_the_way_as_it_is_planned_stops_the_work(stem: int, severity: str) -> None:
    """Over the rails of 40 at its lowest only it is a warning; at 55, the middle of 40 to 70, it is in a drawer."""
    bench = solved(on_feet(foot=f", thread: M10x{stem}"))
    found = stand_kind(bench.spec).judge(bench.loaded, bench.layout, bench.stand, bench.stand.parts)
    (told,) = (each for each in found if each.law is STEM_TOP)
    assert not told.ok and told.severity == severity
