"""What a check says, whatever its numbers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Rule:
    """`severity` is note, warning or error; an error means: do not cut by this."""

    severity: str
    holds: str
    fails: str
    advice: str
    why: str = ""
    caution: str = ""
