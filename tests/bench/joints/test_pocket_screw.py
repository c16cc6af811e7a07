"""Pocket screws against the trade's example of a jig, their laws by hand with their cures, where they are cut."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from math import cos, radians, sin, tan

import pytest

from generator.bench.frames import frame_kind
from generator.bench.joints import holds, suits
from generator.bench.law import Case, Verdict
from generator.bench.model import Bench
from generator.bench.solve import solve
from generator.calculators import wood_joints as rules
from generator.figures.hardware import hardware
from generator.findings import SpecError
from generator.spec.adapt import adapted
from generator.spec.load import LoadedSpec, read_spec
from generator.spec.samples import sample_text

TEXT = sample_text("lumber")
INCH = Fraction(254, 10)
F = Fraction
COS = float(rules.COSINE)

#: Code, what is changed in the sample, value and limit in inches.
CASES = (
    ("pocket-setting", "setting: 1 1/2", "setting: 4", 4.0, 3.5),
    # half of the setting less half of the drill at its slope, over the sine of 15°
    (
        "pocket-head", "before: 1 1/8", "before: 2 1/2", 2.5,
        (0.75 - 3 / 16 * cos(radians(15))) / sin(radians(15)),
    ),
    # 6 less 1 1/8 at its slope; 3 1/2 less 3 mm
    ("pocket-point", '"#10 x 2 1/2", setting', '"#10 x 6", setting', 4.875 * COS, 3.5 - 3 / 25.4),
    # 1 3/4 less 1 1/8; six diameters of 0.19
    ("pocket-hold", '"#10 x 2 1/2", setting', '"#10 x 1 3/4", setting', 0.625, 6 * 0.19),
    # half of 3 1/2 less half of 1 3/4; 25 mm
    ("pocket-edge", "apart: 1,", "apart: 1 3/4,", 0.875, 25 / 25.4),
    ("pocket-apart", "apart: 1,", "apart: 1/2,", 0.5, 5 * 0.19),
)  # fmt: skip
CODES_OF_POCKETS = {code for code, *_ in CASES} | {"pockets-alone"}
CURED_AT_POCKETS = {"pocket-setting", "pocket-head", "pocket-edge", "pocket-apart"}


def judged(loaded: LoadedSpec) -> dict[str, Verdict]:
    return {each.law.code.value: each for how in (holds, suits) for each in how(loaded.goods, "pocket")}


@cache
def bench() -> Bench:
    return solve(read_spec(TEXT, "lumber.yml"))


@pytest.mark.parametrize(("thickness", "reach"), [(12, 41), (18, 52), (38, 89)])
def test_a_pocket_reaches_as_far_as_the_trade_says(thickness: int, reach: int) -> None:
    """Half the timber over tan 15° and half the drill of 9.5 over sin 15°: 41 for 12, 52 for 18, 89 for 38."""
    found = rules.pocket_reach(F(thickness), F("9.5"))
    assert round(found) == reach
    assert float(found) == pytest.approx(
        thickness / 2 / tan(radians(15)) + 4.75 / sin(radians(15)), abs=0.005
    )


@pytest.mark.parametrize(("timber", "screw", "before"), [(19, 32, F("15.5")), (38, 64, 28)])
def test_the_screws_of_the_trade_end_three_below_the_far_face(
    timber: int, screw: int, before: Fraction
) -> None:
    """32 for 19, 64 for 38: the point is straight in what the slope leaves of it, 3 or a little more below the face."""
    assert 3 <= timber - rules.beyond_pocket(F(screw), F(before)) < 4


@pytest.mark.parametrize(("code", "old", "new", "value", "limit"), CASES, ids=[code for code, *_ in CASES])
def test_each_law_has_its_limit_and_its_cure(
    code: str, old: str, new: str, value: float, limit: float
) -> None:
    assert all(each.ok for each in judged(read_spec(TEXT, "lumber.yml")).values())
    text = TEXT.replace(old, new, 1)
    assert text != TEXT
    loaded = read_spec(text, "lumber.yml")
    failed = judged(loaded)[code]
    assert not failed.ok
    assert failed.value is not None and failed.limit is not None
    assert float(failed.value) / 25.4 == pytest.approx(value, abs=2e-3)
    assert float(failed.limit) / 25.4 == pytest.approx(limit, abs=2e-3)
    if callable(failed.law.cure):
        down = failed.sense == "at most"
        case = Case(loaded, bench().layout, failed.path, F(failed.value), F(failed.limit), down)
        changes = [(each.path, each.value) for each in failed.law.cure(case)]
        assert judged(read_spec(adapted(text, changes), "lumber.yml"))[code].ok
    assert callable(failed.law.cure) == (code in CURED_AT_POCKETS)


def test_two_screws_a_joint_are_bought_and_drilled() -> None:
    """The heads of four posts between the rails: 8 screws of soft wood, each with its pocket and its pilot hole."""
    (row,) = (row for row in hardware(bench()) if row.kind == "pocket-hole screw")
    acts = [op.op for part in bench().parts for op in part.operations]
    assert (row.count, row.size) == (8, "#10 x 2 1/2 with a flat head, coarse thread")
    assert {acts.count(op) for op in ("screw pocket", "pocket pilot hole")} == {8}


def test_a_pocket_is_in_a_side_without_a_groove_and_its_screw_leaves_the_end_by_half_the_setting() -> None:
    """A front post has the divider in its rear side: its pockets are in front, 3/4 below that face, 1 apart."""
    (post,) = (part for part in bench().parts if part.mark == "D1")
    found = [op for op in post.operations if op.op == "screw pocket"]
    grooved = {op.face for op in post.operations if op.op == "panel groove"}
    assert {op.face for op in found} == {"front"} and "front" not in grooved
    assert sorted(op.at[1] / INCH for op in found) == [F(5, 4), F(9, 4)]
    reach = 0.75 / tan(radians(15)) + 3 / 16 / sin(radians(15))
    ends = {
        float(post.length - op.at[0] + op.size[0] / 2) / 25.4 for op in found if isinstance(op.size, tuple)
    }
    assert all(each == pytest.approx(reach, abs=1e-3) for each in ends)
    pilots = [op for op in post.operations if op.op == "pocket pilot hole"]
    assert {op.face for op in pilots} == {"top"}
    assert {abs(op.aside) / INCH for op in pilots} == {F(7, 4) - F(3, 4)} or {
        abs(op.at[1] - post.width / 2) / INCH for op in pilots
    } == {F(7, 4) - F(3, 4)}


def test_the_cut_list_has_no_more_for_a_pocket() -> None:
    """A post between the rails is as long as their distance and its lap at the foot; its head only butts."""
    (post,) = (part for part in bench().parts if part.mark == "D1")
    assert post.length == post.shoulders.z.size + F(1, 2) * INCH
    assert set(post.tenons) == {"bottom"}


def test_a_post_that_stands_by_pocket_screws_alone_is_told() -> None:
    text = TEXT.replace("corner_posts: corner", "corner_posts: pocket", 1)
    found = solve(read_spec(text, "lumber.yml"))
    alone = {each.law.code: each for each in frame_kind(found.spec).judge(found)}["pockets-alone"]
    assert not alone.ok and alone.path == ("frame", "joints", "long_rails_to_corner_posts")
    assert {each.law.code: each for each in frame_kind(bench().spec).judge(bench())}["pockets-alone"].ok


def test_a_post_with_grooves_on_both_sides_has_no_room_for_a_pocket() -> None:
    """Between two zones the spine is in the left and right side of a post, where the pockets to its rails would be."""
    text = TEXT.replace("bench: {length: 66, depth: 30,", "bench: {length: 66, depth: 40,", 1).replace(
        "zones:\n",
        "zones:\n  - {name: rear, depth: share, bays: [{name: a, width: share}, {name: b, width: share}]}\n",
        1,
    )
    text = text.replace("count: 2, apart: 1,", "count: 1, apart: 1,", 1)
    found = solve(read_spec(text, "lumber.yml"))
    told = next(each for each in frame_kind(found.spec).judge(found) if each.law.code == "fasteners-meet")
    assert not told.ok
    assert "panel groove" in told.where and "screw pocket" in told.where


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('screw: "#10 x 2 1/2", setting', 'screw: "#11 x 2 1/2", setting', "unknown wood screw"),
        ("count: 2, apart: 1,", "count: 0, apart: 1,", "1"),
    ],
)
def test_what_no_shop_has_is_refused(old: str, new: str, says: str) -> None:
    assert old in TEXT
    with pytest.raises(SpecError) as caught:
        read_spec(TEXT.replace(old, new, 1), "lumber.yml")
    (finding,) = caught.value.findings
    assert says in f"{finding.message} {finding.allowed}"
