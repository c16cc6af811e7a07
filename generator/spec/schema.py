"""The spec language: one class a mapping, one field a key. Names of keys are a contract; add, never rename.

Lengths are exact millimetres, masses kilograms, forces newtons, moduli MPa, second moments mm⁴.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.calculators.spacing import Share
from generator.spec.demands import Climate, Limits
from generator.spec.fields import (
    Force,
    InchFraction,
    Length,
    LengthOrZero,
    Mass,
    Name,
    Position,
    ShareOrLength,
    WoodScrewField,
    Words,
)
from generator.spec.fillings import StackItem
from generator.spec.goods import AnyHardware, AnyMaterial, Grain, Pack, Saws, ToteCard
from generator.spec.item import Node
from generator.spec.stands import Base


class Revision(Node):
    """Which issue of the spec this is, from when and why. Every page of the manual names it."""

    number: Name = "A"
    """Letter or number of this issue."""
    date: Words = ""
    """As you write it, such as 2026-11-02."""
    reason: Words = ""
    """What changed, in a few words."""


class PastRevision(Revision):
    """An earlier issue of the spec. A sheet that bears its checksum is superseded."""

    checksum: Words = ""
    """Of the spec as it was, as its sheets bear it."""


class Display(Node):
    """How lengths are printed. The sums behind them stay exact."""

    inch_fraction: InchFraction = 32
    """Finest fraction of an inch that is printed."""
    currency: Words = ""
    """What all prices are in, such as EUR; it is printed behind them and never converted."""


class RoundShares(Node):
    """Rounds bays that are a `share` to widths that a tape can set. Only the remainder's zone is rounded."""

    step: Length
    """Each share is rounded down to a multiple of this."""
    remainder: Name
    """Name of the bay that takes what rounding leaves."""


class BenchSize(Node):
    """Outside sizes; height from the floor to the work surface."""

    length: Length
    """From left to right, over the frame."""
    depth: Length
    """From front to back, over the frame."""
    height: Length
    """From the floor to the work surface."""
    round_shares: RoundShares | None = None
    """Leave it out to keep shares exact."""


class User(Node):
    """Who works at the bench and at what: what its height should suit."""

    elbow_height: Length | None = None
    """From the floor to the bent elbow, in shop shoes."""
    work: Literal["assembly", "planing", "outfeed"] = "assembly"
    """What is mostly done at the bench."""
    saw_height: Length | None = None
    """From the floor to the saw's table, for an outfeed bench."""


class JointChoice(Node):
    """Which fastener joins which bars, each by its name under `hardware`."""

    default: Name = "end-clip"
    """For all ends of bars that the keys below do not name."""
    long_rails_to_corner_posts: Name = "through-screw"
    """For the joints that close the frame: they pull the long rails home."""
    inner_post_tops: Name = "through-screw"
    """For the heads of the posts between the corner posts."""


class ClampAccess(Node):
    """Openings routed through the lips of outward slots, to get at the slot. `opening` is [across, along] it."""

    opening: tuple[Length, Length] = (Fraction(16), Fraction(40))
    """[across, along] the bar: a clamp's foot must pass."""
    from_end: Length = Fraction(80)
    """From the bar's end to the middle of the opening; on posts from the head."""
    guide_bush: Length = Fraction(17)
    """Outside diameter of the router's guide bush, which follows the template."""
    cutter: Length = Fraction(6)
    """Diameter of the router cutter."""


class Frame(Node):
    """The bars: their material, which of them run through at the corners, and their joints."""

    material: Name = "bar"
    """Name of a profile under `materials`."""
    through: Literal["posts", "rails"] = "posts"
    """What runs through at the corners; the other bars end on it."""
    joints: JointChoice = Field(default_factory=JointChoice)
    slot_nut: Name = "slot-nut"
    """Nut in the bars' slots, by its name under `hardware`: for the stand's plates and for top brackets."""
    clamp_access: ClampAccess = Field(default_factory=ClampAccess)


class BaySpec(Node):
    """The clear space between two posts and what fills it."""

    name: Words = ""
    """By default the zone's letter and a number: F1, F2 at the front, B1 at the back."""
    width: ShareOrLength = Share(Fraction(1))
    """Clear width between the posts, or a share of what the other bays leave."""
    stack: Annotated[tuple[StackItem, ...], Field(max_length=40)] = ()
    """From below; drawers, totes and open spaces fill the height, shelves only stand in it."""


