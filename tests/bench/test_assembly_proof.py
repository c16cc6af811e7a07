import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.solve import solve
from generator.calculators.assembly import BENCH
from generator.calculators.collisions import clashes
from generator.calculators.collisions import way_out as collisions_way_out
from generator.findings import SpecError
from generator.spec.load import LoadedSpec, read_spec
from tests import solid_models
from tests.replay import collisions

SPECS = Path(__file__).parents[2] / "specs"
DEMO = (SPECS / "demo.yml").read_text()
THREE_BAYS = """zones:
  - name: front
    depth: 500
    bays:
      - {name: F1, stack: [{drawer: share}, {drawer: 107}]}
      - {name: F2, width: 400, stack: [{totes: tote-145, count: 3}]}
      - {name: F3, stack: [{shelf: 60}]}
  - name: back
    bays: [{name: B1}, {name: B2, width: 400}, {name: B3, stack: [{shelf: 60}]}]
panels:"""
BENCHES = {
    "demo": DEMO,
    "starter": (SPECS / "starter.yml").read_text(),
    "one zone with back panels": (SPECS / "wall-bench.yml").read_text(),
    "three bays, two faces": re.sub(r"zones:\n.*?\npanels:", THREE_BAYS, DEMO, flags=re.DOTALL),
    "rails run through": DEMO.replace("through: posts", "through: rails").replace(
        "corner_posts: through-screw", "corner_posts: end-clip"
    ),
}


def load(text: str) -> LoadedSpec:
    return read_spec(text, "bench.yml")


def pinned(wishes: str) -> LoadedSpec:
    return load(f"{DEMO}\nassembly: {{{wishes}}}\n")


@pytest.mark.parametrize("name", BENCHES)
def test_a_bench_goes_together_without_overlaps_in_a_proved_order(name) -> None:
    loaded = load(BENCHES[name])
    done = assembly_proof(solve(loaded))
    assert not clashes(done.bodies)
    assert done.proof.ok
    placed = [body.name for motion in done.proof.order for body in motion.bodies]
    assert sorted(placed) == sorted(body.name for body in done.bodies)


def test_the_demo_goes_together_as_the_trade_does_it() -> None:
    loaded = load(DEMO)
    ways = assembly_proof(solve(loaded)).proof.ways
    out = {way.motion.name: way.out for way in ways}
    into_bench = [way.motion.name for way in ways if way.motion.into == BENCH]
    frame = [way.motion.name for way in ways if way.motion.into == "left end frame"]
    assert frame[:3] == ["C7", "E1", "C9"]
    assert frame[3:5] == ["EF1 with its strips", "EB1 with its strips"]
    assert [name for name in frame[5:] if "clip" not in name] == ["A1", "A3", "C11"]
    assert into_bench[:5] == ["B1", "B2", "C3 with its posts", "C2 with its posts", "C1 with its posts"]
    order = {name: index for index, name in enumerate(into_bench)}
    assert order["PAN"] < order["left end frame"] < order["right end frame"] < order["top grid"]
    assert (out["left end frame"], out["right end frame"]) == ("-x", "+x")
    assert out["PAN"] == out["top grid"] == out["FD1 with its strips"] == "+z"
    assert out["C3 with its posts"] == "-x"


@pytest.mark.parametrize(
    ("wishes", "part", "culprit", "last_free"),
    [
        ("before: [[left end frame, tray], [right end frame, tray]]", "PAN", "C9", "spine panels"),
        ("before: [[top grid, tray]]", "PAN", "top grid", "spine panels"),
        ("before: [[corner post, end panel]]", "EF1", "A1", "left end frame: lower members"),
        ("before: [[left-clips, end panel]]", "EF1", "C7 front clip", "left end frame: lower members"),
        (
            "before: [[left end frame, C2], [right end frame, C2]]",
            "C2",
            "C7 and E1 of the left end frame",
            "spine panels",
        ),
    ],
)
def test_an_impossible_wish_is_refused_with_its_culprit(wishes, part, culprit, last_free) -> None:
    with pytest.raises(SpecError) as refusal:
        solve(pinned(wishes))
    blocked = [f for f in refusal.value.findings if f.code == "order-blocked"]
    (found,) = [f for f in blocked if f.message.startswith(f"{part} ")]
    assert culprit in found.message
    assert found.advice.startswith(f"After step “{last_free}”, {part} ")
    assert " could still go in. Change the wishes: it goes in before " in found.advice
    assert max(map(len, [*found.message.split("\n"), *found.advice.split("\n")])) < 140


