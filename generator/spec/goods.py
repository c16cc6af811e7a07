"""The goods that a spec describes: materials and hardware as data cards, totes, and the saws' kerfs.

Lengths are exact millimetres, masses kilograms, forces newtons, moduli MPa, second moments mm⁴.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal, Self

from pydantic import Discriminator, Field, Tag, model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.bracing import CornerBracket, PanelBracket
from generator.spec.edge_bands import EdgeBanding
from generator.spec.fields import (
    Date,
    Force,
    Length,
    LengthOrZero,
    Mass,
    MassPerLength,
    Modulus,
    Moisture,
    Name,
    Number,
    PackSize,
    SecondMoment,
    Stages,
    Thread,
    WoodScrewField,
    Words,
    number_field,
)
from generator.spec.fillings.doors import Catch, Hinge
from generator.spec.fillings.pulls import EdgeGrip, Pull
from generator.spec.frames import AnyFrameMaterial
from generator.spec.item import FROM, HardwareItem, Look, Node, Outline
from generator.spec.joining import JoiningBolt
from generator.spec.joints import AnyJoint
from generator.spec.material import Material
from generator.spec.plausible import BoardDensity, Kerf, MetalDensity, Planing, WoodDensity
from generator.spec.services import HosePort, SocketStrip
from generator.spec.stands import AnyStandGood


class Slot(Node):
    """The slot in each face of the bar, measured with calipers at a clean cut end."""

    opening: Length
    """Width of the mouth between the two lips. The tongue slides in it."""
    depth: Length
    """Depth from the face of the bar to the floor of the slot."""
    lip: Length
    """Thickness of a lip, from the face of the bar to the hollow behind it."""
    undercut: Length
    """Width of the hollow behind the lips, where a nut or clip sits."""
    nut_force: Force | None = None
    """Pull that one nut in the slot bears, by the maker of the bar, such as 5 kN. Default: by the lip's thickness."""
    tolerance: LengthOrZero = Fraction(1, 10)
    """How far opening and depth differ, plus or minus, along one delivery (common practice)."""


class Profile(Material):
    """A square bar with one slot in each face and a bore in its core, for the frame."""

    kind: Literal["profile"]
    """Kind of the goods: profile."""
    section: Length
    """Outside size of the square bar, face to face."""
    slot: Slot
    bore: Length
    """Diameter of the hole in the middle of a cut end, before it is tapped."""
    mass: MassPerLength
    """Mass per length (kg/m, lb/ft)."""
    second_moment: SecondMoment
    """Second moment of area of the section, from the maker's table (cm^4, in^4)."""
    modulus: Modulus = Fraction(70000)
    """Modulus of elasticity. Aluminium has 70 GPa."""


Grain = Literal["length", "width", "none"]
"""The size of a board along which its grain runs."""


class Sheet(Material):
    """A board that is sold in sheets: plywood, MDF."""

    kind: Literal["sheet"]
    """Kind of the goods: sheet."""
    thickness: Length
    """Mean of six measured points, never the nominal thickness. Tongues and rabbets are cut to it."""
    spread: LengthOrZero | None = None
    """Largest minus smallest of the six points. Default: 0.2 mm, or the tolerance of its standard if not measured."""
    density: BoardDensity
    """Mass per volume."""
    modulus: Modulus = Fraction(9000)
    """Modulus of elasticity in bending: usually 9 GPa for plywood, 2.5 GPa for MDF (common practice)."""
    creep: Annotated[Fraction, *number_field(1, 10, "a factor of creep", "")] = Fraction(9, 5)
    """How many times its first sag a board reaches under a load that stays for years: 1.8 plywood, 3.25 MDF."""
    species: Words | None = None
    """Kind of wood of boards of solid wood, such as beech, for their movement. Leave it out for plywood and MDF."""
    moisture: Moisture | None = None
    """Moisture of boards of solid wood when you cut them, in per cent, such as 9: the mean of nine readings."""
    moisture_spread: Annotated[Fraction, *number_field(0, 30, "per cent of moisture")] | None = None
    """Highest less lowest of the nine readings, three in each of three boards, in per cent. More than 2 is a mix."""
    sawn: Literal["flat", "quarter"] = "flat"
    """How boards of solid wood were sawn. Those with their rings upright, `quarter`, move half as much in width."""
    strip: Length | None = None
    """Widest strip from which boards of solid wood are glued up. Default: boards are bought as wide as they are."""
    oversize: tuple[LengthOrZero, LengthOrZero] = (Fraction(30), Fraction(10))
    """How much longer and wider a board is glued up than it is cut, [along, across] the grain."""
    planing: Planing = Fraction(0)
    """How much thicker rough boards of solid wood are bought, to plane both faces. Default: they are bought planed."""
    grain: Grain = "length"
    """Along which size of a part the grain runs; `none` for boards without grain. On a sheet it is the `length`."""


