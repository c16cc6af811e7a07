"""The other benches that are bolted to this one (mm)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction
Rectangle = tuple[Length, Length, Length, Length]
"""Along and up: low, then high."""


@dataclass(frozen=True)
class JoinHole:
    """A bolt through `member` and the other bench's `facing`.

    `from_corner` is along the side, from the left or front corner of the frame; `up` from its underside. `along` is
    from the member's datum end. `grip` is all that it goes through without washers, `bolt` its length as it is sold,
    `sold_as` its name, empty where none is long enough.
    """

    member: str
    facing: str
    from_corner: Length
    up: Length
    along: Length
    grip: Length
    bolt: Length | None
    sold_as: str


@dataclass(frozen=True)
class FacingMember:
    """A member of this frame at the joint, as one sees it from the other bench."""

    mark: str
    at: Rectangle


@dataclass(frozen=True)
class JoinRow:
    """A bench at a `side` of this one: what it is, how it is placed, and the bolts.

    `checksum` is that of the other spec when this manual was made. `apart` is between the frames, `gap` between the
    tops; `step` is how much higher the other top is. `begins` is where the other frame begins along this side.
    `datum`: this bench is levelled first and lists the bolts. `outline` is the other frame from above, in this one's
    coordinates.
    """

    side: str
    other: str
    other_side: str
    same_spec: bool
    checksum: str
    thread: str
    hole: Length
    washer: tuple[Length, Length]
    apart: Length
    gap: Length
    step: Length
    begins: Length
    row_length: Length
    datum: bool
    bolts: tuple[JoinHole, ...]
    members: tuple[FacingMember, ...]
    outline: Rectangle
