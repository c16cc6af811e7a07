"""The assembly as the manual tells it: the worked bench step by step, and what must hold for every bench."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.manual import Manual
from generator.pages.step_card import cards
from generator.spec.load import read_spec

SPECS = Path(__file__).parents[1] / "specs"
BENCHES = ("demo", "wall-bench", "starter")


def figures(name: str, more: str = "") -> Figures:
    loaded = read_spec((SPECS / f"{name}.yml").read_text() + more, f"{name}.yml")
    return compute(solve(loaded))[0]


def step(done: Figures, key: str) -> Step:
    return next(each for each in done.assembly.steps if each.key == key)


@pytest.fixture(scope="module")
def demo() -> Figures:
    return figures("demo")


@pytest.mark.parametrize("name", BENCHES)
def test_the_order_is_proved_and_every_step_has_its_own_key(name) -> None:
    done = figures(name).assembly
    keys = [each.key for each in done.steps]
    assert done.proved
    assert not done.blocked
    assert [each.n for each in done.steps] == list(range(1, len(keys) + 1))
    assert len(set(keys)) == len(keys)
    assert all(each.stage and each.title for each in done.steps)


@pytest.mark.parametrize("name", BENCHES)
def test_every_joint_is_tightened_in_one_step_with_its_key(name) -> None:
    done = figures(name)
    fixed = [joint for each in done.assembly.steps for fixing in each.fixings for joint in fixing.joints]
    keys = [place.screw for each in done.assembly.steps for place in each.keys]
    assert len(fixed) == done.joints.end_clips + done.joints.through_screws
    assert sorted(fixed) == sorted(keys) == sorted(set(keys))


@pytest.mark.parametrize("name", BENCHES)
def test_every_piece_moves_into_the_bench_once(name) -> None:
    done = figures(name)
    moved = [
        m
        for each in done.assembly.steps
        for motion in each.motions
        if motion.into == "bench"
        for m in motion.marks
    ]
    assert sorted(moved) == sorted(set(moved))
    assert {mark for row in done.parts for mark in row.marks} <= set(moved)
    assert set(moved) == {shape.mark for shape in done.assembly.shapes}


@pytest.mark.parametrize("name", BENCHES)
def test_the_hardware_of_the_steps_is_the_hardware_of_the_bench(name) -> None:
    done = figures(name)
    used: dict[str, int] = {}
    for each in done.assembly.steps:
        for fixing in each.fixings:
            used[fixing.item] = used.get(fixing.item, 0) + fixing.count
    bought = {row.item: row.count for row in done.hardware}
    # the button-head screws come with their clips, the nuts are told slot by slot
    told_apart = {item for item in bought if item.endswith("button-head screw") or item.startswith("slot")}
    assert {item for item in bought if item not in used} == told_apart
    assert all(used[item] == bought[item] for item in used)


def test_the_tray_is_screwed_where_the_strips_leave_room(demo) -> None:
    rows = {(each.item, each.part): each for each in step(demo, "tray-fix").places}
    # strips at Y 41-91, 256-306 and 448-498; a divider begins at Y 30
    assert rows["pocket", "FD1"].face == "left"
    assert [float(at) + 30 for at in rows["pocket", "FD1"].at] == [173.5, 377]
    assert rows["pocket", "FD3"].face == "right"
    # runners on both faces of FD2; the tray begins at Y 2 and X 30, the divider's middle is X 1000
    assert [float(at) for at in rows["screw through the tray", "FD2"].at] == [70, 260, 450]
    assert [float(at) + 2 for at in rows["hole", "PAN"].at] == [100, 290, 480]
    assert float(rows["hole", "PAN"].across or 0) == 970
    pockets = [row for row in rows.values() if row.item == "pocket"]
    assert pockets == list(step(demo, "boards").places)
    bought = {row.item: row.count for row in demo.hardware}
    assert bought["pocket screw"] == sum(len(row.at) for row in pockets)


def test_every_bracket_has_its_place_between_the_top_bars(demo) -> None:
    places = step(demo, "top").places
    assert [(each.part, each.face) for each in places] == [("B3", "rear"), ("B4", "front")]
    # rails begin at X 40; bars at 540-580, 980-1020, 1420-1460
    assert [float(at) + 40 for at in places[0].at] == [290, 780, 1220, 1710]


def test_panels_that_stand_at_one_post_are_to_be_held(demo) -> None:
    def held(done: Figures, key: str) -> list[str]:
        return [note for note in step(done, key).notes if note.startswith("Hold")]

    assert "SP1, SP4" in held(demo, "spine-panel")[0]
    assert not held(demo, "divider")
    assert "BP1, BP3" in held(figures("wall-bench"), "back-panel")[0]


def test_a_shelf_that_cleats_bar_later_has_a_step_before_the_frame_closes() -> None:
    text = (SPECS / "demo.yml").read_text().replace("{shelf: 288}", "{shelf: 150}")
    loaded = read_spec(text, "demo.yml")
    done = compute(solve(loaded))[0].assembly
    keys = [each.key for each in done.steps]
    parts = {each.key: each.parts for each in done.steps}
    assert done.proved
    assert keys.index("early-shelves") < keys.index("close-left")
    assert (parts["early-shelves"], parts["shelves"]) == (("SH1", "SH3"), ("SH2", "SH4"))


@pytest.mark.parametrize("name", BENCHES)
def test_nothing_that_lies_flat_has_to_be_turned_over(name) -> None:
    """No key of a sub-assembly goes in from the face that it lies on: it is put together in one position."""
    lies_on = {"left end frame": "left", "right end frame": "right", "top grid": "bottom"}
    done = figures(name)
    looked_at = set()
    for each in done.assembly.steps:
        if each.assembly in lies_on:
            looked_at.add(each.assembly)
            assert lies_on[each.assembly] not in {key.face for key in each.keys}, each.title
    assert looked_at == set(lies_on)


def test_the_nuts_of_the_worked_bench_have_their_last_chance(demo) -> None:
    nuts = [(each.key, nut.bar, nut.face, nut.count) for each in demo.assembly.steps for nut in each.nuts]
    assert sum(count for *_, count in nuts) == 40
    assert ("left-clips", "C7", "bottom", 4) in nuts
    assert ("rails", "C2", "bottom", 4) in nuts
    assert ("close-right", "B1", "bottom", 6) in nuts
    assert ("grid", "B3", "rear", 2) in nuts


def test_a_spare_nut_is_counted_among_the_nuts_that_are_told(demo) -> None:
    nuts = [nut for each in demo.assembly.steps for nut in each.nuts]
    assert {(nut.purpose, nut.count, nut.spare) for nut in nuts if nut.spare} == {("top bracket", 2, 1)}
    text = (SPECS / "demo.yml").read_text(encoding="utf-8")
    page = Manual(read_spec(text, "demo.yml"), demo, "demo.yml").file("docs/assembly.md") or b""
    assert "2 nuts for top brackets (1 of them spare). " in page.decode()


def test_the_sub_assemblies_of_the_worked_bench_weigh_what_the_trade_found(demo) -> None:
    # bars, panels and clips of an end frame with its strips; the bare grid with its clips
    assert step(demo, "close-left").kg == pytest.approx(10.9 + 0.8, abs=0.1)
    assert step(demo, "lid").kg == pytest.approx(10.7, abs=0.3)
    assert step(demo, "tray").kg == pytest.approx(14.2, abs=0.2)


def test_what_is_long_and_wide_and_the_bench_itself_are_not_for_one(demo) -> None:
    # common practice, no source: nothing here weighs over 25 kg but the bench as it comes off its blocks
    assert {each.key for each in demo.assembly.steps if each.persons == 2} == {
        "tray",
        "lid",
        "casters",
        "top",
    }
    lifted = {each.key: each.standing_kg for each in demo.assembly.steps if each.standing_kg}
    bars_case_strips_clips_and_plates = 44.0 + 36.3 + 4.6 + 35 * 0.035 + 6 * 0.78
    assert lifted == {"casters": pytest.approx(bars_case_strips_clips_and_plates, abs=1.0)}


@pytest.mark.parametrize("limit", [8, 25])
def test_steps_and_the_lifting_table_ask_for_as_many_persons(limit) -> None:
    """What moves in a step is told once more in the table of what has to be carried."""
    done = figures("demo", f"limits: {{lift_one: {limit} kg}}\n")
    table = {row.name: row.persons for row in done.handling}
    told = {"top grid": "lid", "left end frame": "close-left", "TOP, top": "top"}
    assert {name: table[name] for name in told} == {
        name: step(done, key).persons for name, key in told.items()
    }
    assert table["left end frame"] == (2 if limit == 8 else 1)


def test_the_caution_for_lifting_is_where_one_person_would_lift_too_much(demo) -> None:
    """DHHS (NIOSH) 94-110: 23 kg · 250/400 · (1 - 0.0003 · 350) · (0.82 + 45/500) = 11.7 kg are an index of 1."""
    most = 23 * 250 / 400 * (1 - 0.0003 * 350) * (0.82 + 45 / 500)
    index = {step.key: max(step.kg, step.standing_kg) / most for step in demo.assembly.steps}
    warned = {step.key for step in demo.assembly.steps if "lift" in step.cautions}
    assert warned == {"tray", "casters", "top"}
    assert min(index[key] for key in warned) > 1.05
    assert max(value for key, value in index.items() if key not in warned) < 1.05


def test_slides_that_hang_in_the_frame_are_lifted_with_it() -> None:
    """A pair of slides of 500 mm weighs 1.3 kg (common practice), and each of its two counts for half of that."""
    plain, early = figures("demo"), figures("demo", "assembly: {before: [[slides, casters]]}\n")
    pairs = next(row.count for row in plain.hardware if row.kind == "slide")
    assert step(plain, "slides").kg == pytest.approx(0.65)
    assert step(early, "casters").standing_kg - step(plain, "casters").standing_kg == pytest.approx(
        1.3 * pairs
    )
    carried = [
        {row.name: row.mass for row in each.handling}["the frame, onto its casters"]
        for each in (plain, early)
    ]
    assert carried[1] - carried[0] == pytest.approx(1.3 * pairs)


def test_a_heavy_top_is_moved_by_as_many_as_the_equation_asks_for() -> None:
    """2 by 0.9 m of 18 mm at 1200 kg/m³ are 38.9 kg: 3.3 times 11.7."""
    text = (SPECS / "demo.yml").read_text()
    loaded = read_spec(text.replace("{use: mdf 18}", "{use: mdf 18, density: 1200 kg/m^3}"), "demo.yml")
    assert step(compute(solve(loaded))[0], "top").persons == 4


def test_screws_that_a_later_one_covers_are_told_as_final(demo) -> None:
    assert any("C4 front clip" in line and "D1 top screw" in line for line in step(demo, "lid").final)
    assert any("C7 front clip" in line for line in step(demo, "close-left").final)


def test_an_end_frame_is_shown_alone_and_the_closing_in_the_bench(demo) -> None:
    posts, closing = step(demo, "left-posts"), step(demo, "close-left")
    assert posts.assembly == "left end frame"
    assert {"C7", "C9", "EF1", "C7 front clip"} <= set(posts.standing)
    assert "B1" not in posts.standing
    assert closing.assembly == ""
    (motion,) = closing.motions
    assert (motion.name, motion.way, motion.into) == ("left end frame", "+x", "bench")
    assert "PAN" in closing.standing


def test_a_pinned_order_changes_the_steps_and_keeps_their_keys() -> None:
    plain = figures("demo").assembly.steps
    done = figures("demo", "\nassembly: {before: [[right end frame, left end frame]]}\n").assembly
    keys = [each.key for each in done.steps]
    assert done.proved
    assert keys.index("close-right") < keys.index("close-left")
    assert {each.key for each in plain} == set(keys)


def test_a_step_that_is_split_goes_on_under_its_own_name() -> None:
    done = figures("demo", "\nassembly: {before: [[FD3, FD2], [SP4, FD2]]}\n").assembly
    keys = [each.key for each in done.steps]
    assert done.proved
    assert "divider-2" in keys
    assert step(figures("demo"), "divider").title + ", continued" in {each.title for each in done.steps}


def test_joints_that_do_not_close_are_not_called_proved() -> None:
    text = (
        (SPECS / "demo.yml")
        .read_text()
        .replace("inner_post_tops: through-screw", "inner_post_tops: end-clip")
    )
    loaded = read_spec(text, "demo.yml")
    done, findings = compute(solve(loaded))
    assert not done.assembly.proved
    assert any("top grid" in line and " block" in line for line in done.assembly.blocked)
    assert "order-blocked" in {finding.code for finding in findings}


def test_all_is_squared_when_the_last_frame_is_on_whichever_way_it_closes() -> None:
    text = (SPECS / "demo.yml").read_text().replace("through: posts", "through: rails")
    loaded = read_spec(text.replace("corner_posts: through-screw", "corner_posts: end-clip"), "demo.yml")
    keys = [each.key for each in compute(solve(loaded))[0].assembly.steps]
    assert keys.index("lid") < keys.index("close-left") < keys.index("close-right") < keys.index("square")
    assert keys.index("square") < keys.index("casters")


@pytest.fixture(scope="module")
def odd() -> Figures:
    """Three zones, rails that run through, nuts of M10 that roll in; 2000 x 1100, the frame 725 high."""
    text = (SPECS / "demo.yml").read_text()
    for old, new in (
        ("depth: 900", "depth: 1100"),
        ("through: posts", "through: rails"),
        ("corner_posts: through-screw", "corner_posts: end-clip"),
        (
            "  - name: back\n    depth: share",
            "  - {name: middle, bays: [{name: M1}]}\n  - name: back\n    depth: 280",
        ),
        ("thread: M8, height: 5.5, entry: slide-in", "thread: M10, height: 5.5, entry: roll-in"),
    ):
        assert old in text
        text = text.replace(old, new)
    loaded = read_spec(text, "odd.yml")
    return compute(solve(loaded))[0]


def test_diagonals_are_those_of_what_stands_when_they_are_measured(odd, demo) -> None:
    """Pythagoras over the ends of what is there: base rails without end members, end frames without long rails."""
    base, end = step(odd, "base-square").squares, step(odd, "left-posts").squares
    assert base[0].value == pytest.approx(math.hypot(2000, 1100 - 80))
    assert end[0].value == pytest.approx(math.hypot(1100, 725 - 80))
    # with posts running through, the rails end at them
    assert step(demo, "base-square").squares[0].value == pytest.approx(math.hypot(1920, 820))
    assert step(demo, "left-top").squares[0].value == pytest.approx(math.hypot(900, 725))


def test_a_panel_between_two_spine_posts_is_told_in_the_step_that_places_it(odd) -> None:
    for key in ("left-ring", "left-panels", "right-ring", "right-panels"):
        told = step(odd, key)
        assert set(told.parts) <= {mark for motion in told.motions for mark in motion.marks}, key
    assert "EM1" in step(odd, "left-ring").parts


def test_a_top_grid_over_plain_post_heads_goes_straight_down(odd) -> None:
    assert {motion.way for motion in step(odd, "lid").motions} == {"-z"}
    assert step(odd, "lid").direction == "down"


def test_nuts_that_roll_in_have_no_last_chance(odd) -> None:
    assert not [each.title for each in odd.assembly.steps if each.nuts]
    assert step(odd, "nuts").hold == ()
    # ISO 7089 M10: a hole of 10.5, 2 thick; from memory
    assert next(row.size for row in odd.hardware if row.item == "washer") == "10.5 x 2"


def test_strips_that_are_bought_wider_or_thicker_are_ripped_and_planed_before_they_are_fixed(demo) -> None:
    """Bought 50 x 15; packing 50 x 15, runners 31 wide, cleats 40 wide."""
    notes = " ".join(step(demo, "strips").notes)
    assert "Rip these to the widths of the cut list first: tote runners, shelf cleats." in notes
    assert "Plane" not in notes
    # bought 5/8 in, and 0.544 in is what the slides need
    notes = " ".join(step(figures("wall-bench"), "strips").notes)
    assert "Plane these to the thickness of the cut list first, all at one setting: packing strips." in notes


def test_every_key_has_its_size(odd, demo) -> None:
    """ISO 4762, from memory: a cap screw M8 takes a key of 6, M10 one of 8; the button heads' key is on their card."""
    for done, sizes in ((demo, {"5 mm", "6 mm"}), (odd, {"5 mm", "6 mm", "8 mm"})):
        tools = {fixing.tool for each in done.assembly.steps for fixing in each.fixings}
        assert {tool.removeprefix("hexagon key ") for tool in tools if tool.startswith("hexagon")} == sizes
    assert {f.tool for f in step(odd, "casters").fixings if f.tool} == {"hexagon key 8 mm"}