class ZoneSpec(Node):
    """A row of bays from end to end of the bench. Zones follow from front to back."""

    name: Name
    """In your own words, such as front or back."""
    depth: ShareOrLength = Share(Fraction(1))
    """Clear depth between the two rows of posts, or a share of what the other zones leave."""
    bays: Annotated[tuple[BaySpec, ...], Field(min_length=1, max_length=60)]
    """From left to right, seen from the front."""


Wall = Literal["dividers", "ends", "spine", "back"]


class Panels(Node):
    """The sheets that close the frame. Their tongues, cut equally from both faces, slide in the bars' slots."""

    material: Name = "ply-12"
    """Name of a sheet under `materials`; the tray has its own."""
    groove_clearance: LengthOrZero = Fraction(1, 5)
    """Opening of the slot less thickness of the tongue, both sides together."""
    tongue: Length | None = None
    """How far the tongue enters the slot; by default the longest that leaves 2 mm under it."""
    shoulder: LengthOrZero = Fraction(1, 2)
    """By how much a rabbet is longer than its tongue, so that the shoulder clears the bar's face."""
    notch_clearance: LengthOrZero = Fraction(2)
    """Clearance around what a notch or cut-out is for: clip, corner, post."""
    walls: tuple[Wall, ...] | None = None
    """By default dividers and ends, with a spine between zones or a back behind a single one."""


class Tray(Node):
    """The board over the bays, captured in both end frames. Between it and the top there is room to clamp."""

    material: Name = "ply-12"
    """Name of a sheet under `materials`."""
    end_rail_bottom: Length | None = None
    """Height above the frame's underside; by default it leaves a clamp gap of 130 mm or a little more."""
    trim: Name | None = None
    """Name of an angle under `materials` for both long edges; without it they stay bare."""


class Drawers(Node):
    """The rules of all drawers. A stack's `drawer` is the height of a front; the rest follows from these."""

    slide: Name = "slide"
    """Name of a slide under `hardware`; its length is the depth of the boxes."""
    box: Name = "ply-12"
    """Name of the sheet for sides and ends, under `materials`."""
    bottom: Name = "ply-6"
    """Name of the sheet for the bottoms."""
    front: Name = "ply-18"
    """Name of the sheet for the fronts."""
    packing: Name = "poplar-20"
    """Strip under `materials` that brings the slides out from the wall: what that needs, and 2 mm for planing."""
    proud: LengthOrZero = Fraction(1)
    """How far the packing reaches beyond the bars' faces, into the bay."""
    gap: LengthOrZero = Fraction(3)
    """Around a front: to the posts, to the front above and below, to rail and tray."""
    below: LengthOrZero = Fraction(10)
    """How far the front reaches down below the box."""
    above: LengthOrZero = Fraction(15)
    """How far the front reaches up above the box."""
    slide_axis: Length = Fraction(27)
    """From the lower edge of the box up to the middle of the slide."""
    slide_setback: LengthOrZero = Fraction(2)
    """From the back of the front to the front end of the slide."""
    face_screw: WoodScrewField | None = None
    """Wood screw from inside the box into the front; by default the longest that stays inside."""
    box_screw: WoodScrewField | None = None
    """Wood screw of the box's corners, through a side into an end; by default as the sheet's thickness asks."""
    groove: Length = Fraction(6)
    """Depth of the groove for the bottom."""
    groove_up: Length = Fraction(8)
    """From the lower edge of a side to the groove for the bottom."""


class Shelves(Node):
    """Shelves lie on cleats at the walls and reach behind the posts. Both keys name `materials`."""

    material: Name = "ply-18"
    """Name of a sheet under `materials`."""
    cleat: Name = "poplar-20"
    """Name of a strip under `materials`."""


class Holes(Node):
    """A grid of dog holes through the top, in equal margins."""

    diameter: Length = Fraction(20)
    """Diameter of a hole, as your dogs and clamps need it."""
    pitch: Length = Fraction(96)
    """From centre to centre, both ways."""
    edge: Length = Fraction(60)
    """Least distance from the top's edge to the centre of a hole."""
    keep_clear: LengthOrZero = Fraction(3)
    """Least wood between a hole and the side of a bar below; holes that are nearer are left out."""


class Top(Node):
    """The board to work on. Without `holes` it stays plain."""

    material: Name = "mdf-18"
    """Name of a sheet under `materials`."""
    overhang: LengthOrZero = Fraction(0)
    """Beyond the frame, the same on all four sides."""
    holes: Holes | None = None
    """Leave it out for a plain top."""
    bracket: Name | None = None
    """Bracket that holds the top, by its name under `hardware`: one near each corner, the rest at even distances."""
    bracket_thickness: Length = Fraction(4)
    """Thickness of the brackets where no `bracket` is named: then one sits between each two cross-members."""


