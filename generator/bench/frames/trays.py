"""The tray over the bays, whole or in pieces, and its edge trim.

Pieces meet over dividers: the lower lip of the left piece is on the divider, the upper lip of its right neighbour on
that. A row of screws goes through both into the divider. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.frames.bars import in_row, row_lines
from generator.bench.frames.panels import (
    TRIM_PLAY,
    PanelRules,
    panel_rules,
    tray_heights,
    trim_thickness,
    wall_names,
    wider,
)
from generator.bench.layout import Layout
from generator.bench.piece import Notch, Operation, Part
from generator.bench.place import SIDES, Place, row_name
from generator.bench.role import Role
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.load import LoadedSpec

HALF_LAP = "half lap"
#: Mark of a tray that is one board.
WHOLE = "PAN"
#: Two pieces of a tray leave this between the shoulder of one and the lip of the other (mm). Common practice.
LAP_PLAY = constant(1, "gap at a joint of the tray")
#: Of this (mm) no key speaks.
FIXED = (("gap at each shoulder of a joint of the tray", LAP_PLAY),)


def tray_parts(loaded: LoadedSpec, layout: Layout) -> tuple[Part, ...]:
    """The tray and its trim, in the order of the cut list; nothing where the spec has none."""
    if not loaded.spec.tray.there:
        return ()
    return (*_pieces(loaded, layout, panel_rules(loaded)), *_trim_pieces(loaded, layout))


def tray_faults(loaded: LoadedSpec, layout: Layout) -> Iterator[Finding]:
    """A tray in pieces whose joints have no dividers under them, or too few."""
    if loaded.spec.tray.boards != "share":
        return
    lines, longest = _common_lines(loaded, layout), _longest(loaded, layout)
    if not lines:
        without = "dividers" not in wall_names(loaded.spec)
        yield loaded.fault(
            Code.TRAY_JOINT,
            "a tray in pieces has its joints over dividers, and no line of this bench has one in every zone",
            "tray", "boards", found="share",
            allowed="`dividers` among `panels.walls`" if without else "a post line that all zones have, or `one`",
        )  # fmt: skip
    elif longest is not None and not _joints(loaded, layout):
        places = ", ".join(loaded.say(line + layout.section / 2) for line in lines)
        yield loaded.fault(
            Code.TRAY_JOINT,
            "no piece of the tray may be longer than this, and its dividers are farther apart",
            "tray", *(("longest",) if loaded.spec.tray.longest else ("boards",)), found=loaded.say(longest),
            allowed=f"joints over the dividers at {places} from the left end: a larger sheet, or more bays",
        )  # fmt: skip


def joint_middles(loaded: LoadedSpec, layout: Layout) -> tuple[Fraction, ...]:
    """Middles of the tray's joints from the frame's left end (mm)."""
    return tuple(line + layout.section / 2 for line in _joints(loaded, layout))


def _common_lines(loaded: LoadedSpec, layout: Layout) -> tuple[Fraction, ...]:
    """Left edges of the lines with a divider in every zone: there a joint rests on its whole length."""
    if "dividers" not in wall_names(loaded.spec):
        return ()
    return tuple(line for line in layout.lines if all(line in zone.lines for zone in layout.zones))


def _longest(loaded: LoadedSpec, layout: Layout) -> Fraction | None:
    """The longest piece that a sheet gives at the tray's depth and that the spec allows; None where nothing says."""
    spec, sheet = loaded.spec, loaded.goods.tray
    width, trim = layout.depth - 2 * trim_thickness(loaded), 2 * spec.saws.sheet.edge_trim
    grain, rooms = spec.grain.get(Role.TRAY.value, sheet.grain), []
    for stock in sheet.stock:
        long, short = stock.length - trim, (stock.width or stock.length) - trim
        ways = {"length": [(long, short)], "width": [(short, long)]}.get(
            grain, [(long, short), (short, long)]
        )
        rooms += [room for room, across in ways if across >= width]
    limits = [max(rooms)] if rooms else []
    if spec.tray.longest is not None:
        limits.append(spec.tray.longest)
    return min(limits) if limits else None


