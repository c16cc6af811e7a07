"""The goods that a spec describes: materials and hardware as data cards, totes, and the saws' kerfs.

Lengths are exact millimetres, masses kilograms, forces newtons, moduli MPa, second moments mm⁴.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from generator.spec.fields import (
    Count,
    Density,
    Flag,
    Length,
    LengthOrZero,
    Mass,
    MassPerLength,
    Modulus,
    Name,
    Number,
    PackSize,
    SecondMoment,
    Stages,
    Thread,
    WoodScrewField,
    Words,
)
from generator.spec.item import HardwareItem, Node
from generator.spec.joints import AnyJoint
from generator.spec.stands import AnyStandGood


class Stock(Node):
    """One length or size to buy, or `on_hand` in the shop."""

    length: Length
    """Length of the bar, strip or sheet."""
    width: Length | None = None
    """Width of the sheet; bars and strips have none."""
    price: Number | None = None
    """Of one piece, in any currency, the same for all entries."""
    count: Count | None = None
    """How many there are; without it, as many as you buy."""
    on_hand: Flag = False
    """True for stock that you already have. It is not on the shopping list."""
    lot: Words = ""
    """Batch or delivery, in your own words."""


class Material(Node):
    """What all materials have in common: the card they start from, the date of measuring, what is sold."""

    use: Words = ""
    """Name of a typical data card; its values are marked "measure yours"."""
    label: Words = ""
    """What it is, as a shop calls it: `birch plywood`. Its size is put before it, unless the label has a number."""
    measured: Words = ""
    """Date on which the values were measured."""
    stock: tuple[Stock, ...] = ()
    """What is sold, and what you have in the shop."""


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
    tolerance: LengthOrZero = Fraction(1, 10)
    """How far opening and depth stray either way along one lot (common practice)."""


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


Grain = Literal["length", "width", "none"]
"""The size of a board that its grain follows."""


class Sheet(Material):
    """A board that is sold in sheets: plywood, MDF."""

    kind: Literal["sheet"]
    thickness: Length
    """Mean of six measured points, never the nominal one: tongues and rabbets are cut by it."""
    spread: LengthOrZero | None = None
    """Largest less smallest of the six points. By default 0.2 mm, or what its standard allows if not measured."""
    density: Density
    modulus: Modulus = Fraction(9000)
    """Modulus of elasticity in bending; 9 GPa is usual for plywood, 2.5 GPa for MDF (common practice)."""
    grain: Grain = "length"
    """Which size of a part its grain follows; `none` for boards without grain. Of a sheet it follows the `length`."""


class Strip(Material):
    """Solid wood planed to a section, for packing strips, runners and cleats."""

    kind: Literal["strip"]
    thickness: Length
    """As bought; packing strips are planed down to what the slides need, so buy them 2 mm thicker than that."""
    width: Length
    """Width as bought."""
    density: Density
    species: Words = "yellow-poplar"
    """Wood, for its movement with the seasons; an unknown one moves as the liveliest in the table."""


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
    least_offcut: Length = Fraction(300)
    """Off-cuts from this length on are kept and offered as stock; common practice, no source."""


class BreakDownRule(Node):
    """When a sheet is broken down by track saw before it goes to the fence."""

    max_length: Length
    """The longest part that you take to the fence."""
    allowance: LengthOrZero = Fraction(5)
    """By how much a part is left too long, for its final cut at the fence."""


class SheetSaw(Node):
    """What is lost when sheets are cut."""

    kerf: LengthOrZero = Fraction(3)
    """Width of the cut."""
    edge_trim: LengthOrZero = Fraction(10)
    """Cut off along all four edges of a stock sheet."""
    stages: Stages | None = None
    """How many runs of cuts in one direction there may be at most, as a panel saw asks for; 3 suits most."""
    break_down: BreakDownRule | None = None
    """For sheets that are too long for the saw; leave it out when yours takes whole sheets."""
    least_offcut: tuple[Length, Length] = (Fraction(300), Fraction(150))
    """Off-cuts from this size on, lying either way, are kept and offered as stock; common practice, no source."""


class Saws(Node):
    """The cuts of your own saws."""

    bar: BarSaw = Field(default_factory=BarSaw)
    sheet: SheetSaw = Field(default_factory=SheetSaw)


class SlotNut(HardwareItem):
    """A nut in the bar's slot, for the bolts of the stand's plates and of top brackets."""

    kind: Literal["slot nut"]
    thread: Thread
    """Thread that the nut takes."""
    height: Length
    """Thickness of the nut along its bolt."""
    entry: Literal["slide-in", "roll-in"] = "slide-in"
    """Whether the nut goes into the slot from the bar's end only, or anywhere along it."""


class Bracket(HardwareItem):
    """An angle that holds the top: one leg on the bar's inner side, the other under the top."""

    kind: Literal["bracket"]
    size: tuple[Length, Length, Length]
    """[along the bar, leg, thickness]; both legs are the same."""
    holes: Annotated[tuple[Length, ...], Field(min_length=1, max_length=20)]
    """Holes for the wood screws in the leg under the top, each measured from the bar's side."""
    screw: WoodScrewField
    """Wood screw into the top."""


class Slide(HardwareItem):
    """A pair of drawer slides. Sizes are those of one slide, closed."""

    kind: Literal["slide"]
    length: Length
    """Closed length; the boxes are as deep."""
    height: Length
    """Height of the slide. Its axis is in the middle."""
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


AnyHardware = Annotated[
    AnyJoint
    | Annotated[SlotNut, Tag("slot nut")]
    | Annotated[Slide, Tag("slide")]
    | Annotated[Bracket, Tag("bracket")]
    | AnyStandGood,
    Discriminator(_kind),
]


class Pack(Node):
    """How hardware without a card of its own is sold."""

    pack: PackSize | None = None
    """Pieces in a pack; by default it is sold by the piece."""
    price: Number | None = None
    """Of one pack, or of one piece where no pack is named."""


class ToteCard(Node):
    """A storage tote that hangs by its rim on two runners. Measure the tote, not the catalogue."""

    use: Words = ""
    """Name of a typical data card; its values are marked "measure yours"."""
    measured: Words = ""
    """Date on which the values were measured."""
    rim_width: Length
    """Outside width over the rim, across the two runners."""
    body_width: Length
    """Outside width of the body just below the rim, where it passes between the runners."""
    length: Length
    """From front to back, over the rim."""
    height: Length
    """From the underside to the top of the rim."""
    rim_height: Length
    """From the top of the rim down to its underside, which rests on the runners."""
    runner_gap: Length | None = None
    """Clear width between the runners; by default midway between too tight and too little bearing."""
    lift: Length = Fraction(12)
    """Free height above a tote, to lift it clear of the next one."""
    load: Mass = Fraction(10)
    """Mass of what one tote holds."""
    runner: Name | None = None
    """Material of the runners; by default that of the packing strips."""
