"""The finished bench, empty and shut unless a case says otherwise, under the loads of its work."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.bench.fillings.tipping import PULLED_WITH_ONE_OPEN
from generator.bench.frames import frame_kind
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators import working_loads as rules
from generator.calculators.beams import weight
from generator.calculators.joint_limits import nut_pull, plate_pull, pull_each, screw_gravity, wood_screw_pull
from generator.calculators.quantities import GRAVITY
from generator.calculators.sway import USUAL_PUSH
from generator.calculators.wood_screws import thread_left
from generator.figures.balance import Masses
from generator.figures.rows.loads import LoadCase, OnTheFloor, TopPull, WorkingLoads
from generator.figures.rows.strength import Stability
from generator.figures.screws import bracket_screws
from generator.figures.stability import FACES, PER_METRE
from generator.figures.tightening import nut_force
from generator.provenance import constant, greatest, inexact

SIT = "a person sits on the edge"
CORNER = "a person sits on the corner"
TABLE = "a load at the edge and a push at the top"
VISE = "a hard push on a vise"
#: Bolts of a plate with no rail above it; a support bears up to a third of the bench, by the rule of its supports.
BOLTS_AT_A_CORNER = 2
ON_EACH = inexact(constant(3, "supports that bear all of a stiff bench", "common practice, no source", ""))
#: What a bench must stand, and how many times it must be held. The tipping test of tables has its margin in its loads.
#: What is open has its own checks, and a vise is the user's to fit.
ASKED = {SIT: rules.SAFE, CORNER: rules.SAFE, TABLE: rules.TIPS}


def working_loads(bench: Bench, masses: Masses, faces: Sequence[Stability]) -> WorkingLoads:
    """Every case over every face, then over the corners, then what holds the bench on its floor."""
    cases = [case for face in faces for case in _over(bench, masses, face)]
    return WorkingLoads(
        (*cases, *_corners(cases)),
        _on_the_floor(bench, masses),
        tuple(_lifted_by_top(bench, masses)),
        max(_corner_plates(bench, masses), key=lambda each: each.load, default=None),
    )


def _over(bench: Bench, masses: Masses, row: Stability) -> Iterator[LoadCase]:
    axis = 1 if row.face in ("front", "rear") else 0
    near = row.face in ("front", "left")
    whole = bench.layout.depth if axis else bench.layout.length
    at = masses.empty.at[axis] if near else inexact(whole) - masses.empty.at[axis]
    holds = rules.standing_moment(mass=masses.empty.mass, behind=at - row.tip_line)
    spans = [part.box.y if axis else part.box.x for part in bench.of(Role.TOP, Role.TOP_EDGING)]
    edge = min((span.low if near else whole - span.high for span in spans), default=0 * whole)
    out = row.tip_line - (inexact(edge) + rules.FROM_EDGE)
    height = inexact(bench.layout.height)
    for name, down, push in (
        (SIT, rules.PERSON, rules.NO_PUSH),
        (TABLE, rules.TEST_LOAD, rules.TEST_PUSH),
        (VISE, rules.NO_LOAD, rules.VISE_PUSH),
    ):
        turns = rules.turning_moment(down=down, out=out, push=push, height=height)
        case = _case(name, row.face, (down, out, push), holds / PER_METRE, turns / PER_METRE)
        asked = ASKED.get(name)
        if asked is not None and case.ratio is not None and case.ratio < asked:
            further = rules.further_to_stand(
                limit=asked, turns=turns, holds=holds, mass=masses.empty.mass, down=down
            )
            case = replace(case, further=further)
        yield case
    if len(row.margins) > 1:
        turns = rules.turning_moment(down=rules.NO_LOAD, out=out, push=row.pull, height=height) / PER_METRE
        loads = (rules.NO_LOAD, out, row.pull)
        yield _case(PULLED_WITH_ONE_OPEN, row.face, loads, row.margins_alone[1] * GRAVITY, turns)


def _case(name: str, where: str, loads: tuple[float, float, float], holds: float, turns: float) -> LoadCase:
    ratio = rules.tip_ratio(holds=holds, turns=turns) if turns > 0 else None
    return LoadCase(name, where, *loads, holds, turns, ratio)


def _corners(cases: Sequence[LoadCase]) -> Iterator[LoadCase]:
    """A load on a corner is over two faces: the worse one decides."""
    over = {case.where: case for case in cases if case.name == SIT}
    for side in FACES[:2]:
        for end in FACES[2:]:
            both = [over[face] for face in (side, end)]
            worse = min(both, key=lambda case: float("inf") if case.ratio is None else case.ratio)
            yield replace(worse, name=CORNER, where=f"{side} {end}")


def _lifted_by_top(bench: Bench, masses: Masses) -> Iterator[TopPull]:
    """The wood screws of the top's brackets in the top, and the nuts of their bolts in the bars."""
    hangs = weight(mass=masses.empty.mass)
    for each in bracket_screws(bench):
        if each.count:
            bears = wood_screw_pull(
                gravity_ratio=screw_gravity(inexact(bench.goods.top.density)),
                diameter=inexact(each.screw.shank),
                thread=inexact(thread_left(each.screw.length, each.through, each.into)),
            )
            yield TopPull(
                "wood screw in the top", each.count, pull_each(weight=hangs, count=each.count), bears
            )
    if frame_kind(bench.spec).in_nuts and bench.brackets:
        count = len(bench.brackets)
        bears = nut_pull(nut_force=nut_force(bench))
        yield TopPull("slot nut of a top bracket", count, pull_each(weight=hangs, count=count), bears)


