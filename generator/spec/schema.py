"""The spec language: one class a mapping, one field a key. Names of keys are a contract; add, never rename.

Lengths are exact millimetres, masses kilograms, forces newtons, moduli MPa, second moments mm⁴.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, model_validator
from pydantic_core import PydanticCustomError

from generator.calculators.spacing import Share
from generator.spec.fields import (
    Count,
    Density,
    Flag,
    Force,
    InchFraction,
    Length,
    LengthOrZero,
    Mass,
    MassPerLength,
    Modulus,
    Name,
    Number,
    Position,
    ScrewField,
    SecondMoment,
    ShareOrLength,
    Thread,
    Words,
)


class Node(BaseModel):
    """A mapping of the spec. Unknown keys are refused; values never change after reading."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, validate_default=True, use_attribute_docstrings=True
    )


class Revision(Node):
    """Which issue of the spec this is, from when and why. Every page of the manual names it."""

    number: Name = "A"
    date: Words = ""
    """As you write it, such as 2026-11-02."""
    reason: Words = ""


class Display(Node):
    """How lengths are printed. The sums behind them are exact whatever stands here."""

    inch_fraction: InchFraction = 32
    """Finest fraction of an inch that is printed."""


class RoundShares(Node):
    """Rounds bays that are a `share` to widths that a tape can set. Only the remainder's zone is rounded."""

    step: Length
    """Each share is rounded down to a multiple of this."""
    remainder: Name
    """Name of the bay that takes what rounding leaves."""


class BenchSize(Node):
    """Outside sizes; height from the floor to the work surface."""

    length: Length
    depth: Length
    height: Length
    round_shares: RoundShares | None = None


class User(Node):
    """Who works at the bench and at what: what its height should suit."""

    elbow_height: Length | None = None
    """From the floor to the bent elbow, in shop shoes."""
    work: Literal["assembly", "planing", "outfeed"] = "assembly"
    saw_height: Length | None = None
    """From the floor to the saw's table, for an outfeed bench."""


class Stock(Node):
    """One length or size to buy, or `on_hand` in the shop."""

    length: Length
    width: Length | None = None
    price: Number | None = None
    """Of one piece, in any currency, the same for all entries."""
    count: Count | None = None
    on_hand: Flag = False
    """True for what lies in the shop already; it is not counted as something to buy."""
    lot: Words = ""
    """Batch or delivery, in your own words."""


class Material(Node):
    """What all materials have in common: the card they start from, the date of measuring, what is sold."""

    use: Words = ""
    """Name of a typical data card; its values are marked "measure yours"."""
    measured: Words = ""
    """Date on which the values were measured."""
    stock: tuple[Stock, ...] = ()


class Slot(Node):
    """The slot in each face of the bar, measured with calipers at a clean cut end."""

    opening: Length
    """Width of the mouth between the two lips: the groove that a tongue slides in."""
    depth: Length
    """From the bar's face to the floor of the slot."""
    lip: Length
    """Thickness of a lip, from the bar's face to the hollow behind it."""
    undercut: Length
    """Width of the hollow behind the lips, where a nut or clip sits."""


class Profile(Material):
    """A square bar with one slot in each face and a bore in its core, for the frame."""

    kind: Literal["profile"]
    section: Length
    """Outside of the square, face to face."""
    slot: Slot
    bore: Length
    """Diameter of the core hole at a cut end, before it is tapped."""
    mass: MassPerLength
    """Mass of a running metre (kg/m, lb/ft)."""
    second_moment: SecondMoment
    """Second moment of area of the section, from the maker's table (cm^4, in^4)."""
    modulus: Modulus = Fraction(70000)
    """Modulus of elasticity; 70 GPa is aluminium."""


class Sheet(Material):
    """A board that is sold in sheets: plywood, MDF."""

    kind: Literal["sheet"]
    thickness: Length
    """Mean of six measured points, never the nominal one: tongues and rabbets are cut by it."""
    density: Density
    modulus: Modulus = Fraction(9000)
    """Modulus of elasticity in bending; 9 GPa is usual for plywood, 2.5 GPa for MDF (common practice)."""
    grain: Literal["length", "width", "none"] = "length"
    """Which size of a part its grain follows; `none` for boards without grain."""


class Strip(Material):
    """Solid wood planed to a section, for packing strips, runners and cleats."""

    kind: Literal["strip"]
    thickness: Length
    """As bought; packing strips are planed down to what the slides need."""
    width: Length
    density: Density


