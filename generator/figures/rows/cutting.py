"""Cutting plans: bars and sheets, settings, off-cuts (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class BarRow:
    """One bar of the plan: marks and lengths of its pieces, longest first.

    `running` are the pieces' far ends from the trimmed datum end, `trim` what comes off each end before (mm).
    """

    material: str
    stock_length: Length
    pieces: tuple[str, ...]
    offcut: Length
    lengths: tuple[Length, ...] = ()
    running: tuple[Length, ...] = ()
    trim: Length = Fraction(0)
    kerf: Length = Fraction(0)
    on_hand: bool = False
    lot: str = ""


@dataclass(frozen=True)
class Bound:
    """No plan costs less (None without prices) and none takes fewer bars or sheets."""

    cost: float | None
    count: int


@dataclass(frozen=True)
class BarSummary:
    """What a material's plan comes to; `gap` is how much dearer than the cheapest it may be (0 when proved)."""

    material: str
    bars: int
    to_buy: int
    cost: float | None
    proved: bool
    gap: float
    longest_offcut: Length
    offcut_is_longest: bool
    patterns: int
    patterns_are_fewest: bool
    used: float


@dataclass(frozen=True)
class StopSetting:
    """One setting of the saw's stop and the pieces that are cut at it."""

    material: str
    length: Length
    count: int
    marks: tuple[str, ...]


@dataclass(frozen=True)
class SheetPieceRow:
    """A piece on a sheet: low corner from the sheet's own corner, sizes as it lies (mm)."""

    mark: str
    x: Length
    y: Length
    l: Length  # noqa: E741 - the contract's key
    w: Length
    turned: bool = False


@dataclass(frozen=True)
class SheetCutRow:
    """One cut from edge to edge through the area at (x, y) of l by w, in the order of the saw.

    `across` cuts run over the sheet's width, at `at` from the sheet's left edge; the others over its length, at `at`
    from its front edge. `setting` is the size between fence and blade, exact where parts get their size by it. The cut
    divides the near or the far part of the cut `parent`; 0 is the whole sheet. `marks` get their size by this cut.
    """

    n: int
    across: bool
    at: Length
    setting: Length
    stage: int
    x: Length
    y: Length
    l: Length  # noqa: E741 - as in the pieces
    w: Length
    parent: int = 0
    near: bool = True
    marks: tuple[str, ...] = ()
    by_track: bool = False
    """Breaks the sheet down by track saw, before the fence; `setting` then has the allowance on it."""


@dataclass(frozen=True)
class SheetRow:
    """One sheet of the plan. `offcuts` are (x, y, l, w), the largest first."""

    material: str
    stock: tuple[Length, Length]
    pieces: tuple[SheetPieceRow, ...]
    cuts: tuple[SheetCutRow, ...]
    offcuts: tuple[tuple[Length, Length, Length, Length], ...] = ()
    trim: Length = Fraction(0)
    kerf: Length = Fraction(0)
    on_hand: bool = False
    grain: str = ""
    n: int = 1
    """Number among the sheets of its material."""
    defects: tuple[tuple[Length, Length, Length, Length], ...] = ()
    """What no piece has any of: (x, y, l, w)."""


@dataclass(frozen=True)
class SheetSummary:
    """What a material's sheet plan comes to; `gap` is how much dearer than the cheapest it may be.

    The fence is set `setups` times for all sheets together, `setups_sheet_by_sheet` times one sheet after the other;
    there are `settings` different ones, so it is never set fewer times.
    """

    material: str
    sheets: int
    to_buy: int
    cost: float | None
    proved: bool
    gap: float
    used: float
    setups: int = 0
    setups_sheet_by_sheet: int = 0
    settings: int = 0
    track_cuts: int = 0
    """Cuts by track saw that break sheets down, before the fence."""
    stages: int = 0
    """Runs of cuts in one direction, the most of any sheet."""
    slivers: int = 0
    """Cuts that leave less beside the blade than a saw holds."""
    small_parts: int = 0
    """Cuts of a part that is smaller than `saws.sheet.least_feed`."""
    leftover_edges: int = 0
    """Pieces of which one size is what the cuts before have left over."""
    clean_cost: float | None = None
    """What a plan without any of these costs, where one was found."""

    @property
    def clean(self) -> bool:
        """Whether the plan has none of these."""
        return not (self.slivers or self.small_parts or self.leftover_edges)


@dataclass(frozen=True)
class FenceSetting:
    """One setting of the fence for all sheets of a material: (sheet, cut) in order, and the parts that get a size.

    It `waits` until every bay is measured when all that is cut with it does; `too_early` are parts that should wait
    and get this size now, because a part beside them does not.
    """

    material: str
    n: int
    setting: Length
    cuts: tuple[tuple[int, int], ...]
    marks: tuple[str, ...]
    waits: bool = False
    too_early: tuple[str, ...] = ()


@dataclass(frozen=True)
class Shortage:
    """Why a material has no plan: `count` parts like `mark` that no stock holds.

    With `more` bars or sheets of size `needs` all would be held; with 0 the part itself is `short_by` too large, and
    stock of at least `needs` is enough (mm).
    """

    material: str
    mark: str
    count: int
    short_by: Length
    needs: tuple[Length, ...]
    more: int


@dataclass(frozen=True)
class Offcut:
    """What remains of `count` bars or sheets and is worth keeping, `width` for sheets (mm); grain along the length."""

    material: str
    length: Length
    width: Length | None
    count: int
    lot: str


@dataclass(frozen=True)
class Cutting:
    """The cutting plans; `bar_bound` and `sheet_bound` by material."""

    bars: tuple[BarRow, ...]
    bar_bound: Mapping[str, Bound]
    sheets: tuple[SheetRow, ...]
    sheet_bound: Mapping[str, int]
    summaries: tuple[BarSummary, ...] = ()
    stops: tuple[StopSetting, ...] = ()
    sheet_summaries: tuple[SheetSummary, ...] = ()
    fences: tuple[FenceSetting, ...] = ()
    offcuts: tuple[Offcut, ...] = ()
    shortages: tuple[Shortage, ...] = ()
    """Of the materials that have no plan: too little stock, or too small."""
    longest_part: Length | None = None
    """The longest part that goes to the fence; sheets are broken down to it first, with the `allowance` left on."""
    allowance: Length = Fraction(0)
    track_kerf: Length | None = None
    """What a cut by track saw takes, where that is not the kerf of the sheet."""
    least_bar_offcut: Length = Fraction(0)
    least_sheet_offcut: tuple[Length, Length] = (Fraction(0), Fraction(0))
