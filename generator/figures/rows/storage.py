"""What the bays hold: openings, drawers, totes, shelves, and the strips that carry them (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.fillings.facts import Effect, FillingPicture, Swing, Thing, ToMeasure
from generator.bench.on_boards import SetOut
from generator.figures.rows.checks import Unmeasured

Length = Fraction
Heights = Mapping[str, Length]
"""The heights of a row, by their names, from the top of the base rail, where the person who fills a bay measures."""


@dataclass(frozen=True)
class Shown:
    """What the kinds of fillings give to drawings and pages: no figures of their own.

    Pictures for the openings, `things` without a part for the elevations, sizes of goods that a reader measures first,
    and what these decide; what turns, for the plan; what is marked on boards.
    """

    pictures: tuple[FillingPicture, ...] = ()
    things: tuple[Thing, ...] = ()
    to_measure: tuple[ToMeasure, ...] = ()
    effects: tuple[Effect, ...] = ()
    swings: tuple[Swing, ...] = ()
    set_out: tuple[SetOut, ...] = ()


@dataclass(frozen=True)
class OpeningRow:
    """The clear space of one item of a stack; heights from the frame's underside."""

    bay: str
    item: str
    width: Length
    height: Length
    bottom: Length
    top: Length


@dataclass(frozen=True)
class Drawer:
    """Heights from the frame's underside. `spacer` is under the slide: the first from the base rail's top."""

    bay: str
    number: int
    front_width: Length
    front_height: Length
    front_bottom: Length
    box_width: Length
    box_depth: Length
    box_height: Length
    box_bottom: Length
    slide_axis: Length
    slide_lower_edge: Length
    spacer: Length
    bottom_panel: tuple[Length, Length]
    slide_front: Length = Fraction(0)
    hole_stations: tuple[Length, ...] = ()
    unmeasured: tuple[Unmeasured, ...] = ()
    """What its box and face rest on and nobody has measured: do not cut before."""
    above_rail: Heights = field(default_factory=dict)


@dataclass(frozen=True)
class PullPlace:
    """What opens the face `part`: its middle, and the centres of its holes, from the face's lower left corner (mm)."""

    part: str
    at: tuple[Length, Length]
    holes: tuple[tuple[Length, Length], ...]


@dataclass(frozen=True)
class Door:
    """A door: its size (mm), the side of its hinges as seen from the front, their centres above its lower end.

    `leaf` counts the doors of a bay from the left; `mass` in kg.
    """

    bay: str
    leaf: int
    width: Length
    height: Length
    thickness: Length
    hinge_side: str
    hinges: tuple[Length, ...]
    mass: float


@dataclass(frozen=True)
class StripPlace:
    """One packing strip of a bay's wall: edges behind the front face, ends above the frame's underside (mm).

    `below_rail` is how far the wall's own lower edge is below the base rail's top, `from_edge` how far the strip
    is from the edge of the wall that looks to the open face.
    """

    bay: str
    near: Length
    far: Length
    bottom: Length
    top: Length
    below_rail: Length
    from_edge: Length = Fraction(0)
    above_rail: Heights = field(default_factory=dict)


@dataclass(frozen=True)
class Tote:
    """A tote on its runners; heights from the frame's underside. `number` counts from below, over the whole bay.

    `kind` names the spec's tote, `runner_width` is from the wall's face to the gap, `runner_from_edge` from the edge of
    the wall that looks to the open face to the runner's end.
    """

    bay: str
    number: int
    bottom: Length
    top: Length
    runner_top: Length
    runner_width: Length
    kind: str = ""
    runner_from_edge: Length = Fraction(0)
    above_rail: Heights = field(default_factory=dict)


@dataclass(frozen=True)
class Shelf:
    """A shelf on its cleats: heights of both upper faces from the frame's underside, `number` from below.

    `cleat_from_edge` is from the edge of the wall that looks to the open face to the cleat's end.
    """

    bay: str
    number: int
    top: Length
    length: Length
    depth: Length
    cleat_top: Length = Fraction(0)
    cleat_from_edge: Length = Fraction(0)
    above_rail: Heights = field(default_factory=dict)
