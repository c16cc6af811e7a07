"""The natural order of the worked bench, and laws of every order before it is proved."""

from __future__ import annotations

from collections import Counter

import pytest

from generator.bench.order import TOP_GRID, natural_order
from generator.bench.role import STRIPS, Role
from generator.bench.solids import solid_bodies
from generator.calculators.assembly import BENCH, Motion
from tests.bench.benches import DEMO, MIXED, REAR, THIN_TRAY, WALL, changed, solved

RAILS = changed(
    DEMO, ("through: posts", "through: rails"), ("corner_posts: through-screw", "corner_posts: end-clip")
)
#: Shelves that are too near to each other to be tilted in.
NEAR_SHELVES = changed(
    DEMO,
    (
        "B1, width: share, stack: [{shelf: 60}, {shelf: 288}]",
        "B1, width: share, stack: [{shelf: 60}, {shelf: 125}]",
    ),
)
BENCHES = {
    "demo": DEMO,
    "wall": WALL,
    "rails": RAILS,
    "thin": THIN_TRAY,
    "mixed": MIXED,
    "rear": REAR,
    "near": NEAR_SHELVES,
}


def order(text: str) -> tuple[Motion, ...]:
    bench = solved(text)
    return natural_order(bench, solid_bodies(bench))


def into(text: str, assembly: str) -> list[str]:
    return [motion.name for motion in order(text) if motion.into == assembly]


@pytest.mark.parametrize("name", BENCHES)
def test_every_body_is_placed_once_and_every_sub_assembly_used_once(name: str) -> None:
    text = BENCHES[name]
    found = order(text)
    placed = Counter(body.name for motion in found for body in motion.bodies)
    assert placed == Counter(body.name for body in solid_bodies(solved(text)))
    joined = Counter(motion.brings for motion in found if motion.brings)
    assert set(joined.values()) == {1}
    assert {motion.into for motion in found} == {BENCH, *joined}
    # what a sub-assembly is made of comes before it moves
    at = {motion.name: index for index, motion in enumerate(found)}
    for motion in found:
        for other in found:
            if motion.brings and other.into == motion.brings:
                assert at[other.name] < at[motion.name]
        assert all(at[needed] < at[motion.name] for needed in motion.after), motion.name


def test_the_worked_end_frame() -> None:
    """C7, E1, C9, EF, EB, the clips, A1, A3, C11: lower ring, panels before clips, posts over them, top."""
    steps = [p for p in order(DEMO) if p.into == "left end frame"]
    names = [motion.name for motion in steps]
    assert names[:3] == ["C7", "E1", "C9"]
    assert [name.split(" with")[0] for name in names[3:5]] == ["EF1", "EB1"]
    assert names[5:9] == ["C7 front clip", "C7 rear clip", "C9 front clip", "C9 rear clip"]
    assert names[9:12] == ["A1", "A3", "C11"]
    assert [motion.step for motion in steps][::4] == ["left-ring", "left-panels", "left-clips"]


def test_the_worked_base_and_closing() -> None:
    """Rails, cross-members with their posts from the far side, posts, walls, tray, left and right frame, top grid."""
    bench = [name for name in into(DEMO, BENCH) if "screw" not in name]
    base = ["B1", "B2", "C3 with its posts", "C2 with its posts", "C1 with its posts"]
    assert bench[:5] == base
    assert bench[5:9] == ["D7", "D3", "D2", "D1"]
    walls = [name.split(" with")[0] for name in bench[9:17]]
    assert walls == ["FD1", "FD2", "FD3", "BD1", "SP1", "SP2", "SP3", "SP4"]
    assert bench[17] == "PAN"
    close = [bench.index(name) for name in ("PAN", "left end frame", "right end frame", TOP_GRID)]
    assert close == sorted(close)
    assert into(DEMO, "C3 with its posts")[:2] == ["C3", "D6"]


def test_with_rails_running_through_the_lid_comes_before_the_end_frames() -> None:
    bench = into(RAILS, BENCH)
    assert bench.index("PAN") < bench.index(TOP_GRID) < bench.index("left end frame")
    grid = [name for name in into(RAILS, TOP_GRID) if name.startswith("C")]
    assert grid == ["C12", "C6", "C5", "C4", "C11"]
    assert "C11" not in into(RAILS, "left end frame")


@pytest.mark.parametrize("name", BENCHES)
def test_strips_go_onto_the_wall_that_they_lie_on_while_it_is_flat(name: str) -> None:
    text = BENCHES[name]
    bench, found = solved(text), order(text)
    walls = {each.mark: each for each in bench.of(Role.DIVIDER, Role.END_PANEL)}
    where = {motion.name: motion for motion in found}
    for strip in bench.of(*STRIPS):
        motion = where[strip.mark]
        wall = walls[motion.into.split(" with its strips")[0]]
        # screwed on from the bay's side: it leaves the way it came
        if strip.box.x.low == wall.box.x.high:
            assert motion.out == ("+x",)
        else:
            assert strip.box.x.high == wall.box.x.low
            assert motion.out == ("-x",)


def test_what_fills_the_bays_goes_in_by_the_face_that_they_open_to() -> None:
    out = {motion.name: motion.out for motion in order(REAR)}
    assert out["drawer F1.1"] == out["slide F1.1 left"] == ("-y",)
    assert out["drawer B1.1"] == out["slide B1.1 right"] == ("+y",)
    assert out["tote F2.1"] == ("-y",)


def test_a_drawer_is_boxed_about_its_bottom() -> None:
    """One side, the two ends, the bottom into their grooves, the other side, the face."""
    bench = solved()
    role = {each.mark: each.role for each in bench.parts}
    assert [role[name] for name in into(DEMO, "drawer F1.1")] == [
        Role.DRAWER_SIDE, Role.DRAWER_END, Role.DRAWER_END, Role.DRAWER_BOTTOM, Role.DRAWER_SIDE, Role.DRAWER_FACE,
    ]  # fmt: skip
    sides = [each for each in into(DEMO, "drawer F1.1") if role[each] is Role.DRAWER_SIDE]
    left, right = (next(each for each in bench.parts if each.mark == mark) for mark in sides)
    assert left.box.x.high < right.box.x.low


def test_shelves_are_tilted_in_or_laid_in_early() -> None:
    shelves = {p.name: (p.step, p.unproved) for p in order(DEMO) if p.name.startswith("SH")}
    assert set(shelves.values()) == {("shelves", "tilted in through the opening")}
    near = {p.name: (p.step, p.unproved) for p in order(NEAR_SHELVES) if p.name.startswith("SH")}
    assert near["SH1"] == ("early-shelves", "")
    assert near["SH3"] == ("shelves", "tilted in through the opening")
