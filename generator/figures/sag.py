"""How far bars, board, shelves and drawer bottoms sag, and which bar needs its inner posts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Protocol

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Sagging
from generator.bench.model import Bench, Part
from generator.bench.place import SIDE_WORDS, SIDES, Side, in_words
from generator.bench.role import Role
from generator.calculators.beams import (
    board_second_moment,
    line_load,
    sag_after_years,
    sag_in_frame,
    sag_limit,
    sag_point_middle,
    sag_spread,
    weight,
)
from generator.calculators.plane_frame import SOURCE as FRAME
from generator.calculators.plates import (
    POISSON,
    plate_stiffness,
    point_coefficient,
    sag_of_plate_point,
    sag_of_plate_spread,
    spread_coefficient,
)
from generator.calculators.plates import SOURCE as PLATES
from generator.figures.bar_frame import BarFrame
from generator.figures.cross_frame import cross_frame
from generator.figures.long_frame import long_frame
from generator.figures.parts import piece_mass
from generator.figures.rows.masses import Mass
from generator.figures.rows.strength import Sag
from generator.geometry import Span
from generator.provenance import constant, inexact
from generator.spec.goods import Sheet

IN_FRAME = "load in the middle of a bay, on a rail that its posts, the base rail and its supports hold"
ACROSS = "load in the middle of a bar that rests on both long sides, which sag with it"
BOARD = "load in the middle of a board that ends at the bars around it; it runs over them, so it sags less"
STAYS = "the load of the top spread over a board that ends at the bars around it"


class _Series(Protocol):
    """A coefficient by how much longer than wide a board is."""

    def __call__(self, *, long_to_short: float) -> float: ...


@dataclass(frozen=True)
class _Bars:
    """What all bars of the frame have in common: E (MPa) and I (mm⁴)."""

    modulus: float
    second_moment: float

    def point(self, force: float, span: Fraction) -> float:
        return sag_point_middle(
            force=force, span=inexact(span), modulus=self.modulus, second_moment=self.second_moment
        )

    def spread(self, force: float, span: Fraction) -> float:
        return sag_spread(
            line_load=force / inexact(span),
            span=inexact(span),
            modulus=self.modulus,
            second_moment=self.second_moment,
        )


RAIL_STAYS = (
    "half of the load of the top, spread along a rail that its posts, the base rail and its supports hold"
)

_Frames = Mapping[str, BarFrame]


def sags(bench: Bench, weight_of: Mass) -> tuple[Sag, ...]:
    """One row for each kind of part and face, its widest span."""
    bar = bench.goods.members.lying
    bars = _Bars(inexact(bar.modulus), inexact(bar.second_moment))
    frames: dict[str, BarFrame] = {side: long_frame(bench, side) for side in SIDES}
    return (
        *_top_bars(bench, bars, frames),
        *_top_board(bench),
        *_base_rails(bench, bars, weight_of, frames),
        *(_board(bench, each) for kind in reversed(FILLINGS) for each in kind.sagging(bench)),
    )


def _top_bars(bench: Bench, bars: _Bars, frames: _Frames) -> Iterator[Sag]:
    """Long rails over the posts of their face, cross-members over the spines, end members over nothing."""
    spec = bench.spec
    plan = bench.layout
    force, limit = inexact(spec.limits.top_force), inexact(spec.limits.top_sag)

    def row(
        kind: str,
        where: str,
        marks: Iterable[Part],
        spans: Iterable[Fraction],
        whole: Fraction,
        deepest: float,
        model: str,
    ) -> Sag:
        span = max(spans)
        beam, without = bars.point(force, span), bars.point(force, whole)
        has_posts = span != whole
        return Sag(
            kind=kind,
            where=where,
            marks=tuple(part.mark for part in marks),
            span=span,
            load=force,
            spread=False,
            sag=_in_frame(", ".join(filter(None, (kind, where))), deepest, beam),
            limit=limit,
            model=model,
            without_posts=without if has_posts else None,
            needs_posts=without > limit,
        )

    across, along = plan.depth - 2 * plan.section, plan.length - 2 * plan.section
    for side, zone in zip(SIDES, (plan.zones[0], plan.zones[-1]), strict=True):
        rails = bench.of(Role.LONG_RAIL, side=side, level="top")
        frame = frames[side]
        middles = (frame.nearest(float(bay.x.middle), rails[0].mark) for bay in zone.bays)
        deepest = max(frame.sag({node: float(force)}, rails[0].mark) for node in middles)
        widths = tuple(bay.width for bay in zone.bays)
        yield row("top rail", SIDE_WORDS[side], rails, widths, along, deepest, IN_FRAME)
        yield from _rail_for_years(bench, bars, frame, rails, side, max(widths))
    for kind, members, spans in (
        ("top cross-member", bench.of(Role.TOP_CROSS_MEMBER), [zone.y for zone in plan.zones]),
        ("top end member", bench.of(Role.TOP_END_MEMBER), [Span(plan.section, plan.depth - plan.section)]),
    ):
        if members:
            deepest = max(_across(bench, member, spans, force, frames) for member in members)
            yield row(kind, "", members, (span.size for span in spans), across, deepest, ACROSS)


def _rail_for_years(
    bench: Bench, bars: _Bars, frame: BarFrame, rails: Sequence[Part], side: Side, span: Fraction
) -> Iterator[Sag]:
    """A top rail of timber under half of the load of the top, which stays; nothing for metal."""
    if bench.goods.members.lying.creep is None:
        return
    half = weight(mass=inexact(bench.spec.loads.top)) / 2
    load = half * inexact(span / rails[0].shoulders.x.size)
    deepest = frame.sag(frame.spread(float(half), rails[0].mark), rails[0].mark)
    where = f"{SIDE_WORDS[side]}, load that stays"
    sag = _in_frame(f"top rail, {where}", deepest, bars.spread(load, span))
    marks = tuple(part.mark for part in rails)
    limit = inexact(bench.spec.limits.top_sag)
    years = _stays(bench, sag)
    yield Sag("top rail", where, marks, span, load, True, sag, limit, RAIL_STAYS, years=years)


def _across(bench: Bench, member: Part, spans: Iterable[Span], force: float, frames: _Frames) -> float:
    """How far a member between the long sides sags (mm) under a force (N) in the middle of its worst span."""
    rows = {bench.of(Role.LONG_RAIL, side=side)[0].box.y.middle: frames[side] for side in SIDES}
    plane = cross_frame(bench, member.box.x.middle, rows)
    middles = [plane.nearest(float(span.middle), member.mark) for span in spans]
    return max(plane.sag({node: float(force)}, member.mark) for node in middles)


def _top_board(bench: Bench) -> Iterator[Sag]:
    """The widest field between the bars below it."""
    spec = bench.spec
    plan, card = bench.layout, bench.goods.top
    edges = (Fraction(0), *plan.lines, plan.length - plan.section)
    wide = max(b - a - plan.section for a, b in pairwise(edges))
    short, long = sorted((wide, plan.depth - 2 * plan.section))
    force = inexact(spec.limits.top_force)
    sag = sag_of_plate_point(
        coefficient=_coefficient("a load in its middle", point_coefficient, short, long),
        force=force,
        short=inexact(short),
        stiffness=_stiffness(card),
    )
    marks = tuple(part.mark for part in bench.of(Role.TOP))
    limit = inexact(spec.limits.top_sag)
    yield Sag("top board", "", marks, short, force, False, sag, limit, BOARD)
    area = sum(part.box.x.size * part.box.y.size for part in bench.of(Role.TOP))
    stays = weight(mass=inexact(spec.loads.top)) * inexact(short * long / area)
    sag = sag_of_plate_spread(
        coefficient=_coefficient("a spread load", spread_coefficient, short, long),
        force=stays,
        short=inexact(short),
        long=inexact(long),
        stiffness=_stiffness(card),
    )
    years = sag_after_years(sag=sag, creep=inexact(card.creep))
    yield Sag("top board", "load that stays", marks, short, stays, True, sag, limit, STAYS, years=years)


def _stiffness(card: Sheet) -> float:
    return plate_stiffness(modulus=inexact(card.modulus), thickness=inexact(card.thickness), poisson=POISSON)


def _coefficient(load: str, series: _Series, short: Fraction, long: Fraction) -> float:
    """A plate's coefficient is a sum of hundreds of terms: it has a name and its source, no working of its own."""
    ratio = float(long / short)
    name = f"coefficient of a board {ratio:.2f} times as long as wide, under {load}"
    return inexact(constant(Fraction(series(long_to_short=ratio)), name, f"{PLATES}, by Navier's series", ""))


