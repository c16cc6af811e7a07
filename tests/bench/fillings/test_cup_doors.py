"""Doors before the posts on hinges with a cup: on bars with slots, and on timber."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fillings import FILLINGS
from generator.bench.fillings.door_places import PlacedDoor
from generator.bench.fillings.doors import DoorFilling
from generator.bench.frames.slot_nuts import slot_nuts
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.swing import first_contact, rectangle
from generator.figures.checks.swings import swing_checks
from tests.bench.benches import changed, faults, solved
from tests.bench.fillings.test_doors import text

CUP = "  cup: {use: cup hinge 35 slot}\n"
KEYS = "mount: overlay, hinge: cup, packing: thick"


def overlay(hinge: str, bay: str, keys: str = KEYS, goods: str = CUP) -> Bench:
    return solved(text(hinge, bay, keys, goods))


def timber(mount: str, card: str) -> Bench:
    """Timber of 70 with a door before two drawers and a pair before a shelf."""
    spec = changed(
        Path("tests/data/timber.yml").read_text(encoding="utf-8"),
        ("name: left, width: 430,", "name: left, width: 430, door: {hinge: left},"),
        ("name: right, width: share,", "name: right, width: share, door: {hinge: pair},"),
        ("  grip: {use", f"  cup: {{use: cup hinge 35 {card}}}\n  grip: {{use"),
        ("shelves: {", f"doors: {{hinge: cup, mount: {mount}}}\nshelves: {{"),
    )
    return solved(spec)


def boards(on: Bench) -> list[Part]:
    return [part for part in on.parts if part.own_group == "door"]


@pytest.mark.parametrize(("bay", "hinge"), [("F1", "left"), ("F4", "right"), ("B2", "pair")])
def test_an_overlay_door_covers_its_posts_by_what_its_hinge_says(bay: str, hinge: str) -> None:
    """16 over the posts and over the base rail; above no more than tray and trim are thick: 12 and 2."""
    on = overlay(hinge, bay)
    place = next(each for each in on.layout.bays if each.name == bay)
    own, at = boards(on), place.x.low - 16
    trim = on.goods.trim.thickness if on.goods.trim else 0
    for door in own:
        assert door.box.x.low == at
        at = door.box.x.high + 3
        levels = on.layout.levels
        high = levels.base_top + levels.opening + on.goods.tray.thickness + trim
        assert (door.box.z.low, door.box.z.high) == (levels.base_top - 16, high)
        front = (door.box.y.low, door.box.y.high)
        assert front == ((-18, 0) if bay[0] == "F" else (on.layout.depth, on.layout.depth + 18))
    assert at - 3 == place.x.high + 16


def test_cups_are_where_their_card_says_in_the_face_that_looks_into_the_bay() -> None:
    """A cup of 35 with 4 of wood beside it has its middle 21.5 from the edge of the hinges, in the rear face."""
    on = overlay("pair", "F1")
    for door, placed in zip(boards(on), on.storage.of(PlacedDoor), strict=True):
        cups = [act for act in door.operations if act.op == "cup hole"]
        across = Fraction(43, 2) if placed.hinge_side == "left" else door.width - Fraction(43, 2)
        assert [(act.face, act.at, act.size, act.depth) for act in cups] == [
            ("rear", (height, across), 35, 13) for height in placed.hinges
        ]
    assert {act.face for door in boards(overlay("left", "B1")) for act in door.operations} == {"front"}


def test_each_plate_has_two_nuts_in_the_slot_of_its_post() -> None:
    """32 apart about the middle of the hinge."""
    on = overlay("left", "F1")
    nuts = [nut for nut in slot_nuts(on) if nut.purpose == "hinges"]
    (door,) = on.storage.of(PlacedDoor)
    expected = {door.z.low + height + side * 16 for height in door.hinges for side in (-1, 1)}
    assert {nut.bar.box.z.low + nut.at for nut in nuts} == expected
    needs = {need.kind: need.count for need in DoorFilling().needs(on)}
    assert (needs["hinge"], needs["hinge bolt"]) == (2, 4)
    assert [(each.kind, each.count) for each in DoorFilling().screws(on)] == [("hinge screw", 4)]


def test_what_slides_passes_the_arms_of_the_hinges() -> None:
    """An arm of 15 and 3 beside it: more than the 18 + 3 - 16 + 3 of the open door. Boxes begin behind 18 of a face."""
    on = overlay("left", "F1")
    place = next(each for each in on.layout.bays if each.name == "F1")
    boxes = [part for part in on.of(Role.DRAWER_SIDE) if part.place.bay == "F1"]
    assert min(part.box.x.low for part in boxes) == place.x.low + 18 + 1 + 13
    assert max(part.box.x.high for part in boxes) == place.x.high - 1 - 13
    assert {part.box.y.low for part in boxes} == {18}


@pytest.mark.parametrize(("bay", "hinge"), [("F1", "left"), ("B2", "pair")])
def test_doors_go_in_and_turn_clear_of_the_posts_that_they_cover(bay: str, hinge: str) -> None:
    on = overlay(hinge, bay)
    proof = assembly_proof(on)
    assert proof.faults == () and proof.proof.ok
    assert not [check for check in swing_checks(on) if not check.check.ok]
    swings = [swing for kind in FILLINGS for swing in kind.swings(on)]
    for swing in swings:
        away = 1 if bay[0] == "B" else -1
        ys = [y * away for _, y in swing.turning.at(90)]
        face = on.layout.depth if bay[0] == "B" else Fraction(0)
        assert min(ys) >= float(face * away)


def test_a_board_before_the_next_bay_is_in_the_way_of_an_overlay_door() -> None:
    """Something that stands out 30 beside the hinges: the open door of 110 degrees meets it."""
    on = overlay("left", "F4")
    (swing,) = (swing for kind in FILLINGS for swing in kind.swings(on))
    edge = min(x for x, _ in swing.turning.outline)
    assert first_contact(swing.turning, rectangle((edge - 200, edge - 40), (-400, -200))) is not None
    assert first_contact(swing.turning, rectangle((edge - 200, edge - 1), (-30, 0))) is None


@pytest.mark.parametrize(("mount", "card", "line"), [("overlay", "full", 37), ("inset", "inset", 37 + 18)])
def test_plates_are_screwed_to_posts_of_timber(mount: str, card: str, line: int) -> None:
    on = timber(mount, card)
    assert {each.kind: each.count for each in DoorFilling().screws(on)} == {
        "hinge screw": 12,
        "plate screw": 12,
    }
    assert not list(DoorFilling().slot_bolts(on))
    (setup,) = DoorFilling().cards(on)
    assert setup.settings[-1].values == (line,)
    assert assembly_proof(on).proof.ok
    own = {"hinge-plate", "hinge-cup", "hinge-edge", "hinge-overlay", "door-gap"}
    verdicts = [each for each in DoorFilling().judge(on) if each.law.code in own]
    assert {each.law.code for each in verdicts} == own and all(each.ok for each in verdicts)


@pytest.mark.parametrize(
    ("keys", "goods", "code"),
    [
        ("mount: overlay", "", "hinge-kind"),
        ("hinge: cup", CUP, "hinge-kind"),
        ("overlay: 10", "", "not-a-choice"),
        ("mount: overlay, hinge: cup, overlay: 41", CUP, "no-size"),
    ],
)
def test_what_is_refused(keys: str, goods: str, code: str) -> None:
    assert [finding.code for finding in faults(text("left", "F1", f"{keys}, packing: thick", goods))] == [
        code
    ]


def test_two_doors_share_a_post() -> None:
    """Each covers half of 40 less half the gap of 3: 19 is refused with 18.5."""
    spec = changed(
        text("left", "B1", "mount: overlay, hinge: cup, overlay: 19", CUP),
        ("name: B2, width: share,", "name: B2, width: share, door: {hinge: right},"),
    )
    assert {(each.code, each.allowed) for each in faults(spec)} == {("no-size", "18.5 mm or less")}