class Strip(Material):
    """Solid wood planed to a section, for packing strips, runners and cleats."""

    kind: Literal["strip"]
    """Kind of the goods: strip."""
    thickness: Length
    """Thickness as bought. Packing strips are planed to the thickness in the cut list, so buy them 2 mm thicker."""
    width: Length
    """Width as bought."""
    density: WoodDensity
    """Mass per volume."""
    species: Words = "yellow-poplar"
    """Kind of wood, for its movement with the seasons. An unknown one is taken as the one that moves most."""


class Angle(Material):
    """An equal angle, for the long edges of the tray."""

    kind: Literal["angle"]
    """Kind of the goods: angle."""
    leg: Length
    """Outside width of either leg."""
    thickness: Length
    """Thickness of a leg."""
    density: MetalDensity = Fraction(2700)
    """Mass per volume. Aluminium has 2700 kg/m^3."""


def _kind(value: Any) -> Any:
    return value.get("kind") if isinstance(value, dict) else getattr(value, "kind", None)


AnyMaterial = Annotated[
    Annotated[Profile, Tag("profile")]
    | AnyFrameMaterial
    | Annotated[Sheet, Tag("sheet")]
    | Annotated[Strip, Tag("strip")]
    | Annotated[Angle, Tag("angle")],
    Discriminator(_kind),
]


class BarSaw(Node):
    """What is lost when bars, strips and angles are cut."""

    kerf: Kerf = Fraction(4)
    """Width of the saw cut."""
    end_trim: LengthOrZero = Fraction(10)
    """Length that is cut off at both ends of each bar."""
    least_offcut: Length = Fraction(300)
    """Off-cuts of this length or more are kept as stock (common practice)."""


class BreakDownRule(Node):
    """When to cut a sheet into smaller parts with the track saw before it goes to the fence."""

    max_length: Length
    """Length of the longest part that you can cut at the fence, such as 1500 mm."""
    allowance: LengthOrZero = Fraction(5)
    """Extra length that is left on a part for its final cut at the fence."""
    kerf: Kerf | None = None
    """Width of the track saw's cut. Default: the same as `saws.sheet.kerf`."""

    @model_validator(mode="after")
    def _allowance_leaves_a_part(self) -> Self:
        if 2 * self.allowance <= self.max_length:
            return self
        raise PydanticCustomError(
            Code.OUT_OF_RANGE, "{message}",
            {
                "message": "this allowance is too large for the parts",
                "found": f"{float(self.allowance):g} mm",
                "allowed": f"from 0 to {float(self.max_length / 2):g} mm, half of `max_length`",
            },
        )  # fmt: skip


class SheetSaw(Node):
    """What is lost when sheets are cut."""

    kerf: Kerf = Fraction(3)
    """Width of the saw cut."""
    edge_trim: LengthOrZero = Fraction(10)
    """Width that is cut off along all four edges of each sheet."""
    stages: Stages = 3
    """How many stages of cuts a sheet may take, each in one direction: rip, cross and trim are 3. `free`: no limit."""
    least_feed: Length = Fraction(300)
    """Longer side of the smallest part that you push through the saw (common practice)."""
    clear: LengthOrZero = Fraction(5)
    """What stays free around each of the `defects` of a board, where the grain is wild."""
    break_down: BreakDownRule | None = None
    """For sheets that are too long for the saw. Leave it out if your saw takes whole sheets."""
    least_offcut: tuple[Length, Length] = (Fraction(300), Fraction(150))
    """Off-cuts of this size or more, turned either way, are kept as stock (common practice)."""


class Saws(Node):
    """What your saws cut away."""

    bar: BarSaw = Field(default_factory=BarSaw)
    sheet: SheetSaw = Field(default_factory=SheetSaw)


