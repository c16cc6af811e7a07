"""Casters and feet on the same plates: the bench rolls on its casters, and its feet lift it off them for the work.

The heights, the load of the work and the tipping are those of the feet. A foot stands further out than its caster,
clear of the wheel as it swivels.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.acts import LOWERING
from generator.bench.frames.facts import BuiltFrame, Point
from generator.bench.law import Verdict
from generator.bench.layout import Below, Layout
from generator.bench.piece import Part
from generator.bench.stands.casters import (
    PLATE,
    SWEEP,
    caster_blocks,
    caster_card,
    caster_fixings,
    load_on_one,
    steering,
    wheel_silhouette,
)
from generator.bench.stands.casters import RATING as ROLLING
from generator.bench.stands.facts import (
    AlsoCarries,
    Judges,
    Lump,
    Measure,
    Picture,
    Stand,
    StandWords,
    StepWords,
)
from generator.bench.stands.feet import (
    BESIDE_STEM,
    PAD,
    bought_feet,
    feet_rule,
    foot_blocks,
    foot_silhouette,
)
from generator.bench.stands.feet import PATH as FEET
from generator.bench.stands.feet_laws import IN_THE_AIR, RATING, foot_card
from generator.bench.stands.lifted_laws import LAWS, lifted_verdicts
from generator.bench.stands.plates import DRILLED, OnPlates, PlateWish, Spot, corner_spots, plated
from generator.bench.terms import TermWords
from generator.calculators.casters import caster_centre
from generator.calculators.fasteners import THREADS
from generator.calculators.feet import clear_of_swivel
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

KIND = "feet and casters"

WORDS = StandWords(
    one="foot",
    many="feet",
    plates="caster plates",
    stage="Top grid, casters and feet",
    whole="rolls, with its feet turned up",
    rail="bar that runs on over its feet, half the loaded bench on each long rail",
    rail_two="bar that rests on two feet, half the loaded bench on each long rail",
    tip_line="The tipping line goes through the middles of the feet. On its wheels the bench tips sooner: "
    "keep it shut and empty while it rolls.",
    without="without its casters and feet",
    heading="Feet",
    title="Casters and levelling feet",
    plates_title="Caster plates",
    low="a low corner: turn its foot down",
)
STEP = StepWords(
    key="lifted",
    motion="plates with casters and feet",
    title="Plates, casters and feet, from below",
    direction="up",
    notes=(
        "Leave the bench on its blocks while you fit these.",
        "Turn each foot up until its pad is higher than the wheel's underside.",
        "Let each wheel swivel all round: it must not touch the foot.",
        f"{LOWERING}. Stop when all casters are on the floor.",
        "Roll the bench to its place and set the brakes.",
        "Turn the feet down, each a little at a time, until every wheel turns freely.",
        "Turn the corner feet until the top is level, lengthways and across.",
        "Try each foot by hand: one that turns freely carries nothing.",
        "Hold each foot while you tighten its lock nut.",
    ),
    cautions=("lift", "tip"),
    blocks="Set the base rails on level blocks, high enough for casters, feet and a hand below.",
    carried="the frame, onto its casters",
)


HOW_TO_MEASURE = (
    ("`height`", "From a flat floor to the top of the caster's plate, with weight on it."),
    ("`trail`", "Lay it on its side: from the axis of the swivel to the axle, level."),
    ("`range`", "From the floor to what it is screwed into, with the stem all in and at its furthest out."),
    ("`drop`", "The sleeve, from the plate to its lower end."),
    ("`rating`", "What one may carry, as its maker says."),
)


@dataclass(frozen=True)
class Pair:
    """A foot and a caster on one plate: where both are, X, Y of the frame."""

    spot: Spot
    foot: Point
    caster: Point


class Lifted(OnPlates):
    """A caster and a foot in each corner, with six also in the middle of each long side."""

    kind = KIND
    laws = LAWS
    usual_masses: ClassVar[dict[str, str]] = {}
    terms = (
        TermWords("lift", "How high the wheels are above the floor while the bench stands on its feet.", ()),
    )
    cautions: ClassVar = {
        "tip": (
            "warning",
            "A bench on casters and feet can tip and roll",
            "Turn its feet down before you work at it. Open one drawer at a time until the tip test is done, and write "
            "the limit on the bench. Never climb on it, never roll it with drawers open.",
        )
    }
    step_key, motion = STEP.key, STEP.motion

    def chosen(self, spec: Spec) -> bool:
        """Where the feet lift the bench."""
        return spec.base.lift is not None

    def height(self, loaded: LoadedSpec) -> Below:
        """Caster, lift and plate: the height of the work."""
        spec = loaded.spec
        lift = spec.base.lift or Fraction(0)
        below = caster_card(spec).height + lift + spec.base.plate.thickness
        return Below(below, "caster, lift, plate", "casters, lift, plate")

    def judge(
        self, loaded: LoadedSpec, layout: Layout, stand: Stand, parts: Sequence[Part]
    ) -> Iterator[Verdict]:
        """What both kinds ask, and that one reaches as far as the other."""
        pairs = _pairs(loaded, layout)
        casters = tuple(pair.caster for pair in pairs)
        yield from lifted_verdicts(loaded, layout, stand, parts, casters)
        card = caster_card(loaded.spec)
        reach, inset = card.trail + card.wheel / 2, min(casters[0])
        yield Verdict(SWEEP, reach <= inset, "corner casters", ("base", "casters"), reach, inset)

    def stand(self, loaded: LoadedSpec, layout: Layout, frame: BuiltFrame) -> Stand:
        """A plate for each pair."""
        spec, pairs = loaded.spec, _pairs(loaded, layout)
        thread, rolls = THREADS[foot_card(spec).thread.thread], caster_card(spec)
        wish = PlateWish(
            PLATE, "CP", ((Fraction(0), Fraction(0)),), thread.diameter, f"{thread.name} for the foot"
        )
        held = plated(spec, frame, [pair.spot for pair in pairs], wish)
        feet = tuple(pair.foot for pair in pairs)
        casters = tuple(pair.caster for pair in pairs)
        lift, floor = float(spec.base.lift or 0), float(layout.levels.floor_to_frame)
        top = floor - float(spec.base.plate.thickness)
        rolling = AlsoCarries(
            ROLLING, load_on_one, rolls.rating, casters, wheel_silhouette(top, lift), "casters",
            ("base", "casters"),
        )  # fmt: skip
        return Stand(
            kind=KIND,
            words=WORDS,
            points=feet,
            inward=None,
            rating=foot_card(spec).rating,
            lumps=(
                Lump(str(spec.base.feet), feet, floor - PAD, "feet"),
                Lump(spec.base.casters, casters, floor - lift - float(rolls.height) / 2, "casters"),
            ),
            rule=feet_rule(len(feet)),
            step=replace(STEP, before=DRILLED, notes=held.acts((*STEP.notes[:1], *steering(spec), *STEP.notes[1:]))),
            laws=Judges(RATING, IN_THE_AIR),
            parts=held.plates,
            bolts=held.bolts,
            machining=held.machining,
            fixings=(bought_feet(spec, len(feet)), *caster_fixings(spec, len(casters), held)),
            pictures=tuple(
                Picture(
                    plate.mark,
                    (
                        *foot_blocks(loaded, layout, *map(float, pair.foot)),
                        *caster_blocks(rolls, lift - floor, *map(float, pair.caster)),
                    ),
                )
                for plate, pair in zip(held.plates, pairs, strict=True)
            ),
            silhouette=foot_silhouette(loaded, layout),
            measures=(_measure(spec),),
            how_to_measure=HOW_TO_MEASURE,
            terms=self.terms,
            cautions=self.cautions,
            path=FEET,
            rolls=True,
            rolls_on=rolls.wheel,
            others=(rolling,),
        )  # fmt: skip


def _measure(spec: Spec) -> Measure:
    return Measure(
        "Caster: overall height", "Caster, floor to its plate", f"hardware.{spec.base.casters}.height",
        caster_card(spec).height, "Caster height", "frame height, all posts and walls",
    )  # fmt: skip


def _pairs(loaded: LoadedSpec, layout: Layout) -> tuple[Pair, ...]:
    """Feet in the corners beside the bars, casters behind them; at a post of leg room as in a corner."""
    spec, section = loaded.spec, layout.section
    foot, card = foot_card(spec), caster_card(spec)
    out = section + THREADS[foot.thread.thread].diameter / 2 + BESIDE_STEM
    inset = caster_centre(section, card.holes)
    clear = foot.pad / 2 + BESIDE_STEM
    along = max(
        clear_of_swivel(card.trail + card.wheel / 2 + clear, inset - out),
        card.plate[0] / 2 + clear,
        section + 2 * (out - section),
    )
    found = []
    for spot in corner_spots(spec, layout, inset):
        x, y = spot.point
        inward = -1 if x > layout.length / 2 else 1
        if spot.place.lines:
            # at a post of leg room the plate runs away from the legs
            inward = -_side_of_post(layout, spot, x)
        middle = spot.place.end == "middle" and not spot.place.lines
        # in the middle of a side the caster is on one side of the crossing bar, the foot on the other
        foot_x = x - inward * (along / 2 if middle else inset - out)
        caster = (foot_x + inward * along, y)
        at = (foot_x, out if y < layout.depth / 2 else layout.depth - out)
        held = spot.point if middle else caster
        found.append(Pair(Spot(spot.place, held, at, _tapped(loaded, caster)), at, caster))
    return tuple(found)


def _side_of_post(layout: Layout, spot: Spot, x: Fraction) -> int:
    """1 where the stand is left of the middle of its post, so that leg room is to the right of it, else -1."""
    low = (Fraction(0), *layout.lines)[spot.place.lines[0] - 1]
    return 1 if x < low + layout.section / 2 else -1


def _tapped(loaded: LoadedSpec, at: Point) -> tuple[tuple[Point, Fraction, str], ...]:
    """The caster's four holes."""
    thread = THREADS[loaded.goods.slot_nut.thread]
    wide, deep = caster_card(loaded.spec).holes
    return tuple(
        ((at[0] + x, at[1] + y), thread.diameter, f"{thread.name} for the caster")
        for x in (-wide / 2, wide / 2)
        for y in (-deep / 2, deep / 2)
    )
