"""A page as it is handed from one process to another: text, and nothing to be worked out."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class DrawnAlone:
    """A drawing of a page as its own file: `alone` is the whole text of it."""

    id: str
    title: str
    alone: str


@dataclass(frozen=True)
class MadePage:
    """A page as Markdown, and the drawings in it."""

    text: str
    drawings: tuple[DrawnAlone, ...]
