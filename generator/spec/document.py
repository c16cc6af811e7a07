"""A read file as plain data, and the place of every value and key in it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from generator.findings import Where

KeyPath = tuple[str | int, ...]

_QUOTE_WIDTH = 120


@dataclass(frozen=True)
class LineAndColumn:
    """Line and column, both from 1."""

    line: int
    column: int


@dataclass(frozen=True)
class EntryPosition:
    """Where a value is, and its key; an item of a list has no key, so its own place is used for it."""

    value: LineAndColumn
    key: LineAndColumn


@dataclass(frozen=True)
class Document:
    """A read file: nested dicts and lists of strings and None, with the place of each by its key path."""

    file: str
    lines: tuple[str, ...]
    data: Any
    places: Mapping[KeyPath, EntryPosition] = field(repr=False)

    def where(self, path: KeyPath, of_key: bool = False) -> Where:
        """Return the place of a value, or of its key.

        What is not there is placed at the key of the nearest thing around it that is.
        """
        known = path
        while known not in self.places:
            known = known[:-1]
        place = self.places[known]
        mark = place.key if of_key or known != path else place.value
        where = Where(self.file, mark.line, mark.column, path_text(path), written=known == path)
        # the top of the file says nothing about a key that the spec leaves out
        return replace(where, quote=self.quote(where)) if known or not path else where

    def quote(self, where: Where) -> str:
        """As `quoted`, of a place in this document."""
        return quoted(self.lines, where)


def quoted(lines: Sequence[str], where: Where) -> str:
    """The source line of `where` with a caret below its column; empty if there is no such line."""
    if not 1 <= where.line <= len(lines):
        return ""
    line = lines[where.line - 1]
    first = max(0, where.column - 1 - _QUOTE_WIDTH // 2) if len(line) > _QUOTE_WIDTH else 0
    shown = line[first : first + _QUOTE_WIDTH]
    # Tabs are kept, so that the caret is in the right place whatever their width.
    indent = "".join("\t" if char == "\t" else " " for char in shown[: where.column - 1 - first])
    return f"{shown}\n{indent}^"


def path_text(path: KeyPath) -> str:
    """Return a key path as it is printed: `zones[0].bays[2].width`."""
    text = ""
    for step in path:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
    return text
