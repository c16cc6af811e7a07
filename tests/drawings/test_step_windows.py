"""Round windows of step pictures: into which joint they look, and what they say."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from math import hypot

import pytest
import shapely

from generator.drawings.dimensions import Ruler
from generator.drawings.shapes import Circle, Line, Polyline
from generator.drawings.step import draw_step
from generator.drawings.step_homes import pictured
from generator.drawings.step_motions import DrawnMotion
from generator.drawings.step_places import placed_lines
from generator.figures.compute import compute
from generator.figures.rows.assembly import Fixing, MotionRow, Shape
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


def test_a_picture_says_where_a_strip_and_a_slide_go_and_how_many_screws_each_takes() -> None:
    """FD1's tongues are 12 outside its faces; packing is 11, 226 and 418 from its front edge, as the slide's holes are.

    A slide has three holes; the lowest is 17.5 above the rail (TRADE 6.12), all are 20 behind the bench's face.
    """
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    wall = next(iter(pictured(done, by_key["strips"]))).step
    packing, slides = (draw_step(done, step, Ruler()) for step in (wall, by_key["slides"]))
    assert packing is not None
    assert slides is not None
    written = [[text.text for text in picture.texts()] for picture in (packing, slides)]
    # with lines: the words that said it are gone
    assert {"11", "226", "418", "12"} <= set(written[0])
    assert not any(" from front" in line or " from bottom" in line for line in written[0])
    assert "Take 12 × strip screw." in written[0]
    assert "12 × strip screw 4 × 25, 4 in each 30 from each end, 140 apart" in " ".join(written[0])
    # its three holes are before the three strips
    assert re.search(r"here through slide F\d.1 \w+ into PK\d+, PK\d+, PK\d+;", " ".join(written[1]))
    assert {"17.5 above rail", "185.5 above rail", "pair of slides"} <= set(written[1])
    # blocks fill what is between slides of 45: 185.5 - 17.5 - 45
    assert {"spacer block 17.5", "spacer block 123"} <= set(written[1])
    assert "All front ends are 20 behind the bench's face." in " ".join(written[1])
    assert "Take 8 pairs of slides, 48 × slide screw." in written[1]
    assert "3 in each" in " ".join(written[1])


def test_a_clip_is_taken_once_and_nuts_are_counted_with_their_thread() -> None:
    """Four clips go in before the posts; a cross-member has two and its post one; each grid rail has 8 nuts."""
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    (cross,) = pictured(done, by_key["cross"])
    taken = {}
    for key in (
        "nuts",
        "left-ring",
        "left-clips",
        "left-posts",
        "cross",
        "rails",
        "posts",
        "grid",
        "casters",
    ):
        shown, also = (cross.step, cross.also) if key == "cross" else (by_key[key], "")
        picture = draw_step(done, shown, Ruler(), also=also)
        assert picture is not None
        written = " ".join(text.text for text in picture.texts())
        taken[key] = written[written.find("Take") :] if "Take" in written else ""
        if key in ("left-posts", "rails"):
            # two heights in each post, three places along each rail
            places = "at 20, 545 from lower" if key == "left-posts" else "at 520, 960, 1400 from left"
            assert places in written
    assert taken["nuts"].startswith("Take 24 × slot nut M8.")
    assert taken["left-ring"].startswith("Take 2 × end clip.")
    assert taken["left-clips"].startswith("Take 4 × end clip.")
    assert taken["left-posts"] == taken["rails"] == ""
    assert taken["cross"].startswith("Take for one: 3 × end clip.")
    assert taken["posts"].startswith("Take 4 × end clip.")
    assert taken["grid"].startswith("Take 6 × end clip, 16 × slot nut M8.")
    assert "6 × caster plate, 24 × caster plate bolt, 24 × caster screw." in taken["casters"]
    # the clips of bars that bring them are at these ends
    for key, ends in (
        ("left-ring", "both ends of E1"),
        ("cross", "lower end of D4"),
        ("posts", "lower end of D1, D2, D3, D7"),
        ("grid", "both ends of C4, C5, C6"),
    ):
        assert f"Clips: {ends}" in taken[key]
    assert "Clips:" not in taken["left-clips"]
    # a tenon has a number and a tool, and is cut
    cut = replace(by_key["posts"], fixings=(*by_key["posts"].fixings, Fixing("tenon", 6, "glue brush")))
    picture = draw_step(done, cut, Ruler())
    assert picture is not None
    assert "Take 4 × end clip. Clips" in " ".join(text.text for text in picture.texts())
    # those that come with a step's pieces are all that the bench has
    clips = sum(
        len(each.joints) for step in done.assembly.steps for each in step.fixings if each.item == "end-clip"
    )
    assert clips == sum(row.count for row in done.hardware if row.kind == "end clip")


def test_labels_say_where_a_piece_goes_on_its_frame_its_box_its_strips() -> None:
    """A face of 494 × 165 on a box of 472 × 140, its lower edge 10 below; plates of 170 on a bench of 2000 × 900.

    A trim of 498 has five screws, one of 398 four, one of 938 seven: 20 from its ends and no more than 150 apart.
    """
    done = figures("demo")
    by_key = {step.key: step for step in done.assembly.steps}
    (boxes, *_), written = pictured(done, by_key["drawers"]), {}
    for key in ("top", "drawers", "casters", "shelves", "totes", "tray-fix"):
        picture = draw_step(done, boxes.step if key == "drawers" else by_key[key], Ruler())
        assert picture is not None
        written[key] = " ".join(text.text for text in picture.texts())
    assert "TOP top 2000 × 900 flush with the frame" in written["top"]
    assert "DF1 reaches beyond its box: 11 left and right, 10 below, 15 above" in written["drawers"]
    for place in ("915 from left flush front", "170 × 170 flush rear", "flush left, front"):
        assert place in written["casters"]
    assert "The bench stays on its blocks." in written["casters"]
    # 42 from the floor of the frame to the cleat, and its 40; the rail is 40 high
    assert "966 × 278 on SC1, SC2 42 above rail" in written["shelves"]
    assert "tote on TR1, TR2" in written["totes"]
    counts = [int(count) for count in re.findall(r"(\d+) trim screws", written["tray-fix"])]
    assert sorted(counts) == [4, 4, 5, 5, 7, 7]


def test_the_face_of_a_drawer_has_its_screws_shown_and_the_bottom_in_its_grooves_has_none() -> None:
    """In inches the bottom touches the front before the face does."""
    done = figures("samples/cart")
    drawers = next(step for step in done.assembly.steps if step.key == "drawers")
    picture = draw_step(done, next(iter(pictured(done, drawers))).step, Ruler())
    assert picture is not None
    assert len(windows(picture)) == 2
    written = " ".join(text.text for text in picture.texts())
    assert "4 × drawer front screw #6 × 1 one near each corner through DE1 into DF1" in written


def test_a_top_says_by_side_how_far_it_overhangs() -> None:
    """The demo's top moved 20 to the front, and made 40 longer."""
    done = figures("demo")
    step = next(step for step in done.assembly.steps if step.key == "top")
    box = ((-20.0, -20.0, 725.0, 2020.0, 880.0, 743.0),)
    shapes = tuple(
        replace(shape, whole=box, seated=box) if shape.mark == "TOP" else shape
        for shape in done.assembly.shapes
    )
    moved = replace(done, assembly=replace(done.assembly, shapes=shapes))
    picture = draw_step(moved, step, Ruler())
    assert picture is not None
    written = " ".join(text.text for text in picture.texts())
    assert "overhangs 20 left, right and front set back 20 rear" in written
    # a phone has its size and its place
    slim = draw_step(moved, step, Ruler(), slim_of=picture)
    assert slim is not None
    told = " ".join(text.text for text in slim.texts())
    assert "TOP top, 2000 × 900, overhangs 20 left, right and front, set back 20 rear" in told


