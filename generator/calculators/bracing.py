"""What panels that are fixed to the bars add to a frame, and how far its top turns in plan under a push at an edge.

A fixed panel is sheared, and its brackets slip: the two are springs one after the other. It braces the frame over its
own height alone, and the frame leans as a whole, so that it counts by the square of its height.
"""

from __future__ import annotations

from generator.calculators.quantities import (
    KilogramsPerCubicMetre,
    Megapascals,
    Millimetres,
    NewtonMillimetres,
    NewtonMillimetresPerRadian,
    Newtons,
    NewtonsPerMillimetre,
    Ratio,
)
from generator.provenance import constant, formula, inexact, root

SHEAR = "shear of a panel, any handbook of engineering"
SLIP = "EN 1995-1-1, slip of a screw, from memory"
FASTENERS = "shear wall with fasteners at its edges, any handbook of timber engineering"
PLAN = "statics of a stiff top on springs"

#: Modulus of a panel in shear, the lower of the published values for plywood on edge (MPa).
SHEAR_MODULUS = inexact(
    constant(590, "shear modulus of a panel", "published range of plywood 590 to 760", "MPa")
)
#: A bracket with one slot nut and one screw slips twice as far as a screw alone, or twice that. From memory, no source.
STIFF_BRACKET = inexact(
    constant("1/2", "most of its screw's stiffness that a bracket has", "from memory", "")
)
SOFT_BRACKET = inexact(
    constant("1/4", "least of its screw's stiffness that a bracket has", "from memory", "")
)
#: The published rule of the slip of a screw, density to 3/2 times shank over 23, at a usual density: 500^1.5 / 23.
USUAL_DENSITY = inexact(constant(500, "density for the usual slip of a screw", SLIP, "kg/m^3"))
USUAL_SLIP = inexact(constant("486.1", "usual stiffness of a screw across, by its shank", SLIP, "MPa"))
#: A panel that is held at three edges has that part of the stiffness. From a comparison with shear walls, no source.
THREE_EDGES = inexact(
    constant("3/4", "stiffness of a panel held at three edges, as a part", "from memory", "")
)
ALL_EDGES = inexact(constant(1, "stiffness of a panel held at four edges, as a part", "from memory", ""))


@formula("modulus * thickness * width / height", "N/mm", SHEAR)
def shear_stiffness(
    *, modulus: Megapascals, thickness: Millimetres, width: Millimetres, height: Millimetres
) -> NewtonsPerMillimetre:
    """What a panel bears in its plane for each millimetre that its upper edge moves: G t b / h."""
    return modulus * thickness * width / height


@formula("usual * shank * density / usual_density * sqrt(density / usual_density)", "N/mm", SLIP)
def screw_slip(
    *,
    shank: Millimetres,
    density: KilogramsPerCubicMetre,
    usual: Megapascals = USUAL_SLIP,
    usual_density: KilogramsPerCubicMetre = USUAL_DENSITY,
) -> NewtonsPerMillimetre:
    """What a screw across a joint of wood bears for each millimetre that it slips: ρ^1.5 d / 23."""
    return usual * shank * density / usual_density * root(density / usual_density)


@formula("edges * width * part * slip / (2 * spacing * (1 + height / width))", "N/mm", FASTENERS)
def fastener_stiffness(
    *,
    edges: Ratio,
    width: Millimetres,
    height: Millimetres,
    part: Ratio,
    slip: NewtonsPerMillimetre,
    spacing: Millimetres,
) -> NewtonsPerMillimetre:
    """What the brackets of a panel bear for each millimetre that its upper edge moves: b K / (2 s (1 + h / b))."""
    return edges * width * part * slip / (2 * spacing * (1 + height / width))


@formula("1 / (1 / panel + 1 / brackets)", "N/mm", "springs in series")
def panel_stiffness(*, panel: NewtonsPerMillimetre, brackets: NewtonsPerMillimetre) -> NewtonsPerMillimetre:
    """A panel and its brackets one after the other: 1 / (1/K₁ + 1/K₂)."""
    return 1 / (1 / panel + 1 / brackets)


@formula("stiffness * height**2", "N*mm/rad", "statics: a panel leans with its frame")
def leaning(*, stiffness: NewtonsPerMillimetre, height: Millimetres) -> NewtonMillimetresPerRadian:
    """What a panel adds to the stiffness of the joints of its frame: its own, times its height squared."""
    return stiffness * height**2


@formula("stiffness / height**2", "N/mm", "statics: a frame leans as a whole")
def at_the_top(*, stiffness: NewtonMillimetresPerRadian, height: Millimetres) -> NewtonsPerMillimetre:
    """What a frame bears at its top for each millimetre that it moves: Σc / h²."""
    return stiffness / height**2


@formula("stiffness * arm**2", "N*mm", PLAN)
def against_turning(*, stiffness: NewtonsPerMillimetre, arm: Millimetres) -> NewtonMillimetres:
    """What one row or end of a frame does against a turn of the top in plan: K a²."""
    return stiffness * arm**2


@formula("push / stiffness + push * arm**2 / turning", "mm", PLAN)
def edge_sway(
    *, push: Newtons, stiffness: NewtonsPerMillimetre, arm: Millimetres, turning: NewtonMillimetres
) -> Millimetres:
    """How far the edge that is pushed moves: the top moves and turns about its stiffest place, F (1/K + e²/Kt)."""
    return push / stiffness + push * arm**2 / turning