class SlotNut(HardwareItem):
    """A nut in the slot of a bar, for the bolts of the plates below and of top brackets."""

    kind: Literal["slot nut"]
    """Kind of the goods: slot nut."""
    thread: Thread
    """Thread of the nut."""
    height: Length
    """Thickness of the nut, along its bolt."""
    entry: Literal["slide-in", "roll-in"] = "slide-in"
    """How the nut goes into the slot: slide-in from the end of the bar, or roll-in anywhere."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        wide = 2 * self.height
        return (Outline("from the side, its width not on its card", (wide, self.height), guessed=True),)


class Bracket(HardwareItem):
    """An angle that holds the top: one leg is on the inner side of the bar, the other under the top."""

    kind: Literal["bracket"]
    """Kind of the goods: bracket."""
    size: tuple[Length, Length, Length]
    """[length along the bar, leg, thickness]. Both legs are the same."""
    holes: Annotated[tuple[Length, ...], Field(min_length=1, max_length=20)]
    """Holes for wood screws in the leg under the top. Each distance is from the side of the bar."""
    slot: Length | None = None
    """Length of the holes across the bar, where they are slots that let a top of solid wood move."""
    screw: WoodScrewField
    """Wood screw from the bracket into the top."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        length, leg, thickness = self.size
        holes = tuple((length / 2, at, Fraction(0)) for at in self.holes)
        return (
            Outline("leg under the top", (length, leg), holes),
            Outline("from the end", (leg, leg), leg=thickness),
        )

    @model_validator(mode="after")
    def _holes_are_in_the_leg(self) -> Self:
        _, leg, thickness = self.size
        half = (self.slot or Fraction(0)) / 2
        if all(thickness <= at - half and at + half <= leg for at in self.holes):
            return self
        raise PydanticCustomError(
            Code.NO_SIZE, "{message}",
            {
                "message": "a hole or slot of this bracket is not within its leg",
                "found": f"`holes` and `slot` in a leg of {float(leg):g} mm",
                "allowed": f"all of each hole from {float(thickness):g} to {float(leg):g} mm from the side of the bar",
            },
        )  # fmt: skip


class Slide(HardwareItem):
    """A pair of drawer slides. The sizes are those of one closed slide."""

    kind: Literal["slide"]
    """Kind of the goods: slide."""
    length: Length
    """Length of the closed slide. The drawer boxes are as deep."""
    height: Length
    """Height of the slide. The screws are in the middle of it."""
    thickness: Length
    """Thickness of the slide itself."""
    side_space: Length
    """Space between packing strip and drawer box on each side, as the maker of the slide asks."""
    holes: Annotated[tuple[Length, ...], Field(min_length=1, max_length=20)]
    """Screw holes. Each distance is from the front end of the slide."""
    rating: Mass
    """Mass that one pair may carry."""
    travel: Length
    """How far the drawer comes out."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        holes = tuple((at, self.height / 2, Fraction(0)) for at in self.holes)
        return (Outline("from the side, with its screw holes", (self.length, self.height), holes),)


AnyHardware = Annotated[
    AnyJoint
    | Annotated[SlotNut, Tag("slot nut")]
    | Annotated[Slide, Tag("slide")]
    | Annotated[Bracket, Tag("bracket")]
    | Annotated[CornerBracket, Tag("corner bracket")]
    | Annotated[PanelBracket, Tag("panel bracket")]
    | Annotated[JoiningBolt, Tag("joining bolt")]
    | Annotated[SocketStrip, Tag("socket strip")]
    | Annotated[HosePort, Tag("hose port")]
    | Annotated[Pull, Tag("pull")]
    | Annotated[EdgeGrip, Tag("edge grip")]
    | Annotated[Hinge, Tag("hinge")]
    | Annotated[Catch, Tag("catch")]
    | Annotated[EdgeBanding, Tag("edge banding")]
    | AnyStandGood,
    Discriminator(_kind),
]


class Pack(Node):
    """How hardware without a card is sold."""

    pack: PackSize | None = None
    """Pieces in a pack. Default: sold singly."""
    price: Number | None = None
    """Price of one pack, or of one piece without `pack`."""
    __annotations__["from"] = FROM


class ToteCard(Node):
    """A storage tote that hangs by its rim on two runners. Measure the tote, not the catalogue."""

    use: Words = ""
    """Name of a typical data card, such as `plywood 12`. Its values are marked "measure yours"."""
    measured: Date = ""
    """Date on which you measured the values, such as 2026-10-28."""
    rim_width: Length
    """Outside width of the rim, across the two runners."""
    body_width: Length
    """Outside width of the body just below the rim. It passes between the runners."""
    length: Length
    """Length from front to rear, outside the rim."""
    height: Length
    """Height from the underside to the top of the rim."""
    rim_height: Length
    """Height of the rim, from its top to its underside. The underside rests on the runners."""
    runner_gap: Length | None = None
    """Clear width between the runners. Default: the middle between too tight and too loose."""
    lift: Length = Fraction(12)
    """Free height above a tote, to lift it out."""
    load: Mass = Fraction(10)
    """Mass of the contents of one tote."""
    runner: Name | None = None
    """Material of the runners: the name of a strip. Default: that of the packing strips."""
