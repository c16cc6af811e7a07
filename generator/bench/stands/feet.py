"""Levelling feet, each screwed into a plate under the frame.

Never into the bore of a corner post: the key holes of the base rails cross it half a section above its end, and what is
left below them holds no foot that could be turned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.acts import LOWERING
from generator.bench.frames.facts import BuiltFrame
from generator.bench.law import Verdict
from generator.bench.layout import Below, Layout
from generator.bench.piece import Part
from generator.bench.stands.facts import (
    Judges,
    LoadOnOne,
    LoadRule,
    Lump,
    Measure,
    Picture,
    Silhouette,
    Stand,
    StandGoods,
    StandWords,
    StepWords,
)
from generator.bench.stands.feet_laws import IN_THE_AIR, LAWS, OF_PLATES, RATING, foot_card, foot_verdicts
from generator.bench.stands.plates import (
    CORNERS,
    DRILLED,
    OnPlates,
    Plated,
    PlateWish,
    Spot,
    corner_spots,
    plated,
    plates_apart,
)
from generator.bench.terms import TermWords
from generator.calculators.bodies import Block
from generator.calculators.fasteners import THREADS
from generator.calculators.feet import foot_load
from generator.provenance import constant
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

KIND, PLATE, BOLT = "feet", "foot plate", "foot plate bolt"
PATH = ("base", "feet")

#: Between a stem and the bars beside it (mm). Common practice, no source.
BESIDE_STEM = constant(5, "space between a foot's stem and the bars")
#: Height of a pad as it is drawn (mm).
PAD = 10.0

WORDS = StandWords(
    one="foot",
    many="feet",
    plates="foot plates",
    stage="Top grid and feet",
    whole="is carried empty, or lifted with a hoist",
    rail="bar that runs on over its feet, half the loaded bench on each long rail",
    rail_two="bar that rests on two feet, half the loaded bench on each long rail",
    tip_line="The tipping line goes through the middles of the feet.",
    without="without its feet",
    heading="Feet",
    title="Levelling feet",
    plates_title="Foot plates",
    low="a low corner: turn its foot down",
)
LEVEL = "Turn the corner feet until the top is level, lengthways and across."
TRY = (
    "Try each foot by hand: one that turns freely carries nothing.",
    "Turn such a foot down until it carries.",
    "Hold each foot while you tighten its lock nut.",
    "Measure the diagonals of the openings again.",
    "If drawers are in already, pull out each: it runs as it did before.",
)
STEP = StepWords(
    key="feet",
    motion="feet",
    title="Feet, from below",
    direction="up",
    notes=(
        "Leave the bench on its blocks while you fit these.",
        "Turn each foot to the middle of its range.",
        f"{LOWERING}. Stop when all feet are on the floor.",
        LEVEL,
        *TRY,
    ),
    cautions=("lift", "tip"),
    blocks="Set the base rails on level blocks, high enough for the feet and a hand below.",
    carried="the frame, onto its feet",
)

WITH_MIDDLE = replace(
    STEP,
    notes=(
        *STEP.notes[:3],
        "Turn the middle feet up, clear of the floor.",
        LEVEL,
        "Turn the middle feet down until they just carry, and an eighth of a turn further.",
        *TRY,
    ),
)


class Feet(OnPlates):
    """Four feet in the corners, six with one in the middle of each long side."""

    kind = KIND
    laws = LAWS
    usual_masses: ClassVar = {"levelling foot": "0.25", BOLT: "0.012"}
    terms = (
        TermWords(
            "levelling foot", "A pad on a threaded stem. Turning it levels the bench; its lock nut holds it.",
            ("levelling feet",),
        ),
    )  # fmt: skip
    cautions: ClassVar = {
        "tip": (
            "warning",
            "A bench on feet can tip",
            "Open one drawer at a time until the tip test is done, and write the limit on the bench. "
            "Never climb on it. Never drag it: a foot that catches breaks out.",
        )
    }
    step_key, motion = STEP.key, STEP.motion

    def chosen(self, spec: Spec) -> bool:
        """Where the spec names a foot."""
        return spec.base.feet is not None

    def height(self, loaded: LoadedSpec) -> Below:
        """The middle of the foot's range, and the plate."""
        spec = loaded.spec
        return Below(foot_card(spec).middle + spec.base.plate.thickness, "foot, plate", "feet, plate")

    def judge(
        self, loaded: LoadedSpec, layout: Layout, stand: Stand, parts: Sequence[Part]
    ) -> Iterator[Verdict]:
        """The range over the floor, the stem in its plate, and the plates."""
        yield from foot_verdicts(loaded, layout, stand)
        yield from plates_apart(OF_PLATES, loaded.spec, layout, stand.points, parts)

    def stand(self, loaded: LoadedSpec, layout: Layout, frame: BuiltFrame) -> Stand:
        """Feet beside the bars, each through a plate."""
        spec, card = loaded.spec, foot_card(loaded.spec)
        thread = THREADS[card.thread.thread]
        spots = tuple(_spots(loaded, layout))
        points = tuple(spot.carried or spot.point for spot in spots)
        wish = PlateWish(
            PLATE, "FP", ((Fraction(0), Fraction(0)),), thread.diameter, f"{thread.name} for the foot"
        )
        held = plated(spec, frame, spots, wish)
        blocks = [tuple(foot_blocks(loaded, layout, float(x), float(y))) for x, y in points]
        name = str(spec.base.feet)
        words = STEP if spec.base.count == CORNERS else WITH_MIDDLE
        return Stand(
            kind=KIND,
            words=WORDS,
            points=points,
            inward=None,
            rating=card.rating,
            lumps=(Lump(name, points, float(layout.levels.floor_to_frame) - PAD, "feet"),),
            rule=feet_rule(len(points)),
            step=replace(words, before=DRILLED, notes=held.acts(words.notes)),
            laws=Judges(RATING, IN_THE_AIR),
            parts=held.plates,
            bolts=held.bolts,
            machining=held.machining,
            fixings=tuple(_fixings(spec, len(points), held)),
            pictures=tuple(
                Picture(plate.mark, each) for plate, each in zip(held.plates, blocks, strict=True)
            ),
            silhouette=foot_silhouette(loaded, layout),
            measures=(
                Measure(
                    "Foot: lowest height", "Foot, floor to what it is screwed into, lowest",
                    f"hardware.{name}.range", card.range[0], "Foot's lowest height",
                    "frame height, all posts and walls",
                ),
            ),
            how_to_measure=(
                ("`range`", "From the floor to what it is screwed into, with the stem all in and at its furthest out."),
                ("`thread`", "The stem above the lock nut: thread and length."),
                ("`rating`", "What one foot may carry, as its maker says."),
            ),
            terms=self.terms,
            cautions=self.cautions,
            unused=("base.casters", "base.brakes"),
            path=PATH,
        )  # fmt: skip


