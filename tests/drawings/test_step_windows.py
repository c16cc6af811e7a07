"""Round windows of step pictures: into which joint they look, and what they say."""

from __future__ import annotations

import re
from itertools import combinations
from math import hypot

import pytest
import shapely

from generator.drawings.dimensions import Ruler
from generator.drawings.shapes import Circle, Line, Polyline
from generator.drawings.step import draw_step
from generator.drawings.step_homes import pictured
from generator.figures.compute import compute
from generator.spec.samples import sample_text
from tests.bench.benches import solved
from tests.drawings.step_pictures import BENCHES, drawings, figures, letters_of, rings, windows


def test_a_window_looks_into_the_joint_of_a_step() -> None:
    """A post's key: through its face, at the height of the tray's rail; a panel: its tongue in the bar's slot."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    for key, words in (
        ("left-top", ("hexagon key", "2 ×, through A", "section 1 : 2")),
        ("left-panels", ("tongue of E", "in the slot of C", "section 1 : 1")),
    ):
        picture = draw_step(done, by_key[key], Ruler())
        assert picture is not None
        written = [text.text for text in picture.texts()]
        assert all(any(line.startswith(each) for line in written) for each in words)
        seen = []
        for window in windows(picture):
            inside = [
                shape
                for shape in picture.shapes
                if isinstance(shape, Polyline)
                and shape.style.startswith("iso-")
                and window.extent().grown(0.1).contains(shape.extent())
            ]
            seen.append({shape.style.split("-")[1] for shape in inside})
            for shape in inside:
                for x, y in shape.points:
                    assert hypot(x - window.centre[0], y - window.centre[1]) <= window.radius + 0.01
        # both pieces of the joint; the other window is into the clips that come with the member
        assert any({"new", "bar"} <= tints for tints in seen)
        assert len(seen) == (2 if key == "left-top" else 1)
    assert not windows(draw_step(done, by_key["tray"], Ruler()) or drawings("demo")[0])


def test_joints_that_look_otherwise_have_windows_of_their_own_and_each_counts_what_it_shows() -> None:
    """The grid's rails are screwed from the outside of the posts; posts from above, through rails and cross-members."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    lid = draw_step(done, by_key["lid"], Ruler())
    assert lid is not None
    assert len(windows(lid)) == 3
    written = " ".join(text.text for text in lid.texts())
    screws = [place.screw for place in by_key["lid"].keys]
    counted = [int(count) for count in re.findall(r"(\d+) ×, through", written)]
    assert sorted(counted) == [3, 4, 4]
    assert sum(counted) == len(screws)
    assert "through A1, A3: left face; A2, A4: right face here A1, 705 from its lower end" in written
    # three posts along the front, one at the back
    assert "B3: 520, 960, 1400; B4: 960 from left end" in written


def test_a_ring_is_about_what_shows_or_dashed_and_what_comes_in_one_after_the_other_has_numbers() -> None:
    """The right frame hides B2's end; pocket screws are below the tray; the farthest cross-member goes in first."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}

    def ringed(key: str, style: str) -> list[Circle]:
        picture = draw_step(done, by_key[key], Ruler())
        assert picture is not None
        return [ring for ring in rings(picture) if ring.style == style]

    assert len(by_key["close-right"].keys) == 2
    assert len(ringed("close-right", "outline")) == 1
    assert not ringed("close-right", "hidden")
    assert ringed("tray-fix", "hidden")
    picture = draw_step(done, by_key["grid"], Ruler())
    assert picture is not None
    ways = [motion for motion in by_key["grid"].motions if motion.way == "+x"]
    assert [motion.name for motion in ways] == ["C6", "C5", "C4"]
    across = {text.text: text.at[0] for text in picture.texts() if text.text in ("1", "2", "3")}
    assert across["1"] > across["2"] > across["3"]


@pytest.mark.parametrize("name", BENCHES)
def test_each_ring_leads_to_its_window_by_a_line_or_by_a_letter(name) -> None:
    """A window's letter is on its rim and in each ring that it explains; no letter is for two windows."""
    lettered = 0
    for drawing in drawings(name):
        rims: dict[str, int] = {}
        in_rings: set[str] = set()
        on_rims = []
        for letter, _, ring in letters_of(drawing):
            off = [
                abs(hypot(*(a - b for a, b in zip(ring.centre, w.centre, strict=True))) - w.radius)
                for w in windows(drawing)
            ]
            if min(off) < 0.01:
                rims[letter] = rims.get(letter, 0) + 1
                on_rims.append(ring)
            else:
                in_rings.add(letter)
        assert set(rims) == in_rings, drawing.id
        assert set(rims.values()) <= {1}, drawing.id
        about = [ring for ring in rings(drawing) if ring not in on_rims]
        if len(windows(drawing)) > 1:
            # a ring without a letter says of no window
            assert len(letters_of(drawing)) == len(about) + len(on_rims), drawing.id
            lettered += 1
        elif about and not in_rings:
            ends = [s for s in drawing.shapes if isinstance(s, Line) and s.style == "thin"]
            near = [
                hypot(*(a - b for a, b in zip(line.start, ring.centre, strict=True))) - ring.radius
                for line in ends
                for ring in about
            ]
            assert min(map(abs, near)) < 0.01, drawing.id
    assert lettered > 3


