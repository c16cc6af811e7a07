"""What a step picture says in words beside and below it: by itself, and in its slim form for a phone."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations

import pytest

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.step import draw_step, draw_step_twice
from generator.drawings.step_homes import pictured
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.drawings.step_pictures import figures


@cache
def joiner() -> Figures:
    return compute(solve(read_spec_file(bundled("specs") / "samples" / "joiner.yml")))[0]


def step_of(done: Figures, key: str) -> Step:
    return next(step for step in done.assembly.steps if step.key == key)


def picture_of(done: Figures, step: Step) -> Drawing:
    picture = draw_step(done, step, Ruler())
    assert picture is not None
    return picture


def words_of(picture: Drawing) -> str:
    return " ".join(text.text for text in picture.texts())


def test_the_pictures_of_cutting_show_a_part_with_its_tools_and_name_what_is_hidden() -> None:
    """A corner post of 725 has its key holes 20 from its ends and 545 up, as high as the tray's end rail is."""
    done = figures("demo")
    bars, boards = (words_of(picture_of(done, step_of(done, key))) for key in ("bars", "boards"))
    assert "For example A1, front face, from its lower end" in bars
    for word in ("saw", "drill Ø8 to the slot", "545", "705", "725"):
        assert f" {word} " in bars
    # tongues of 8 on a board of 12: 2 off each face
    for words in ("saw", "router", "tongue 8 thick, 10 into its bar", "cut 2 deep and 10.5 wide"):
        assert words in boards
    hidden = [part.marks for part in done.parts if part.group == "spine panel"]
    assert all(hidden)
    assert "Not seen here: SP1–SP4" in boards
    for mark, size in (("FD1–FD3", "520 × 509"), ("BD1", "300 × 509")):
        assert f"{mark} {size}" in boards


def test_a_board_as_thick_as_its_groove_has_no_tongue_to_cut() -> None:
    boards = words_of(picture_of(joiner(), step_of(joiner(), "boards")))
    assert "saw" in boards
    assert "thick," not in boards


def test_a_picture_says_what_to_check_and_what_to_do_when_it_is_not_so() -> None:
    """Each check once: with the last picture of its step."""
    done = figures("demo")
    for step in done.assembly.steps:
        shown = [words_of(picture_of(done, each.step)) for each in pictured(done, step)]
        for before in shown[:-1]:
            assert "Check:" not in before
        assert shown[-1].count("Check:") == len(step.hold) + len(step.squares), step.key
    square = step_of(done, "base-square")
    (wanted,) = square.squares
    assert f"are {wanted.value:.1f} and agree within 1. If not, press" in words_of(picture_of(done, square))


def test_a_picture_says_where_a_board_goes_in_and_from_which_step_a_sub_assembly_is() -> None:
    """A divider has tongues in its cross-member and both its posts; the tray has only notches about posts."""
    done = figures("demo")
    numbers = {step.key: step.n for step in done.assembly.steps}
    dividers = words_of(picture_of(done, step_of(done, "divider")))
    assert "FD1 divider 520 × 509 in C1, D1, D4 with its strips from step" in dividers
    tray = words_of(picture_of(done, step_of(done, "tray")))
    assert "on BD1, FD1–FD3" in tray
    frame = words_of(picture_of(done, step_of(done, "close-left")))
    assert f"from step {numbers['left-top']}" in frame


def test_a_picture_says_how_a_drawer_comes_onto_its_slides() -> None:
    """The axis of a slide of 45 whose lower edge is 17.5 above the rail is 40 there; the box begins at 13."""
    done = figures("demo")
    *_, last = pictured(done, step_of(done, "drawers"))
    words = words_of(picture_of(done, last.step))
    drawer = next(each for each in done.drawers if each.number == 1)
    above = float(drawer.slide_axis - drawer.box_bottom)
    assert f"Its axis is {above:g} mm (1 1/16 in) above the box's lower edge." in words
    assert "F1.1 drawer on its slides 3 above rail" in words
    assert "screwdriver 48 × slide screw 4 × 10" in words


def test_drawers_of_other_sizes_have_a_table_of_their_pieces() -> None:
    """F1.3 is as F4.3: its sides are 82 high and its box has 8 screws, two at each of four corners."""
    done = figures("demo")
    first, *_ = pictured(done, step_of(done, "drawers"))
    pictures = draw_step_twice(done, first.step, Ruler(), {}, first.also, first.resized)
    assert pictures is not None
    rows = {mark: row for row in done.parts for mark in row.marks}
    for picture in pictures:
        _, table = words_of(picture).split("In other sizes ")
        for name, number, screws in (("F1.2, F4.2", 2, 12), ("F1.3, F4.3", 3, 8), ("F1.4, F4.4", 4, 8)):
            assert name in table
            own = table.partition(name)[2].partition("F1.")[0]
            face, side = rows[f"DF{number}"], rows[f"DS{2 * number}"]
            assert f"DF{number}" in own
            for row in (face, side):
                assert f" {row.width} " in f" {own} "
                # what all have in common is once in the head
                assert str(row.length) in table
            assert re.search(rf" {screws}( ×|$| )", own)
        assert "drawer F1.2 (" not in words_of(picture)


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter", "samples/island", "samples/joiner"])
def test_a_table_of_sizes_stays_on_its_page_and_no_words_in_it_meet(name: str) -> None:
    done = figures(name)
    first, *_ = pictured(done, step_of(done, "drawers"))
    assert first.resized
    for ruler in (Ruler(), Ruler(both=True)):
        pictures = draw_step_twice(done, first.step, ruler, {}, first.also, first.resized)
        assert pictures is not None
        for picture, width in zip(pictures, (PAGE_WIDTH, 118.01), strict=True):
            sheet = Extent(0.0, 0.0, picture.width, picture.height)
            assert picture.width <= width
            # what a page leaves of Letter and A4
            assert picture.height <= 235 or width < PAGE_WIDTH
            boxes = picture.text_boxes()
            assert all(sheet.contains(box) for _, box in boxes)
            for (one, a), (other, b) in combinations(boxes, 2):
                assert not a.overlaps(b), (picture.id, one, other)


def test_on_a_phone_marks_have_their_words_in_a_list_below_and_long_names_have_letters() -> None:
    done = figures("demo")
    for key in ("slides", "left-clips", "bars"):
        both = draw_step_twice(done, step_of(done, key), Ruler())
        assert both is not None
        wide, slim = both
        shown = [text for text in slim.texts() if text.style == "mark"]
        large = {text.text for text in shown if text.height > 4}
        listed = {text.text for text in shown if text.height < 4}
        assert large <= listed, key
        assert all(len(text) <= 5 for text in large), key
        words = words_of(slim)
        for text in wide.texts():
            # what was beside a mark is in the list, however its lines break
            if re.fullmatch(r"pair of slides|C7 front clip|17.5 above rail|4 × 1920", text.text):
                assert text.text in words, (key, text.text)
