"""What is marked and set before the cut: sticks, spacers, the top's grid, settings of machines (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.figures.rows.checks import Unmeasured

Length = Fraction


@dataclass(frozen=True)
class Mark:
    """One mark on a story stick, `at` from its datum end; `kind` is edge or centre."""

    at: Length
    label: str
    kind: str


@dataclass(frozen=True)
class Stick:
    """A story stick: marks from the datum end of the member on which it lies."""

    name: str
    along: str
    datum: str
    length: Length
    marks: tuple[Mark, ...]
    lies_on: str = ""


@dataclass(frozen=True)
class Spacer:
    """A block or stick to cut, that sets slides or posts apart; `label` says for which, after its kind."""

    length: Length
    count: int
    label: str


@dataclass(frozen=True)
class TopFeature:
    """What is let into the top: `at` is its middle from the finished top's left front corner, `size` with its ledge.

    `depth` is that of a recess or slot, None where all of it goes through; `opening` is what goes through within a
    ledge. `diameter` is given for a round one.
    """

    name: str
    kind: str
    at: tuple[Length, Length]
    size: tuple[Length, Length]
    depth: Length | None = None
    opening: tuple[Length, Length] | None = None
    corner: Length = Fraction(0)
    diameter: Length | None = None


@dataclass(frozen=True)
class TopEdging:
    """The strip at one side of the top, included in its size."""

    side: str
    length: Length
    thickness: Length
    mitred: tuple[str, ...] = ()
    """Its ends that are cut at 45 degrees."""


@dataclass(frozen=True)
class TopBoard:
    """One board of a top that has several; `length` is along the boards."""

    mark: str
    length: Length
    width: Length


@dataclass(frozen=True)
class TopGrid:
    """Counts before omission; margins and omitted columns (rows) from the top's own left (front) edge."""

    holes: int
    columns: int
    rows: int
    margin_x: Length
    margin_y: Length
    omitted_columns: tuple[Length, ...]
    omitted_rows: tuple[Length, ...] = ()
    diameter: Length = Fraction(0)
    pitch: Length = Fraction(0)
    length: Length = Fraction(0)
    width: Length = Fraction(0)
    thickness: Length = Fraction(0)
    brackets: tuple[tuple[Length, Length], ...] = ()
    """Where the brackets below it sit: X, Y of the frame, on the inner side of their bars."""
    features: tuple[TopFeature, ...] = ()
    """What is let into it."""
    boards: tuple[TopBoard, ...] = ()
    edging: tuple[TopEdging, ...] = ()
    left_out: tuple[tuple[Length, Length], ...] = ()
    """Holes that are left out singly, because something is let into the top there."""


@dataclass(frozen=True)
class Relief:
    """The router template of the clamp-access opening: work, template and guide bush."""

    opening: tuple[Length, Length]
    template: tuple[Length, Length]
    offset: Length
    guide_bush: Length
    cutter: Length
    template_radius: Length
    work_radius: Length


@dataclass(frozen=True)
class Setting:
    """What one set-up is set to: a name, and one or more lengths (mm); `fine` where a twentieth of a mm counts."""

    name: str
    values: tuple[Length, ...] = ()
    fine: bool = False
    text: str = ""
    """Instead of lengths, or behind them."""


@dataclass(frozen=True)
class Sketch:
    """The picture of a set-up: its sort, and the lengths of the card that it shows (mm), by what they are in it.

    `stops`: from `zero`, called `end`; `rabbet`: edge, height, thickness, tongue; `groove`: edge, height, width;
    `hole`: fence, diameter, depth; `thread`: bore, depth; `notch` and `opening`: along, across;
    `template`: along, across, offset; `slot`: width, depth; `tenon`: shoulder, stays, and cheek where it has two.
    """

    sort: str
    sizes: Mapping[str, tuple[Length, ...]]
    zero: str = ""
    end: str = ""
    metal: bool = False
    fine: frozenset[str] = frozenset()
    """Which of them are written to a twentieth of a millimetre, where their sort does not say it."""


@dataclass(frozen=True)
class Setup:
    """One setting of one machine, for all parts that need it. `half_steps` are (still too thick, raise by) in mm.

    `gauge` says when the test piece is good; `cautions` are keys of the cautions on the pages.
    """

    n: int
    key: str
    title: str
    tool: str
    settings: tuple[Setting, ...]
    steps: tuple[str, ...]
    gauge: str
    marks: tuple[str, ...] = ()
    half_steps: tuple[tuple[Length, Length], ...] = ()
    cautions: tuple[str, ...] = ()
    unmeasured: tuple[Unmeasured, ...] = ()
    """What its settings rest on and nobody has measured: the card is released once it is."""
    sketch: Sketch | None = field(default=None, metadata={"silent": True})
    """What its picture shows; None where a picture would say nothing."""