def test_threads_without_a_usual_torque_lead_to_the_table_that_has_one() -> None:
    done = figures("wall-bench")
    assert "5/16-18" in {row.thread for row in done.shop.tightening}
    assert any(
        "the table Tightening on the page At the machine" in note for note in step(done, "square").notes
    )


def test_clips_that_roll_in_are_told_with_their_bars_and_never_as_fitted_first(demo: Figures) -> None:
    """A clip that rolls in goes in when both bars are there; one that slides in is fitted to the bar's end before."""
    text = (SPECS / "demo.yml").read_text(encoding="utf-8")
    assert "entry: slide-in" in text
    rolled = compute(solve(read_spec(text.replace("slide-in", "roll-in", 1), "demo.yml")))[0]

    def told(done: Figures) -> str:
        return " ".join(
            line for each in done.assembly.steps for line in (each.title, *each.notes, *each.hold)
        )

    fitted = ("three turns", "with its clips", "over the lower clip", "Push the lower clip")
    assert all(words in told(demo) for words in fitted)
    assert not any(words in told(rolled) for words in fitted)
    assert {"left-clips", "right-clips"} <= {each.key for each in demo.assembly.steps}
    assert not any(each.key.endswith("-clips") for each in rolled.assembly.steps)
    # as many clips are used, each in the step of the second of its bars
    used = [
        sum(
            fixing.count
            for each in done.assembly.steps
            for fixing in each.fixings
            if fixing.item == "end-clip"
        )
        for done in (demo, rolled)
    ]
    assert used == [demo.joints.end_clips] * 2


def test_a_step_takes_each_piece_and_fastener_once_and_tightens_what_is_there(demo: Figures) -> None:
    """The end frame's clips are taken in the step that fits them; the posts' step only tightens them."""
    by_key = {each.key: card for each, card in zip(demo.assembly.steps, cards(demo), strict=True)}
    clips, posts, closing = by_key["left-clips"], by_key["left-posts"], by_key["close-left"]
    assert [(each.item, each.count) for each in clips.takes] == [("end-clip", 4)]
    assert [each.names for each in posts.takes] == [("A1", "A3")]
    assert [(each.item, each.count) for each in posts.tightens] == [("end-clip", 4)]
    assert [(each.names, each.built and each.built.key) for each in closing.takes] == [
        (("left end frame",), "left-top"),
        ((), None),
    ]
    taken = [mark for card in by_key.values() for each in card.takes if each.part for mark in each.names]
    assert len(taken) == len(set(taken))
    placed = {shape.mark for shape in demo.assembly.shapes}
    assert set(taken) == placed & {mark for row in demo.parts for mark in row.marks}
    count = sum(each.count for card in by_key.values() for each in card.takes if each.item == "end-clip")
    assert count == sum(row.count for row in demo.hardware if row.kind == "end clip")
