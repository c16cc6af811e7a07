"""The exact sums of a bench: zones over the depth, bays over the length, levels over the height, and the lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from generator.calculators.spacing import Share, divide, round_shares, starts
from generator.codes import Code
from generator.findings import Change, Finding, Severity, SpecError, dotted, nearest, one_of, with_changes
from generator.geometry import Span
from generator.provenance import constant, rounded_down
from generator.spec.load import LoadedSpec
from generator.spec.schema import BaySpec, Spec

#: A bay that measures further off its plan (mm) is another bay, or a slip of the tape.
FURTHEST_OFF = Fraction(10)
#: The height of the tray's rail, where the spec leaves it open, is a multiple of this (mm).
RAIL_STEP_MM = constant(5, "step of a rail's height")
RAIL_STEP_IN = constant("127/20", "step of a rail's height, a quarter inch")
#: The clamp gap that an omitted tray height leaves at least (mm).
CLAMP_GAP = constant(130, "least clamp gap")
#: Gaps between two lines that are too narrow for a panel to be worth having (mm).
NARROW_GAP = constant(20, "least useful width of a bay")


@dataclass(frozen=True)
class Below:
    """From the floor to the frame's underside (mm), and the words for it in a sum that fails."""

    floor_to_frame: Fraction
    parts: str
    lower: str


@dataclass(frozen=True)
class BayPlace:
    """The clear space between two posts. `left_line` and `right_line` are the posts' left edges."""

    name: str
    zone: int
    index: int
    x: Span
    left_line: Fraction
    right_line: Fraction
    spec: BaySpec
    measured: Fraction | None = None

    @property
    def width(self) -> Fraction:
        """Clear, from post to post (mm), as planned: by this the frame is cut."""
        return self.x.size

    @property
    def clear(self) -> Fraction:
        """Clear as it was measured on the standing frame, else as planned: by this is cut what fills the bay."""
        return self.width if self.measured is None else self.measured


@dataclass(frozen=True)
class ZonePlace:
    """`letter` begins the marks of what is in the zone; `opens` is the face one reaches in from."""

    name: str
    index: int
    letter: str
    y: Span
    bays: tuple[BayPlace, ...]
    post_edges: tuple[Fraction, ...]
    opens: str

    @property
    def lines(self) -> tuple[Fraction, ...]:
        """Left edges of the posts between the two end frames."""
        return self.post_edges[1:-1]


@dataclass(frozen=True)
class Levels:
    """Heights above the frame's underside."""

    frame_height: Fraction
    base_top: Fraction
    end_rail_bottom: Fraction
    tray_bottom: Fraction
    tray_top: Fraction
    top_rail_bottom: Fraction
    opening: Fraction
    floor_to_frame: Fraction

    @property
    def clamp_gap(self) -> Fraction:
        """Clear height between tray and top rail (mm), where clamps pass."""
        return self.top_rail_bottom - self.tray_top


@dataclass(frozen=True)
class Layout:
    """`lines` are the left edges of all inner posts, of all zones together; `rows` the front faces of all post rows.

    `section` is the width of a post, `rail` the height of a member that lies (mm).
    """

    length: Fraction
    depth: Fraction
    height: Fraction
    section: Fraction
    rail: Fraction
    zones: tuple[ZonePlace, ...]
    lines: tuple[Fraction, ...]
    rows: tuple[Fraction, ...]
    levels: Levels

    @property
    def bays(self) -> tuple[BayPlace, ...]:
        """Bays of all zones, front zone first, each from left to right."""
        return tuple(bay for zone in self.zones for bay in zone.bays)

    def line_number(self, left_edge: Fraction) -> int:
        """1 is the left end frame, then each line in turn."""
        return (Fraction(0), *self.lines, self.length - self.section).index(left_edge) + 1

    def line_name(self, left_edge: Fraction) -> str:
        """The line's name for the reader: P1 is the left end frame."""
        return f"P{self.line_number(left_edge)}"


def bay_of(layout: Layout, name: str) -> tuple[ZonePlace, BayPlace]:
    """A bay by its name, with its zone."""
    return next((zone, bay) for zone in layout.zones for bay in zone.bays if bay.name == name)


def lay_out(loaded: LoadedSpec, below: Below) -> Layout:
    """Solve the three sums above what is `below` the frame. Raises SpecError with each sum that fails, by how much."""
    spec = loaded.spec
    faults: list[Finding] = []
    levels = _levels(loaded, below, faults)
    zones = _zones(loaded, faults)
    faults += _wrong_bays(loaded, zones)
    if faults:
        raise SpecError(faults)
    section, rail = loaded.goods.members.section, loaded.goods.members.rail
    lines = tuple(sorted({edge for zone in zones for edge in zone.lines}))
    faults += _too_close(loaded, zones, lines, section)
    if faults:
        raise SpecError(faults)
    rows = (Fraction(0), *(zone.y.high for zone in zones))
    size = spec.bench
    return Layout(size.length, size.depth, size.height, section, rail, zones, lines, rows, levels)


