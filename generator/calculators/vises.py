"""What a vise does to the top that it hangs on: the pull on its bolts, and a person who leans on its open jaw."""

from __future__ import annotations

from generator.calculators.quantities import KilogramMillimetres, Kilograms, Millimetres, Newtons, Ratio
from generator.provenance import constant, formula, inexact

COMMON = "common practice, no source"

#: Rows of bolts: the first so far from the edge, the last so far before the end of the bars (mm).
FROM_ENDS = inexact(constant(35, "from the ends of a vise to its rows of bolts"))
#: What a lag screw of 8 mm holds that is 50 mm deep in softwood: a fifth of 8 kN, from memory (N).
LAG = "pull that a lag screw 8 x 50 bears in softwood"
LAG_HOLDS = inexact(constant(1600, LAG, "a fifth of 8 kN, from memory", "N"))
#: A person who leans on the jaw (kg), and the least factor of safety against tipping.
LEANING = inexact(constant(100, "mass of a person who leans on the open jaw", COMMON, "kg"))
SAFETY = inexact(constant("3/2", "factor of safety against tipping", COMMON, ""))
#: How far before the edge a person presses on the open jaw (mm).
OPEN_JAW = inexact(constant(100, "from the edge of the top to a hand on the open jaw"))


@formula("reach - 2 * ends", "mm", COMMON)
def rows_apart(*, reach: Millimetres, ends: Millimetres = FROM_ENDS) -> Millimetres:
    """Distance between the two rows of bolts below the top: r - 2 e."""
    return reach - 2 * ends


@formula("force * arm / (apart * in_a_row)", "N", "statics")
def pull_on_bolt(*, force: Newtons, arm: Millimetres, apart: Millimetres, in_a_row: Ratio) -> Newtons:
    """Pull on one bolt: the jaws press below the underside of the top and turn the vise."""
    return force * arm / (apart * in_a_row)


@formula("person * (overhang + inset + jaw)", "kg·mm", "statics")
def leaning_moment(
    *,
    overhang: Millimetres,
    inset: Millimetres,
    person: Kilograms = LEANING,
    jaw: Millimetres = OPEN_JAW,
) -> KilogramMillimetres:
    """What a person who leans on the open jaw takes from the holding moment: m (o + s + j)."""
    return person * (overhang + inset + jaw)
