"""What ends the reading: a text that is none or is too large, and faults of its YAML in plain words."""

from __future__ import annotations

import re
from typing import Any

import yaml

from generator.codes import Code
from generator.findings import Finding, Severity, SpecError, Where

MAX_SIZE = 1_000_000
"""The largest spec that is read, in bytes of the file or characters of the text."""

LINE_BREAK = re.compile("\r\n|[\r\n\x85\u2028\u2029]")  # the breaks that PyYAML counts
# U+E000 to U+E00F belong to nobody; the pages set lengths apart by them
UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue010-\ufffd\U00010000-\U0010ffff]")


def stop(code: Code, message: str, where: Where | None = None, **parts: Any) -> SpecError:
    """Return the error for a fault behind which nothing more can be read."""
    return SpecError([Finding(code, Severity.ERROR, message, where, **parts)])


def too_large(where: Where, message: str) -> SpecError:
    """Return the error for more than a spec can sensibly hold."""
    advice = "A spec is far smaller; check that this is the right file."
    return stop(Code.TOO_LARGE, message, where, advice=advice)


def refuse_unreadable(text: str, file: str) -> None:
    """Raise SpecError for a text that is too long, or that holds what nobody can see."""
    if len(text) > MAX_SIZE:
        raise too_large(Where(file, 1, 1), f"the text is larger than {MAX_SIZE:,} characters")
    found = list(UNPRINTABLE.finditer(text))
    if not found:
        return
    before = LINE_BREAK.split(text[: found[0].start()])
    others = f", the first of {len(found)}" if len(found) > 1 else ""
    message = f"an invisible control character (code {ord(found[0][0])}){others}"
    where = Where(file, len(before), len(before[-1]) + 1)
    raise stop(Code.CONTROL_CHARACTER, message, where, advice="Delete it, or check that this is a text file.")


# PyYAML's problem begins with the first; the rest is what a person can do about it.
_PLAIN_WORDS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed here",
        "a colon stands where no key can be",
        "Put a text with ': ' in it in quotes, and indent this line like its neighbours.",
    ),
    (
        "could not find expected ':'",
        "a key lacks its colon",
        "Write 'key: value', with a space after the colon.",
    ),
    (
        "expected <block end>",
        "this line does not line up with those that it belongs to",
        "Indent all keys of a group by the same number of spaces.",
    ),
    ("expected ',' or ']'", "a list in [brackets] lacks a comma or its end", ""),
    ("expected ',' or '}'", "a group in {braces} lacks a comma or its end", ""),
    ("found unexpected end of stream", "a quote is opened and never closed", ""),
    ("found unexpected document separator", "a quote is opened and never closed", ""),
    ("found unknown escape character", "a backslash in double quotes begins a code", "Use single quotes."),
    ("found undefined tag handle", "a tag (!) is not read here", "Put a text that begins with ! in quotes."),
    ("found character", "a value cannot begin with this character", "Put it in quotes."),
    ("expected alphabetic or numeric", "a value cannot begin with * or &", "Put it in quotes."),
    (
        "sequence entries are not allowed here",
        "a '- ' item stands where no list can be",
        "Put it on its own line.",
    ),
)


def syntax_error(error: yaml.YAMLError, file: str, lines: tuple[str, ...]) -> SpecError:
    """Return PyYAML's fault as a finding: where a person must look, and what they can do."""
    if not isinstance(error, yaml.MarkedYAMLError):
        return stop(Code.YAML_SYNTAX, "this is not YAML text", Where(file, 1, 1))
    begin, mark = error.context_mark, error.problem_mark or error.context_mark
    problem = error.problem or "this is not YAML text"
    if begin is not None and problem.startswith("found unexpected end"):
        mark = begin  # the end of the file says nothing, the opening quote does
    where = Where(file, mark.line + 1, mark.column + 1) if mark else Where(file, 1, 1)
    if "\t" in _indent(lines[where.line - 1]):
        advice = "Use spaces; most editors can be set to do so."
        return stop(Code.YAML_SYNTAX, "this line is indented with a tab", where, advice=advice)
    message, advice = _in_plain_words(problem)
    if begin is not None and begin.line + 1 != where.line:
        message += f" (what it belongs to begins on line {begin.line + 1})"
    return stop(Code.YAML_SYNTAX, message, where, advice=advice)


def _in_plain_words(problem: str) -> tuple[str, str]:
    """Return the message and the advice for a problem; one that is not in the table speaks for itself."""
    for start, message, advice in _PLAIN_WORDS:
        if problem.startswith(start):
            return message, advice
    return problem, ""


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip())]
