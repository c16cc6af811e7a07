"""How much room lettering takes, in mm of paper. Heights follow ISO 3098-1."""

from __future__ import annotations

from functools import lru_cache

from generator.readings import has_two, other_reading, own_reading

#: Heights of capitals in mm, ISO 3098-1.
SMALL_TEXT = 2.5
TEXT = 3.5
LARGE_TEXT = 5.0

BOLD = 1.12
"""How much wider bold letters are."""

#: Parts of the em of the widest typeface that the drawings name (a common free sans serif).
CAPITAL, ASCENDER, DESCENDER = 0.729, 0.78, 0.24

#: Advance widths in thousandths of the em. Narrower typefaces only leave more room.
WIDTHS = {
    character: width
    for width, characters in (
        (280, "ijl'⁄′"),
        (320, "IJ ,.·"),
        (340, "/:;\\|"),
        (375, "f-″"),
        (395, "()[]t"),
        (415, "!²³r"),
        (500, '*_`–°"'),
        (535, "sz?"),
        (560, "LFc"),
        (580, "k"),
        (605, "vxyP⌀"),
        (616, "TYoae"),
        (637, "EhnuSbdgpq$0123456789{}µ"),
        (660, "K"),
        (690, "AVXZB"),
        (700, "RC"),
        (735, "U"),
        (755, "NH"),
        (790, "DG&OQØ"),
        (840, "w#+<=>^~×±→←↑↓≤≥"),
        (865, "M"),
        (980, "%½¼¾⅛⅜⅝⅞m"),
        (1000, "W@—…"),
    )
    for character in characters
}
#: Any other Latin, Greek or Cyrillic letter; ideographs fill their em.
OTHER_WIDTH, IDEOGRAPH_WIDTH, FIRST_IDEOGRAPH = 1100, 1250, "\u2e80"


class _Widths(dict[str, int]):
    """The widths of all letters: those without one get it once they are asked for."""

    def __missing__(self, letter: str) -> int:
        self[letter] = IDEOGRAPH_WIDTH if letter >= FIRST_IDEOGRAPH else OTHER_WIDTH
        return self[letter]


_WIDTHS = _Widths(WIDTHS)


@lru_cache(maxsize=16384)
def text_width(text: str, height: float) -> float:
    """An honest upper estimate of the width in mm of `text` in capitals of `height` mm, in its wider reading."""
    if has_two(text):
        return max(text_width(own_reading(text), height), text_width(other_reading(text), height))
    return sum(map(_WIDTHS.__getitem__, text)) / 1000 * font_size(height)


def font_size(height: float) -> float:
    """The em in mm whose capitals are `height` mm high."""
    return height / CAPITAL


def line_height(height: float) -> float:
    """Height in mm of the box of one line of text, from ascender to descender."""
    return (ASCENDER + DESCENDER) * font_size(height)
