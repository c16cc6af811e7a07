"""A term of the glossary, as a kind of the bench explains it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class TermWords:
    """A term of the glossary, with further forms in which pages use it; `elsewhere` are words that no page uses."""

    name: str
    meaning: str
    forms: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()
