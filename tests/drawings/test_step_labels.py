"""What a step picture says of its pieces: their places, their fasteners and how many each takes."""

from __future__ import annotations

import re
from dataclasses import replace

from generator.drawings.dimensions import Ruler
from generator.drawings.step import draw_step
from generator.drawings.step_homes import pictured
from generator.drawings.step_motions import DrawnMotion
from generator.drawings.step_places import placed_lines
from generator.figures.compute import compute
from generator.figures.rows.assembly import Fixing, MotionRow, Shape
from generator.spec.samples import sample_text
from tests.bench.benches import solved
from tests.drawings.step_pictures import figures, windows


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