def test_only_what_no_joint_holds_is_said_to_lie_on_strips() -> None:
    done = figures("demo")
    strip, lying = ((0.0, 0.0, 40.0, 20.0, 400.0, 80.0),), ((0.0, 0.0, 80.0, 900.0, 400.0, 98.0),)
    there = [Shape("SC9", "strip", strip, strip)]
    said = {}
    for kind in ("board", "tote", "bar"):
        piece = Shape("X1", kind, lying, lying)
        move = DrawnMotion(MotionRow("X1", ("X1",), "-z", "bench", called="X1"), (piece,), (0.0, 0.0, 0.0))
        said[kind] = list(placed_lines(done, move, there, Ruler()))
    assert said == {"board": ["on SC9", "40 above rail"], "tote": ["on SC9"], "bar": []}


def test_only_what_opens_is_pulled_out_in_the_load_test() -> None:
    """Of a bench without drawers nothing is, its end panels least of all."""
    done = figures("demo")
    load = next(step for step in done.assembly.steps if step.key == "load")
    without = tuple(step for step in done.assembly.steps if step.key != "drawers")
    bare = replace(done, assembly=replace(done.assembly, steps=without))
    written = []
    for each in (done, bare):
        picture = draw_step(each, load, Ruler())
        assert picture is not None
        written.append([text.text for text in picture.texts()])
    assert "open one at a time" in written[0]
    assert "open one at a time" not in written[1]
    assert "load" in written[1]


