"""The layout and the perforated top as rows; diagonals for squaring."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.bench.tops.features import finished_size
from generator.calculators.squaring import diagonal
from generator.figures.room import room_sides
from generator.figures.rows.assembly import Diagonal
from generator.figures.rows.layout import Bay, LayoutFacts, Zone
from generator.figures.rows.setting_out import Relief, TopBoard, TopEdging, TopFeature, TopGrid
from generator.geometry import Span


def layout(bench: Bench) -> LayoutFacts:
    """Zones, bays and lines as rows; `left` and `front_edge` are edges of the clear space (mm)."""
    plan = bench.layout
    return LayoutFacts(
        frame_height=plan.levels.frame_height,
        zones=tuple(Zone(zone.name, zone.y.size, zone.y.low) for zone in plan.zones),
        bays=tuple(_bay(plan, zone, bay) for zone in plan.zones for bay in zone.bays),
        post_edges={zone.name: zone.post_edges for zone in plan.zones},
        clamp_gap=plan.levels.clamp_gap,
        length=plan.length,
        depth=plan.depth,
        height=plan.height,
        section=plan.section,
        floor_to_frame=plan.levels.floor_to_frame,
        lines=plan.lines,
        outside_depth=_outside_depth(bench),
        room=room_sides(bench),
    )


def _bay(plan: Layout, zone: ZonePlace, bay: BayPlace) -> Bay:
    levels = plan.levels
    bottom, height = levels.base_top, levels.opening
    if bay.spec.knee:
        bottom, height = -levels.floor_to_frame, levels.opening + levels.base_top + levels.floor_to_frame
    return Bay(
        bay.name, zone.name, bay.x.low, bay.width, bottom, height, zone.opens, bay.measured, bay.spec.knee
    )


def _outside_depth(bench: Bench) -> Fraction:
    """The frame with what is before and behind it (mm)."""
    things = [thing for kind in FILLINGS for thing in kind.things(bench)]
    lows = [part.box.y.low for part in bench.parts] + [thing.low[1] for thing in things]
    highs = [part.box.y.high for part in bench.parts] + [thing.high[1] for thing in things]
    return max(highs) - min(lows)


def top(bench: Bench) -> TopGrid:
    """The top with its grid; a plain top has no holes."""
    length, width = finished_size(bench.spec, bench.layout)
    grid, holes = bench.grid, bench.spec.top.holes
    plain = TopGrid(
        0,
        0,
        0,
        Fraction(0),
        Fraction(0),
        (),
        length=length,
        width=width,
        thickness=bench.goods.top.thickness,
        brackets=tuple(each.at for each in bench.brackets),
        boards=tuple(TopBoard(part.mark, part.length, part.width) for part in bench.of(Role.TOP)),
        edging=tuple(
            TopEdging(part.place.end or part.place.side, part.length, part.thickness, part.mitres)
            for part in bench.of(Role.TOP_EDGING)
        ),
        features=tuple(
            TopFeature(
                each.name, each.kind, each.at, each.size, each.depth, each.opening, each.corner, each.diameter
            )
            for each in bench.features
        ),
    )
    if grid is None or holes is None:
        return plain
    return replace(
        plain,
        holes=len(grid.holes),
        columns=len(grid.columns.positions),
        rows=len(grid.rows.positions),
        margin_x=grid.columns.margin,
        margin_y=grid.rows.margin,
        omitted_columns=grid.columns.omitted,
        omitted_rows=grid.rows.omitted,
        diameter=holes.diameter,
        pitch=holes.pitch,
        left_out=tuple(sorted(grid.left_out)),
    )


def relief(bench: Bench) -> Relief:
    """The relief's template, turned to (along, across) the slot: the spec writes openings the other way round."""
    card = bench.relief
    across, along = card.opening
    wide, long = card.template
    return Relief(
        opening=(along, across),
        template=(long, wide),
        offset=card.offset,
        guide_bush=card.template_radius * 2,
        cutter=card.work_radius * 2,
        template_radius=card.template_radius,
        work_radius=card.work_radius,
    )


def _run(rails: tuple[Part, ...]) -> Fraction:
    """From the first to the last end of rails in one row, also where leg room parts them (mm)."""
    whole = max(rails, key=lambda rail: rail.length)
    first, last = min(rail.box.x.low for rail in rails), max(rail.box.x.high for rail in rails)
    return whole.length if whole.length == last - first else last - first


def diagonals(bench: Bench) -> tuple[Diagonal, ...]:
    """Outer and inner of the base, end frame, top grid, and the front and rear openings of each width.

    Base and end frame are squared before the other stands: between the ends of the base rails, and over the posts.
    """
    plan = bench.layout
    s, frame = plan.section, plan.levels.frame_height
    base_rails = bench.of(Role.LONG_RAIL, level="base")
    first = min((rail.box.x.low for rail in base_rails), default=Fraction(0))
    whole = (Fraction(0), Fraction(0), frame, plan.length, plan.depth, frame)
    inner = (first, s, s, first + _run(base_rails), plan.depth - s, s)
    flat = {
        "outer": whole,
        "base inner": inner,
        "front face": (*whole[:2], Fraction(0), plan.length, Fraction(0), frame),
    }
    rows = [
        ("outer", plan.length, plan.depth),
        ("base inner", _run(base_rails), plan.depth - 2 * s),
        ("end frame", plan.depth, bench.of(Role.CORNER_POST)[0].length),
        ("front face", plan.length, frame),
    ]
    rails = bench.of(Role.LONG_RAIL, level="top")
    if bench.of(Role.TOP_CROSS_MEMBER):
        rows.append(("top grid", rails[0].length, plan.depth))
    seen: set[tuple[str, Span]] = set()
    for zone in plan.zones:
        for bay in zone.bays:
            key = (zone.name, Span(bay.width, bay.width))
            if zone.opens and key not in seen:
                seen.add(key)
                rows.append(
                    (f"bay {bay.name}", bay.width, plan.levels.top_rail_bottom - plan.levels.base_top)
                )
    return tuple(
        Diagonal(name, diagonal(a, b), (a, b), tuple(float(value) for value in flat.get(name, ())))
        for name, a, b in rows
    )
