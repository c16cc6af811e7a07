"""What joints bear before they slip or tear out: friction under a screw, and screws in the side of wood.

Coefficients of friction: tables of friction, halved and more for anodised bars that were handled. Screws in wood: civil
engineering handbooks in US practice, 2850 G² D in lb/in, here in N and mm.
"""

from __future__ import annotations

from generator.calculators.quantities import Count, Megapascals, Millimetres, Newtons, Ratio
from generator.provenance import constant, formula, inexact

#: Grip of an anodised bar that was handled, on another. Common practice, no source.
BAR_GRIP = inexact(constant("0.2", "grip of two handled bars", "common practice, no source", ""))
#: A friction joint is loaded to two thirds of what slips it. Common practice, no source.
SLIP_SAFETY = inexact(constant("1.5", "safety against slip", "common practice, no source", ""))
#: Allowable pull of a wood screw is this times G² d for each mm of thread: 2850 G² D lb/in.
WOOD_SCREW = inexact(constant("19.7", "allowable pull of a wood screw", "handbook, 2850 G² D lb/in", "MPa"))


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
