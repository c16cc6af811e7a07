"""Casters: a plate under each corner, bolted into the bottom slots, and a caster screwed to it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import sqrt
from typing import ClassVar

from generator.bench.acts import LOWERING
from generator.bench.frames.facts import BuiltFrame
from generator.bench.law import Case, Law, Verdict, by_the_check
from generator.bench.layout import Below, Layout
from generator.bench.piece import Part
from generator.bench.place import ENDS, SIDES
from generator.bench.stands.caster_goods import LAWS as GOODS_LAWS
from generator.bench.stands.caster_goods import goods_verdicts
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
from generator.bench.stands.plates import (
    CORNERS,
    DRILLED,
    OnPlates,
    Plated,
    PlateLaws,
    PlateWish,
    corner_spots,
    larger_plate,
    plated,
    plates_apart,
)
from generator.bench.terms import TermWords
from generator.calculators.bodies import Block
from generator.calculators.casters import caster_centre, caster_load
from generator.calculators.fasteners import THREADS
from generator.codes import Code
from generator.findings import Change
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.spec.stands.casters import Caster

KIND, PLATE = "casters", "caster plate"
PER_PLATE = 4
PATH = ("base", "casters")


def _rating(case: Case) -> tuple[Change, ...]:
    return (
        Change(f"hardware.{case.spec.base.casters}.rating", case.loaded.weight(float(case.value), up=True)),
    )


def _trail(case: Case) -> tuple[Change, ...]:
    path = ("hardware", case.spec.base.casters, "trail")
    return case.length(path, caster_card(case.spec).trail - case.off, down=True)


RATING = Law(
    Code.CASTER_RATING, "error", "The casters carry the bench with one wheel of four, or two of six, off the floor",
    "The casters are too weak with one wheel of four, or two of six, off the floor",
    "Use casters with a higher rating.",
    "No floor is flat. When one wheel is off the floor, the others carry its load and every jolt.", _rating, "tip",
    quantity="load on each caster",
)  # fmt: skip
IN_THE_AIR = Law(
    Code.CASTER_IN_THE_AIR, "warning", "On a stiff frame with one caster off the floor, the others carry the load",
    "On a stiff frame with one caster off the floor, another carries more than its rating",
    "Level the floor or shim the wheel. For an uneven floor use a higher rating.",
    "No floor is flat, and the wheels that touch it carry a stiff frame alone.", _rating, "tip",
    quantity="load on one caster",
)  # fmt: skip
SWEEP = Law(
    Code.WHEEL_SWEEP, "warning", "The wheels swivel inside the footprint", "The wheels swivel beyond the footprint",
    "Keep toes and cables clear of the wheels.",
    "A wheel that reaches beyond the bench trips people.", _trail, "tip",
    quantity="reach of the wheel, from its swivel",
)  # fmt: skip
MEET = Law(
    Code.PLATES_MEET, "error", "The caster plates keep apart", "Two caster plates overlap",
    "Take smaller plates, 4 casters, or move a line away from the corner.", "Only one of them can be bolted on.",
    by_the_check,
)  # fmt: skip
EDGE = Law(
    Code.PLATE_EDGE, "error", "The plate's holes are one and a half diameters or more from its edge",
    "A hole is too near the plate's edge", "Take a larger plate.",
    "The rim behind the hole tears out when the wheel hits a threshold.", larger_plate,
    quantity="hole centre to the nearest edge",
)  # fmt: skip
LAWS = (*GOODS_LAWS, RATING, IN_THE_AIR, MEET, SWEEP, EDGE)
OF_PLATES = PlateLaws(MEET, EDGE)

WORDS = StandWords(
    one="caster",
    many="casters",
    plates="caster plates",
    stage="Top grid and casters",
    whole="rolls",
    rail="bar that runs on over its casters, half the loaded bench on each long rail",
    rail_two="bar that rests on two casters, half the loaded bench on each long rail",
    tip_line="The tipping line goes through the wheels when they trail inwards, which is the worst case.",
    without="without its casters",
    heading="Wheels",
    title="Casters",
    plates_title="Caster plates",
    low="a low corner: put a shim below its wheel",
    brakes="A brake that holds the wheel alone still lets the bench shuffle by its trail. Take brakes that hold both "
    "wheel and swivel.",
)

STEP = StepWords(
    key="casters",
    motion="caster plates",
    title="Caster plates and casters, from below",
    direction="up",
    notes=(
        "Leave the bench on its blocks while you fit these.",
        f"{LOWERING}. Stop when all casters are on the floor.",
    ),
    cautions=("lift", "tip"),
    blocks="Set the base rails on level blocks, high enough for the casters and a hand below.",
    carried="the frame, onto its casters",
)


class Casters(OnPlates):
    """Four casters in the corners, six with one in the middle of each long side."""

    kind = KIND
    laws = LAWS
    usual_masses: ClassVar = {"caster": "1.1", "caster plate bolt": "0.012", "caster screw": "0.010"}
    terms = (
        TermWords("caster", "A wheel under a plate. It can turn to any side.", ("casters",), ("castor",)),
        TermWords("trail", "The distance from the axle of a caster to the axis on which it swivels."),
    )
    cautions: ClassVar = {
        "tip": (
            "warning",
            "A bench on casters can tip and roll",
            "Set the brakes. Open one drawer at a time until the tip test is done, and write the limit on the bench. "
            "Never climb on it, never move it with drawers open.",
        )
    }
    step_key, motion = STEP.key, STEP.motion

    def chosen(self, spec: Spec) -> bool:
        """The stand that a spec takes when it names none."""
        return True

    def height(self, loaded: LoadedSpec) -> Below:
        """Caster and plate."""
        spec = loaded.spec
        return Below(caster_card(spec).height + spec.base.plate.thickness, "caster, plate", "casters, plate")

    def judge(
        self, loaded: LoadedSpec, layout: Layout, stand: Stand, parts: Sequence[Part]
    ) -> Iterator[Verdict]:
        """The card and its plates, wheels inside the footprint, holes clear of the plates' edges."""
        spec = loaded.spec
        card = caster_card(spec)
        yield from goods_verdicts(loaded, card, stand)
        sweep, inset = card.trail + card.wheel / 2, stand.points[0][0]
        yield Verdict(SWEEP, sweep <= inset, "corner casters", PATH, sweep, inset)
        yield from plates_apart(OF_PLATES, spec, layout, stand.points, parts)

    def stand(self, loaded: LoadedSpec, layout: Layout, frame: BuiltFrame) -> Stand:
        """Plates flush with the frame's outside, two bolts in each of two crossing bars."""
        spec = loaded.spec
        card = caster_card(spec)
        inset = caster_centre(layout.section, card.holes)
        spots = tuple(corner_spots(spec, layout, inset))
        wide, deep = card.holes
        thread = THREADS[loaded.goods.slot_nut.thread]
        holes = tuple((x, y) for x in (-wide / 2, wide / 2) for y in (-deep / 2, deep / 2))
        wish = PlateWish(PLATE, "CP", holes, thread.diameter, f"{thread.name} for the caster")
        held = plated(spec, frame, spots, wish)
        points = tuple(spot.point for spot in spots)
        floor = -float(layout.levels.floor_to_frame)
        return Stand(
            kind=KIND,
            rolls=True,
            words=WORDS,
            points=points,
            inward=card.trail,
            holding=spec.base.brakes,
            rolls_on=card.wheel,
            rating=card.rating,
            lumps=(
                Lump(
                    spec.base.casters, points, float(spec.base.plate.thickness + card.height / 2), "casters"
                ),
            ),
            rule=_rule(len(points)),
            step=replace(STEP, before=DRILLED, notes=held.acts((*STEP.notes[:1], *steering(spec), *STEP.notes[1:]))),
            laws=Judges(RATING, IN_THE_AIR),
            parts=held.plates,
            bolts=held.bolts,
            machining=held.machining,
            fixings=tuple(caster_fixings(spec, len(points), held)),
            pictures=tuple(_pictures(spec, held, points, floor)),
            silhouette=wheel_silhouette(float(layout.levels.floor_to_frame - spec.base.plate.thickness)),
            measures=(
                Measure(
                    "Caster: overall height", "Caster, floor to its plate", f"hardware.{spec.base.casters}.height",
                    card.height, "Caster height", "frame height, all posts and walls",
                ),
            ),
            goods={
                "caster": spec.base.casters, "caster_height": card.height, "caster_wheel": card.wheel,
                "caster_trail": card.trail, "caster_plate": card.plate,
            },
            terms=self.terms,
            cautions=self.cautions,
            how_to_measure=(
                ("`height`", "From a flat floor to the top of the caster's plate, with weight on it."),
                ("`trail`", "Lay it on its side: from the axis of the swivel to the axle, level."),
                ("`plate`, `holes`", "Outside size; distance between the centres of the holes, both ways."),
                ("`rating`", "What one caster may carry, as its maker says."),
            ),
            path=PATH,
        )  # fmt: skip


