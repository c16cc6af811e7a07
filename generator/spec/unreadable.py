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
    advice = "A spec is much smaller. Check that this is the right file."
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
    raise stop(Code.CONTROL_CHARACTER, message, where, advice="Delete it. Or check that this is a text file.")


# PyYAML's problem begins with the first; the rest is what a person can do about it.
_PLAIN_WORDS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed here",
        "there is a second colon in this line, or its indent is wrong",
        "If a text has a ': ' in it, put it in quotes. Indent the line like the lines beside it.",
    ),
    (
        "could not find expected ':'",
        "there is no colon after the key",
        "Write 'key: value', with a space after the colon.",
    ),
    (
        "expected <block end>",
        "this line is indented differently from the other lines of its group",
        "Indent all lines of a group by the same number of spaces.",
    ),
    (
        "expected the node content",
        "a value is missing here, or a list or group above is not closed",
        "Close a list with ] and a group with }.",
    ),
    ("expected ',' or ']'", "a comma or the closing ] is missing in this list", "Write [first, second]."),
    (
        "expected ',' or '}'",
        "a comma or the closing } is missing in this group",
        "Write {key: value, key: value}.",
    ),
    (
        "found unexpected end of stream",
        "this quotation mark is never closed",
        "Write the second quotation mark.",
    ),
    (
        "found unexpected document separator",
        "this quotation mark is never closed",
        "Write the second quotation mark.",
    ),
    (
        "found unknown escape character",
        "a backslash in double quotes begins a code",
        "Use single quotes around the text.",
    ),
    (
        "found undefined tag handle",
        "a tag (!) cannot be used in a spec",
        "If this is a text that begins with !, put it in quotes.",
    ),
    ("found character", "a value cannot begin with this character", "Put the value in quotes."),
    ("expected alphabetic or numeric", "a value cannot begin with * or &", "Put the value in quotes."),
    (
        "sequence entries are not allowed here",
        "a list item ('- ') cannot be here",
        "Begin the list on a new line below its key.",
    ),
)


def syntax_error(error: yaml.YAMLError, file: str, lines: tuple[str, ...]) -> SpecError:
    """Return PyYAML's fault as a finding: where a person must look, and what they can do."""
    if not isinstance(error, yaml.MarkedYAMLError):
        return stop(Code.YAML_SYNTAX, "this text is not YAML", Where(file, 1, 1))
    begin, mark = error.context_mark, error.problem_mark or error.context_mark
    problem = error.problem or "this text is not YAML"
    if begin is not None and problem.startswith("found unexpected end"):
        mark = begin  # the end of the file says nothing, the opening quote does
    where = Where(file, mark.line + 1, mark.column + 1) if mark else Where(file, 1, 1)
    if "\t" in _indent(lines[where.line - 1]):
        advice = "Replace the tab by spaces. Most editors can do this for you."
        return stop(Code.YAML_SYNTAX, "this line is indented with a tab", where, advice=advice)
    message, advice = _in_plain_words(problem)
    if begin is not None and begin.line + 1 != where.line:
        message += f" (its group begins in line {begin.line + 1})"
    return stop(Code.YAML_SYNTAX, message, where, advice=advice)


def _in_plain_words(problem: str) -> tuple[str, str]:
    """Return the message and the advice for a problem; one that is not in the table speaks for itself."""
    for start, message, advice in _PLAIN_WORDS:
        if problem.startswith(start):
            return message, advice
    return problem, ""


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip())]