class Angle(Material):
    """An equal angle, for the long edges of the tray."""

    kind: Literal["angle"]
    leg: Length
    """Outside width of either leg."""
    thickness: Length
    """Thickness of a leg."""
    density: Density = Fraction(2700)


def _kind(value: Any) -> Any:
    return value.get("kind") if isinstance(value, dict) else getattr(value, "kind", None)


AnyMaterial = Annotated[
    Annotated[Profile, Tag("profile")]
    | Annotated[Sheet, Tag("sheet")]
    | Annotated[Strip, Tag("strip")]
    | Annotated[Angle, Tag("angle")],
    Discriminator(_kind),
]


class BarSaw(Node):
    """What is lost when bars, strips and angles are cut."""

    kerf: LengthOrZero = Fraction(4)
    """Width of the cut, once a piece."""
    end_trim: LengthOrZero = Fraction(10)
    """Cut off at both ends of a stock length."""


class SheetSaw(Node):
    """What is lost when sheets are cut."""

    kerf: LengthOrZero = Fraction(3)
    """Width of the cut."""
    edge_trim: LengthOrZero = Fraction(10)
    """Cut off along all four edges of a stock sheet."""


class Saws(Node):
    """The cuts of your own saws."""

    bar: BarSaw = Field(default_factory=BarSaw)
    sheet: SheetSaw = Field(default_factory=SheetSaw)


class HardwareItem(Node):
    """What all bought fittings have in common."""

    use: Words = ""
    """Name of a typical data card; its values are marked "measure yours"."""
    mass: Mass | None = None
    """Mass of one piece (of one pair, for slides)."""


class EndClip(HardwareItem):
    """A butt joint: a screw in the bar's tapped end holds a clip that rides in the crossing bar's slot."""

    kind: Literal["end clip"]
    clip: tuple[Length, Length, Length]
    """[length, width, thickness]; length along the slot."""
    head_height: Length
    """Height of the screw's head above the clip."""
    screw: ScrewField
    key: Length
    """Width across flats of the key that turns the screw."""
    access_hole: Length
    """Diameter of the hole through the crossing bar, by which the key reaches the screw."""
    entry: Literal["slide-in", "roll-in"] = "slide-in"
    """Whether the clip goes into the slot from the bar's end only, or anywhere along it."""


class Counterbore(Node):
    """A flat-bottomed bore that sinks a screw's head; depth from the bar's face."""

    diameter: Length
    depth: Length


class ThroughScrew(HardwareItem):
    """A butt joint that pulls: a screw through the crossing bar into the other bar's tapped end."""

    kind: Literal["through screw"]
    screw: ScrewField
    hole: Length
    """Diameter of the clearance hole below the counterbore."""
    counterbore: Counterbore


class SlotNut(HardwareItem):
    """A nut in the bar's slot. The first one that the spec defines takes the caster plates and top brackets."""

    kind: Literal["slot nut"]
    thread: Thread
    height: Length
    """Thickness of the nut along its bolt."""
    entry: Literal["slide-in", "roll-in"] = "slide-in"
    """Whether the nut goes into the slot from the bar's end only, or anywhere along it."""


class Slide(HardwareItem):
    """A pair of drawer slides. Sizes are those of one slide, closed."""

    kind: Literal["slide"]
    length: Length
    height: Length
    """Height of the slide; its axis lies in the middle."""
    thickness: Length
    """Thickness of the slide itself."""
    side_space: Length
    """Space between packing and drawer box on each side, as the maker asks for it."""
    holes: Annotated[tuple[Length, ...], Field(min_length=1, max_length=20)]
    """Screw holes, each from the slide's front end."""
    rating: Mass
    """Mass that a pair may carry."""
    travel: Length
    """How far the drawer comes out."""


class Caster(HardwareItem):
    """A swivel caster on a plate. `plate` and `holes` are [X, Y]."""

    kind: Literal["caster"]
    height: Length
    """From the floor to the top of the caster's own plate."""
    wheel: Length
    """Diameter of the wheel."""
    trail: LengthOrZero
    """How far the axle lies behind the swivel's axis, measured level."""
    plate: tuple[Length, Length]
    holes: tuple[Length, Length]
    """Distances between the centres of the plate's four holes."""
    rating: Mass
    """Mass that one caster may carry."""


AnyHardware = Annotated[
    Annotated[EndClip, Tag("end clip")]
    | Annotated[ThroughScrew, Tag("through screw")]
    | Annotated[SlotNut, Tag("slot nut")]
    | Annotated[Slide, Tag("slide")]
    | Annotated[Caster, Tag("caster")],
    Discriminator(_kind),
]