def _base_rails(bench: Bench, bars: _Bars, whole: Mass, frames: _Frames) -> Iterator[Sag]:
    """As a frame between the stands of one side: with the load spread along the rail, and in the middle of each span.

    A rail that leg room parts is judged piece by piece, each between its own stands, with its part of the load.
    """
    rails = bench.of(Role.LONG_RAIL, level="base")
    if not any(rail.place.lines for rail in rails):
        side = min(y for _, y in bench.stand.points)
        places = sorted(x for x, y in bench.stand.points if y == side)
        yield from _base_rail(bench, bars, frames, rails, "", whole.loaded / 2, places)
        return
    for rail in rails:
        front = rail.box.y.low == 0
        near = Span(rail.box.x.low - bench.layout.section, rail.box.x.high + bench.layout.section)
        places = sorted(
            x
            for x, y in bench.stand.points
            if (y < bench.layout.depth / 2) == front and near.low < x < near.high
        )
        share = rail.length / (bench.layout.length - 2 * bench.layout.section)
        where = in_words(replace(rail.place, level="")) or SIDE_WORDS[rail.place.side]
        yield from _base_rail(bench, bars, frames, (rail,), where, whole.loaded / 2 * inexact(share), places)


def _base_rail(
    bench: Bench,
    bars: _Bars,
    frames: _Frames,
    rails: Sequence[Part],
    where: str,
    on_rail: float,
    places: Sequence[Fraction],
) -> Iterator[Sag]:
    """The longest span of one rail, or of rails that are equal: of these, the one whose frame sags most."""
    spec = bench.spec
    spans = [b - a for a, b in pairwise(places)]
    span = max(spans)
    on_all = weight(mass=on_rail)
    middle = weight(mass=on_rail / len(spans))
    spread = line_load(mass=on_rail, length=inexact(rails[0].length)) * inexact(span)
    for is_spread in (True, False):
        load = spread if is_spread else middle
        deepest = max(
            frame.sag(
                frame.spread(float(on_all), rail.mark)
                if is_spread
                else {frame.nearest(float(a + b) / 2, rail.mark): float(middle) for a, b in pairwise(places)},
                rail.mark,
            )
            for rail in rails
            for frame in [frames[rail.place.side]]
        )
        beam = bars.spread(load, span) if is_spread else bars.point(load, span)
        name = ", ".join(
            filter(None, ("base rail", where, "load spread" if is_spread else "load in the middle"))
        )
        frame_sag = _in_frame(name, deepest, beam)
        yield Sag(
            kind="base rail",
            where=where,
            marks=tuple(part.mark for part in rails),
            span=span,
            load=load,
            spread=is_spread,
            sag=frame_sag,
            limit=sag_limit(span=inexact(span), divisor=inexact(spec.limits.rail_sag)),
            years=_stays(bench, frame_sag) if is_spread else None,
            model=bench.stand.words.rail if len(spans) > 1 else bench.stand.words.rail_two,
        )


