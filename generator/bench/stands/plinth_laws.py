"""Laws of a plinth: what its boards bear, where they stand, and what it cannot be built under."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.law import Law, to_limit
from generator.codes import Code
from generator.findings import Finding
from generator.provenance import constant
from generator.spec.load import LoadedSpec

#: What the edge of plywood bears all the time (MPa): a fifth of its strength. Common practice, no source.
BEARING = constant(2, "pressure that the edge of a board bears", unit="MPa")
#: Force of one kilogram, rounded up (N).
PER_KILOGRAM = constant(10, "force of one kilogram, rounded up", unit="N/kg")
#: A lower board cannot be screwed (mm). Common practice, no source.
LEAST_BOARD = constant(40, "least height of a plinth's boards")

BEARS = Law(
    Code.PLINTH_BEARS, "error", "The boards of the plinth bear the bench", "The boards of the plinth are too thin",
    "Use a thicker sheet for the plinth.", "An edge that is crushed lets the bench lean.",
    "which sheet is thicker is a choice among materials", "tip",
    quantity="load on a board",
)  # fmt: skip
HOLLOW = Law(
    Code.PLINTH_HOLLOW, "warning", "Each place of the plinth bears its load with any other hollow",
    "A place of the plinth bears too much with another hollow", "Drive wedges below the boards at every plate.",
    "No floor is flat, and a hollow board carries nothing.", "which sheet is thicker is a choice among materials",
    "tip",
    quantity="load on a board",
)  # fmt: skip
SETBACK = Law(
    Code.PLINTH_SETBACK, "error", "The boards of the plinth are clear of the bolts and near the posts",
    "The boards of the plinth are in a wrong place", "Change the setback.",
    "A board over the bolts hides their heads, and one far from the posts lets the rails bend.", to_limit,
    quantity="setback",
)  # fmt: skip
LAWS = (BEARS, HOLLOW, SETBACK)


def rating(thickness: Fraction, side: Fraction) -> Fraction:
    """Mass that a board of this thickness bears below a plate of this side (kg)."""
    return thickness * side * BEARING / PER_KILOGRAM


def refused(loaded: LoadedSpec) -> Iterator[Finding]:
    """A plinth that is too low for boards, and one across leg room."""
    spec, plinth = loaded.spec, loaded.spec.base.plinth
    assert plinth is not None
    thickness = loaded.goods.sheets[plinth.material].thickness
    least = LEAST_BOARD + thickness
    if plinth.height < least:
        yield loaded.fault(
            Code.NO_SIZE, "the plinth is too low for its boards and the plates on them", "base", "plinth", "height",
            found=loaded.say(plinth.height), allowed=f"{loaded.say(least)} or more",
        )  # fmt: skip
    if plinth.setback > min(spec.bench.depth, spec.bench.length) / 2 - thickness - LEAST_BOARD:
        yield loaded.fault(
            Code.NO_SIZE, "so far behind the outside of the frame the plinth has no space for its boards", "base",
            "plinth", "setback", found=loaded.say(plinth.setback), allowed="about as much as a bar is wide",
        )  # fmt: skip
    for zone, bays in enumerate(each.bays for each in spec.zones):
        for bay, each in enumerate(bays):
            if each.knee:
                yield loaded.fault(
                    Code.KNEE_PLACE, "a plinth would be across this leg room", "zones", zone, "bays", bay, "knee",
                    found="leg room over a plinth", allowed="feet or casters under a bench with leg room",
                )  # fmt: skip