def _levels(loaded: LoadedSpec, below: Below, faults: list[Finding]) -> Levels:
    spec = loaded.spec
    goods, planned, rail = loaded.goods, loaded.as_written(), loaded.goods.members.rail
    # the planned thickness: a sheet that measures less changes its rabbets, and moves no board beside it
    tray = planned.goods.tray.thickness if spec.tray.there else Fraction(0)
    frame_height = spec.bench.height - below.floor_to_frame - goods.top.thickness
    end_rail = spec.tray.end_rail_bottom
    if end_rail is None:
        end_rail = default_end_rail_bottom(planned, frame_height)
    # without a tray the bays end where the end panels do, at the underside of these rails
    tray_bottom = end_rail + (rail / 2 - tray / 2 if spec.tray.there else 0)
    opening = tray_bottom - (goods.trim.thickness if goods.trim else 0) - rail
    levels = Levels(
        frame_height,
        rail,
        end_rail,
        tray_bottom,
        tray_bottom + tray,
        frame_height - rail,
        opening,
        below.floor_to_frame,
    )
    lowest, highest = rail, levels.top_rail_bottom - rail
    if opening <= 0 or not lowest < end_rail <= highest:
        key = ("tray", "end_rail_bottom") if spec.tray.end_rail_bottom else ("bench", "height")
        off = max(lowest - end_rail, end_rail - highest, -opening, Fraction(0))
        way = "high" if off == end_rail - highest else "low"
        rail_name = "tray's end rail" if spec.tray.there else "middle end rail"
        faults.append(
            loaded.fault(
                Code.HEIGHT_SUM,
                f"the heights do not fit: {below.parts} and top leave a frame of {loaded.say(frame_height)}, and the "
                f"{rail_name} at {loaded.say(end_rail)} is {loaded.say(off)} too {way}",
                *key,
                allowed=f"`tray.end_rail_bottom` above {loaded.say(lowest)}, at {loaded.say(highest)} or lower, "
                "or a higher bench"
                if highest > lowest
                else f"a higher bench, or lower {below.lower} and top",
            )
        )
    return levels


def default_end_rail_bottom(planned: LoadedSpec, frame_height: Fraction) -> Fraction:
    """Height of the tray's end rail when the spec leaves it out: whole 5 mm (or quarter inches) below the gap."""
    rail, tray = planned.goods.members.rail, planned.goods.tray.thickness
    step = RAIL_STEP_IN if planned.spec.units == "in" else RAIL_STEP_MM
    return rounded_down(frame_height - rail - CLAMP_GAP - tray / 2 - rail / 2, step)


def _zones(loaded: LoadedSpec, faults: list[Finding]) -> tuple[ZonePlace, ...]:
    spec = loaded.spec
    section, count = loaded.goods.members.section, len(spec.zones)
    room = spec.bench.depth - (count + 1) * section
    depths = divide(room, [zone.depth for zone in spec.zones])
    if not depths.ok:
        faults.append(
            _sum_fault(
                loaded,
                Code.DEPTH_SUM,
                "zones",
                f"{count + 1} bars",
                depths.residual,
                spec.bench.depth,
                "zones",
            )
        )
    fronts = starts(depths.sizes, section, section)
    return tuple(
        _zone(loaded, index, Span(front, front + depth), faults)
        for index, (front, depth) in enumerate(zip(fronts, depths.sizes, strict=True))
    )


def _zone(loaded: LoadedSpec, index: int, y: Span, faults: list[Finding]) -> ZonePlace:
    spec = loaded.spec
    zone, section, length = spec.zones[index], loaded.goods.members.section, spec.bench.length
    widths_given: Sequence[Fraction | Share] = [bay.width for bay in zone.bays]
    room = length - (len(zone.bays) + 1) * section
    division = divide(room, widths_given)
    if not division.ok:
        faults.append(
            _sum_fault(
                loaded,
                Code.LENGTH_SUM,
                f"bays of zone {zone.name}",
                f"{len(zone.bays) + 1} posts",
                division.residual,
                length,
                "zones",
                index,
                "bays",
            )
        )
    letter = zone_letter(index, len(spec.zones))
    names = bay_names(spec)[index]
    widths = _rounded(spec, names, widths_given, division.sizes)
    if division.ok and min(widths) <= 0:
        faults.append(_rounded_away(loaded, names[widths.index(min(widths))], min(division.sizes)))
    lefts = starts(widths, section, section)
    found = loaded.bay_widths()
    bays = tuple(
        BayPlace(
            name,
            index,
            i,
            Span(left, left + width),
            left - section,
            left + width,
            bay,
            found[name].value if name in found else None,
        )
        for i, (name, left, width, bay) in enumerate(zip(names, lefts, widths, zone.bays, strict=True))
    )
    opens = "front" if index == 0 else "rear" if index == len(spec.zones) - 1 else ""
    edges = (Fraction(0), *(bay.right_line for bay in bays))
    return ZonePlace(zone.name, index, letter, y, bays, edges, opens)