def feet_rule(count: int) -> LoadRule:
    """Three of them carry all."""
    return LoadRule(
        _load,
        on_paper="on three feet",
        standing=f"On one of {count} feet when three stand on the floor, with a quarter for hard loads",
        explained="A stiff frame stands on three feet. Turn the others down until they carry as well.",
        summary="the loaded bench on three feet, and a quarter more for hard loads",
        rating="The foot's rating",
        in_the_air="On one foot of a stiff frame, when any other is off the floor",
    )


def _load(loaded: float, _: int) -> LoadOnOne:
    found = foot_load(loaded)
    return LoadOnOne(found.each, found.required)


def _spots(loaded: LoadedSpec, layout: Layout) -> Iterator[Spot]:
    """In the corner between two bars, where the stem can rise beside them.

    A middle one is beside the cross-member, on the side of the bench's middle.
    """
    half = layout.section / 2
    beside = THREADS[foot_card(loaded.spec).thread.thread].diameter / 2 + BESIDE_STEM
    for spot in corner_spots(loaded.spec, layout, layout.section + beside):
        x, y = spot.point
        if spot.place.end != "middle" or spot.place.lines:
            yield spot
            continue
        aside = half + beside if x <= layout.length / 2 else -half - beside
        yield Spot(spot.place, spot.point, (x + aside, y))


def _fixings(spec: Spec, count: int, held: Plated) -> Iterator[StandGoods]:
    thickness = spec.base.plate.thickness
    yield bought_feet(spec, count)
    sizes = (*spec.base.plate.size, thickness)
    yield StandGoods(PLATE, count, "drilled and tapped, see the part sheets", sizes=sizes)
    yield StandGoods(
        BOLT, len(held.bolts), f"plates {held.by.use}", size=held.by.size, into=held.by.into, grip=thickness,
        path=("base", "plate", "thickness"), spares=True, key=held.by.key,
    )  # fmt: skip


def bought_feet(spec: Spec, count: int) -> StandGoods:
    """The feet themselves."""
    card = foot_card(spec)
    use = (
        "one through each plate, with its lock nut"
        if card.drop is None
        else "one through each plate, with sleeve and lock nut"
    )
    return StandGoods(
        str(spec.base.feet), count, use, kind="levelling foot", size=str(card.thread), key="spanner"
    )


# ---- pictures: pad and stem to the sizes of their card


def foot_blocks(loaded: LoadedSpec, layout: Layout, x: float, y: float) -> Iterator[Block]:
    """One foot at x, y of the frame, from the floor to what it is screwed into."""
    floor, top = -float(layout.levels.floor_to_frame), -float(loaded.spec.base.plate.thickness)
    pad, stem = _radii(loaded.spec)
    yield (x - pad, y - pad, floor, x + pad, y + pad, floor + PAD)
    yield (x - stem, y - stem, floor + PAD, x + stem, y + stem, top)


def _radii(spec: Spec) -> tuple[float, float]:
    card = foot_card(spec)
    return float(card.pad) / 2, float(THREADS[card.thread.thread].diameter) / 2


def foot_silhouette(loaded: LoadedSpec, layout: Layout) -> Silhouette:
    """A foot from the floor to its plate. Sizes up from the floor."""
    top = float(layout.levels.floor_to_frame) - float(loaded.spec.base.plate.thickness)
    pad, stem = _radii(loaded.spec)
    return Silhouette(
        polygons=(
            (((-stem, top), (stem, top), (stem, PAD), (-stem, PAD)), "fill-bar"),
            (((-pad, PAD), (pad, PAD), (pad, 0.0), (-pad, 0.0)), "fill-dark"),
        ),
        order=("polygon", "polygon"),
    )
