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
    number: Name = "A"
    date: Words = ""
    reason: Words = ""


class Display(Node):
    inch_fraction: InchFraction = 32
    """Finest fraction of an inch that is printed."""


class RoundShares(Node):
    step: Length
    remainder: Name
    """Name of the bay that takes what rounding leaves."""


class BenchSize(Node):
    """Outside sizes; height from the floor to the work surface."""

    length: Length
    depth: Length
    height: Length
    round_shares: RoundShares | None = None


class User(Node):
    elbow_height: Length | None = None
    work: Literal["assembly", "planing", "outfeed"] = "assembly"
    saw_height: Length | None = None


class Stock(Node):
    """One length or size to buy, or `on_hand` in the shop."""

    length: Length
    width: Length | None = None
    price: Number | None = None
    count: Count | None = None
    on_hand: Flag = False
    lot: Words = ""


class Material(Node):
    use: Words = ""
    """Name of a typical data card; its values are marked "measure yours"."""
    measured: Words = ""
    """Date on which the values were measured."""
    stock: tuple[Stock, ...] = ()


class Slot(Node):
    opening: Length
    depth: Length
    lip: Length
    undercut: Length


class Profile(Material):
    kind: Literal["profile"]
    section: Length
    slot: Slot
    bore: Length
    mass: MassPerLength
    second_moment: SecondMoment
    modulus: Modulus = Fraction(70000)


class Sheet(Material):
    kind: Literal["sheet"]
    thickness: Length
    density: Density
    modulus: Modulus = Fraction(9000)
    grain: Literal["length", "width", "none"] = "length"


class Strip(Material):
    kind: Literal["strip"]
    thickness: Length
    width: Length
    density: Density


class Angle(Material):
    kind: Literal["angle"]
    leg: Length
    thickness: Length
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
    kerf: LengthOrZero = Fraction(4)
    end_trim: LengthOrZero = Fraction(10)


class SheetSaw(Node):
    kerf: LengthOrZero = Fraction(3)
    edge_trim: LengthOrZero = Fraction(10)


class Saws(Node):
    bar: BarSaw = Field(default_factory=BarSaw)
    sheet: SheetSaw = Field(default_factory=SheetSaw)


class HardwareItem(Node):
    use: Words = ""
    mass: Mass | None = None
    """Mass of one piece (of one pair, for slides)."""


class EndClip(HardwareItem):
    """`clip` is [length, width, thickness]; the clip rides in the crossing bar's slot."""

    kind: Literal["end clip"]
    clip: tuple[Length, Length, Length]
    head_height: Length
    screw: ScrewField
    key: Length
    access_hole: Length
    entry: Literal["slide-in", "roll-in"] = "slide-in"


class Counterbore(Node):
    diameter: Length
    depth: Length


class ThroughScrew(HardwareItem):
    kind: Literal["through screw"]
    screw: ScrewField
    hole: Length
    counterbore: Counterbore


class SlotNut(HardwareItem):
    kind: Literal["slot nut"]
    thread: Thread
    height: Length
    entry: Literal["slide-in", "roll-in"] = "slide-in"


class Slide(HardwareItem):
    """`holes` are measured from the slide's front end."""

    kind: Literal["slide"]
    length: Length
    height: Length
    thickness: Length
    side_space: Length
    holes: Annotated[tuple[Length, ...], Field(min_length=1, max_length=20)]
    rating: Mass
    travel: Length


class Caster(HardwareItem):
    """`plate` and `holes` are [X, Y]."""

    kind: Literal["caster"]
    height: Length
    wheel: Length
    trail: LengthOrZero
    plate: tuple[Length, Length]
    holes: tuple[Length, Length]
    rating: Mass


AnyHardware = Annotated[
    Annotated[EndClip, Tag("end clip")]
    | Annotated[ThroughScrew, Tag("through screw")]
    | Annotated[SlotNut, Tag("slot nut")]
    | Annotated[Slide, Tag("slide")]
    | Annotated[Caster, Tag("caster")],
    Discriminator(_kind),
]


class ToteCard(Node):
    use: Words = ""
    rim_width: Length
    body_width: Length
    length: Length
    height: Length
    rim_height: Length
    runner_gap: Length | None = None
    lift: Length = Fraction(12)
    load: Mass = Fraction(10)
    runner: Name | None = None
    """Material of the runners; by default that of the packing strips."""


