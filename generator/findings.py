"""What the tool has to tell a user about a spec: one `Finding` a fault, with its place and the way out."""

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
    thing around it that is.
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

    def __str__(self) -> str:
        place = f"{self.where}: " if self.where else ""
        path = f"{self.where.path}: " if self.where and self.where.path else ""
        text = f"{place}{self.severity.name.lower()}: {path}{self.message}"
        for label, value in (("found", self.found), ("allowed", self.allowed)):
            if value:
                text += f"; {label}: {value}"
        if self.nearest:
            text += f"; did you mean '{self.nearest}'?"
        if self.advice:
            text += f" {self.advice}" if text.endswith((".", "?")) else f". {self.advice}"
        return f"{text} [{self.code}]"

    def explained(self) -> str:
        """The finding as a colleague would tell it: with the line of the spec, a mark, and why it matters."""
        told = str(self)
        if self.where and self.where.quote:
            line, _, mark = self.where.quote.partition("\n")
            number = str(self.where.line)
            told += f"\n    {number} | {line}\n    {' ' * len(number)} | {mark}"
        if self.where and self.where.path and not self.where.written and self.code != Code.MISSING_KEY:
            told += (
                f"\n    The spec does not say `{self.where.path}`: it is a default, or from a typical card."
            )
            told += " Add the key to change it."
        if why := self.why or (self.code.why if isinstance(self.code, Code) else ""):
            told += f"\n    Why it matters: {why}"
        return told


class SpecError(Exception):
    """A spec that cannot be read or solved. Carries every finding, not the first only."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(str(finding) for finding in self.findings))


def nearest(word: str, candidates: Iterable[str]) -> str:
    """Return the candidate most like `word`, or an empty string when none is near."""
    names = list(candidates)
    folded = {name.casefold(): name for name in names}
    close = difflib.get_close_matches(word.casefold(), list(folded), n=1, cutoff=0.6)
    return folded[close[0]] if close else ""
