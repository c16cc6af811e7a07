"""Doors: in their opening, on their hinges, before boxes that pass them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fillings.door_leaves import door_pulls
from generator.bench.fillings.door_places import PlacedDoor
from generator.bench.fillings.doors import DoorFilling
from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.drawers import DrawerFilling
from generator.bench.fillings.totes import ToteFilling
from generator.bench.frames.slot_nuts import slot_nuts
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.findings import SpecError
from tests.bench.benches import DEMO, changed, faults, solved


def bench(hinge: str, bay: str = "B1", keys: str = "gap: 3", goods: str = "") -> Bench:
    """The demo with a door before a bay that is a share wide: F1 and F4 hold drawers, B1 and B2 shelves."""
    return solved(text(hinge, bay, keys, goods))


def text(hinge: str, bay: str = "B1", keys: str = "gap: 3", goods: str = "") -> str:
    return changed(
        DEMO,
        (f"name: {bay}, width: share,", f"name: {bay}, width: share, door: {{hinge: {hinge}}},"),
        ("  poplar-15: {kind", "  thick: {use: strip 50 x 45}\n  poplar-15: {kind"),
        ("  caster: {", f"{goods}  pull: {{use: pull 128}}\n  caster: {{"),
        ("shelves: {", f"doors: {{{keys}}}\nshelves: {{"),
    )


def doors(on: Bench) -> list[Part]:
    return [part for part in on.parts if part.own_group == "door"]


@pytest.mark.parametrize(("bay", "hinge"), [("F1", "left"), ("F4", "right"), ("B1", "left"), ("B2", "pair")])
def test_doors_and_gaps_fill_the_opening_flush_with_the_posts(bay: str, hinge: str) -> None:
    on = bench(hinge, bay)
    place = next(each for each in on.layout.bays if each.name == bay)
    own, at = doors(on), place.x.low
    for door in own:
        assert door.box.x.low - at == 3
        at = door.box.x.high
        assert (door.box.z.low, door.box.z.high) == (
            on.layout.levels.base_top + 3,
            on.layout.levels.base_top + on.layout.levels.opening - 3,
        )
        front = door.box.y.low == 0 if bay[0] == "F" else door.box.y.high == on.layout.depth
        assert front and door.thickness == door.box.y.size == 18
    assert place.x.high - at == 3
    assert len(own) == (2 if hinge == "pair" else 1)


@pytest.mark.parametrize("hinge", ["left", "right", "pair"])
def test_boxes_behind_a_door_pass_it_open(hinge: str) -> None:
    """At a hinge side an open door of 18 in a gap of 3 takes 21, and a box keeps 3 from it; its front is 5 behind."""
    on = bench(hinge, "F1", "packing: thick")
    bay = next(each for each in on.layout.bays if each.name == "F1")
    boxes = [part for part in on.of(Role.DRAWER_SIDE) if part.place.bay == "F1"]
    clear = 1 + 13  # proud and the slide's space
    left, right = (24 if hinge in (side, "pair") else 0 for side in ("left", "right"))
    assert {min(p.box.x.low for p in boxes), max(p.box.x.high for p in boxes)} == {
        bay.x.low + clear + left, bay.x.high - clear - right,
    }  # fmt: skip
    assert {part.box.y.low for part in boxes} == {18 + 5}
    # no face, and a cut-out for a hand in the front of each box
    assert not [part for part in on.of(Role.DRAWER_FACE) if part.place.bay == "F1"]
    ends = [part for part in on.of(Role.DRAWER_END) if part.place.bay == "F1"]
    cut = [part for part in ends if any(act.op == "cut-out" for act in part.operations)]
    assert {part.box.y.low for part in cut} == {23} and len(cut) == len(ends) / 2 == 4
    # offset 14 + proud 1, and what the door takes
    strips = [part for part in on.of(Role.PACKING_STRIP) if part.place.bay == "F1"]
    for part in strips:
        taken = left if part.place.wall == "left" else right
        assert (part.thickness, part.material) == (15 + taken, "thick" if taken else "poplar-15")


def test_a_hinge_that_leaves_the_bay_free_takes_nothing() -> None:
    goods = "  butt: {use: butt hinge 60 x 34, zero_protrusion: true}\n"
    widths = [
        d.sizes.box_width for d in bench("left", "F1", goods=goods).storage.of(PlacedDrawer) if d.bay == "F1"
    ]
    assert set(widths) == {500 - 2 - 26}


@pytest.mark.parametrize(
    ("bay", "hinge", "hinges"), [("F1", "left", 2), ("B1", "right", 3), ("B1", "pair", 4)]
)
def test_every_hinge_has_two_nuts_in_the_slot_beside_the_bay(bay: str, hinge: str, hinges: int) -> None:
    """A wide door has one more. Nuts at the quarters of a leaf of 60: 15 above and below the hinge's middle."""
    on = bench(hinge, bay)
    place = next(each for each in on.layout.bays if each.name == bay)
    nuts = [nut for nut in slot_nuts(on) if nut.purpose == "hinges"]
    assert len(nuts) == 2 * hinges
    heights = {h + door.z.low for door in on.storage.of(PlacedDoor) for h in door.hinges}
    for nut in nuts:
        side = "left" if nut.bar.box.x.high == place.x.low else "right"
        assert nut.bar.box.x.high == place.x.low or nut.bar.box.x.low == place.x.high
        assert nut.face != side
        at = nut.bar.box.z.low + nut.at
        assert {at - 15, at + 15} & heights
        # the post stands in the row that the door is in
        assert nut.bar.box.y.low == (0 if bay[0] == "F" else on.layout.depth - 40)
    needs = {need.kind: need.count for need in DoorFilling().needs(on)}
    assert (needs["hinge"], needs["hinge bolt"]) == (hinges, 2 * hinges)
    assert sum(each.count for each in DoorFilling().screws(on)) == 2 * hinges