def caster_card(spec: Spec) -> Caster:
    """The caster that stands under every plate."""
    entry = spec.hardware[spec.base.casters]
    if not isinstance(entry, Caster):
        raise TypeError(f"{spec.base.casters} is not a caster")
    return entry


def load_on_one(loaded: float, count: int) -> LoadOnOne:
    """Load of one of `count` casters, from the loaded mass (kg)."""
    found = caster_load(loaded, count)
    return LoadOnOne(found.each, found.required)


def _rule(count: int) -> LoadRule:
    carrying = "four" if count == 6 else "three"
    hanging = {4: "one wheel", 6: "two wheels"}.get(count, f"{count - 3} wheels")
    return LoadRule(
        load_on_one,
        on_paper=f"{hanging} in the air, rolling",
        standing=f"On each caster that carries, by the rule of the trade: {carrying} of {count} carry all, plus a "
        "quarter",
        explained=f"The rule puts the loaded bench on {carrying} wheels and adds a quarter for "
        "rolling. A stiff frame on an uneven floor can put more on one: level it, or shim the wheel that is off the "
        "floor.",
        summary=f"the loaded bench on {carrying} wheels, and a quarter more for rolling over joints",
        rating="The caster's rating",
        in_the_air="On one caster of a stiff frame at rest, when any other is off the floor",
    )


