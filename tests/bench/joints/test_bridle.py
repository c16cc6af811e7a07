"""Bridles: thirds in full millimetres or sixteenths, open at a post's end, prongs elsewhere; their laws and cards."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from generator.bench.frames import frame_kind
from generator.bench.joints import holds
from generator.bench.law import Case
from generator.bench.model import Bench
from generator.bench.piece import Operation, Part
from generator.bench.solve import solve
from generator.calculators import wood_joints as rules
from generator.spec.adapt import adapted
from generator.spec.load import read_spec
from generator.spec.samples import sample_text
from tests.benchmarks.timbers import faults

F = Fraction
INCH = F(254, 10)
TIMBER = (Path(__file__).parents[2] / "data" / "timber.yml").read_text(encoding="utf-8")
WITH = ("hardware:\n", "hardware:\n  bridle: {kind: bridle}\n")
#: Every joint that is glued is a bridle.
BRIDLED = (
    TIMBER.replace(*WITH)
    .replace("default: tenon", "default: bridle")
    .replace("inner_post_tops: tenon", "inner_post_tops: bridle")
)
#: Code, the thickness that a card asks for in timbers of 70, value and limit.
CASES = (("bridle-cheek", 52, 9, 10), ("bridle-tenon", 17, 17, F(70, 4)))
CODES_OF_BRIDLES = {code for code, *_ in CASES}


@cache
def bench() -> Bench:
    return solve(read_spec(BRIDLED, "bridled.yml"))


@cache
def in_inches() -> Bench:
    text = sample_text("lumber").replace("{kind: half lap, use: half lap,", "{kind: bridle, use: bridle,")
    return solve(read_spec(text, "lumber.yml"))


def part(mark: str, found: Bench | None = None) -> Part:
    return next(each for each in (found or bench()).parts if each.mark == mark)


def acts(mark: str, op: str, found: Bench | None = None) -> list[Operation]:
    return [each for each in part(mark, found).operations if each.op == op]


def test_a_third_is_a_full_step_of_the_rule() -> None:
    """70 in thirds is 23; 3 1/2 inches 1 3/16 at sixteenths."""
    assert rules.third_of(F(70), F(1)) == 23
    assert rules.third_of(F(7, 2) * INCH, INCH / 16) == F(19, 16) * INCH


def test_at_the_end_of_a_post_the_mortise_is_open_and_the_tenon_as_wide_as_its_timber() -> None:
    """The base end member, 95 high: its bolt leaves 70 - 35 - 9/2 - 8 = 22.5, as it leaves a tenon."""
    (tenon,) = (each for each in acts("C5", "bridle tenon") if each.face == "front")
    assert (tenon.size, tenon.depth, tenon.aside) == ((23, 95), F("22.5"), 0)
    (open_,) = (each for each in acts("A1", "open mortise") if each.purpose == "C5, front end")
    assert (open_.size, open_.depth) == ((95, 23), F("22.5"))
    # from the post's foot to the upper edge of the member: nothing is left below it
    assert (open_.at[0] - F(95, 2), open_.at[1]) == (0, 35)


def test_in_the_middle_of_a_post_two_prongs_hold_it() -> None:
    """The tray's end rail: what is outside of the middle 23, all through a front post."""
    prongs = [each for each in acts("C7", "bridle prong") if each.face == "front"]
    assert [each.size for each in prongs] == [(F("23.5"), 95)] * 2
    assert {each.aside for each in prongs} == {F("-23.25"), F("23.25")}
    assert {each.depth for each in prongs} == {70}
    notches = [each for each in acts("A1", "prong notch") if each.purpose == "C7, front end"]
    assert sorted(each.at[1] for each in notches) == [F("11.75"), F("58.25")]


def test_prongs_end_before_the_groove_of_a_panel() -> None:
    """The back is in the middle of a rear post of 70: 35 less half of its 11.7, less 2."""
    (length,) = {each.depth for each in acts("C7", "bridle prong") if each.face == "rear"}
    assert length == 35 - F("11.7") / 2 - 2


def test_a_post_stands_astride_of_its_rail_and_a_cross_member_has_a_stub_tenon_there() -> None:
    assert {each.depth for each in acts("D1", "bridle prong")} == {12}
    assert {(each.size, each.depth) for each in acts("C1", "tenon")} == {((23, 55), 12)}


def test_lengths_are_shoulders_and_both_ends() -> None:
    """Depth 760, posts 70: 620 between them."""
    assert part("C5").length == 620 + 2 * F("22.5")
    assert part("C7").length == 620 + 70 + 35 - F("11.7") / 2 - 2
    assert part("D1").length == part("D1").shoulders.z.size + 24


@pytest.mark.parametrize("found", [bench, in_inches])
def test_bridles_are_sound_by_geometry_of_another_sort(found: object) -> None:
    assert callable(found)
    assert list(faults(found())) == []


def test_in_inches_thirds_are_sixteenths() -> None:
    """Posts of 3 1/2: 1 3/16 in the middle, prongs of 1 5/32."""
    (tenon,) = (each for each in acts("C5", "bridle tenon", in_inches()) if each.face == "front")
    assert tenon.size == (F(19, 16) * INCH, F(11, 2) * INCH)
    assert {
        each.size[0] for each in acts("C7", "bridle prong", in_inches()) if isinstance(each.size, tuple)
    } == {F(37, 32) * INCH}


@pytest.mark.parametrize(("code", "thickness", "value", "limit"), CASES, ids=[code for code, *_ in CASES])
def test_each_law_has_its_limit_and_its_cure(
    code: str, thickness: int, value: Fraction, limit: Fraction
) -> None:
    text = BRIDLED.replace("{kind: bridle}", f"{{kind: bridle, thickness: {thickness}}}")
    loaded = read_spec(text, "bridled.yml")
    failed = next(each for each in holds(loaded.goods, "bridle") if each.law.code == code)
    assert (failed.ok, failed.value, failed.limit) == (False, value, limit)
    assert callable(failed.law.cure)
    case = Case(loaded, bench().layout, failed.path, F(value), F(limit), False)
    cured = adapted(text, [(each.path, each.value) for each in failed.law.cure(case)])
    again = read_spec(cured, "bridled.yml")
    assert all(each.ok for each in holds(again.goods, "bridle"))


def test_a_card_without_a_thickness_has_nothing_to_judge() -> None:
    assert list(holds(read_spec(BRIDLED, "bridled.yml").goods, "bridle")) == []


def test_each_sort_has_a_card_with_its_test_piece_and_its_glued_faces() -> None:
    cards = {card.key: card for card in frame_kind(bench().spec).cards(bench())}
    assert {"open-mortise-1", "prong-notch-1", "bridle-tenon-1", "bridle-prong-1"} <= set(cards)
    card = cards["bridle-tenon-1"]
    settings = {each.name: each.values for each in card.settings}
    assert settings["Stop: from the end to the shoulder line"] == (F("22.5"),)
    assert settings["Each glued face, length and width"] == (F("22.5"), 95)
    assert "off-cut" in card.act[0] and card.marks[0] == "C5"
