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
#: A whole number and its fraction, and a number and its unit, with a space between them.
_PARTS = re.compile(rf"\d \d+/\d|[\d{_CLOSE}] (?:mm|in|kg|lb)(?![\w-])")


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


def words_of(text: str) -> list[str]:
    """The words of a text; a length stays whole with its fraction and unit though `23 5/8 in` has spaces in it."""
    words: list[str] = []
    for match in _WORD.finditer(text):
        word = match.group()
        if words and _PARTS.match(f"{words[-1][-1]} {word}"):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words


def written(text: str, write: Callable[[str, str], str]) -> str:
    """The text with each two-fold word replaced by what `write(own, other)` makes of it."""
    return _TWO.sub(lambda match: write(match[1], match[2]), text)