def _stays(bench: Bench, sag: float) -> float | None:
    """The sag of a timber under a load that stays; None for metal, which does not creep."""
    creep = bench.goods.members.lying.creep
    return None if creep is None else sag_after_years(sag=sag, creep=inexact(creep))


def _in_frame(name: str, sag: float, beam: float) -> float:
    """A sag that a frame was solved for, as a part of that of a beam, which has a working."""
    says = f"part of a beam's sag that it has in its frame: {name}"
    part = Fraction(sag / float(beam)).limit_denominator(10**6)
    return sag_in_frame(part=inexact(constant(part, says, FRAME, "")), beam=beam)


def _board(bench: Bench, board: Sagging) -> Sag:
    part, card = board.part, bench.goods.sheets[board.part.material]
    span = inexact(board.long if board.short is None else board.short)
    mass = inexact(board.load) + piece_mass(bench, part) if board.own_mass else inexact(board.load)
    load = weight(mass=mass)
    if board.short is None:
        sag = sag_spread(
            line_load=line_load(mass=mass, length=span),
            span=span,
            modulus=inexact(card.modulus),
            second_moment=board_second_moment(width=inexact(part.width), thickness=inexact(card.thickness)),
        )
    else:
        sag = sag_of_plate_spread(
            coefficient=_coefficient("a spread load", spread_coefficient, board.short, board.long),
            force=load,
            short=span,
            long=inexact(board.long),
            stiffness=_stiffness(card),
        )
    return Sag(
        kind=board.kind,
        where=board.where,
        marks=board.marks,
        span=board.long if board.short is None else board.short,
        load=load,
        spread=True,
        sag=sag,
        years=sag_after_years(sag=sag, creep=inexact(card.creep)),
        # in its grooves it bends a little further without harm, and nothing stands on the one below
        at_first=board.short is not None,
        limit=sag_limit(span=span, divisor=inexact(bench.spec.limits.shelf_sag)),
        model=board.model,
    )
