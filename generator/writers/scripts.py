"""Letters as they appear on paper: Arabic letters joined, lines that run from the right in the paper's order.

The forms of the Arabic letters are those that Unicode lists as compatibility characters (the Unicode Standard, section
9.2, and its blocks Arabic Presentation Forms A and B). Scripts that need more than that cannot be printed.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain
from unicodedata import bidirectional, category, decomposition, name, normalize

HEBREW, LAM, TATWEEL = "\u0590", "\u0644", "\u0640"
ISOLATED, FINAL, INITIAL, MEDIAL = KINDS = ("isolated", "final", "initial", "medial")
"""A letter by itself, joined to the one before, to the one after, to both."""

NEED_SHAPING = frozenset(
    {
        *(
            "DEVANAGARI",
            "BENGALI",
            "GURMUKHI",
            "GUJARATI",
            "ORIYA",
            "TAMIL",
            "TELUGU",
            "KANNADA",
            "MALAYALAM",
        ),
        *(
            "SINHALA",
            "TIBETAN",
            "LEPCHA",
            "LIMBU",
            "MYANMAR",
            "KHMER",
            "CHAM",
            "BALINESE",
            "JAVANESE",
            "SUNDANESE",
        ),
        *("SYRIAC", "MANDAIC", "MONGOLIAN", "PHAGS-PA", "NKO", "ADLAM"),
    }
)
"""First words of the names of letters that change with their neighbours: the Unicode Standard, chapters 9 to 17."""


def _forms() -> Mapping[str, Mapping[str, str]]:
    """A letter, or lam with an alef -> kind -> the character of that form."""
    found: dict[str, dict[str, str]] = {TATWEEL: dict.fromkeys(KINDS, TATWEEL)}
    for code in chain(
        range(0xFB50, 0xFBC2), range(0xFBD3, 0xFBEA), range(0xFBFC, 0xFC00), range(0xFE80, 0xFEFD)
    ):
        kind, *letters = decomposition(chr(code)).split() or [""]
        if kind.strip("<>") in KINDS:
            found.setdefault("".join(chr(int(each, 16)) for each in letters), {})[kind.strip("<>")] = chr(
                code
            )
    return found


FORMS = _forms()


def as_printed(text: str) -> str:
    """The characters of a line from left to right, as a font without rules of its own must print them."""
    # letters from the right begin with Hebrew
    if max(text, default="") < HEBREW or not any(bidirectional(letter) in ("R", "AL") for letter in text):
        return text
    from fpdf.bidi import BidiParagraph  # late: few benches have such a line

    reordered: str = BidiParagraph(joined(normalize("NFC", text))).get_reordered_string()
    return reordered


def joined(text: str) -> str:
    """Arabic letters in the forms that join them to their neighbours; every other letter as it is."""
    pieces: list[str] = []
    for letter in text:
        if pieces and pieces[-1] == LAM and LAM + letter in FORMS:
            pieces[-1] += letter
        else:
            pieces.append(letter)
    letters = [
        number for number, piece in enumerate(pieces) if category(piece[0]) != "Mn"
    ]  # marks join nothing
    forms = [FORMS.get(pieces[number], {}) for number in letters]
    for number, before, own, after in zip(letters, [{}, *forms], forms, [*forms[1:], {}], strict=False):
        follows, leads = INITIAL in before and FINAL in own, INITIAL in own and FINAL in after
        kind = MEDIAL if follows and leads else FINAL if follows else INITIAL if leads else ISOLATED
        pieces[number] = own.get(kind, pieces[number])
    return "".join(pieces)


def must_be_shaped(letter: str) -> bool:
    """True for a letter that joins or moves with its neighbours by rules that are not kept here."""
    words = name(letter, "").split()
    is_unknown_arabic = (
        words[:2] == ["ARABIC", "LETTER"] and letter not in FORMS and not decomposition(letter)
    )
    return is_unknown_arabic or (bool(words) and words[0] in NEED_SHAPING)
