"""What can happen to who ignores a check, and how severe a law about it may be."""

from __future__ import annotations

from enum import Enum


class Harm(Enum):
    """What happens to whoever ignores a check: what it says, and how severe a law about it may be.

    Someone can be hurt: an error or a warning. It does not fit: an error. It breaks or comes loose: an error where it
    carries something, else a warning. Work or stock is lost: a warning. A nuisance: a note, unless it is far off.
    """

    says: str
    severities: tuple[str, ...]

    def __init__(self, says: str, *severities: str) -> None:
        self.says, self.severities = says, severities

    FALLS = "the bench, or something in it, can fall on someone", "error", "warning"
    INJURES = "someone can be hurt at work, or trip", "error", "warning"
    NO_FIT = "it does not fit, cannot be put together, or cannot be used", "error"
    FAILS = "it breaks, strips, jams or comes loose", "error", "warning"
    SPOILS = "work, stock or a day is lost", "warning"
    ANNOYS = "it is a nuisance, or good to know before the work", "note"
