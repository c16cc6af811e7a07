"""A sheet captured in a slot: tongue, rabbet, offset, corner notch. Common practice, no source (in mm)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, greatest, least, rounded_down, rule

#: What a router or saw table repeats in the depth of one rabbet. Common practice, no source.
RABBET_TOLERANCE = constant("1/20", "repeat accuracy of one rabbet")

#: The least space under a tongue that keeps it from bottoming. Common practice, no source.
BOTTOM_CLEARANCE = constant(2, "least space under a tongue")

#: A tongue that the spec leaves open is a multiple of this. Common practice, no source.
TONGUE_STEP = constant("1/2", "step of a tongue's length")

#: The shortest tongue that still holds a panel. Common practice, no source.
SHORTEST_TONGUE = constant(8, "shortest tongue that holds")


@dataclass(frozen=True)
class TongueFit:
    """All lengths in mm. `offset` is from the bar's face back to the panel's face, equal on both sides."""

    groove: Fraction
    thickness: Fraction
    tongue_thickness: Fraction
    rabbet_depth: Fraction
    tongue: Fraction
    rabbet_length: Fraction
    bottom_clearance: Fraction
    clearance_min: Fraction
    clearance_max: Fraction
    offset: Fraction

    @property
    def bottoms(self) -> bool:
        """True when less than BOTTOM_CLEARANCE is left under the tongue."""
        return self.bottom_clearance < BOTTOM_CLEARANCE

    @property
    def needs_rabbet(self) -> bool:
        """False for a sheet no thicker than the tongue, which goes in as it is."""
        return self.rabbet_depth > 0


@rule("common practice, no source")
def tongue_length(slot_depth: Fraction, step: Fraction = TONGUE_STEP) -> Fraction:
    """The longest tongue that leaves the bottom clearance in the slot, in whole steps (mm)."""
    return rounded_down(slot_depth - BOTTOM_CLEARANCE, step)


@rule("common practice, no source")
def tongue_fit(
    *,
    section: Fraction,
    slot_opening: Fraction,
    slot_depth: Fraction,
    thickness: Fraction,
    clearance: Fraction,
    tongue: Fraction,
    shoulder: Fraction,
) -> TongueFit:
    """Both faces of the measured sheet are rabbeted alike down to the slot's opening less the clearance.

    The panel so stays centred in the bar whatever the sheet measures. A sheet that is thinner than the tongue needs
    no rabbet and rattles by the difference. All lengths in mm.
    """
    tongue_thickness = least(slot_opening - clearance, thickness)
    rabbet = (thickness - tongue_thickness) / 2
    spread = 2 * RABBET_TOLERANCE if rabbet else Fraction(0)
    nominal = slot_opening - tongue_thickness
    return TongueFit(
        groove=slot_opening,
        thickness=thickness,
        tongue_thickness=tongue_thickness,
        rabbet_depth=rabbet,
        tongue=tongue,
        rabbet_length=tongue + shoulder,
        bottom_clearance=slot_depth - tongue,
        clearance_min=nominal - spread,
        clearance_max=nominal + spread,
        offset=(section - thickness) / 2,
    )


def groove_width(opening: Fraction | None, thickness: Fraction, clearance: Fraction) -> Fraction:
    """Width of the groove that a sheet sits in: the slot's where the bar has one, else the sheet and its play (mm)."""
    return opening if opening is not None else thickness + clearance


@rule("common practice, no source")
def corner_notch(
    *,
    tongue: Fraction,
    section: Fraction,
    clip_length: Fraction | None,
    solid_corner: bool,
    clearance: Fraction,
) -> Fraction:
    """A notch makes room for what stands in the slot at a corner: a clip, or the solid end of a bar.

    Side of the square (mm), 0 when nothing stands in the way. A clip of `clip_length` in the slot reaches (section -
    clip)/2 short of the bar's edge; a solid corner takes the whole tongue.
    """
    causes = [Fraction(0)]
    if clip_length is not None:
        causes += [tongue - (section - clip_length) / 2 + clearance, tongue + clearance]
    if solid_corner:
        causes.append(tongue + clearance)
    return greatest(*causes)


@rule("common practice, no source")
def packing_thickness(offset: Fraction, proud: Fraction) -> Fraction:
    """A packing strip brings the slide from the panel's face out before the bar's face. Thickness in mm."""
    return offset + proud