class JointChoice(Node):
    default: Name = "end-clip"
    long_rails_to_corner_posts: Name = "through-screw"
    inner_post_tops: Name = "through-screw"


class ClampAccess(Node):
    """`opening` is [across, along] the slot."""

    opening: tuple[Length, Length] = (Fraction(16), Fraction(40))
    from_end: Length = Fraction(80)
    guide_bush: Length = Fraction(17)
    cutter: Length = Fraction(6)


class Frame(Node):
    material: Name = "bar"
    through: Literal["posts", "rails"] = "posts"
    joints: JointChoice = Field(default_factory=JointChoice)
    clamp_access: ClampAccess = Field(default_factory=ClampAccess)


class StackItem(Node):
    """One item of a bay's stack: exactly one of drawer, totes, shelf, open."""

    drawer: ShareOrLength | None = None
    totes: Name | None = None
    count: Count = 1
    """Number of totes."""
    shelf: Length | None = None
    open: ShareOrLength | None = None

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
    name: Words = ""
    width: ShareOrLength = Share(Fraction(1))
    stack: Annotated[tuple[StackItem, ...], Field(max_length=40)] = ()


class ZoneSpec(Node):
    name: Name
    depth: ShareOrLength = Share(Fraction(1))
    bays: Annotated[tuple[BaySpec, ...], Field(min_length=1, max_length=60)]


Wall = Literal["dividers", "ends", "spine", "back"]


class Panels(Node):
    material: Name = "ply-12"
    groove_clearance: LengthOrZero = Fraction(1, 5)
    tongue: Length | None = None
    """Default: the longest tongue that leaves 2 mm under it."""
    shoulder: LengthOrZero = Fraction(1, 2)
    notch_clearance: LengthOrZero = Fraction(2)
    walls: tuple[Wall, ...] | None = None


class Tray(Node):
    material: Name = "ply-12"
    end_rail_bottom: Length | None = None
    """Height above the frame's underside; by default it leaves a clamp gap of 130 mm or a little more."""
    trim: Name | None = None


class Drawers(Node):
    slide: Name = "slide"
    box: Name = "ply-12"
    bottom: Name = "ply-6"
    front: Name = "ply-18"
    packing: Name = "poplar-15"
    proud: LengthOrZero = Fraction(1)
    gap: LengthOrZero = Fraction(3)
    below: LengthOrZero = Fraction(10)
    above: LengthOrZero = Fraction(15)
    slide_axis: Length = Fraction(27)
    slide_setback: LengthOrZero = Fraction(2)
    groove: Length = Fraction(6)
    groove_up: Length = Fraction(8)
    """From the lower edge of a side to the groove for the bottom."""


class Shelves(Node):
    material: Name = "ply-18"
    cleat: Name = "poplar-15"


class Holes(Node):
    diameter: Length = Fraction(20)
    pitch: Length = Fraction(96)
    edge: Length = Fraction(60)
    keep_clear: LengthOrZero = Fraction(3)


class Top(Node):
    material: Name = "mdf-18"
    overhang: LengthOrZero = Fraction(0)
    holes: Holes | None = None
    bracket_thickness: Length = Fraction(4)


class Plate(Node):
    """`size` is [X, Y]."""

    size: tuple[Length, Length] = (Fraction(170), Fraction(170))
    thickness: Length = Fraction(10)


class Base(Node):
    casters: Name = "caster"
    count: Literal[4, 6] = 4
    plate: Plate = Field(default_factory=Plate)

    @model_validator(mode="before")
    @classmethod
    def _count_is_written_as_text(cls, value: Any) -> Any:
        if isinstance(value, dict) and value.get("count") in ("4", "6"):
            return {**value, "count": int(value["count"])}
        return value


class Loads(Node):
    drawer: Mass = Fraction(20)
    shelf: Mass = Fraction(15)
    top: Mass = Fraction(100)
    push: Force = Fraction(200)


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
    panels: Annotated[tuple[ExtraPanel, ...], Field(max_length=100)] = ()
    members: Annotated[tuple[ExtraMember, ...], Field(max_length=100)] = ()


class Spec(Node):
    """The whole spec. Every omitted key has a default, which the manual lists."""

    spec: Literal["1"]
    """Version of the language."""
    title: Name
    designer: Words = ""
    revision: Revision = Field(default_factory=Revision)
    licence: Words = ""
    units: Literal["mm", "in"] = "mm"
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