@pytest.mark.parametrize(
    ("wishes", "code"),
    [
        ("before: [[left end frame, tary]]", "unknown-name"),
        ("first: [nothing]", "unknown-name"),
        ("before: [[tray, divider], [divider, tray]]", "order-contradiction"),
        ("before: [[left end frame, EF1]]", "order-contradiction"),
        ("first: [C1, left end frame]", "order-blocked"),
    ],
)
def test_a_wish_that_cannot_be_met_is_refused(wishes, code) -> None:
    with pytest.raises(SpecError) as refusal:
        solve(pinned(wishes))
    assert code in {finding.code for finding in refusal.value.findings}


@pytest.mark.parametrize(
    ("wishes", "first", "second"),
    [
        ("before: [[right end frame, left end frame]]", "right end frame", "left end frame"),
        ("first: [B2]", "B2", "B1"),
        ("before: [[spine panel, divider]]", "SP4", "FD1 with its strips"),
    ],
)
def test_a_wish_that_can_be_met_is_met(wishes, first, second) -> None:
    loaded = pinned(wishes)
    proof = assembly_proof(solve(loaded)).proof
    names = [motion.name for motion in proof.order]
    assert proof.ok
    assert names.index(first) < names.index(second)


def test_a_clip_that_rolls_into_its_slot_lets_a_cross_member_in_late() -> None:
    wishes = "\nassembly: {before: [[left end frame, C2], [right end frame, C2]]}\n"
    # without dividers nothing but the frame itself asks for an early cross-member
    text = DEMO.replace("walls: [dividers, ends, spine]", "walls: [ends]") + wishes
    rolling = load(text.replace("access_hole: 8, entry: slide-in", "access_hole: 8, entry: roll-in"))
    assert assembly_proof(solve(rolling)).proof.ok
    with pytest.raises(SpecError, match=r"C2 .*cannot go in"):
        solve(load(text))


@pytest.mark.parametrize(
    ("joint", "blocked"),
    [
        ("long_rails_to_corner_posts", "left end frame"),
        ("inner_post_tops", "top grid"),
    ],
)
def test_joints_that_do_not_close_are_found(joint, blocked) -> None:
    loaded = load(DEMO.replace(f"{joint}: through-screw", f"{joint}: end-clip"))
    proof = assembly_proof(solve(loaded)).proof
    assert blocked in {each.motion.name for each in proof.blockages}


def test_a_shelf_too_long_to_tilt_goes_in_before_the_frame_closes() -> None:
    loaded = load(DEMO)
    bench = solve(loaded)
    low = replace(bench.layout.levels, opening=bench.layout.levels.opening / 2)
    bench = replace(bench, layout=replace(bench.layout, levels=low))
    proof = assembly_proof(bench).proof
    names = [motion.name for motion in proof.order]
    assert proof.ok
    assert names.index("SH1") < names.index("left end frame")


@pytest.mark.parametrize("name", ["demo", "one zone with back panels", "rails run through"])
def test_the_proved_order_replays_without_a_collision(name) -> None:
    loaded = load(BENCHES[name])
    bench = solve(loaded)
    done = assembly_proof(bench)
    assert not collisions(done.proof, solid_models.all_models(bench, done.bodies))


def test_mending_an_order_proves_no_motion_anew_that_nothing_was_moved_for(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Three zones with drawers: dozens of slides have to go in earlier, each a round of its own."""
    row = ", ".join(["{stack: [{drawer: share}, {drawer: share}, {drawer: share}]}"] * 4)
    zones = ", ".join(f"{{name: z{number}, bays: [{row}]}}" for number in range(3))
    bench = solve(
        load(f"spec: 1\ntitle: t\nbench: {{length: 3500, depth: 2000, height: 900}}\nzones: [{zones}]\n")
    )
    asked = []

    def way_out(*given: Any) -> Any:
        asked.append(given)
        return collisions_way_out(*given)

    monkeypatch.setattr("generator.calculators.assembly.way_out", way_out)
    done = assembly_proof(bench)
    assert done.proof.ok
    assert len(asked) < 4 * len(done.proof.order)
