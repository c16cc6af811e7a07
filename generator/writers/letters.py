"""The letters of PDFs: the shipped fonts cut down, once for all documents, to what these documents write."""

from __future__ import annotations

import logging
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.codes import Code
from generator.findings import Finding, Severity, SpecError
from generator.resources import bundled
from generator.writers.scripts import as_printed, must_be_shaped

# fontTools logs at length what it leaves out of a subset
logging.getLogger("fontTools").setLevel(logging.ERROR)

SHIPPED = {"shipped": "DejaVuSans.ttf", "shippedB": "DejaVuSans-Bold.ttf"}
"""Name of each shipped font -> its file; a B at the end is bold."""
OWN = "own"
"""Name of a reader's own font."""


class LettersError(SpecError):
    """Texts with letters that cannot be printed."""

    def __init__(self, letters: Iterable[str], lines: Mapping[str, str]) -> None:
        self.letters = frozenset(letters)
        super().__init__(
            (_shaped if must_be_shaped(letter) else _missing)(letter, lines)
            for letter in sorted(self.letters)
        )


@dataclass(frozen=True)
class Letters:
    """Fonts by name, in the order in which letters are looked for: their files and what they hold."""

    files: dict[str, Path]
    held: dict[str, frozenset[str]]


@contextmanager
def letters(texts: Iterable[str], own: Path | None = None) -> Iterator[Letters]:
    """Fonts with all letters of `texts` as they are printed; the files are gone afterwards.

    Raises LettersError naming every letter that no font has or that must be shaped, with the way out; SpecError for an
    own font that is none.
    """
    lines = {as_printed(line): line for line in sorted(set(texts))}
    wanted = {" ", *(letter for line in lines for letter in line)}  # a font without letters is none
    fonts = {name: bundled("site_templates") / "fonts" / file for name, file in SHIPPED.items()}
    fonts |= {OWN: own} if own is not None else {}
    with TemporaryDirectory(prefix="bench-manual-") as folder:
        files = {name: Path(folder, f"{name}.ttf") for name in fonts}
        held = {name: cut_down(source, wanted, files[name]) for name, source in fonts.items()}
        missing = wanted.difference(*held.values())
        shaped = set(filter(must_be_shaped, wanted))
        if missing or shaped:
            raise LettersError(missing | shaped, lines)
        yield Letters(files, held)


def are_shipped(letters: set[str]) -> bool:
    """True when the shipped font has all letters, and none needs shaping."""
    if all(" " <= letter <= "~" for letter in letters):
        return True  # the font need not be read for that
    return letters <= _shipped() and not any(map(must_be_shaped, letters))


@cache
def _shipped() -> frozenset[str]:
    from fontTools.ttLib import TTFont

    with TTFont(bundled("site_templates") / "fonts" / SHIPPED["shipped"], lazy=True) as font:
        return frozenset(map(chr, font.getBestCmap()))


def cut_down(source: Path, wanted: set[str], target: Path) -> frozenset[str]:
    """Write those letters of a font that are wanted; say which it has."""
    # late: a process that prints nothing need not read the library
    from fontTools import subset
    from fontTools.ttLib import TTLibError

    options = subset.Options(notdef_outline=True, glyph_names=True, layout_features=[], name_IDs=["*"])
    try:
        # from memory: of a file that is no font the library would leave the file open
        font = subset.load_font(BytesIO(source.read_bytes()), options)
    except (TTLibError, OSError) as error:
        raise SpecError([_no_font(source, str(error))]) from None
    with font:
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=sorted(map(ord, wanted)))
        cutter.subset(font)
        font.save(str(target))
        return frozenset(letter for letter in wanted if ord(letter) in (font.getBestCmap() or {}))


def _missing(letter: str, lines: Mapping[str, str]) -> Finding:
    return Finding(
        Code.MISSING_LETTER,
        Severity.ERROR,
        f"no font has the letter {_named(letter, lines)}",
        advice="Name a TrueType or OpenType file that has it: bench-manual build SPEC --font FILE",
    )


def _shaped(letter: str, lines: Mapping[str, str]) -> Finding:
    return Finding(
        Code.SHAPED_LETTER,
        Severity.ERROR,
        f"the PDFs cannot join the letters of this script: {_named(letter, lines)}",
        advice="Write the text in a script with separate letters, or in Arabic. Another font does not help.",
    )


def _named(letter: str, lines: Mapping[str, str]) -> str:
    text = next(line for printed, line in lines.items() if letter in printed)
    return f"{letter!r} (U+{ord(letter):04X}) in {text!r}"


def _no_font(source: Path, reason: str) -> Finding:
    return Finding(
        Code.NO_FONT,
        Severity.ERROR,
        f"{source.name} is not a TrueType or OpenType font: {reason}",
        advice="Give --font a .ttf or .otf file.",
    )
