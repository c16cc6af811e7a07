"""What a user must know about a spec: one `Finding` for each fault, with its place and the way out."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import IntEnum

from generator.codes import Code


class Severity(IntEnum):
    """How much a finding matters. A note never changes an exit status; an error means: do not cut by this."""

    NOTE = 0
    WARNING = 1
    ERROR = 2


@dataclass(frozen=True)
class Where:
    """A place in a spec. `line` and `column` count from 1; `path` is the key path (`zones[0].bays[2].width`).

    `quote` is the line as it is written, with a mark below the place. What is not `written` is placed at the nearest
    group around it that is.
    """

    file: str
    line: int
    column: int
    path: str = ""
    quote: str = field(default="", compare=False, repr=False)
    written: bool = field(default=True, compare=False, repr=False)

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


Steps = tuple[str | int, ...]
"""A key path, step by step."""


def dotted(path: Steps) -> str:
    """A key path as it is written: `zones[0].bays[2].width`."""
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).removeprefix(".")


@dataclass(frozen=True)
class Change:
    """One key of the spec to write, and its value as text."""

    path: str
    value: str

    def __str__(self) -> str:
        # a value such as #8x1 would be a comment
        written = f'"{self.value}"' if self.value.startswith("#") else self.value
        return f"`{self.path}: {written}`"


#: What is allowed goes on a line below where it is longer than this: a list of names, or how to write a value.
MOST_IN_A_LINE = 30


def with_changes(advice: str, changes: Iterable[Change]) -> str:
    """An advice with the keys to write and their values behind it."""
    keys = " and ".join(str(change) for change in changes)
    if not keys:
        return advice
    return f"{advice.rstrip('.')}: write {keys}." if advice else f"Write {keys}."


@dataclass(frozen=True)
class Finding:
    """One thing that a user must know. `code` is stable, so that tests and documents can name it.

    `remedy` are the changes that its advice names: made together they cure it.
    """

    code: str
    severity: Severity
    message: str
    where: Where | None = None
    found: str = ""
    allowed: str = ""
    nearest: str = ""
    advice: str = ""
    remedy: tuple[Change, ...] = field(default=(), compare=False)
    why: str = ""
    """Why it matters; where it says nothing, its code does."""
    places: tuple[str, ...] = ()
    """What it is about, one after the other, where this is too long for the first line."""

    def __str__(self) -> str:
        text = self._what(self.allowed)
        if self.places:
            text += f" ({'; '.join(self.places)})"
        if self.advice:
            text += f" {self.advice}" if text.endswith((".", "?")) else f". {self.advice}"
        return f"{text} [{self.code}]"

    def explained(self) -> str:
        """The finding in short lines: what is wrong, where, why it matters, what to do."""
        below = self.allowed if len(self.allowed) > MOST_IN_A_LINE else ""
        lines = [f"{self._what('' if below else self.allowed)} [{self.code}]"]
        if self.where and self.where.quote:
            line, _, mark = self.where.quote.partition("\n")
            number = str(self.where.line)
            lines += [f"{number} | {line}", f"{' ' * len(number)} | {mark}"]
        lines += self.places
        if self.where and self.where.path and not self.where.written and self.code != Code.MISSING_KEY:
            lines.append(
                f"`{self.where.path}` is a default or from a typical card. Add the key to change it."
            )
        if why := self.why or (self.code.why if isinstance(self.code, Code) else ""):
            lines.append(f"Why it matters: {why}")
        way_out = [f"Write {below}."] if below and not self.nearest else []
        if way_out or self.advice:
            lines.append(f"What to do: {' '.join(filter(None, (*way_out, self.advice)))}")
        return "\n    ".join(lines)

    def _what(self, allowed: str) -> str:
        """What is wrong, with what was found and what it must be."""
        place = f"{self.where}: " if self.where else ""
        path = f"{self.where.path}: " if self.where and self.where.path else ""
        text = f"{place}{self.severity.name.lower()}: {path}{self.message}"
        if self.found and allowed:
            text += f": {self.found}, must be {allowed}"
        elif self.found:
            text += f" (found: {self.found})"
        elif allowed:
            text += f"; must be {allowed}"
        if self.nearest:
            text += f"; did you mean '{self.nearest}'?"
        return text


class SpecError(Exception):
    """A spec that cannot be read or solved. Carries every finding, not the first only."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(str(finding) for finding in self.findings))


def one_of(names: Iterable[str]) -> str:
    """A choice in words: `one of a, b`; one name is alone, and none is an empty text."""
    choices = list(names)
    return f"one of {', '.join(choices)}" if len(choices) > 1 else "".join(choices)


def nearest(word: str, candidates: Iterable[str]) -> str:
    """Return the candidate most like `word`, or an empty string when none is near."""
    names = list(candidates)
    folded = {name.casefold(): name for name in names}
    close = difflib.get_close_matches(word.casefold(), list(folded), n=1, cutoff=0.6)
    return folded[close[0]] if close else ""