def _joints(loaded: LoadedSpec, layout: Layout) -> tuple[Fraction, ...]:
    """Lines of the joints: as few as the longest piece allows, at least one, then the longest piece as short as can be.

    Empty where no such lines are there.
    """
    return _divided(loaded, layout) if loaded.spec.tray.boards == "share" else ()


def has_place(loaded: LoadedSpec, layout: Layout) -> bool:
    """Whether a tray in pieces has dividers under all its joints, each piece out of what is sold."""
    return bool(_divided(loaded, layout))


def _divided(loaded: LoadedSpec, layout: Layout) -> tuple[Fraction, ...]:
    lines, longest = _common_lines(loaded, layout), _longest(loaded, layout)
    rules = panel_rules(loaded)
    reach = layout.section - rules.tongue
    whole = Span(reach, layout.length - reach)
    best: dict[Fraction, tuple[Fraction, tuple[Fraction, ...]]] = {}
    for line in lines:  # two pieces as far as each line: the first alone
        best[line] = (_size(layout, loaded, whole, (line,))[0], (line,))
    for _ in lines:
        ended = [
            (max(size, _size(layout, loaded, whole, (line,))[-1]), chosen)
            for line, (size, chosen) in best.items()
        ]
        size, chosen = min(ended, default=(Fraction(0), ()))
        if chosen and (longest is None or size <= longest):
            return chosen
        best = _one_more(layout, loaded, whole, lines, best)
    return ()


def _one_more(
    layout: Layout,
    loaded: LoadedSpec,
    whole: Span,
    lines: Sequence[Fraction],
    best: dict[Fraction, tuple[Fraction, tuple[Fraction, ...]]],
) -> dict[Fraction, tuple[Fraction, tuple[Fraction, ...]]]:
    """The least longest piece as far as each line, with one more piece before it."""
    found: dict[Fraction, tuple[Fraction, tuple[Fraction, ...]]] = {}
    for line in lines:
        ways = [
            (max(size, _size(layout, loaded, whole, (before, line))[1]), (*chosen, line))
            for before, (size, chosen) in best.items()
            if before < line
        ]
        if ways:
            found[line] = min(ways)
    return found


def _spans(layout: Layout, loaded: LoadedSpec, whole: Span, joints: Sequence[Fraction]) -> tuple[Span, ...]:
    """Where each piece begins and ends, with its lips: both reach over the whole divider."""
    half = loaded.goods.wall.thickness / 2
    middles = [line + layout.section / 2 for line in joints]
    lows = (whole.low, *(middle - half for middle in middles))
    highs = (*(middle + half for middle in middles), whole.high)
    return tuple(Span(low, high) for low, high in zip(lows, highs, strict=True))


def _size(
    layout: Layout, loaded: LoadedSpec, whole: Span, joints: Sequence[Fraction]
) -> tuple[Fraction, ...]:
    return tuple(span.size for span in _spans(layout, loaded, whole, joints))


def _pieces(loaded: LoadedSpec, layout: Layout, rules: PanelRules) -> Iterator[Part]:
    edge, reach = trim_thickness(loaded), layout.section - rules.tongue
    y, z = Span(edge, layout.depth - edge), tray_heights(loaded, layout)
    whole, joints = Span(reach, layout.length - reach), _joints(loaded, layout)
    spans = _spans(layout, loaded, whole, joints)
    across = layout.section + rules.clearance - edge
    marks = (WHOLE,) if len(spans) == 1 else tuple(f"{WHOLE}{number}" for number in range(1, len(spans) + 1))
    for number, (mark, x) in enumerate(zip(marks, spans, strict=True)):
        outer = {"left": number == 0, "right": number == len(spans) - 1}
        corners = [
            Notch(f"{end} {side}", rules.tongue + rules.clearance, across, "corner post")
            for side in ("front", "rear")
            for end, ends in outer.items()
            if ends
        ]
        notches, cuts = _around_posts(layout, rules, x, y)
        laps = _laps(loaded, x, y, rules.tray_fit.thickness, marks, number)
        yield Part(
            mark=mark,
            name="tray" if len(spans) == 1 else "tray piece",
            role=Role.TRAY,
            material=loaded.spec.tray.material,
            kind="sheet",
            box=Box(x, y, z),
            along="x",
            across="y",
            place=Place(level="tray"),
            thickness=rules.tray_fit.thickness,
            tongues={end: rules.tongue for end, ends in outer.items() if ends},
            notches=(*corners, *notches),
            operations=(*cuts, *laps),
            fit=rules.tray_fit,
        )