class Loads(Node):
    """What the bench has to carry. The masses, with those of the totes, make the load on what it stands on."""

    drawer: Mass = Fraction(20)
    """Mass of what one drawer holds."""
    shelf: Mass = Fraction(15)
    """Mass of what one shelf holds."""
    top: Mass = Fraction(100)
    """Mass on the top, all over."""
    push: Force = Fraction(200)
    """Level push at the height of the top (N, lbf)."""


class ExtraMember(Node):
    """A bar of the frame's material at `at` (low corner X, Y, Z), running `length` along `along`."""

    name: Name
    """What it is, in your own words."""
    along: Literal["x", "y", "z"]
    """x runs to the right, y to the back, z up."""
    at: tuple[Position, Position, Position]
    """[X, Y, Z] of its low corner."""
    length: Length
    """From end to end."""


class ExtraPanel(Node):
    """A board with its low corner at `at` and `size` along X, Y, Z; one size is the sheet's thickness."""

    name: Name
    """What it is, in your own words."""
    material: Name = "ply-12"
    """Name of a sheet under `materials`."""
    at: tuple[Position, Position, Position]
    """[X, Y, Z] of its low corner."""
    size: tuple[Length, Length, Length]
    """[X, Y, Z]; one of them is the sheet's thickness."""


class Extra(Node):
    """Bars and boards beyond the plan. Places count from the frame's front left corner at its underside."""

    panels: Annotated[tuple[ExtraPanel, ...], Field(max_length=100)] = ()
    """Boards beyond the plan."""
    members: Annotated[tuple[ExtraMember, ...], Field(max_length=100)] = ()
    """Bars beyond the plan."""


class AssemblyWishes(Node):
    """Wishes about the order. Names are marks, groups, steps, `left end frame`, `right end frame`, `top grid`."""

    first: Annotated[tuple[Name, ...], Field(max_length=100)] = ()
    """What goes in as early as it can."""
    before: Annotated[tuple[tuple[Name, Name], ...], Field(max_length=100)] = ()
    """Pairs: the first of each goes in before the second."""


class Spec(Node):
    """The whole spec. Every omitted key has a default, which the manual lists."""

    spec: Literal["1"]
    """Version of the language."""
    title: Name
    """Name of the bench, printed on every page."""
    designer: Words = ""
    """Whom to ask about it."""
    revision: Revision = Field(default_factory=Revision)
    history: Annotated[tuple[PastRevision, ...], Field(max_length=100)] = ()
    """Earlier revisions, oldest first, for the table that every manual has."""
    licence: Words = ""
    """The terms on which others may build from this manual."""
    units: Literal["mm", "in"] = "mm"
    """Unit of a length that names none, and the unit in which the manual is printed."""
    display: Display = Field(default_factory=Display)
    bench: BenchSize
    user: User = Field(default_factory=User)
    materials: dict[Name, AnyMaterial] = Field(default_factory=dict)
    """What the bench is made of, each under a name of your own: measured values, or `use:` of a typical card."""
    saws: Saws = Field(default_factory=Saws)
    hardware: dict[Name, AnyHardware] = Field(default_factory=dict)
    """Fasteners, slides and what it stands on, each under a name of your own."""
    packs: dict[Name, Pack] = Field(default_factory=dict)
    """How hardware without a card is sold, by its name in the manual's hardware list, such as `slide screw`."""
    totes: dict[Name, ToteCard] = Field(default_factory=dict)
    """Totes that the bays take, each under a name of your own."""
    frame: Frame = Field(default_factory=Frame)
    zones: Annotated[tuple[ZoneSpec, ...], Field(min_length=1, max_length=8)]
    """From front to back; one zone has no spine."""
    panels: Panels = Field(default_factory=Panels)
    tray: Tray = Field(default_factory=Tray)
    drawers: Drawers = Field(default_factory=Drawers)
    shelves: Shelves = Field(default_factory=Shelves)
    top: Top = Field(default_factory=Top)
    base: Base = Field(default_factory=Base)
    loads: Loads = Field(default_factory=Loads)
    limits: Limits = Field(default_factory=Limits)
    climate: Climate = Field(default_factory=Climate)
    grain: Annotated[dict[Name, Grain], Field(max_length=200)] = Field(default_factory=dict)
    """Boards whose grain runs another way than their material says, by mark or by group: `{drawer face: width}`.

    `length` or `width` is the size that follows the grain; with `none` a board may lie either way on its sheet. A
    mark wins over its group.
    """
    extra: Extra = Field(default_factory=Extra)
    assembly: AssemblyWishes = Field(default_factory=AssemblyWishes)
