"""The figures of a build's record: what was measured and cut against the plan, and what follows. Lengths in mm.

As in the other figures, names of fields are keys of figures.json.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class MeasuredRow:
    """A measured value beside the planned one, in mm, kg or the base unit of the quantity.

    `effective` is what the manual works with: the newest. `affected` are pieces that were cut before it was known.
    """

    path: str
    nominal: Length
    measured: Length
    effective: Length
    date: str
    by: str = ""
    affected: tuple[str, ...] = ()


@dataclass(frozen=True)
class Following:
    """What follows for `mark` (or a bay) from a piece of another size.

    `left` is the room that remains, negative when it does not fit; `to_match` the size that suits the piece as it is.
    A bay is to `measure`: `left` is how much wider it becomes.
    """

    mark: str
    what: str
    left: Length
    ok: bool
    state: str = "to cut"
    to_match: Length | None = None
    measure: bool = False


@dataclass(frozen=True)
class ChangedSize:
    """A size by its name, as the plan has it and as the manual works with it."""

    what: str
    nominal: Length
    effective: Length


@dataclass(frozen=True)
class Changed:
    """Equal pieces that are no longer as planned: which sizes changed, from what to what."""

    marks: tuple[str, ...]
    name: str
    sizes: tuple[ChangedSize, ...]
    cut: tuple[str, ...] = ()
    """Those of them that are cut already."""


@dataclass(frozen=True)
class BuildTo:
    """The whole bench made to suit one piece: the spec's key from `planned` to `value`, and all pieces that follow.

    `why_not` says why no bench follows from it.
    """

    path: str
    planned: Length
    value: Length
    changed: tuple[Changed, ...] = ()
    why_not: str = ""


@dataclass(frozen=True)
class CutRow:
    """A piece at its actual size. `verdict` is as planned, fits, trim or recut; `off` actual less planned."""

    mark: str
    name: str
    planned: tuple[Length, ...]
    actual: tuple[Length, ...]
    off: tuple[Length, ...]
    left: Length
    verdict: str
    date: str
    by: str = ""
    consequences: tuple[Following, ...] = ()
    build_to: BuildTo | None = None


@dataclass(frozen=True)
class PieceState:
    """A piece and how far it is: to cut, cut, installed, with the day of the last step."""

    mark: str
    state: str
    date: str = ""


@dataclass(frozen=True)
class RecordEntry:
    """One line of the timeline. `kind` is what was done; `photo` a file beside the pages."""

    date: str
    kind: str
    by: str = ""
    subject: str = ""
    sizes: tuple[Length, ...] = ()
    text: str = ""
    photo: str = ""
    alt: str = ""
    photo_size: tuple[int, int] = (0, 0)
    """Width and height in pixels."""


@dataclass(frozen=True)
class BuildRecord:
    """All that the record of a build comes to; without a record every piece is still to cut.

    `progress` counts pieces by their state. `state` is draft, in work, built or built and verified.
    """

    checksum: str
    state: str
    measured: tuple[MeasuredRow, ...]
    cuts: tuple[CutRow, ...]
    changed: tuple[Changed, ...]
    pieces: tuple[PieceState, ...]
    progress: dict[str, int]
    entries: tuple[RecordEntry, ...]
    verified: tuple[RecordEntry, ...] = ()
    bar_tolerance: Length = Fraction(0)
    """By how much a bar may be off before it counts (mm)."""
    board_tolerance: Length = Fraction(0)