class ToteCard(Node):
    """A storage tote that hangs by its rim on two runners. Measure the tote, not the catalogue."""

    use: Words = ""
    rim_width: Length
    """Outside width over the rim, across the two runners."""
    body_width: Length
    """Outside width of the body just below the rim, where it passes between the runners."""
    length: Length
    """From front to back, over the rim."""
    height: Length
    """From the underside to the top of the rim."""
    rim_height: Length
    """From the top of the rim down to its underside, which lies on the runners."""
    runner_gap: Length | None = None
    """Clear width between the runners; by default midway between too tight and too little bearing."""
    lift: Length = Fraction(12)
    """Free height above a tote, to lift it clear of the next one."""
    load: Mass = Fraction(10)
    """Mass of what one tote holds."""
    runner: Name | None = None
    """Material of the runners; by default that of the packing strips."""


class JointChoice(Node):
    """Which fastener joins which bars, each by its name under `hardware`."""

    default: Name = "end-clip"
    """For all ends of bars that the keys below do not name."""
    long_rails_to_corner_posts: Name = "through-screw"
    inner_post_tops: Name = "through-screw"
    """For the heads of the posts between the corner posts."""


class ClampAccess(Node):
    """Openings routed through the lips of outward slots, to get at the slot. `opening` is [across, along] it."""

    opening: tuple[Length, Length] = (Fraction(16), Fraction(40))
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
    clamp_access: ClampAccess = Field(default_factory=ClampAccess)


class StackItem(Node):
    """One item of a bay's stack: exactly one of drawer, totes, shelf, open."""

    drawer: ShareOrLength | None = None
    """Height of the drawer's front, or a share of what the rest of the stack leaves."""
    totes: Name | None = None
    """Name of a tote under `totes`."""
    count: Count = 1
    """Number of totes."""
    shelf: Length | None = None
    """From the top of the base rail to the top of the shelf."""
    open: ShareOrLength | None = None
    """Height of a space that stays empty, or a share."""

    @model_validator(mode="after")
    def _exactly_one(self) -> StackItem:
        given = [key for key in ("drawer", "totes", "shelf", "open") if getattr(self, key) is not None]
        if len(given) != 1 or ("count" in self.model_fields_set and given != ["totes"]):
            raise PydanticCustomError(
                "stack-item",
                "{message}",
                {
                    "message": "an item of a stack is one thing",
                    "found": ", ".join(sorted(self.model_fields_set)) or "nothing",
                    "allowed": "one of drawer, totes (with count), shelf, open",
                },
            )
        return self


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
    depth: ShareOrLength = Share(Fraction(1))
    """Clear depth between the two rows of posts, or a share of what the other zones leave."""
    bays: Annotated[tuple[BaySpec, ...], Field(min_length=1, max_length=60)]
    """From left to right, seen from the front."""


Wall = Literal["dividers", "ends", "spine", "back"]


class Panels(Node):
    """The sheets that close the frame. Their tongues, rabbeted alike from both faces, slide in the bars' slots."""

    material: Name = "ply-12"
    """Name of a sheet under `materials`; the tray has its own."""
    groove_clearance: LengthOrZero = Fraction(1, 5)
    """Opening of the slot less thickness of the tongue, both sides together."""
    tongue: Length | None = None
    """How far the tongue enters the slot; by default the longest that leaves 2 mm under it."""
    shoulder: LengthOrZero = Fraction(1, 2)
    """By how much a rabbet is longer than its tongue, so that the shoulder clears the bar's face."""
    notch_clearance: LengthOrZero = Fraction(2)
    """Play around what a notch or cut-out makes room for: clip, corner, post."""
    walls: tuple[Wall, ...] | None = None
    """By default dividers and ends, with a spine between zones or a back behind a single one."""


class Tray(Node):
    """The board over the bays, captured in both end frames. Between it and the top there is room to clamp."""

    material: Name = "ply-12"
    end_rail_bottom: Length | None = None
    """Height above the frame's underside; by default it leaves a clamp gap of 130 mm or a little more."""
    trim: Name | None = None
    """Name of an angle under `materials` for both long edges; without it they stay bare."""


class Drawers(Node):
    """The rules of all drawers. A stack's `drawer` is the height of a front; the rest follows from these."""

    slide: Name = "slide"
    """Name of a slide under `hardware`; its length is the depth of the boxes."""
    box: Name = "ply-12"
    bottom: Name = "ply-6"
    front: Name = "ply-18"
    packing: Name = "poplar-15"
    """Name of a strip under `materials`; it brings the slides out from the wall."""
    proud: LengthOrZero = Fraction(1)
    """How far the packing stands out beyond the bars' faces, into the bay."""
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
    groove: Length = Fraction(6)
    """Depth of the groove for the bottom."""
    groove_up: Length = Fraction(8)
    """From the lower edge of a side to the groove for the bottom."""


