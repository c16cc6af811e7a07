"""The spec language: one class a mapping, one field a key. Names of keys are a contract; add, never rename.

Lengths are exact millimetres, masses kilograms, forces newtons, moduli MPa, second moments mm⁴.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.calculators.spacing import Share
from generator.spec.bracing import Gussets, PanelFix
from generator.spec.demands import Climate, Limits
from generator.spec.edge_bands import EdgeBands
from generator.spec.fields import (
    Date,
    Flag,
    Force,
    InchFraction,
    Length,
    LengthOrZero,
    Mass,
    Name,
    Number,
    Position,
    ShareOrLength,
    WoodScrewField,
    Words,
)
from generator.spec.fillings import StackItem
from generator.spec.fillings.doors import BayDoor, Doors
from generator.spec.fillings.pulls import PullKeys
from generator.spec.finish import Finish
from generator.spec.frames import FrameKeys
from generator.spec.goods import AnyHardware, AnyMaterial, Grain, Pack, Saws, ToteCard
from generator.spec.item import Node
from generator.spec.joining import Join
from generator.spec.openings import BoardCutout
from generator.spec.room import Room
from generator.spec.services import Service
from generator.spec.site import Site
from generator.spec.source import Source
from generator.spec.stands import Base
from generator.spec.tops import Top
from generator.spec.tray import OrNone, Tray


class Revision(Node):
    """Which issue of the spec this is, with its date and reason. Every page of the manual shows it."""

    number: Name = "A"
    """Letter or number of this issue, such as B."""
    date: Date = ""
    """Date of this issue, such as 2026-11-02."""
    reason: Words = ""
    """What changed, in a few words, such as: deeper lower drawers."""


class PastRevision(Revision):
    """An earlier issue of the spec. Sheets with its checksum are out of date."""

    checksum: Words = ""
    """Checksum of that issue, as printed on its sheets: twelve letters and digits."""


class Display(Node):
    """How lengths and prices are printed. Calculations stay exact."""

    inch_fraction: InchFraction = 32
    """Finest fraction of an inch that is printed, such as 1/32."""
    currency: Words = ""
    """Currency of all prices, such as EUR. It is printed after each price and never converted."""


class RoundShares(Node):
    """Rounds bays that are a `share` to widths on a tape. Only the zone of the `remainder` bay is rounded."""

    step: Length
    """Each share is rounded down to a multiple of this length, such as 1 mm or 1/16 in."""
    remainder: Name
    """Name of the bay that takes what rounding leaves, such as F2."""


class BenchSize(Node):
    """Outside sizes of the bench. The height is from the floor to the work surface."""

    length: Length
    """Length of the frame from left to right, outside, such as 1300 mm."""
    depth: Length
    """Depth of the frame from front to rear, outside, such as 700 mm."""
    height: Length
    """Height from the floor to the work surface, such as 900 mm."""
    round_shares: RoundShares | None = None
    """Rounds the bays that are a `share`. Leave it out to keep them exact."""


class User(Node):
    """Who works at the bench, and at what. The height of the bench should suit both."""

    elbow_height: Length | None = None
    """Height from the floor to the bent elbow, in work shoes, such as 1010 mm."""
    work: Literal["assembly", "planing", "outfeed"] = "assembly"
    """The main work at the bench."""
    saw_height: Length | None = None
    """Height from the floor to the saw table, for an outfeed bench, such as 870 mm."""


class JointChoice(Node):
    """Which fastener joins which bars. Each value is a name under `hardware`."""

    default: Name = "end-clip"
    """Fastener for all ends of bars that the other two keys do not name."""
    long_rails_to_corner_posts: Name = "through-screw"
    """Fastener for the joints that close the frame. They pull the long rails tight."""
    inner_post_tops: Name = "through-screw"
    """Fastener for the tops of the posts between the corner posts."""


class ClampAccess(Node):
    """Openings routed through the lips of the outer slots, so that a clamp can enter the slot."""

    opening: tuple[Length, Length] = (Fraction(16), Fraction(40))
    """Size of the opening, [across, along] the bar. The foot of your clamp must pass through it."""
    from_end: Length = Fraction(80)
    """Distance from the end of the bar to the middle of the opening; on posts from the top end."""
    guide_bush: Length = Fraction(17)
    """Outside diameter of the router's guide bush. It follows the template."""
    cutter: Length = Fraction(6)
    """Diameter of the router cutter."""


class Frame(FrameKeys):
    """The bars of the frame: material, joints, and which bars run through at the corners."""

    material: Name = "bar"
    """Name of a profile under `materials`."""
    through: Literal["posts", "rails"] = "posts"
    """Which bars run through at the corners. The others end on them."""
    joints: JointChoice = Field(default_factory=JointChoice)
    slot_nut: Name = "slot-nut"
    """Nut in the slots of the bars, for the plates below and for top brackets: a name under `hardware`."""
    clamp_access: ClampAccess = Field(default_factory=ClampAccess)
    gussets: Gussets = Field(default_factory=Gussets)


