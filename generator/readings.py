"""Text with two readings: in the manual's own unit, and in the other one for a reader who switches.

Both are in the text as one word, so that it can be joined, cut into lines and laid out like any other. Only who
writes it down (a page, an SVG) takes it apart; paper, which nobody can switch, never gets one.
"""

from __future__ import annotations

import re
from collections.abc import Callable

# Private-use signs: no keyboard has them, so no spec brings them along by chance.
_OPEN, _OR, _CLOSE = "\ue000", "\ue001", "\ue002"
_TWO = re.compile(f"{_OPEN}([^{_OPEN}-{_CLOSE}]*){_OR}([^{_OPEN}-{_CLOSE}]*){_CLOSE}")
#: Such a word as a pattern, for those who leave it alone.
TWO_FOLD = f"{_OPEN}[^{_CLOSE}]*{_CLOSE}"
_WORD = re.compile(rf"(?:{_TWO.pattern}|\S)+")
_UNIT = "(?:mm|cm|m[²³]?|in|ft|sq|kg|g|lb|oz|k?Nm?|[GM]Pa|m?l|min|h|s|[°%])(?![\\w-])"
#: A whole number and its fraction, a number and its unit, a sign and its number, with a space between them; sizes.
_PARTS = re.compile(rf"\d \d+/\d|[\d{_CLOSE}] (?:{_UNIT}|×)|[Ø±×] [\d{_OPEN}]")
_LENGTH = re.compile(rf"\d \d+/\d|[\d{_CLOSE}] {_UNIT}|[Ø±] [\d{_OPEN}]")
#: A number by itself, a word that belongs to the number before it, and `in each` of what is counted.
_NUMBER = re.compile(rf"(?:^| )[\d./]*\d$|{_CLOSE}$")
_COUNTED = re.compile(r"(?!(?:and|or|to|at|with)\b)[a-z]")
_IN_EACH = re.compile(r"(?:^| )in each\b")
#: The same on a page, where the two can be in different elements of one line.
_TAGS = r"(?:</?(?:a|abbr|b|em|small|span|strong)\b[^<>]*>)*"
_TEXT = "(?![^<>]*>)"
_GAP = re.compile(rf"(\d{_TAGS}) (?={_TAGS}(?:\d+/\d|{_UNIT})){_TEXT}|([Ø±]{_TAGS}) (?={_TAGS}\d){_TEXT}")
_CODE = re.compile(r"(<(code|script|style)\b.*?</\2>)", re.DOTALL)
_LENGTH_OF_CODE = re.compile(rf"(?:\d+ \d+/\d+(?: {_UNIT})?|[\d./]*\d {_UNIT}){_TEXT}")


def two_readings(own: str, other: str) -> str:
    """A word that reads `own`, and `other` once the unit is switched."""
    return own if own == other else f"{_OPEN}{own}{_OR}{other}{_CLOSE}"


def has_two(text: str) -> bool:
    """True when the text changes with the unit."""
    return _OPEN in text


def own_reading(text: str) -> str:
    """The text in the manual's own unit."""
    return _TWO.sub(r"\1", text) if has_two(text) else text


def other_reading(text: str) -> str:
    """The text in the other unit."""
    return _TWO.sub(r"\2", text) if has_two(text) else text


def words_of(text: str, *, lengths_only: bool = False) -> list[str]:
    """The words of a text, as a line may break between them: a length stays whole with its fraction and unit.

    So do sizes, a number with what it counts, and `4 in each`, but for `lengths_only`.
    """
    words: list[str] = []
    for match in _WORD.finditer(text):
        word = match.group()
        before = words[-1] if words else ""
        if before and (_LENGTH.match(f"{before[-1]} {word}") or (not lengths_only and _held(before, word))):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def _held(before: str, word: str) -> bool:
    """Whether a word stays on the line of the one before it: a number is never parted from what it counts."""
    if _PARTS.match(f"{before[-1]} {word}") or _IN_EACH.search(f"{before} {word}"):
        return True
    return bool(_COUNTED.match(word) and _NUMBER.search(before))


def unbroken(page: str) -> str:
    """A page's HTML in which no line breaks inside a length: `23 5/8 in`, `12 mm`, `Ø 9`.

    What can be copied out of code keeps its letters: there an element holds the length together.
    """
    parts = _CODE.split(page)
    text, code, kinds = parts[::3], parts[1::3], parts[2::3]
    held = [
        _LENGTH_OF_CODE.sub(r'<span class="bm-together">\g<0></span>', each) if kind == "code" else each
        for each, kind in zip(code, kinds, strict=True)
    ]
    joined = [_GAP.sub(lambda gap: f"{gap[1] or gap[2]}\u00a0", each) for each in text]
    return "".join(a + b for a, b in zip(joined, [*held, ""], strict=True))


def written(text: str, write: Callable[[str, str], str]) -> str:
    """The text with each two-fold word replaced by what `write(own, other)` makes of it."""
    return _TWO.sub(lambda match: write(match[1], match[2]), text)