class Shelves(Node):
    """Shelves lie on cleats at the walls and reach behind the posts. Both keys name `materials`."""

    material: Name = "ply-18"
    cleat: Name = "poplar-15"


class Holes(Node):
    """A grid of dog holes through the top, in equal margins."""

    diameter: Length = Fraction(20)
    pitch: Length = Fraction(96)
    """From centre to centre, both ways."""
    edge: Length = Fraction(60)
    """Least distance from the top's edge to the centre of a hole."""
    keep_clear: LengthOrZero = Fraction(3)
    """Least wood between a hole and the side of a bar below; holes that are nearer are left out."""


class Top(Node):
    """The board to work on. Without `holes` it stays plain."""

    material: Name = "mdf-18"
    overhang: LengthOrZero = Fraction(0)
    """Beyond the frame, on all four sides alike."""
    holes: Holes | None = None
    bracket_thickness: Length = Fraction(4)
    """Thickness of the top brackets under their bolts' washers."""


class Plate(Node):
    """The plate between frame and caster, flush with the frame's outside. `size` is [X, Y]."""

    size: tuple[Length, Length] = (Fraction(170), Fraction(170))
    thickness: Length = Fraction(10)


class Base(Node):
    """What the bench stands on: a caster in each corner, with six also one in the middle of each long side."""

    casters: Name = "caster"
    """Name of a caster under `hardware`."""
    count: Literal[4, 6] = 4
    plate: Plate = Field(default_factory=Plate)

    @model_validator(mode="before")
    @classmethod
    def _count_is_written_as_text(cls, value: Any) -> Any:
        if isinstance(value, dict) and value.get("count") in ("4", "6"):
            return {**value, "count": int(value["count"])}
        return value


class Loads(Node):
    """What the bench has to carry. The masses, with those of the totes, make the load on its casters."""

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
    along: Literal["x", "y", "z"]
    at: tuple[Position, Position, Position]
    length: Length


class ExtraPanel(Node):
    """A board with its low corner at `at` and `size` along X, Y, Z; one size is the sheet's thickness."""

    name: Name
    material: Name = "ply-12"
    at: tuple[Position, Position, Position]
    size: tuple[Length, Length, Length]


class Extra(Node):
    """Bars and boards beyond the plan. Places count from the frame's front left corner at its underside."""

    panels: Annotated[tuple[ExtraPanel, ...], Field(max_length=100)] = ()
    members: Annotated[tuple[ExtraMember, ...], Field(max_length=100)] = ()


class AssemblyWishes(Node):
    """Wishes about the order. Names are marks, groups, steps, `left end frame`, `right end frame`, `top grid`."""

    first: Annotated[tuple[Name, ...], Field(max_length=100)] = ()
    before: Annotated[tuple[tuple[Name, Name], ...], Field(max_length=100)] = ()
    """Pairs: the first of each goes in before the second."""


class Spec(Node):
    """The whole spec. Every omitted key has a default, which the manual lists."""

    spec: Literal["1"]
    """Version of the language."""
    title: Name
    designer: Words = ""
    revision: Revision = Field(default_factory=Revision)
    licence: Words = ""
    """The terms on which others may build from this manual."""
    units: Literal["mm", "in"] = "mm"
    """Unit of a length that names none, and the unit in which the manual is printed."""
    display: Display = Field(default_factory=Display)
    bench: BenchSize
    user: User = Field(default_factory=User)
    materials: dict[Name, AnyMaterial] = Field(default_factory=dict)
    saws: Saws = Field(default_factory=Saws)
    hardware: dict[Name, AnyHardware] = Field(default_factory=dict)
    totes: dict[Name, ToteCard] = Field(default_factory=dict)
    frame: Frame = Field(default_factory=Frame)
    zones: Annotated[tuple[ZoneSpec, ...], Field(min_length=1, max_length=8)]
    panels: Panels = Field(default_factory=Panels)
    tray: Tray = Field(default_factory=Tray)
    drawers: Drawers = Field(default_factory=Drawers)
    shelves: Shelves = Field(default_factory=Shelves)
    top: Top = Field(default_factory=Top)
    base: Base = Field(default_factory=Base)
    loads: Loads = Field(default_factory=Loads)
    extra: Extra = Field(default_factory=Extra)
    assembly: AssemblyWishes = Field(default_factory=AssemblyWishes)
