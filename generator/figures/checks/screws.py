"""Checks of the wood screws: they stay inside, hold on to enough wood, and split no edge."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.model import Bench
from generator.calculators.wood_screws import (
    LEAST_INSIDE,
    WoodScrew,
    edge_for,
    least_thread,
    room,
    stock,
    thread_left,
)
from generator.figures.checks.judged import Judged, judged, said
from generator.figures.screws import (
    Driven,
    bracket_screws,
    default_box_screw,
    default_face_screw,
    driven,
    wood_screw_name,
)
from generator.spec.schema import Spec


def screw_checks(spec: Spec, bench: Bench) -> Iterator[Judged]:
    """Every use of a wood screw, by what it goes through and holds on to."""
    for each in (*driven(spec, bench), *bracket_screws(spec, bench)):
        where = f"{each.place}, {each.name}"
        most = room(each.through, each.into, LEAST_INSIDE)
        length = each.screw.length
        out = length > each.through + each.into
        yield judged(
            "screw-length", length <= most, where, each.path, value=length, limit=most, unit="mm",
            severity="error" if out and each.kind == "drawer front screw" else "", advice=_shorter(spec, each),
        )  # fmt: skip
        left, needed = thread_left(length, each.through, each.into), least_thread(each.screw.shank)
        yield judged(
            "screw-thread", left >= needed, where, each.path, value=left, limit=needed, unit="mm",
            sense="at least", advice=_longer(spec, bench, each),
        )  # fmt: skip
        if each.edge is not None:
            thick = edge_for(each.screw.shank)
            yield judged(
                "screw-splits", each.edge >= thick, where, each.path, value=each.edge, limit=thick, unit="mm",
                sense="at least", advice=_thinner(spec, each, each.edge),
            )  # fmt: skip


def _default(spec: Spec, each: Driven) -> WoodScrew | None:
    """The screw that the tool would take where the spec asks for another."""
    if each.kind == "drawer front screw" and spec.drawers.face_screw is not None:
        return default_face_screw(spec)
    if each.kind == "drawer box screw" and spec.drawers.box_screw is not None:
        return default_box_screw(spec)
    return None


def _written(each: Driven, screw: WoodScrew | None) -> str:
    key = ".".join(map(str, each.path))
    return f'Write `{key}: "{wood_screw_name(screw)}"`.' if screw else ""


def _shorter(spec: Spec, each: Driven) -> str:
    shortest = stock("4", spec.units)[0]
    thicker = (
        f"No shorter screw is sold: take a sheet of {said(spec, shortest.length + LEAST_INSIDE)} or more."
    )
    return _written(each, _default(spec, each)) or thicker


def _longer(spec: Spec, bench: Bench, each: Driven) -> str:
    if each.group == "tote runner":
        return _narrower_runner(spec, bench, each)
    thicker = said(spec, least_thread(each.screw.shank) + LEAST_INSIDE)
    return (
        _written(each, _default(spec, each))
        or f"Take a sheet of {thicker} or more for what the screw holds on to."
    )


def _narrower_runner(spec: Spec, bench: Bench, each: Driven) -> str:
    """A bay in which the longest screw on the shelf that fits reaches far enough through its runners."""
    runner = next(part for part in bench.parts if part.mark == each.mark)
    bay = next(bay for bay in bench.layout.bays if bay.name == runner.place.bay)
    width = each.screw.length - least_thread(each.screw.shank)
    narrow = said(spec, bay.width - 2 * (runner.width - width), down=True)
    through = said(spec, runner.width)
    return f"No screw on the shelf holds well through {through} of wood: write `width: {narrow}` for bay {bay.name}."


def _thinner(spec: Spec, each: Driven, edge: Fraction) -> str:
    sheet = said(spec, edge_for(each.screw.shank))
    return _written(each, _default(spec, each)) or f"Take a sheet of {sheet} or more."
