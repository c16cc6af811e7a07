"""Rows of sag, tipping, handling: lengths in mm, masses in kg. Their field names are keys of figures.json."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.frames.facts import Direction
from generator.figures.rows.loads import WorkingLoads


@dataclass(frozen=True)
class Sag:
    """How far a part sags in one span under a load, and how far it may (mm).

    `load` is the force in N, `spread` over the span or in its middle. `years` is the sag of a board after years under
    a load that stays; None where the load does not stay. `at_first`: it is judged as it is first loaded, for a board
    that has room to sag further. `without_posts` is the sag when nothing carries
    the bar between the corners; None where no post could be.
    """

    kind: str
    where: str
    marks: tuple[str, ...]
    span: Fraction
    load: float
    spread: bool
    sag: float
    limit: float
    model: str
    years: float | None = None
    without_posts: float | None = None
    needs_posts: bool = False
    at_first: bool = False

    @property
    def share(self) -> float:
        """Its sag, as a part of its limit."""
        return self.sag / self.limit

    @property
    def judged(self) -> float:
        """What its limit holds for (mm)."""
        return self.sag if self.years is None or self.at_first else self.years


@dataclass(frozen=True)
class Balance:
    """Centres of gravity from the frame's front left corner at its underside: X, Y, Z of the bench empty and loaded."""

    empty: tuple[float, float, float]
    loaded: tuple[float, float, float]


@dataclass(frozen=True)
class Holds:
    """What one group of parts does to the balance over a face: kg, mm behind the tip line, kg m."""

    group: str
    mass: float
    behind: float
    moment: float


@dataclass(frozen=True)
class Stability:
    """Tipping over one face. `tip_line` is that far behind the face (mm).

    `margins` are the holding moments (kg m) with 0, 1, 2 … drawers open, the heaviest first, every drawer of the face
    loaded, totes and shelves empty; `margins_alone` with only the open drawers loaded. `push` is what the `pull` (N)
    at the top edge takes (kg m). `safe_open` and `safe_open_alone` are how many may be open at once then; -1: the pull
    alone tips the bench. `safe_open_unpulled` is that without a pull. `lean` is the mass that tips it when it presses
    on the front of an open drawer, with `safe_open_alone` of them (at least one) open and no pull; None without
    drawers. Where the pull allows none, `ballast` (kg) over the supports at the far side, or supports
    `further` out (mm), let one be open.
    """

    face: str
    tip_line: float
    pull: float
    safe_open: int
    drawers: int
    margins: tuple[float, ...]
    margins_alone: tuple[float, ...]
    push: float
    safe_open_alone: int
    safe_open_unpulled: int
    lean: float | None = None
    ballast: float | None = None
    further: float | None = None
    holds: tuple[Holds, ...] = ()
    """The empty bench, drawers shut, group by group; together the first of `margins_alone`."""


#: Ways in which a frame sways, in words.
DIRECTIONS: Mapping[Direction, str] = {"long": "along the length", "cross": "from front to back"}


@dataclass(frozen=True)
class LooseTravel:
    """How far the frame's top moves freely before these panels, captured but not fixed, lock (mm)."""

    marks: tuple[str, ...]
    travel: float


@dataclass(frozen=True)
class Sway:
    """How far the frame's top moves in one direction (long, cross) under a level `push` (N) there, and how far it may.

    `low` is with all joints as stiff as their cards allow, `high` with all as soft (mm); `with_` says which panels
    help. `weakest`: no direction sways more. `moment` is the most that one of the `joints` bears (N m), `opens` the
    moment at which that joint's gap opens at the least usual torque, `slips` the pull along the bars that a metal
    angle on two bolts bears (N). `vise` is what that joint bears of a hard push on a vise (N m). `free` is how far
    loose panels let it move. `needs` is the stiffness (kN m/rad) at which all its joints keep the limit; None where
    they do already, or none would. `edge` is the sway of a long edge that is pushed along the bench, stiffest and
    softest (mm): the top turns. `add` are keys of the spec and values that bring the worst down to `then` (mm) with
    the softest joints; empty within its limit.
    """

    direction: Direction
    with_: str
    low: float
    high: float
    push: float
    target: float
    weakest: bool
    joints: int
    moment: float
    opens: float | None
    slips: float | None
    needs: float | None = None
    free: tuple[LooseTravel, ...] = ()
    edge: tuple[float, float] | None = None
    vise: float | None = None
    add: tuple[tuple[str, str], ...] = ()
    then: float | None = None

    @property
    def worst(self) -> float:
        """The most that the top moves anywhere, with the softest joints (mm)."""
        return self.high if self.edge is None else max(self.high, self.edge[1])


@dataclass(frozen=True)
class Handling:
    """One thing that is carried or rolled: its mass, its outside sizes (mm), who lifts it, where it goes through.

    `recommended` is what one person may lift by the equation for lifting (kg), `index` the share of each person over
    that. Both `persons` and `index` are None where more than four people would have to lift it. `door` and `van` say
    whether it passes.
    """

    name: str
    mass: float
    sizes: tuple[Fraction, Fraction, Fraction]
    persons: int | None
    recommended: float
    index: float | None
    door: bool
    van: bool
    whole: bool = False


@dataclass(frozen=True)
class WorkHeight:
    """The bench's height against the range that suits its user and work (mm); no range when neither was measured."""

    height: Fraction
    work: str
    low: Fraction | None = None
    high: Fraction | None = None

    @property
    def suits(self) -> bool:
        """True without a range as well: nothing is known against it."""
        return self.low is None or self.high is None or self.low <= self.height <= self.high


@dataclass(frozen=True)
class Strength:
    """All that is judged of a bench's strength and handling."""

    sags: tuple[Sag, ...]
    stability: tuple[Stability, ...]
    sway: tuple[Sway, ...]
    handling: tuple[Handling, ...]
    work_height: WorkHeight
    loads: WorkingLoads
