"""What joints bear before they slip or tear out: friction under a screw, and screws in the side of wood.

Coefficients of friction: tables of friction, halved and more for anodised bars that were handled. Screws in wood: civil
engineering handbooks in US practice, 2850 G² D in lb/in, here in N and mm.
"""

from __future__ import annotations

from generator.calculators.quantities import (
    Count,
    KilogramsPerCubicMetre,
    Megapascals,
    Millimetres,
    Newtons,
    Ratio,
)
from generator.provenance import constant, formula, inexact, least, root

#: Grip of an anodised bar that was handled, on another. Common practice, no source.
BAR_GRIP = inexact(constant("0.2", "grip of two handled bars", "common practice, no source", ""))
#: A friction joint is loaded to two thirds of what slips it. Common practice, no source.
SLIP_SAFETY = inexact(constant("1.5", "safety against slip", "common practice, no source", ""))
#: Allowable pull of a wood screw is this times G² d for each mm of thread: 2850 G² D lb/in.
WOOD_SCREW = inexact(constant("19.7", "allowable pull of a wood screw", "handbook, 2850 G² D lb/in", "MPa"))
#: Allowable load across a wood screw is this times d², for the softest group: 2520 D² lb.
ACROSS = inexact(constant("17.4", "allowable load across a wood screw", "handbook, 2520 D² lb", "MPa"))
#: Stiff dowels in two thicknesses of wood.
JOHANSEN = "EN 1995-1-1, 8.2.2, not checked against the text"
#: What wood bears under a screw for each unit of its specific gravity; what people's loads are divided by.
BEARING = inexact(
    constant(78, "bearing of wood under a screw", "EN 1995-1-1, 8.16, not checked against the text", "MPa")
)
ULTIMATE = inexact(constant(3, "safety of wood against its ultimate load", "common practice, no source", ""))
#: A board holds a screw no better than spruce: for plywood the rule of solid wood says too much (Korean journal, 2021).
SPRUCE = inexact(constant("0.41", "specific gravity of spruce", "handbook of civil engineering", ""))
WATER = inexact(constant(1000, "density of water", "specific gravity", "kg/m^3"))
#: What tears a nut out of its slot is divided by this; makers' tables divide by 4 to 5.
NUT_SAFETY = inexact(constant(4, "safety against a nut torn out of its slot", "data of makers of bars", ""))


@formula("count * grip * clamping_force / safety", "N", "friction")
def slip_force(
    *, count: Count, clamping_force: Newtons, grip: Ratio = BAR_GRIP, safety: Ratio = SLIP_SAFETY
) -> Newtons:
    """Pull along the bars that a joint on so many screws may bear before it slips: n µ P / S."""
    return count * grip * clamping_force / safety


@formula("strength * gravity_ratio**2 * diameter * thread", "N", "handbook of civil engineering, wood screws")
def wood_screw_pull(
    *,
    gravity_ratio: Ratio,
    diameter: Millimetres,
    thread: Millimetres,
    strength: Megapascals = WOOD_SCREW,
) -> Newtons:
    """Allowable pull on a wood screw across the grain: 19.7 G² d l, by the specific gravity of the wood."""
    return strength * gravity_ratio**2 * diameter * thread


def screw_gravity(density: KilogramsPerCubicMetre) -> Ratio:
    """The specific gravity by which a board holds a screw: its own, at most that of spruce."""
    return least(density / WATER, SPRUCE)


@formula("strength * diameter**2", "N", "handbook of civil engineering, wood screws")
def wood_screw_across(*, diameter: Millimetres, strength: Megapascals = ACROSS) -> Newtons:
    """Allowable load across a wood screw in the side of softwood, seven diameters deep: 2520 D² lb, D in inches."""
    return strength * diameter**2


@formula("(sqrt(1 + 2 * (1 + ratio + ratio**2) + ratio**2) - 1 - ratio) / 2", "", JOHANSEN)
def part_that_tips(*, ratio: Ratio) -> Ratio:
    """The part of its bearing in one wood that a stiff screw has when it tips, by how much thicker the other wood is.

    (√(1 + 2 (1 + r + r²) + r²) - 1 - r) / 2: 0.41 where both are as thick; above 1 it does not tip.
    """
    return (root(1 + 2 * (1 + ratio + ratio**2) + ratio**2) - 1 - ratio) / 2


@formula("part * bearing * gravity_ratio * diameter * depth / safety", "N", JOHANSEN)
def screw_in_thin_wood(
    *,
    part: Ratio,
    gravity_ratio: Ratio,
    diameter: Millimetres,
    depth: Millimetres,
    bearing: Megapascals = BEARING,
    safety: Ratio = ULTIMATE,
) -> Newtons:
    """Allowable load across a screw in a thin board: what the wood beside it bears, less where it tips, by 3.

    Wood bears 78 MPa times its specific gravity: 0.082 rho (1 - 0.01 d), for a screw of 5 mm.
    """
    return part * bearing * gravity_ratio * diameter * depth / safety


@formula("load * (1 + beyond / apart)", "N", "statics: a lever about the rear strip")
def front_strip_load(*, load: Newtons, beyond: Millimetres, apart: Millimetres) -> Newtons:
    """What the front one of two strips bears when the load is pulled out before it: F (1 + e / d)."""
    return load * (1 + beyond / apart)


@formula("nut_force / safety", "N", "data of makers of bars")
def nut_pull(*, nut_force: Newtons, safety: Ratio = NUT_SAFETY) -> Newtons:
    """Pull that a nut in a slot may bear: what the slot's lips bear, P / S."""
    return nut_force / safety


@formula("weight / count", "N", "statics")
def pull_each(*, weight: Newtons, count: Count) -> Newtons:
    """What one of several screws bears of a weight that hangs on all of them: F / n."""
    return weight / count


@formula("load * (off - half) / half / count", "N", "statics: a plate turns about the edge of its bar")
def plate_pull(*, load: Newtons, off: Millimetres, half: Millimetres, count: Count) -> Newtons:
    """What each bolt in the middle of a bar bears of a load that comes up beside it: F (o - h) / h over their number.

    The plate turns about the bar's edge, `half` a bar beside its bolts. A load below the bar pulls at no bolt.
    """
    return load * (off - half) / half / count