def _wrong_bays(loaded: LoadedSpec, zones: Sequence[ZonePlace]) -> list[Finding]:
    """Measured bays that there are not, or that cannot be the planned ones."""
    widths = {bay.name: bay.width for zone in zones for bay in zone.bays}
    faults = []
    for name, found in loaded.bay_widths().items():
        if name not in widths:
            near = nearest(name, widths)
            faults.append(
                Finding(
                    Code.UNKNOWN_BAY,
                    Severity.ERROR,
                    "the plan has no bay with this name",
                    found.where,
                    name,
                    one_of(widths),
                    near,
                )
            )
        elif abs(found.value - widths[name]) > FURTHEST_OFF:
            limit = f"within {loaded.say(FURTHEST_OFF)} of the planned {loaded.say(widths[name])}"
            message = "this is too far from the planned width; measure the bay again"
            faults.append(
                Finding(
                    Code.BAY_FAR_OFF, Severity.ERROR, message, found.where, loaded.say(found.value), limit
                )
            )
    return faults


def zone_letter(index: int, count: int) -> str:
    """F for the front zone, B for the back one, M (M2, M3 ...) between."""
    if index == 0:
        return "F"
    if index == count - 1:
        return "B"
    return "M" if index == 1 else f"M{index}"


def bay_names(spec: Spec) -> tuple[tuple[str, ...], ...]:
    """The names of all bays, zone by zone: a bay without a name takes its zone's letter and its number."""
    return tuple(
        tuple(
            bay.name or f"{zone_letter(index, len(spec.zones))}{number}"
            for number, bay in enumerate(zone.bays, 1)
        )
        for index, zone in enumerate(spec.zones)
    )


def _rounded(
    spec: Spec, names: Sequence[str], given: Sequence[Fraction | Share], sizes: tuple[Fraction, ...]
) -> tuple[Fraction, ...]:
    """Sizes with their shares rounded, when this zone has the bay that takes the remainder."""
    rule = spec.bench.round_shares
    if rule is None or rule.remainder not in names:
        return sizes
    taker = names.index(rule.remainder)
    return round_shares(sizes, given, rule.step, taker) if isinstance(given[taker], Share) else sizes


def _rounded_away(loaded: LoadedSpec, name: str, narrowest: Fraction) -> Finding:
    """A share that is smaller than the step to which it is rounded down."""
    rule = loaded.spec.bench.round_shares
    assert rule is not None
    return loaded.fault(
        Code.NO_SIZE,
        f"this step rounds bay {name}, the narrowest, down to nothing",
        "bench",
        "round_shares",
        "step",
        found=loaded.say(rule.step),
        allowed=f"{loaded.say(narrowest)} or less",
        advice="1 mm or 1/16 in is usual.",
    )


def _sum_fault(
    loaded: LoadedSpec,
    code: Code,
    what: str,
    bars: str,
    residual: Fraction,
    total: Fraction,
    *path: str | int,
) -> Finding:
    amount = loaded.say(abs(residual))
    by = f"{amount} too much" if residual < 0 else f"{amount} missing"
    if residual == 0:
        by = "nothing is left for the shares"
    return loaded.fault(
        code,
        f"the {what} and {bars} do not add up to {loaded.say(total)}: {by}",
        *path,
        allowed="sizes that add up exactly, or one of them `share`",
    )


def _too_close(
    loaded: LoadedSpec, zones: Sequence[ZonePlace], lines: tuple[Fraction, ...], section: Fraction
) -> list[Finding]:
    ends = (Fraction(0), *lines, loaded.spec.bench.length - section)
    faults = []
    for a, b in pairwise(ends):
        if b - a < section:
            changes = _onto(loaded, zones, a, b)
            fault = loaded.fault(
                Code.LINES_TOO_CLOSE,
                f"two post lines are {loaded.say(b - a)} apart (left edges {loaded.say(a)} and "
                f"{loaded.say(b)}), less than the bar's {loaded.say(section)}",
                "zones",
                allowed="lines at the same place, or one bar or more apart",
                advice=with_changes("Let the two lines coincide", changes) if changes else "",
            )
            faults.append(replace(fault, remedy=changes))
    return faults


def _onto(
    loaded: LoadedSpec, zones: Sequence[ZonePlace], left: Fraction, right: Fraction
) -> tuple[Change, ...]:
    """The line at `right` moved onto that at `left`: the bay before it gets narrower, the others take what is left."""
    for zone in zones:
        for bay in zone.bays:
            width = bay.width - (right - left)
            others = any(isinstance(other.spec.width, Share) for other in zone.bays if other is not bay)
            if bay.right_line == right and width > 0 and others:
                return (Change(dotted(("zones", zone.index, "bays", bay.index, "width")), loaded.say(width)),)
    return ()