def test_a_window_shows_a_clip_in_the_end_of_its_bar_and_which_way_its_long_side_lies() -> None:
    """Along the post that comes over it; those of a cross-member along the rail."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    (cross,) = pictured(done, by_key["cross"])
    for step, count, way in (
        (by_key["left-clips"], "4 × in C7, C9, both ends", "bottom to top"),
        (cross.step, "2 × in C1, both ends", "left to right"),
    ):
        picture = draw_step(done, step, Ruler())
        assert picture is not None
        assert len(windows(picture)) == (2 if step.keys else 1)
        written = " ".join(text.text for text in picture.texts())
        assert count in written
        assert f"its long side from {way}" in written


def test_nuts_are_counted_where_they_go_in_and_the_last_steps_say_with_what() -> None:
    """Nuts for plates go into the lower slots first; those for the top's brackets into the grid as it is joined."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    written = {}
    for key in ("nuts", "grid", "rails", "level", "load"):
        picture = draw_step(done, by_key[key], Ruler())
        assert picture is not None
        written[key] = " ".join(text.text for text in picture.texts())
    nuts = [nut for step in done.assembly.steps for nut in step.nuts]
    below = {bar: sum(nut.count for nut in nuts if nut.bar == bar) for bar in ("B1", "C7", "C2", "C8", "B2")}
    assert ", ".join(f"{count} in {bar}" for bar, count in below.items()) in written["nuts"]
    assert written["grid"].count("8 nuts in its") == 2
    assert "nuts in its" not in written["rails"]
    assert "a low corner: put a shim below its wheel" in written["level"]
    assert "100 kg on the top, in steps" in written["load"]


def test_every_nut_has_its_mark_in_its_slot_and_the_bars_are_apart() -> None:
    """Of the grid's rails one shows its inner slot; a nut in the other one's is an empty mark."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    preloads = [nut for step in done.assembly.steps for nut in step.nuts]
    for key, purpose, behind in (("nuts", "caster plate", 0), ("grid", "top bracket", 8), ("rails", "", 0)):
        picture = draw_step(done, by_key[key], Ruler())
        assert picture is not None
        marks = [
            shape
            for shape in picture.shapes
            if isinstance(shape, Polyline) and shape.style in ("nut", "hole") and len(shape.points) == 4
        ]
        small = [shape for shape in marks if max(shape.extent().width, shape.extent().height) < 3]
        assert len(small) == sum(nut.count for nut in preloads if nut.purpose == purpose)
        assert sum(shape.style == "hole" for shape in small) == behind
        boxes = [shapely.Polygon(shape.points) for shape in small]
        assert not any(one.intersects(other) for one, other in combinations(boxes, 2))
        written = " ".join(text.text for text in picture.texts())
        assert ("Each small bar is a nut" in written) == bool(purpose)
        assert ("an empty one" in written) == bool(behind)
    grid = {(nut.bar, nut.face) for nut in preloads if nut.purpose == "top bracket"}
    assert grid == {("B3", "rear"), ("B4", "front")}


def test_what_a_bolt_holds_is_pulled_apart_in_its_order_with_names_and_counts() -> None:
    """From the head on: below are bolts, above what they go into. Plates are drilled and tapped in their step."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    parts = {mark: row for row in done.parts for mark in row.marks}
    assert {each.thread for each in parts["CP1"].operations if each.thread} == {"M8"}
    for key, order in (
        ("casters", ("slot nut M8", "slot of", "CP1, hole Ø9", "4 × caster plate bolt M8 × 20")),
        ("casters", ("tapped M8", "1 × caster", "4 × caster screw M8 × 16")),
        ("top", ("slot nut M8", "slot of B3", "top bracket", "1 × washer", "1 × top")),
        ("top", ("TOP", "top bracket", "2 × top")),
    ):
        picture = draw_step(done, by_key[key], Ruler())
        assert picture is not None
        heads = [text for text in picture.texts() if text.text.startswith("in order, one of ")]
        columns = []
        for head in heads:
            below = [
                t for t in picture.texts() if 0 < t.at[0] - head.at[0] < 14 and 0 < t.at[1] - head.at[1] < 40
            ]
            columns.append([text.text for text in sorted(below, key=lambda text: text.at[1])])
        found = [" / ".join(column) for column in columns]
        where = [[text.find(each) for each in order] for text in found]
        assert any(-1 not in places and places == sorted(places) for places in where), found
    written = " ".join(
        text.text for text in (draw_step(done, by_key["casters"], Ruler()) or drawings("demo")[0]).texts()
    )
    assert "First drill and tap M8: CP1–CP6." in written
    assert {"drill", "tap M8"} <= set(by_key["casters"].tools)
    assert "tap M8" in by_key["bars"].tools
    assert not {"drill", "tap M8"} & set(by_key["rails"].tools)