def test_marks_on_the_door_are_at_its_hinges_as_far_from_the_pin_as_the_slot() -> None:
    """Half the bar from the pin, which is in the middle of the gap: 20 - 1.5 from the edge at the hinges."""
    on = bench("pair")
    for door, placed in zip(doors(on), on.storage.of(PlacedDoor), strict=True):
        marks = [act.at for act in door.operations if act.op == "pilot hole"]
        across = Fraction(37, 2) if placed.hinge_side == "left" else door.width - Fraction(37, 2)
        assert set(marks) == {(h + off, across) for h in placed.hinges for off in (-15, 15)}


@pytest.mark.parametrize(("hinge", "from_left"), [("left", [884]), ("right", [50]), ("pair", [415.5, 50])])
def test_the_pull_is_at_the_edge_that_opens(hinge: str, from_left: list[float]) -> None:
    """50 from it, at two thirds of 491, its holes 128 apart in height."""
    found = list(door_pulls(bench(hinge, keys="pull: pull")))
    assert [pull.at for pull in found] == [(x, Fraction(982, 3)) for x in from_left]
    for pull in found:
        (x, low), (x2, high) = pull.holes
        assert (x, x2, high - low, (high + low) / 2) == (pull.at[0], pull.at[0], 128, pull.at[1])


@pytest.mark.parametrize(("bay", "hinge"), [("F1", "left"), ("B2", "pair")])
def test_no_two_bodies_overlap_and_each_door_goes_in_with_its_hinges(bay: str, hinge: str) -> None:
    on = bench(hinge, bay, "packing: thick")
    proof = assembly_proof(on)
    assert proof.faults == () and proof.proof.ok
    order = [motion for motion in proof.proof.order if motion.step == "doors"]
    assert [len(motion.bodies) for motion in order] == [1 + len(d.hinges) for d in on.storage.of(PlacedDoor)]


def test_a_tote_behind_a_door_needs_the_width_and_the_depth() -> None:
    """386 and 6 of play do not go into 400 - 24; 520 behind 23 not into 540: both are told with the amount."""
    on = solved(changed(DEMO, ("name: F2, width: 400,", "name: F2, width: 400, door: {hinge: left},")))
    failed = {(each.law.code, each.value, each.limit) for each in ToteFilling().judge(on) if not each.ok}
    assert ("tote-rim", 400 - 24 - 386, 6) in failed
    assert ("tote-depth", 540 - 23 - 520, 0) in failed


@pytest.mark.parametrize(
    ("spec", "code", "words"),
    [
        (
            text("left", goods="  butt: {kind: hinge, cup: {diameter: 35}}\n"),
            "hinge-kind",
            "need a butt hinge",
        ),
        (text("left", goods="  butt: {kind: hinge}\n"), "hinge-kind", "two leaves or a cup"),
        (
            text("left", "F1", "packing: thick").replace("{drawer: 80}", "{drawer: 60}, {open: 17}"),
            "no-size",
            "grip",
        ),
        (
            text("left", keys="pull: deep", goods="  deep: {use: edge grip 100 x 25, size: [100, 500]}\n"),
            "no-size",
            "cut through the door",
        ),
        (text("middle"), "not-a-choice", "hinge"),
        (text("left", keys="mount: outside"), "not-a-choice", "mount"),
        (text("left", keys="mount: overlay"), "hinge-kind", "need a cup hinge"),
        (
            text(
                "left",
                keys="mount: overlay, hinge: cup, overlay: 41",
                goods="  cup: {use: cup hinge 35 slot}\n",
            ),
            "no-size",
            "covers more than its posts",
        ),
    ],
)
def test_what_is_refused(spec: str, code: str, words: str) -> None:
    with pytest.raises(SpecError, match=words):
        solved(spec)
    assert [finding.code for finding in faults(spec)] == [code]


def test_drawers_without_faces_stand_beside_drawers_with_pulls() -> None:
    """Bay F1 has four boxes behind its door, bay F4 four faces: four pulls."""
    on = solved(changed(text("left", "F1", "packing: thick"), ("groove: 6}", "groove: 6, pull: pull}")))
    assert [need.count for need in DrawerFilling().needs(on) if need.kind == "pull"] == [4]
    assert all(verdict.ok for verdict in DrawerFilling().judge(on) if verdict.law.code.startswith("pull"))