class BaySpec(Node):
    """A bay: the clear space between two posts, and what fills it."""

    name: Words = ""
    """Name of the bay. Default: a letter for the zone and a number, such as F1 or F2 at the front, B1 at the rear."""
    width: ShareOrLength = Share(Fraction(1))
    """Clear width between the posts, or a share of the length that the other bays leave."""
    stack: Annotated[tuple[StackItem, ...], Field(max_length=40)] = ()
    """What fills the bay, from the bottom up. Drawers, totes and open spaces fill the height; shelves do not."""
    door: BayDoor | None = None
    """Door in front of the bay. Leave it out for an open bay, or for drawers with their own fronts."""
    knee: Flag = False
    """Write true for leg room: the bay stays empty, and no base rail crosses its open face."""


class ZoneSpec(Node):
    """A row of bays from end to end of the bench. List the zones from front to rear."""

    name: Name
    """Name of the zone, such as front or rear."""
    depth: ShareOrLength = Share(Fraction(1))
    """Clear depth between the two rows of posts, or a share of the depth that the other zones leave."""
    bays: Annotated[tuple[BaySpec, ...], Field(min_length=1, max_length=60)]
    """The bays of this zone, from left to right as seen from the front."""


Wall = Literal["dividers", "ends", "spine", "back"]


class Panels(Node):
    """The sheets that close the frame. Their tongues slide in the slots of the bars; both faces are cut equally."""

    material: Name = "ply-12"
    """Material of the panels: the name of a sheet under `materials`. The tray has its own."""
    boards: dict[Wall, Name] = Field(default_factory=dict)
    """Walls of another material of the same thickness, such as `{ends: oak-12}`. In timber, solid wood floats."""
    groove_clearance: LengthOrZero = Fraction(1, 5)
    """Total play of a tongue in its slot: slot opening minus tongue thickness."""
    tongue: Length | None = None
    """How far the tongue reaches into the slot. Default: the longest that leaves 2 mm under it."""
    shoulder: LengthOrZero = Fraction(1, 2)
    """Gap between the shoulder of the panel and the face of the bar."""
    notch_clearance: LengthOrZero = Fraction(2)
    """Gap that a notch or cut-out leaves around a clip, corner or post."""
    walls: tuple[Wall, ...] | None = None
    """Which walls the bench has. Default: dividers, ends, and a spine, or with one zone the wall `back` at its rear."""
    cutouts: Annotated[tuple[BoardCutout, ...], Field(max_length=60)] = ()
    """Openings in walls, tray, shelves and other boards, such as one for a dust hose."""
    fix: PanelFix = Field(default_factory=PanelFix)


class Drawers(PullKeys):
    """Sizes that all drawers have in common. Only the height of each front is in the stacks."""

    slide: Name = "slide"
    """Slides of all drawers: a name under `hardware`. The boxes are as deep as the slide is long."""
    box: Name = "ply-12"
    """Material of the sides and ends: the name of a sheet under `materials`."""
    bottom: Name = "ply-6"
    """Material of the bottoms: the name of a sheet under `materials`."""
    front: Name = "ply-18"
    """Material of the fronts: the name of a sheet under `materials`."""
    packing: Name = "poplar-20"
    """Strip behind the slides: a name under `materials`. Buy it 2 mm thicker than in the cut list, for planing."""
    proud: LengthOrZero = Fraction(1)
    """How far the packing strip is in front of the bars' faces, so that slides pass the posts."""
    gap: LengthOrZero = Fraction(3)
    """Gap around each drawer front."""
    below: LengthOrZero = Fraction(10)
    """How far the front is lower than the box."""
    above: LengthOrZero = Fraction(15)
    """How far the front is higher than the box."""
    slide_axis: Length = Fraction(27)
    """Height of the middle of the slide above the lower edge of the box."""
    slide_setback: LengthOrZero = Fraction(2)
    """Distance from the rear face of the drawer front to the front end of the slide."""
    face_screw: WoodScrewField | None = None
    """Wood screw from inside the box into the front. Default: the longest that does not come out."""
    box_screw: WoodScrewField | None = None
    """Wood screw at the corners of the box, through a side into an end. Default: chosen by the sheet thickness."""
    groove: Length = Fraction(6)
    """Depth of the groove that holds the bottom."""
    groove_up: Length = Fraction(8)
    """Distance from the lower edge of a side to the groove for the bottom."""


class Shelves(Node):
    """Shelves rest on cleats at the walls and reach behind the posts."""

    material: Name = "ply-18"
    """Material of the shelves: the name of a sheet under `materials`."""
    cleat: Name = "poplar-20"
    """Strip for the cleats: a name under `materials`."""


class Loads(Node):
    """What the bench must carry. Supports and slides are checked against these loads."""

    drawer: Mass = Fraction(20)
    """Mass of the contents of one drawer, or of what is on one pull-out."""
    shelf: Mass = Fraction(15)
    """Mass of the goods on one shelf."""
    top: Mass = Fraction(100)
    """Mass on the top, spread over all of it."""
    push: Force = Fraction(200)
    """Level push or pull at the height of the top, as a force (N, lbf)."""


