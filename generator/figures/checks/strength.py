"""Checks of sag, tipping and handling. The worst that can happen decides how much a check weighs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import ceil

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.tipping import ALL_OPEN, ONE_OPEN, none_open
from generator.bench.frames.slotted import slotted
from generator.bench.law import WORK, Case, Law, by_the_check, to_limit
from generator.bench.model import Bench
from generator.bench.place import SIDES
from generator.bench.remedies import SAFE, thicker
from generator.bench.role import Role
from generator.calculators.lifting import MOST_PEOPLE
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, Path, check_result
from generator.figures.handling import most_each
from generator.figures.rows.masses import Stands
from generator.figures.rows.strength import DIRECTIONS, Sag, Stability, Strength, Sway
from generator.findings import Change
from generator.spec.schema import Spec

#: A sway of more than this times its limit weighs more, where even the stiffest joints miss the limit.
FAR = 2
#: Supports of a bench that can have six.
FEWEST = 4


def _stiffer(case: Case) -> tuple[Change, ...]:
    """A bar that bends less; in a frame without slots the sizes of its members are the maker's to choose."""
    if case.goods.profile is None:
        return ()
    name = case.spec.frame.material
    needed = Fraction(slotted(case.goods).second_moment) * case.value / case.limit * SAFE / 10_000
    return (Change(f"materials.{name}.second_moment", f"{ceil(needed * 10) / 10:g} cm^4"),)


def _top_sag(case: Case) -> tuple[Change, ...]:
    """Two more supports under a rail on four; else a stiffer bar."""
    return _more_supports(case.spec) or _much_stiffer(case)


def _much_stiffer(case: Case) -> tuple[Change, ...]:
    """Stiffer by as much again, for the joints that turn with the bar."""
    return _stiffer(replace(case, value=case.value**2 / case.limit))


def _base_sag(case: Case) -> tuple[Change, ...]:
    return _more_supports(case.spec) or _stiffer(case)


def _more_supports(spec: Spec) -> tuple[Change, ...]:
    """Six supports instead of four, where a side takes one in its middle."""
    if spec.base.count != FEWEST or _with_leg_room(spec) == set(SIDES):
        return ()
    return (Change("base.count", "6"),)


def _with_leg_room(spec: Spec) -> set[str]:
    """Sides whose middle support the supports beside their leg room replace."""
    return {side for side, zone in zip(SIDES, spec.zones, strict=False) if any(bay.knee for bay in zone.bays)}


TIPS_BY_PULL = Law(
    Code.TIPS_BY_PULL, "error", "A pull at the top edge does not tip the empty bench",
    "A pull at the top edge tips the empty bench",
    "Make the bench larger from this face to the opposite one, set its supports further out, or fix it to floor "
    "or wall.",
    "The bench falls on the person who pulls.",
    "depth, stand, load and ballast share in it: no single value follows from the check", "tip",
    quantity="moment that holds the bench down",
)  # fmt: skip
SWAY = Law(
    Code.SWAY, "note", "The frame is stiff enough against a push",
    "The bench sways too far under a push if its joints are as soft as they can be",
    "Fix its panels, put brackets in its corners, or fix the bench to the building. Or measure how stiff a joint is, "
    "and write it as `stiffness`.",
    "A plane or a saw pushes the bench instead of the work, and the joints work loose.", by_the_check,
    quantity="most that the top moves, with the softest joints",
)  # fmt: skip
SAG_TOP_BAR = Law(
    Code.SAG_TOP_BAR, "warning", "The top's bars are stiff enough",
    "A bar of the top sags too far under the load in its middle",
    "Use more supports, add an inner post under it, or take a stiffer bar.",
    "Work clamped to a sagging top is glued up crooked.", _top_sag,
    quantity="sag in the middle",
)  # fmt: skip
SAG_TOP_BOARD = Law(
    Code.SAG_TOP_BOARD, "note", "The top board is stiff enough between its bars",
    "The top board sags too far between its bars",
    "Take a thicker board, or set the bars closer. The calculation treats the board as cut at its bars, so it is on "
    "the safe side.",
    "Work clamped to a sagging top is glued up crooked.", thicker(lambda spec: spec.top.material),
    quantity="sag in the middle",
)  # fmt: skip
SAG_BASE = Law(
    Code.SAG_BASE, "note", "The base rails are stiff enough between their supports",
    "A base rail sags too far between its supports",
    "Use more supports or stiffer bars. Posts and top rail help, and are in this calculation; panels are not.",
    "A base that sags opens the joints above it and lets the drawers rub.", _base_sag,
    quantity="sag between the supports",
)  # fmt: skip
LIFT_WEIGHT = Law(
    Code.LIFT_WEIGHT, "warning", "Up to four people can lift each item", "This is too heavy for four people",
    "Use blocks and a jack, or a hoist. Or lift it in smaller parts.",
    "Lifting a heavy frame injures backs and fingers.", WORK, "lift",
    quantity="mass to lift",
)  # fmt: skip
DOOR_PARTS = Law(
    Code.DOOR_PARTS, "warning", "Every part goes through the door and into the van",
    "This does not go through the door or into the van", "Assemble it on the other side of the door.",
    "You cannot move it to where it is needed.", WORK,
)  # fmt: skip
DOOR_BENCH = Law(
    Code.DOOR_BENCH, "note", "The finished bench goes through the door",
    "The finished bench does not go through the door",
    "Plan to take off the top and what the bench stands on, and turn the frame on its side. Or measure the door again.",
    "The bench cannot leave the room that it was built in.", WORK,
)  # fmt: skip
WORK_HEIGHT = Law(
    Code.WORK_HEIGHT, "note", "The height suits its user and the work",
    "The height does not suit its user and the work",
    "{} to {} below the elbow for assembly, {} to {} for planing, just below the saw's table for outfeed.",
    "A bench that is too low hurts the back. One that is too high hurts the shoulders.", to_limit,
    lengths=(Fraction(100), Fraction(150), Fraction(200), Fraction(250)),
    quantity="work surface above the floor",
)  # fmt: skip


