"""Text with two readings: joined, split and measured as one word, taken apart at the edge."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.drawings.dimensions import Ruler
from generator.drawings.letter_sizes import text_width
from generator.drawings.lettering import wrapped
from generator.readings import has_two, other_reading, own_reading, two_readings, unbroken, words_of, written
from generator.units.format import format_inch, format_mm

WORDS = st.text(st.sampled_from("ab 12/×"), min_size=1, max_size=8)


@given(st.lists(st.tuples(WORDS, WORDS), max_size=5))
def test_readings_come_out_as_they_went_in(pairs: list[tuple[str, str]]) -> None:
    text = " and ".join(two_readings(own, other) for own, other in pairs)
    assert own_reading(text) == " and ".join(own for own, _ in pairs)
    assert other_reading(text) == " and ".join(other for _, other in pairs)
    assert has_two(text) == any(own != other for own, other in pairs)


def test_a_length_is_one_word_whatever_its_reading() -> None:
    text = f"Bar {two_readings('600', '23 5/8')} long"
    assert [own_reading(word) for word in words_of(text)] == ["Bar", "600 long"]
    assert [other_reading(word) for word in words_of(text)] == ["Bar", "23 5/8 long"]
    assert words_of("key 3/16 in, 4 × 52 31/64 in B1") == ["key", "3/16 in,", "4 × 52 31/64 in", "B1"]
    assert wrapped("it slides 52 31/64", text_width("it slides 52", 2.5), 2.5) == ["it slides", "52 31/64"]
    assert written(text, lambda own, other: f"<{own}|{other}>") == "Bar <600|23 5/8> long"


def test_a_ruler_with_both_units_reads_as_each_ruler_alone() -> None:
    for units, other in (("mm", "in"), ("in", "mm")):
        both = Ruler(units, 32, both=True)
        for length in (Fraction(600), Fraction(127, 5), Fraction(23, 3), Fraction(0)):
            for write in ("text", "fine", "diameter"):
                text = getattr(both, write)(length)
                assert own_reading(text) == getattr(Ruler(units, 32), write)(length)
                assert other_reading(text) == getattr(Ruler(other, 32), write)(length)
    assert other_reading(Ruler(both=True).text(Fraction(600))) == format_inch(600) == "23 5/8"
    assert own_reading(Ruler(both=True).text(Fraction(600))) == format_mm(600) == "600"


def test_lettering_leaves_room_for_the_wider_reading() -> None:
    text = two_readings("600", "23 5/8")
    assert text_width(text, 3.5) == text_width("23 5/8", 3.5) > text_width("600", 3.5)
    lines = wrapped(f"Length {text} and {text}", text_width("Length 23 5/8", 2.5), 2.5)
    assert [other_reading(line) for line in lines] == ["Length 23 5/8", "and 23 5/8"]


def test_a_page_keeps_its_words_where_its_lengths_are_held_together() -> None:
    page = (
        "<p><a href='x 3 in'>78 3/4</a> in, Ø 9, 5 to 12 mm-wide</p>"
        "<pre><code>a: 51 1/2</code></pre><script>1 1/2 mm</script>"
    )
    held = unbroken(page)
    assert "78\u00a03/4</a>\u00a0in, Ø\u00a09, 5 to 12 mm-wide" in held
    assert "href='x 3 in'" in held
    # what is copied out of code, and what runs, is what it was
    assert '<code>a: <span class="bm-together">51 1/2</span></code>' in held
    assert "<script>1 1/2 mm</script>" in held
    assert re.sub("</?span[^>]*>", "", held).replace("\u00a0", " ") == page


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("30 from each end, 140 apart", ["30 from", "each", "end,", "140 apart"]),
        ("screw 4 × 16, 3 in each", ["screw", "4 × 16,", "3 in each"]),
        ("bolt M8 × 20 here", ["bolt", "M8 × 20 here"]),
        ("into D4 or 3 and 4", ["into", "D4", "or", "3", "and", "4"]),
    ],
)
def test_a_number_is_not_parted_from_what_it_counts(text: str, words: list[str]) -> None:
    assert words_of(text) == words


def test_no_attribute_in_code_gets_an_element() -> None:
    """A command with a length of two readings: the other one stays whole in its attribute."""
    page = '<p><code>cut A1 <span data-o="28 17/32 in">725 mm</span></code></p>'
    assert unbroken(page) == (
        '<p><code>cut A1 <span data-o="28 17/32 in"><span class="bm-together">725 mm</span></span></code></p>'
    )
