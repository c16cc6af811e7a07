"""Checks of vises: what is in their way below the top, what holds them, and whether they tip the bench."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.law import WORK, Case, Law
from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.bench.place import SIDE_WORDS
from generator.bench.role import Role
from generator.bench.tops.features import Feature
from generator.bench.tops.vises import VISE, side_of, volume
from generator.calculators.vises import LAG_HOLDS, SAFETY, leaning_moment, pull_on_bolt, rows_apart
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, at_most, check_result
from generator.figures.rows.strength import Stability
from generator.figures.stability import PER_METRE
from generator.findings import Change, dotted
from generator.geometry import AXES
from generator.provenance import constant, inexact
from generator.spec.tops.vises import Vise

IN_THE_WAY = constant(0, "what may reach into the place of a vise")
ROWS: int = 2


def _more_bolts(case: Case) -> tuple[Change, ...]:
    """As many as bear the pull, in two rows."""
    card = case.spec.top.vise[int(case.path[2])]
    needed = -(-card.bolts * case.value // case.limit)
    return (Change(dotted((*case.path, "bolts")), str(needed + needed % ROWS)),)


VISE_VOLUME = Law(
    Code.VISE_VOLUME, "error", "Nothing is in the way of a vise below the top",
    "Something is in the way of a vise below the top",
    "Set the vise at another corner, take one that reaches in less far, or move what is there.",
    "Screw and bars do not go in, or the jaws do not close.",
    "vise, bays and zones share the place: which of them gives way is the maker's choice",
    quantity="how far it reaches into the place of the vise",
)  # fmt: skip
VISE_DROP = Law(
    Code.VISE_DROP, "error", "Screw and bars of a vise pass below the bar of the frame",
    "Screw and bars of a vise meet the bar of the frame",
    "Take a vise whose bars are lower, or set it lower on a thicker block.",
    "The bars of the vise cannot pass the rail.",
    "which vise to take, or how thick its block is, is a choice of the maker",
    quantity="from the face of the top down to the bars of the vise",
)  # fmt: skip
VISE_BOLTS = Law(
    Code.VISE_BOLTS, "warning", "The bolts of a vise bear its force", "The bolts of a vise bear too much",
    "Take more bolts. Through bolts with large washers hold better than lag screws.",
    "The vise pulls its bolts out of the block when it is tightened.", _more_bolts,
    quantity="pull on one bolt",
)  # fmt: skip
VISE_TIPS = Law(
    Code.VISE_TIPS, "warning", "A person may lean on an open vise",
    "A person who leans on an open vise tips the bench",
    "Fix the bench to the floor or the wall, put ballast at the far side, or set the vise at another corner.",
    "The bench comes down on the person at the vise.", WORK, "tip",
    quantity="moment of a person of 100 kg who leans on the open jaw",
)  # fmt: skip


def vise_checks(bench: Bench, faces: tuple[Stability, ...]) -> Iterator[CheckResult]:
    """Each vise: its place, its height over the rail, its bolts, and tipping over the face that it is at."""
    found = [each for each in bench.features if each.kind == VISE]
    holds = {row.face: row for row in faces}
    for card, each in zip(bench.spec.top.vise, found, strict=True):
        yield _free(bench, card, each)
        passes = bench.goods.top.thickness + bench.layout.section
        yield at_least(VISE_DROP, card.drop, passes, each.name, (*each.path, "drop"))
        yield from _bolts(bench, card, each)
        yield _tips(bench, card, each, holds[SIDE_WORDS[side_of(card)]])


def _free(bench: Bench, card: Vise, each: Feature) -> CheckResult:
    """The piece that reaches furthest into the place of the vise; the rail that it hangs on is judged by its drop."""
    place = volume(bench.loaded, bench.layout, card, each)

    def into(part: Part) -> Fraction:
        return min(place.span(axis).overlap(part.box.span(axis)) for axis in AXES)

    others = [part for part in bench.parts if part.role is not Role.TOP and not _is_its_rail(part, card)]
    worst = max(others, key=into)
    reach = max(into(worst), Fraction(0))
    where = f"{each.name} and {worst.mark}" if reach else each.name
    return at_most(VISE_VOLUME, reach, IN_THE_WAY, where, each.path)


def _is_its_rail(part: Part, card: Vise) -> bool:
    return part.role is Role.LONG_RAIL and (part.place.level, part.place.side) == ("top", side_of(card))


def _bolts(bench: Bench, card: Vise, each: Feature) -> Iterator[CheckResult]:
    arm = card.drop - bench.goods.top.thickness
    apart = rows_apart(reach=inexact(card.reach))
    if arm <= 0 or apart <= 0:
        return
    in_a_row = inexact(
        constant(Fraction(card.bolts, ROWS), f"bolts in a row of the {each.name}", "counted", "")
    )
    pull = pull_on_bolt(force=inexact(card.force), arm=inexact(arm), apart=apart, in_a_row=in_a_row)
    yield check_result(
        VISE_BOLTS, pull <= LAG_HOLDS, each.name, each.path, value=pull, limit=LAG_HOLDS, unit="N"
    )


def _tips(bench: Bench, card: Vise, each: Feature, row: Stability) -> CheckResult:
    reach = getattr(bench.spec.top.overhang, side_of(card))
    moment = leaning_moment(overhang=inexact(reach), inset=inexact(row.tip_line)) / PER_METRE
    holds = row.margins_alone[0] / SAFETY
    return check_result(VISE_TIPS, moment <= holds, f"{each.name}, {row.face} face", (*each.path, "at"),
                        value=moment, limit=holds, unit="kg m")  # fmt: skip