#: Law and key path by the kind of part that sags; what fills a bay brings its own.
_SAGS: dict[str, tuple[Law, Path]] = {
    "top board": (SAG_TOP_BOARD, ("top", "material")),
}


def strength_checks(bench: Bench, stands: Stands, strength: Strength) -> Iterator[CheckResult]:
    """Tipping face by face, one in the air, sway both ways, then every sag."""
    spec = bench.spec
    for row in strength.stability:
        yield from _tipping(spec, row)
    rating = stands.rating or 0.0
    most = stands.one_in_the_air
    stand = bench.stand
    yield check_result(stand.laws.in_the_air, most <= rating, f"{stands.count} {stand.words.many}", stand.path,
                 value=most, limit=rating, unit="kg")  # fmt: skip
    yield from map(_sway, {row.direction: row for row in strength.sway}.values())
    laws = _SAGS | {each.kind: (each.law, each.path) for kind in FILLINGS for each in kind.sagging(bench)}
    yield from (_sag(each, *(laws.get(each.kind) or _of_bars(bench, each))) for each in strength.sags)


def _of_bars(bench: Bench, row: Sag) -> tuple[Law, Path]:
    """How a bar is judged: at an end, and on a side that takes no more supports, nothing helps but a stiffer one."""
    bars = [part for part in bench.parts if part.mark in row.marks]
    sides = {part.place.side for part in bars if part.role is Role.LONG_RAIL}
    alone = (
        any(part.place.end for part in bars)
        or (sides and sides <= _with_leg_room(bench.spec))
        or _crowded(bench)
    )
    if all(part.place.level == "base" for part in bars):
        return replace(SAG_BASE, cure=_stiffer) if alone else SAG_BASE, ("base", "count")
    law = replace(SAG_TOP_BAR, cure=_much_stiffer) if alone else SAG_TOP_BAR
    return law, ("materials", bench.spec.frame.material)


def _crowded(bench: Bench) -> bool:
    """Whether a plate beside leg room is where a support in the middle of a side would be."""
    middle, beside = bench.layout.length / 2, bench.layout.section
    plates = [part for part in bench.stand.parts if part.place.lines]
    return any(abs(part.box.x.middle - middle) < part.box.x.size + beside for part in plates)


def _sway(row: Sway) -> CheckResult:
    """The worst of a push in the middle and at a long edge; the row with fixed panels, where there is one."""
    severity = "warning" if row.high > FAR * row.target and row.low > row.target else ""
    remedy = tuple(Change(path, value) for path, value in row.add)
    return check_result(SWAY, row.worst <= row.target, DIRECTIONS[row.direction], ("frame", "joints"),
                 value=row.worst, limit=row.target, unit="mm", severity=severity, remedy=remedy)  # fmt: skip


def _tipping(spec: Spec, row: Stability) -> Iterator[CheckResult]:
    where = f"{row.face} face"
    yield check_result(TIPS_BY_PULL, row.margins_alone[0] > row.push, where, ("base",),
                 value=row.margins_alone[0], limit=row.push, unit="kg m", sense="at least")  # fmt: skip
    if not row.drawers:
        return
    yield check_result(ONE_OPEN, row.margins_alone[1] > 0, where, ("base",),
                 value=row.margins_alone[1], limit=0.0, unit="kg m", sense="at least")  # fmt: skip
    yield check_result(ALL_OPEN, row.safe_open_alone >= row.drawers, where, ("loads", "push"),
                 value=float(max(row.safe_open_alone, 0)), limit=float(row.drawers), sense="at least",
                 advice=_one_open(spec, row))  # fmt: skip


def _one_open(spec: Spec, row: Stability) -> str:
    """What lets one be open, where a pull allows none."""
    return "" if row.ballast is None or row.further is None else none_open(spec, row.ballast, row.further)


def _sag(row: Sag, law: Law, path: Path) -> CheckResult:
    load = "load spread" if row.spread else "load in the middle"
    where = ", ".join(word for word in (row.kind, row.where, load if row.kind == "base rail" else "") if word)
    return check_result(
        law, row.judged <= row.limit, where, path, value=row.judged, limit=row.limit, unit="mm"
    )


def handling_checks(spec: Spec, strength: Strength) -> Iterator[CheckResult]:
    """Weights against what four people lift, sizes against door and van, the height against its user."""
    most = most_each(spec) * MOST_PEOPLE
    for row in strength.handling:
        if row.whole:
            yield check_result(DOOR_BENCH, row.door and row.van, row.name, ("limits", "door"))
            continue
        yield check_result(LIFT_WEIGHT, row.persons is not None, row.name, ("limits", "lift_one"),
                     value=row.mass, limit=most, unit="kg")  # fmt: skip
        yield check_result(DOOR_PARTS, row.door and row.van, row.name, ("limits", "door"))
    height = strength.work_height
    if height.low is not None and height.high is not None:
        nearest = height.low if height.height < height.low else height.high
        yield check_result(WORK_HEIGHT, height.suits, height.work, ("bench", "height"),
                     value=height.height, limit=nearest, unit="mm",
                     sense="at least" if height.height < height.low else "at most")  # fmt: skip
