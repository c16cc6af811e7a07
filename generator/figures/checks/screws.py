"""Checks of the wood screws: they stay inside, hold on to enough wood, and split no edge."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.driven import Driven, wood_screw_name
from generator.bench.law import Law, by_the_check, said
from generator.bench.layout import bay_of
from generator.bench.model import Bench, Part
from generator.calculators.wood_screws import (
    LEAST_INSIDE,
    edge_for,
    least_thread,
    room,
    stock,
    thread_left,
)
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.screws import bracket_screws, driven
from generator.findings import Change, dotted
from generator.spec.schema import Spec

SCREW_LENGTH = Law(
    Code.SCREW_LENGTH, "warning", "The screw stays inside the wood", "The screw is too long for what it goes into",
    "Take a shorter screw there.", "Its point comes out at the front, or into what you store.", by_the_check,
    quantity="length of the screw",
)  # fmt: skip
SCREW_THREAD = Law(
    Code.SCREW_THREAD, "warning", "The screw has thread enough in what it holds on to",
    "The screw has too little thread in what it holds on to", "Take a longer screw there.",
    "It pulls out under load, and its part falls.", by_the_check,
    quantity="thread in the last piece",
)  # fmt: skip
SCREW_SPLITS = Law(
    Code.SCREW_SPLITS, "warning", "The edge is thick enough for its screws",
    "The edge is too thin for its screws", "Take a thinner screw there.",
    "A split edge holds no screw, and the corner opens.", by_the_check,
    quantity="thickness of the edge",
)  # fmt: skip
SCREW_END_GRAIN = Law(
    Code.SCREW_END_GRAIN, "warning", "No wood screw holds in end grain alone",
    "Wood screws go into the end grain of solid wood", "Take plywood for these boards, or turn their grain.",
    "Along the grain a wood screw pulls out by its own: do not count on it.",
    "which board you have, and how you join it, is the maker's choice",
)  # fmt: skip


def screw_checks(bench: Bench) -> Iterator[CheckResult]:
    """Every use of a wood screw, by what it goes through and holds on to."""
    spec = bench.spec
    for each in (*driven(bench), *bracket_screws(bench)):
        where = f"{each.place}, {each.name}"
        most = room(each.through, each.into, LEAST_INSIDE)
        length = each.screw.length
        out = length > each.through + each.into
        yield check_result(
            SCREW_LENGTH, length <= most, where, each.path, value=length, limit=most, unit="mm",
            severity="error" if out and each.shows else "", advice=_shorter(spec, each),
            remedy=_other_screw(each),
        )  # fmt: skip
        left, needed = thread_left(length, each.through, each.into), least_thread(each.screw.shank)
        yield check_result(
            SCREW_THREAD, left >= needed, where, each.path, value=left, limit=needed, unit="mm",
            sense="at least", advice=_longer(bench, each), remedy=_other_screw(each),
        )  # fmt: skip
        if each.in_end:
            yield check_result(SCREW_END_GRAIN, False, where, each.path)
        if each.edge is not None:
            thick = edge_for(each.screw.shank)
            yield check_result(
                SCREW_SPLITS, each.edge >= thick, where, each.path, value=each.edge, limit=thick, unit="mm",
                sense="at least", advice=_advice(spec, each, thick), remedy=_other_screw(each),
            )  # fmt: skip


def _other_screw(each: Driven) -> tuple[Change, ...]:
    """The usual screw, where the spec chose another."""
    if each.usual is None or each.usual == each.screw:
        return ()
    return (Change(dotted(each.path), wood_screw_name(each.usual)),)


def _advice(spec: Spec, each: Driven, sheet: Fraction) -> str:
    """The rule's own advice where another screw cures it, else a sheet that holds what is sold."""
    if _other_screw(each):
        return ""
    return (
        f"Name a sheet of {said(spec, sheet)} or more in `{each.holds}`: no screw on the shelf fits this one."
    )


def _shorter(spec: Spec, each: Driven) -> str:
    return _advice(spec, each, each.screw.length - each.through + LEAST_INSIDE)


def _longer(bench: Bench, each: Driven) -> str:
    spec = bench.spec
    flat = next((part for part in bench.parts if part.mark == each.mark and part.across == "x"), None)
    if flat:
        return _narrower_bay(bench, each, flat)
    needed = each.through + least_thread(each.screw.shank)
    length = next(
        (screw.length for screw in stock(each.screw.size, spec.units) if screw.length >= needed), needed
    )
    # a thicker wall is nearer to the bars' faces, and its strips are thinner by half of that
    return _advice(spec, each, 2 * (length - each.through + LEAST_INSIDE) - each.into)


def _narrower_bay(bench: Bench, each: Driven, flat: Part) -> str:
    """A bay in which the longest screw on the shelf that fits reaches far enough through the strips that fill it."""
    spec = bench.spec
    bay = bay_of(bench.layout, flat.place.bay)[1]
    width = each.screw.length - least_thread(each.screw.shank)
    narrow = said(spec, bay.width - 2 * (flat.width - width), down=True)
    through = said(spec, flat.width)
    return f"No screw on the shelf holds well through {through} of wood: write `width: {narrow}` for bay {bay.name}."