def _laps(
    loaded: LoadedSpec, x: Span, y: Span, thickness: Fraction, marks: Sequence[str], number: int
) -> Iterator[Operation]:
    """The rabbets of a piece's joints: from above at its right end, from below at its left end."""
    wide = loaded.goods.wall.thickness + LAP_PLAY
    if number > 0:
        at, size = (wide / 2, y.size / 2), (wide, y.size)
        yield Operation(HALF_LAP, "bottom", at, size, thickness / 2, f"over {marks[number - 1]}")
    if number < len(marks) - 1:
        at, size = (x.size - wide / 2, y.size / 2), (wide, y.size)
        yield Operation(HALF_LAP, "top", at, size, thickness / 2, f"under {marks[number + 1]}")


def _around_posts(
    layout: Layout, rules: PanelRules, x: Span, y: Span
) -> tuple[tuple[Notch, ...], tuple[Operation, ...]]:
    """Notches at the corners of a piece, and cut-outs, for the inner posts that it goes around."""
    notches, cuts = [], []
    for row, row_y in enumerate(layout.rows):
        post = Span(row_y, row_y + layout.section)
        opening = wider(post, rules.clearance / 2, rules.clearance / 2)
        side = ""
        if row == 0:
            opening, side = Span(y.low, post.high + rules.clearance), "front"
        elif row == len(layout.rows) - 1:
            opening, side = Span(post.low - rules.clearance, y.high), "rear"
        for line in row_lines(layout, row):
            around = wider(Span(line, line + layout.section), rules.clearance / 2, rules.clearance / 2)
            low, high = max(around.low, x.low), min(around.high, x.high)
            if low >= high:
                continue
            name = f"{row_name(in_row(layout, row))} post {layout.line_name(line)}"
            end = "left" if around.low < x.low else "right" if around.high > x.high else ""
            if end and side:
                notches.append(Notch(f"{end} {side}", high - low, opening.size, name))
                continue
            at = ((low + high) / 2 - x.low, opening.middle - y.low)
            cuts.append(Operation("cut-out", "top", at, (high - low, opening.size), None, name))
    return tuple(notches), tuple(cuts)


def _trim_pieces(loaded: LoadedSpec, layout: Layout) -> Iterator[Part]:
    angle = loaded.goods.trim
    if angle is None or loaded.spec.tray.trim is None:
        return
    low = tray_heights(loaded, layout).low - angle.thickness
    z = Span(low, low + angle.leg)
    edges = (
        (layout.zones[0], Span(Fraction(0), angle.leg)),
        (layout.zones[-1], Span(layout.depth - angle.leg, layout.depth)),
    )
    number = 0
    for side, (zone, y) in zip(SIDES, edges, strict=True):
        for bay in zone.bays:
            number += 1
            yield Part(
                mark=f"T{number}",
                name="tray trim",
                role=Role.TRAY_TRIM,
                material=loaded.spec.tray.trim,
                kind="angle",
                box=Box(wider(bay.x, -TRIM_PLAY, -TRIM_PLAY), y, z),
                along="x",
                across="y",
                place=Place(level="tray", side=side, bay=bay.name),
                thickness=angle.thickness,
            )
