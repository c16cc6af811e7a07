"""Laws of levelling feet: their load, their stem, and their range over the floor."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.law import GOODS, Case, Law, Verdict, at_least, at_most, by_the_check, to_limit
from generator.bench.layout import Layout
from generator.bench.stands.facts import Stand
from generator.bench.stands.plates import PlateLaws, larger_plate
from generator.calculators.fasteners import THREADS
from generator.calculators.feet import levelling_range, stem_inside
from generator.codes import Code
from generator.findings import Change
from generator.provenance import constant
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.spec.stands.feet import Foot

#: Least thread that holds a stem beside its lock nut, in diameters. Common practice, no source.
LEAST_HELD = constant("3/4", "least thread that holds a foot's stem, in diameters", unit="")


def _rating(case: Case) -> tuple[Change, ...]:
    return (Change(f"hardware.{case.spec.base.feet}.rating", case.loaded.weight(float(case.value), up=True)),)


RATING = Law(
    Code.FOOT_RATING, "error", "The feet carry the bench with only three of them on the floor",
    "The feet are too weak with only three of them on the floor", "Use feet with a higher rating.",
    "A stiff frame stands on three feet until the fourth is turned down.", _rating, "tip",
    quantity="load on each foot",
)  # fmt: skip
IN_THE_AIR = Law(
    Code.FOOT_IN_THE_AIR, "warning", "Each foot carries its load with any other off the floor",
    "One foot carries more than its rating with another off the floor",
    "Turn every foot down until it carries. For an uneven floor use a higher rating.",
    "A foot that was never turned down carries nothing.", _rating, "tip",
    quantity="load on one foot",
)  # fmt: skip
HOLD = Law(
    Code.FOOT_HOLD, "error", "The foot's stem is held by enough thread at its highest",
    "Too little of the foot's stem is held at its highest", "Use a foot with a longer stem or a shorter range.",
    "A foot at the end of its thread breaks out when the bench is pushed.", GOODS, "tip",
    quantity="thread in the plate at the highest",
)  # fmt: skip
STEM_TOP = Law(
    Code.FOOT_STEM_TOP, "warning", "The foot's stem stays below what is above the base rails",
    "The foot's stem rises above the base rails", "Use a foot with a shorter stem.",
    "A stem that rises hits a drawer or a box, or the foot cannot be turned in.", GOODS,
    quantity="stem above the plate at the lowest",
)  # fmt: skip
SLEEVE = Law(
    Code.FOOT_SLEEVE, "error", "The foot's stem goes into its sleeve", "The foot's stem is longer than its sleeve",
    "Use a foot with a shorter stem, or a longer sleeve.", "It cannot be turned in to its lowest height.", GOODS,
    quantity="length of the stem",
)  # fmt: skip
PADS = Law(
    Code.FOOT_PAD, "warning", "The feet's pads are inside the footprint", "The feet's pads reach beyond the footprint",
    "Keep toes clear of the pads, or use smaller ones.", "A pad that reaches beyond the bench trips people.", to_limit,
    "tip",
    quantity="diameter of the pad",
)  # fmt: skip
REACH = Law(
    Code.FOOT_REACH, "warning", "The feet level a floor that falls 1 in 80",
    "The range of the feet is too short for a floor that falls 1 in 80", "Use feet with a longer range.",
    "On a floor that falls more, one foot hangs and the bench rocks. Measure yours with a straight edge and a level.",
    GOODS,
    quantity="range of the foot",
)  # fmt: skip
OF_PLATES = PlateLaws(
    Law(
        Code.FOOT_PLATES_MEET, "error", "The foot plates keep apart", "Two foot plates overlap",
        "Use smaller plates, 4 feet, or move a line away from the corner.", "Only one of them can be bolted on.",
        by_the_check,
    ),
    Law(
        Code.FOOT_PLATE_EDGE, "error", "The foot plate's holes are one and a half diameters or more from its edge",
        "A hole is too near the foot plate's edge", "Use a larger plate.",
        "The rim behind the hole tears out when the bench is pushed.", larger_plate,
        quantity="hole centre to the nearest edge",
    ),
)  # fmt: skip
LAWS = (RATING, IN_THE_AIR, HOLD, STEM_TOP, SLEEVE, PADS, REACH, OF_PLATES.meet, OF_PLATES.edge)


def foot_card(spec: Spec) -> Foot:
    """The foot that is under every corner."""
    entry = spec.hardware[str(spec.base.feet)]
    if not isinstance(entry, Foot):
        raise TypeError(f"{spec.base.feet} is not a levelling foot")
    return entry


def foot_verdicts(loaded: LoadedSpec, layout: Layout, stand: Stand) -> Iterator[Verdict]:
    """The range over the floor, then the stem in its plate or sleeve."""
    spec, card, name = loaded.spec, foot_card(loaded.spec), str(loaded.spec.base.feet)
    path, thread = ("hardware", name), THREADS[card.thread.thread]
    plate = spec.base.plate.thickness
    (low, high), planned = card.reach, layout.levels.floor_to_frame - plate
    first, last = stand.points[0], stand.points[-1]
    needed = levelling_range(last[0] - first[0], last[1] - first[1])
    # feet that lift the bench off its wheels go up from there only
    range_left = high - low if spec.base.lift is None else high - planned
    yield at_least(REACH, range_left, needed, name, (*path, "range"))
    holder = card.drop or plate
    held = min(stem_inside(card.thread.length, low, high), holder)
    yield at_least(HOLD, held, thread.diameter * LEAST_HELD, name, (*path, "thread"))
    if card.drop is not None:
        yield at_most(SLEEVE, card.thread.length, card.drop, name, (*path, "thread"))
    else:
        inside = stem_inside(card.thread.length, low, planned) - plate
        yield at_most(
            STEM_TOP, card.thread.length - plate, layout.section, name, (*path, "thread"),
            severity="error" if inside > layout.section else "",
        )  # fmt: skip
    yield at_most(PADS, card.pad, 2 * first[0], name, (*path, "pad"))