def _corner_plates(bench: Bench, masses: Masses) -> Iterator[TopPull]:
    """Supports at a corner of leg room: no rail is above their plates, only the end member with two bolts."""
    rails, ends = bench.of(Role.LONG_RAIL, level="base"), bench.of(Role.BASE_END_MEMBER)
    if bench.goods.profile is None or not ends:
        return
    half, middle = bench.layout.section / 2, bench.layout.depth / 2
    for x, y in bench.stand.points:
        near = (rail for rail in rails if (rail.box.y.middle < middle) == (y < middle))
        off = min(abs(x - end.box.x.middle) for end in ends)
        if off > half and not any(rail.box.x.low <= x <= rail.box.x.high for rail in near):
            load = plate_pull(
                load=weight(mass=masses.loaded.mass) / ON_EACH,
                off=inexact(off),
                half=inexact(half),
                count=BOLTS_AT_A_CORNER,
            )
            bears = nut_pull(nut_force=nut_force(bench))
            yield TopPull("bolt of a plate below one bar", BOLTS_AT_A_CORNER, load, bears)


def _on_the_floor(bench: Bench, masses: Masses) -> OnTheFloor:
    stand, mass = bench.stand, masses.empty.mass
    count = len(stand.points)
    twist = rules.TWIST_PANELS if bench.sway.panels else rules.TWIST_OPEN
    softest, stiffest = (rules.lifting_step(mass=mass, twist=each) for each in twist)
    radius = None if stand.rolls_on is None else inexact(stand.rolls_on / 2)
    climbs = radius is not None and radius > rules.SILL
    grip = inexact(bench.spec.room.grip)
    return OnTheFloor(
        push=inexact(greatest(bench.spec.loads.push, USUAL_PUSH)),
        slips=rules.floor_hold(
            grip=grip,
            mass=mass,
            supports=count,
            holding=count if stand.holding is None else stand.holding,
        ),
        grip=grip,
        rolls=rules.rolling_push(part=rules.ROLLING, mass=mass) if stand.rolls else None,
        lifts=(stiffest, softest),
        sill=rules.SILL,
        sill_push=rules.sill_push(mass=mass, radius=radius, sill=rules.SILL) if climbs and radius else None,
    )
