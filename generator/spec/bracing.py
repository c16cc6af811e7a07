"""What stiffens a frame, in a spec: brackets in its corners, and brackets that fix its panels to the bars."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Length, Name, WoodScrewField
from generator.spec.item import HardwareItem, Look, Node, Outline
from generator.spec.joints.card import Stiffness

#: Corners that take a bracket: under the top rails at the corner posts and at the inner posts, under the end members.
Corner = Literal["long corners", "inner posts", "end corners"]


class CornerBracket(HardwareItem):
    """An angle in a corner of the frame: one leg on the post, one under the rail, each bolted to slot nuts."""

    kind: Literal["corner bracket"]
    """Kind of the goods: corner bracket."""
    leg: Length
    """Length of each leg, from the corner."""
    width: Length
    """Width of the legs, no wider than the bar."""
    thickness: Length
    """Thickness of the legs under the bolts."""
    holes: Annotated[tuple[Length, ...], Field(min_length=1, max_length=4)]
    """Holes for bolts in each leg. Each distance is from the corner."""
    stiffness: Stiffness = (Fraction(5), Fraction(15))
    """How hard a joint with this bracket is to turn, in kN m/rad: [least, most], or one number if you measured it."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        holes = tuple((at, self.width / 2, Fraction(0)) for at in self.holes)
        return (
            Outline("one leg", (self.leg, self.width), holes),
            Outline("from the side", (self.leg, self.leg), leg=self.thickness),
        )


class PanelBracket(HardwareItem):
    """A bracket that fixes a panel to a bar: it is bent in two steps, from the face of the bar back to the panel."""

    kind: Literal["panel bracket"]
    """Kind of the goods: panel bracket."""
    width: Length
    """Width of the bracket, along the edge of the panel."""
    leg: Length
    """Length of the leg on the bar and of the leg on the panel. The step between them suits bar and panel."""
    thickness: Length
    """Thickness of the metal."""
    screw: WoodScrewField | None = None
    """Wood screw into the panel. Default: the longest that does not come out."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        return (Outline("one leg", (self.width, self.leg)),)


class Gussets(Node):
    """Brackets in the corners of the frame. They make the frame stiffer against sway."""

    bracket: Name = "gusset"
    """Bracket for all these corners: the name of a corner bracket under `hardware`."""
    at: Annotated[tuple[Corner, ...], Field(max_length=3)] = ()
    """Which corners have one: long corners, inner posts, end corners."""


class PanelFixing(Node):
    """How the panels of one wall are fixed to the bars around them."""

    bracket: Name = "panel-angle"
    """Bracket: the name of a panel bracket under `hardware`."""
    spacing: Length = Fraction(150)
    """Greatest distance between two brackets along an edge, such as 150 mm."""


class PanelFix(Node):
    """Walls whose panels are fixed to the frame, so that they brace it. A panel that is not fixed braces nothing."""

    back: PanelFixing | None = None
    """Fixes the back of a bench with one zone. It braces along the length, together with fixed ends."""
    ends: PanelFixing | None = None
    """Fixes the end panels. They brace from front to back."""


#: Keys that take a name. The default of a bracket stands behind a group that most benches leave out.
REFERENCES = (
    ("frame.gussets.bracket", "hardware", ("corner bracket",), "gusset"),
    ("panels.fix.back.bracket", "hardware", ("panel bracket",), ""),
    ("panels.fix.ends.bracket", "hardware", ("panel bracket",), ""),
)
#: The cards of the names that the language takes.
STANDARD = {"gusset": "corner bracket 80", "panel-angle": "panel bracket 30"}