class ExtraMember(Node):
    """One more bar of the frame's material, where you want it."""

    name: Name
    """Name of the bar, in your own words, such as brace."""
    along: Literal["x", "y", "z"]
    """Direction of the bar: x runs to the right, y to the rear, z up."""
    at: tuple[Position, Position, Position]
    """Place of its lower left front corner: [X, Y, Z] from the frame's lower left front corner."""
    length: Length
    """Length of the bar from end to end, such as 400 mm."""


class ExtraPanel(Node):
    """One more board, where you want it."""

    name: Name
    """Name of the board, in your own words, such as stop."""
    material: Name = "ply-12"
    """Material of the board: the name of a sheet under `materials`."""
    at: tuple[Position, Position, Position]
    """Place of its lower left front corner: [X, Y, Z] from the frame's lower left front corner."""
    size: tuple[Length, Length, Length]
    """Sizes along [X, Y, Z]. One of them is the thickness of the sheet."""


class Extra(Node):
    """Bars and boards that you add. Their places are measured from the frame's lower left front corner."""

    panels: Annotated[tuple[ExtraPanel, ...], Field(max_length=100)] = ()
    """Boards that you add."""
    members: Annotated[tuple[ExtraMember, ...], Field(max_length=100)] = ()
    """Bars that you add."""


class AssemblyWishes(Node):
    """Wishes about the order of assembly.

    Use marks, groups, steps, `left end frame`, `right end frame` or `top grid`.
    """

    first: Annotated[tuple[Name, ...], Field(max_length=100)] = ()
    """What goes in as early as possible."""
    before: Annotated[tuple[tuple[Name, Name], ...], Field(max_length=100)] = ()
    """Pairs such as [B1, C7]: the first goes in before the second."""


class Spec(Node):
    """The whole spec. A key that you leave out has a default; the manual lists all defaults."""

    spec: Literal["1"]
    """Version of the spec language: 1."""
    title: Name
    """Title of the bench, printed on every page."""
    designer: Words = ""
    """Who designed the bench and answers questions."""
    revision: Revision = Field(default_factory=Revision)
    history: Annotated[tuple[PastRevision, ...], Field(max_length=100)] = ()
    """Earlier revisions, oldest first, for the table on the page Revisions."""
    licence: Words = ""
    """Licence under which others may build from this manual, such as CC-BY-4.0."""
    adapted_from: Annotated[tuple[Source, ...], Field(max_length=100)] = ()
    """Benches that this one was adapted from, the first one first; `bench-manual adapt` writes it."""
    units: Literal["mm", "in"] = "mm"
    """Unit of lengths without a unit, and of the printed manual: mm or in."""
    display: Display = Field(default_factory=Display)
    budget: Number | None = None
    """Most that all goods with a price may cost, in the currency of all prices, such as 900."""
    bench: BenchSize
    user: User = Field(default_factory=User)
    materials: dict[Name, AnyMaterial] = Field(default_factory=dict)
    """What the bench is made of, each under a name that you choose: measured values, or `use:` with a typical card."""
    saws: Saws = Field(default_factory=Saws)
    hardware: dict[Name, AnyHardware] = Field(default_factory=dict)
    """Fasteners, slides, brackets and supports, each under a name that you choose."""
    packs: dict[Name, Pack] = Field(default_factory=dict)
    """Packs and prices of hardware without a card. Use the names of the hardware list, such as `slide screw`."""
    totes: dict[Name, ToteCard] = Field(default_factory=dict)
    """Totes for the bays, each under a name that you choose."""
    frame: Frame = Field(default_factory=Frame)
    zones: Annotated[tuple[ZoneSpec, ...], Field(min_length=1, max_length=8)]
    """The zones, from front to rear. With one zone there is no spine."""
    panels: Panels = Field(default_factory=Panels)
    tray: Annotated[Tray, OrNone()] = Field(default_factory=Tray)
    """The board over the bays, or `none`."""
    drawers: Drawers = Field(default_factory=Drawers)
    shelves: Shelves = Field(default_factory=Shelves)
    doors: Doors = Field(default_factory=Doors)
    services: Annotated[tuple[Service, ...], Field(max_length=40)] = ()
    """Power and dust: socket strips and hose ports, each let into a board."""
    top: Top = Field(default_factory=Top)
    base: Base = Field(default_factory=Base)
    edges: EdgeBands = Field(default_factory=EdgeBands)
    finish: Finish = Field(default_factory=Finish)
    loads: Loads = Field(default_factory=Loads)
    room: Room = Field(default_factory=Room)
    join: Annotated[tuple[Join, ...], Field(max_length=4)] = ()
    """Other benches beside this one, bolted to it: a row, or an L."""
    limits: Limits = Field(default_factory=Limits)
    climate: Climate = Field(default_factory=Climate)
    grain: Annotated[dict[Name, Grain], Field(max_length=200)] = Field(default_factory=dict)
    """Boards whose grain runs another way than their material says, by mark or group: `{drawer face: width}`.

    The grain runs along the `length` or the `width`; `none` lets a board be turned on its sheet. A mark counts more
    than its group.
    """
    extra: Extra = Field(default_factory=Extra)
    assembly: AssemblyWishes = Field(default_factory=AssemblyWishes)
    site: Site = Field(default_factory=Site)
