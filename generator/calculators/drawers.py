"""Drawer boxes, fronts and slides in one bay. Common practice, no source; all lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, greatest, least, rule

#: A bottom panel is this much smaller than inside plus both grooves, so that it never springs the joint.
BOTTOM_PLAY = constant(1, "play of a drawer bottom")

#: A drawer's box must be this much higher than its slide. Common practice, no source.
OVER_SLIDE = constant(8, "height of a box above its slide")


@dataclass(frozen=True)
class DrawerRules:
    """The constants of one set of drawers (mm): see the keys of `drawers` in the spec."""

    proud: Fraction
    side_space: Fraction
    gap: Fraction
    below: Fraction
    above: Fraction
    slide_axis: Fraction
    slide_length: Fraction
    slide_height: Fraction
    box_thickness: Fraction
    groove: Fraction


@dataclass(frozen=True)
class DrawerSizes:
    """Sizes of one drawer and its heights above the datum from which `front_bottom` was measured."""

    front_width: Fraction
    front_height: Fraction
    front_bottom: Fraction
    box_width: Fraction
    box_depth: Fraction
    box_height: Fraction
    box_bottom: Fraction
    ends_length: Fraction
    bottom_panel: tuple[Fraction, Fraction]
    slide_axis: Fraction
    slide_lower_edge: Fraction

    @property
    def width_to_depth(self) -> Fraction:
        """Width of the box to its depth: above 1.5 a drawer tends to rack. Common practice, no source."""
        return self.box_width / self.box_depth


@rule("common practice, no source")
def drawer_sizes(
    rules: DrawerRules, bay_width: Fraction, front_height: Fraction, front_bottom: Fraction
) -> DrawerSizes:
    """A box leaves the packing's proud and the slide's space free on both sides; its face leaves the gap all round.

    One drawer, whose front of `front_height` begins at `front_bottom` (mm). One axis for all boxes keeps the two
    slides of a pair at one height.
    """
    box_width = bay_width - 2 * rules.proud - 2 * rules.side_space
    box_bottom = front_bottom + rules.below
    inside = box_width - 2 * rules.box_thickness
    inside_depth = rules.slide_length - 2 * rules.box_thickness
    axis = box_bottom + rules.slide_axis
    return DrawerSizes(
        front_width=bay_width - 2 * rules.gap,
        front_height=front_height,
        front_bottom=front_bottom,
        box_width=box_width,
        box_depth=rules.slide_length,
        box_height=front_height - rules.below - rules.above,
        box_bottom=box_bottom,
        ends_length=inside,
        bottom_panel=(inside + 2 * rules.groove - BOTTOM_PLAY, inside_depth + 2 * rules.groove - BOTTOM_PLAY),
        slide_axis=axis,
        slide_lower_edge=axis - rules.slide_height / 2,
    )


@rule("common practice, no source")
def spacers(lower_edges: Sequence[Fraction], slide_height: Fraction, datum: Fraction) -> tuple[Fraction, ...]:
    """A block sets each slide upon the one below, the first upon the base rail.

    Heights of the blocks (mm), the first upon `datum`.
    """
    below = [datum, *(edge + slide_height for edge in lower_edges[:-1])]
    return tuple(edge - under for edge, under in zip(lower_edges, below, strict=True))


@rule("common practice, no source")
def strip_span(
    station: Fraction, width: Fraction, clear: tuple[Fraction, Fraction], play: Fraction
) -> tuple[Fraction, Fraction]:
    """A strip is centred on the slide's hole, and moved to stay clear of the posts.

    `clear` is the space between the two posts; `play` is kept from each. Returns (begin, end) in mm.
    """
    begin = station - width / 2
    begin = greatest(begin, clear[0] + play)
    begin = least(begin, clear[1] - play - width)
    return (begin, begin + width)