def caster_fixings(spec: Spec, count: int, held: Plated) -> Iterator[StandGoods]:
    """Casters, plates, and the screws of both."""
    thickness = spec.base.plate.thickness
    lots = _lots(spec, count)
    where = "corners" if spec.base.brakes == CORNERS else "front corners"
    use = f"one under each plate, those at the {where} swivel with brake"
    if spec.base.fixed is not None:
        use = (
            f"one under each plate, those at the {spec.base.fixed} end fixed, those at the {where} with brake"
        )
    yield StandGoods(spec.base.casters, count, use, kind="caster", lots=lots if len(lots) > 1 else ())
    sizes = (*spec.base.plate.size, thickness)
    yield StandGoods(PLATE, count, "drilled and tapped, see the part sheets", sizes=sizes)
    yield StandGoods(
        "caster plate bolt", len(held.bolts), f"plates {held.by.use}", size=held.by.size,
        into=held.by.into, grip=thickness,
        path=("base", "plate", "thickness"), spares=True, key=held.by.key,
    )  # fmt: skip
    yield StandGoods(
        "caster screw", count * PER_PLATE, "casters into the tapped plates; cap screws", into="thread",
        grip=thickness, spares=True, key="nut",
    )  # fmt: skip


def _lots(spec: Spec, count: int) -> tuple[tuple[int, str], ...]:
    """How many swivel and how many have a brake; what stands in the middle of a side swivels without."""
    kinds = Counter(
        ("fixed" if end == spec.base.fixed else "swivel", spec.base.brakes == CORNERS or side == "front")
        for end in ENDS
        for side in SIDES
    )
    kinds["swivel", False] += count - CORNERS
    return tuple(
        (many, f"{way} {'with' if brake else 'without'} brake")
        for (way, brake), many in sorted(kinds.items(), key=_order)
        if many
    )


def _order(kind: tuple[tuple[str, bool], int]) -> tuple[bool, bool]:
    """Swivel before fixed, with brake before without."""
    (way, brake), _ = kind
    return way != "swivel", not brake


def _pictures(
    spec: Spec, held: Plated, points: Sequence[tuple[Fraction, Fraction]], floor: float
) -> Iterator[Picture]:
    """A caster under each plate. Those at the corners of one end may be fixed: they do not swivel."""
    card, ends = caster_card(spec), {"left": min, "right": max}
    along = [x for x, _ in points]
    still = ends[spec.base.fixed](along) if spec.base.fixed is not None else None
    for plate, (x, y) in zip(held.plates, points, strict=True):
        says = "fixed caster" if x == still else ""
        yield Picture(plate.mark, tuple(caster_blocks(card, floor, float(x), float(y))), says)


def steering(spec: Spec) -> tuple[str, ...]:
    """What the step says of casters that do not swivel."""
    if spec.base.fixed is None:
        return ()
    return (
        f"The two casters that do not swivel go to the {spec.base.fixed} end, their wheels along the bench.",
    )


# ---- pictures: wheel, fork and plate to the sizes of their card, all trailing the same way

BREADTH = 1 / 3
"""Of a wheel, as part of its diameter: the card does not say it; as is common."""
LAYERS = (-1.0, -0.85, -0.55, -0.2, 0.2, 0.55, 0.85, 1.0)
"""Heights, as parts of the radius, between which a wheel is drawn as one block."""
OWN_PLATE = 4.0
"""Thickness of a caster's own plate as drawn (mm)."""


def caster_blocks(card: Caster, floor: float, x: float, y: float) -> Iterator[Block]:
    """One caster, its wheel down to `floor` and its swivel's axis at x, y of the frame (mm)."""
    top, radius = floor + float(card.height), float(card.wheel) / 2
    length, depth = (float(size) for size in card.plate)
    yield (x - length / 2, y - depth / 2, top - OWN_PLATE, x + length / 2, y + depth / 2, top)
    axle_x, axle_z, half = x + float(card.trail), floor + radius, radius * BREADTH
    crown = floor + 2 * radius
    if crown < top - OWN_PLATE:
        yield (x - radius / 2, y - half, crown, axle_x + radius / 2, y + half, top - OWN_PLATE)
    for low, high in pairwise(LAYERS):
        reach = radius * sqrt(1 - ((low + high) / 2) ** 2)
        yield (
            axle_x - reach,
            y - half,
            axle_z + low * radius,
            axle_x + reach,
            y + half,
            axle_z + high * radius,
        )


def wheel_silhouette(height: float, lifted: float = 0.0) -> Silhouette:
    """A wheel under its fork, which ends at `height` above the floor, `lifted` off it (mm); only that is to scale."""
    radius = (height - lifted) * 0.39
    axle = lifted + radius
    fork = ((-radius * 0.8, height), (radius * 0.8, height), (radius * 0.3, axle), (-radius * 0.3, axle))
    return Silhouette(
        circles=((axle, radius, "fill-dark"), (axle, radius * 0.18, "hole")),
        polygons=((fork, "fill-bar"),),
        order=("circle", "polygon", "circle"),
    )