@pytest.mark.parametrize(("key", "bolts"), [("gussets", 16), ("panel-brackets", 50)])
def test_bolts_that_nuts_in_slots_wait_for_have_a_window(key, bolts) -> None:
    """Corner brackets have four bolts, two in each leg; panel brackets one."""
    done = compute(solved(sample_text("wall-bench")))[0]
    step = next(step for step in done.assembly.steps if step.key == key)
    (bought,) = [each for each in step.fixings if "key" in each.tool]
    picture = draw_step(done, step, Ruler())
    assert picture is not None
    written = " ".join(text.text for text in picture.texts())
    assert bought.count == bolts
    assert f"{bolts} × {bought.item}" in written
    assert "slot nut M8, in the slot" in written


def test_a_pocket_is_drawn_in_its_face_and_a_slide_in_its_two_halves() -> None:
    """Pockets lean out of the wall below the tray; a drawer's half of a slide is screwed to the box."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    written = {}
    for key in ("tray-fix", "slides", "drawers"):
        picture = draw_step(done, list(pictured(done, by_key[key]))[-1].step, Ruler())
        assert picture is not None
        written[key] = " ".join(text.text for text in picture.texts())
        if key == "tray-fix":
            dashed = [s for s in picture.shapes if isinstance(s, Line) and s.style == "hidden"]
            slopes = [
                abs(s.end[0] - s.start[0]) / abs(s.end[1] - s.start[1])
                for s in dashed
                if s.end[1] != s.start[1]
            ]
            # 15 degrees off the upright
            assert sum(abs(slope - 0.268) < 0.01 for slope in slopes) >= 2
    faces: dict[str, set[str]] = {}
    for place in by_key["tray-fix"].places:
        if place.item == "pocket":
            faces.setdefault(place.face, set()).add(place.part)
    assert faces == {"left": {"FD1", "BD1"}, "right": {"FD3"}}
    assert "pockets in the left face of BD1, FD1; right face of FD3" in written["tray-fix"]
    assert "Take the drawer member out of each slide" in written["slides"]
    assert "wall member" in written["slides"]
    assert "through drawer member of slide F" in written["drawers"]
    assert "put the drawer member into the wall member from the front" in written["drawers"]


def test_a_window_names_the_screw_that_was_chosen_for_what_it_joins() -> None:
    """A side goes into the ends, a face gets its screws from inside; a bracket has a bolt and screws."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    boxes, goes_in = list(pictured(done, by_key["drawers"]))
    assert goes_in.step.motions[0].into == "bench"
    for step, words in (
        (
            boxes.step,
            (
                "12 × drawer box screw 4 × 40",
                "here through",
                "the same at DS2",
                "20 from both edges, 50 apart",
                "4 × drawer front screw 4 × 25",
                "one near each corner",
                "through DE1",
            ),
        ),
        (by_key["top"], ("hexagon key 6 mm", "8 × top bracket bolt", "16 × top bracket wood", "8 × top")),
        (
            by_key["casters"],
            (
                "hexagon key 6 mm",
                "24 × caster plate bolt",
                "here up into",
                "; the same at CP2–CP6",
                "24 × caster screw M8 × 16, 4 in each",
                "up into the tapped holes of CP",
            ),
        ),
        (
            by_key["tray-fix"],
            (
                "6 × pocket",
                "FD1, FD3: 143.5, 347; BD1: 70, 230 from each wall's front edge",
                "3 × tray screw",
                "98, 288, 478 from PAN's front edge, 970 from the left edge, into FD2",
                "32 × trim screw",
                "20 from each end, evenly between",
                "; the same at T",
                "long",
            ),
        ),
    ):
        picture = draw_step(done, step, Ruler())
        assert picture is not None
        written = " ".join(text.text for text in picture.texts())
        for each in words:
            assert each in written, f"{step.key}: {each}"
    # four corners with three screws each, four screws in the face
    face = next(motion for motion in boxes.step.motions if motion.name == "DF1")
    assert face.way == "+y"
