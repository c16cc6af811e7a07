"""PDFs that are left out, for no font has some letters of the spec: which, in which line, and the way out."""

from __future__ import annotations

from collections.abc import Iterable

from generator.codes import Code
from generator.findings import Finding, Severity, Where
from generator.spec.load import LoadedSpec
from generator.spec.texts import texts_of
from generator.writers.letters import are_shipped
from generator.writers.scripts import as_printed, must_be_shaped

MOST_NAMED = 8
"""This many letters are named one by one."""


def may_lack_letters(loaded: LoadedSpec) -> bool:
    """False when the shipped font has all that the spec says, so that no sheet need be drawn to know."""
    return not are_shipped({letter for text, _ in texts_of(loaded) for letter in text + as_printed(text)})


def left_out(letters: Iterable[str], loaded: LoadedSpec) -> tuple[Finding, ...]:
    """A finding for each text of the spec with some of these letters; each letter is reported where it comes first."""
    waiting = set(letters)
    found: list[Finding] = []
    for text, where in texts_of(loaded):
        if here := waiting.intersection(as_printed(text)):
            found += _findings(here, where)
            waiting -= here
    return tuple(found + _findings(waiting, None))


def _findings(letters: set[str], where: Where | None) -> list[Finding]:
    shaped = set(filter(must_be_shaped, letters))
    found = []
    if missing := letters - shaped:
        advice = "Name a TrueType or OpenType file that has them: bench-manual build SPEC --font FILE"
        found.append(_finding(Code.MISSING_LETTER, f"no font here has {_named(missing)}", where, advice))
    if shaped:
        advice = "Write the text in a script with separate letters, or in Arabic. Another font does not help."
        found.append(
            _finding(Code.SHAPED_LETTER, f"the PDFs cannot join the letters {_named(shaped)}", where, advice)
        )
    return found


def _finding(code: Code, why: str, where: Where | None, advice: str) -> Finding:
    other = "Or print the whole manual with a browser, which uses the fonts of your system: bench-manual print SPEC"
    message = f"the PDFs for printing are left out: {why}"
    return Finding(code, Severity.WARNING, message, where, advice=f"{advice.rstrip('.')}. {other}")


def _named(letters: set[str]) -> str:
    """Letters with their numbers in Unicode: 作 (U+4F5C), 業 (U+696D)."""
    first = sorted(letters)[:MOST_NAMED]
    named = ", ".join(f"{letter} (U+{ord(letter):04X})" for letter in first)
    more = len(letters) - len(first)
    return f"{named} and {more} more" if more else named