def test_unequal_pieces_are_not_said_to_take_the_same_number_of_screws() -> None:
    """Three strips of one height take 12 screws, 4 in each. One of half the height takes fewer than the others."""
    done = figures("demo")
    strips = next(step for step in done.assembly.steps if step.key == "strips")
    wall = next(iter(pictured(done, strips))).step
    mark = wall.motions[-1].name

    solids = tuple(
        replace(each, blocks=tuple((*b[:5], (b[2] + b[5]) / 2) for b in each.blocks))
        if each.name == mark
        else each
        for each in done.assembly.solids
    )
    assert solids != done.assembly.solids
    shorter = replace(done, assembly=replace(done.assembly, solids=solids))
    picture = draw_step(shorter, wall, Ruler())
    assert picture is not None
    written = " ".join(text.text for text in picture.texts())
    assert "12 × strip screw" in written
    assert "in each" not in written


def test_each_lip_of_a_pull_out_has_its_number_of_screws() -> None:
    """Together they are those of the hardware list; the picture takes them all, for there is one pull-out."""
    done = compute(solved(sample_text("wall-bench")))[0]
    step = next(step for step in done.assembly.steps if step.key == "pull-outs")
    picture = draw_step(done, next(iter(pictured(done, step))).step, Ruler())
    assert picture is not None
    written = [text.text for text in picture.texts()]
    bought = next(row.count for row in done.hardware if row.item == "pull-out screw")
    each = [int(found[1]) for text in written if (found := re.fullmatch(r"(\d+) pull-out screws", text))]
    assert len(each) == 3 and sum(each) == bought
    assert any(text.startswith(f"Take {bought} × pull-out screw") for text in written)


def test_an_extra_panel_has_its_place_in_its_picture_and_step() -> None:
    """The stop of the outfeed bench: the spec places it by [500, 100, 611] from the frame's corner."""
    done = compute(solved(sample_text("outfeed")))[0]
    step = next(step for step in done.assembly.steps if step.key == "extra-panels")
    picture = draw_step(done, next(iter(pictured(done, step))).step, Ruler())
    assert picture is not None
    written = " ".join(text.text for text in picture.texts())
    assert (
        "500 from the frame's left face 100 from the frame's front face 611 from the frame's underside"
        in written
    )
    assert (
        "Set XP1 500 mm from the frame's left, 100 mm from its front, 611 mm above its underside."
        in step.notes
    )
