"""Nothing is forgotten: edges, supports, joints and the machining that each joint needs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from generator.bench.box_body import block_about, face_axis
from generator.bench.fillings import FILLINGS
from generator.bench.frames.butt_joints import find_joints
from generator.bench.frames.panels import wall_names
from generator.bench.joints.facts import Joining
from generator.bench.law import HOUSE, PLACED, WORK, Law
from generator.bench.model import Bench, Joint, Part
from generator.bench.piece import TENONS
from generator.bench.role import Role
from generator.calculators.completeness import (
    LEAST_GRIP,
    SPAN_PER_THICKNESS,
    Bar,
    BoardOutline,
    EdgeState,
    edge_state,
    lying_span,
    tongue_faults,
)
from generator.calculators.fasteners import pocket_footprint
from generator.codes import Code
from generator.figures.checks.assembly import ACCESS_MISSING
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.tray_screws import lying_strips, tray_screws
from generator.geometry import AXES, FACES
from generator.spec.schema import Spec

#: Edges that need neither groove nor support, and why. An edge that is none of these is reported.
DECLARED_FREE = {
    (Role.DIVIDER, "top"): "carries the tray",
    (Role.SPINE_PANEL, "top"): "ends just below the tray",
    (Role.BACK_PANEL, "top"): "ends below the tray",
    (Role.TRAY, "front"): "open edge of the tray",
    (Role.TRAY, "rear"): "open edge of the tray",
    (Role.TRAY, "left"): "lip of a joint",
    (Role.TRAY, "right"): "lip of a joint",
    **{edge: why for kind in FILLINGS for edge, why in kind.free_edges.items()},
}
#: A tray that measures thinner than planned settles by no more than this on its walls (mm). Common practice, no source.
SETTLES = 0.5
BOARDS = (
    Role.DIVIDER,
    Role.END_PANEL,
    Role.SPINE_PANEL,
    Role.BACK_PANEL,
    Role.TRAY,
    *(role for kind in FILLINGS for role in kind.boards),
    Role.EXTRA_PANEL,
)


TONGUE_WITHOUT_GROOVE = Law(
    Code.TONGUE_WITHOUT_GROOVE, "error", "Every tongue has its groove", "A tongue has no groove to go into",
    "Add the bar that it goes into, or leave the tongue off.", "The tongue is in the way and holds nothing.",
    HOUSE,
    quantity="length of the tongue",
)  # fmt: skip
EDGE_WITHOUT_TONGUE = Law(
    Code.EDGE_WITHOUT_TONGUE, "error", "Every edge in a slot has its tongue",
    "An edge in a slot has no tongue",
    "Give it a tongue.", "The full thickness does not go into the slot.", HOUSE,
    quantity="length of the edge",
)  # fmt: skip
TONGUE_OFF_GROOVE = Law(
    Code.TONGUE_OFF_GROOVE, "error", "Every tongue is in the middle of its groove",
    "A tongue is off the middle of its groove",
    "Move the bar or the board; cut the tongue to the same depth from both faces.",
    "The panel is bent into its groove, or does not go in at all.", HOUSE,
    quantity="distance from the middle",
)  # fmt: skip
TONGUE_SHALLOW = Law(
    Code.TONGUE_SHALLOW, "error", "Every tongue reaches deep enough into its groove",
    "A tongue holds too little in its groove", "{} is the least.",
    "It slips out when the wood shrinks or the frame is knocked.", HOUSE, lengths=(Fraction(LEAST_GRIP),),
    quantity="depth in the groove",
)  # fmt: skip
GROOVE_TOO_SHORT = Law(
    Code.GROOVE_TOO_SHORT, "error", "Every groove is as long as its edge", "A groove ends before the edge does",
    "Add a bar, or support the edge.", "The rest of the edge hangs free.", HOUSE,
    quantity="length missing",
)  # fmt: skip
EDGE_UNSUPPORTED = Law(
    Code.EDGE_UNSUPPORTED, "error", "Every edge has its groove, its support or its reason",
    "Nothing holds this edge over this length", "Add a groove or a support.",
    "A free edge rattles, bends and breaks.", PLACED,
    quantity="length of edge without support",
)  # fmt: skip
SUPPORT_MISSING = Law(
    Code.SUPPORT_MISSING, "error", "Every slide has its packing, every tote its runners, the tray its walls",
    "The part that should carry this is missing", "Add the part that is missing under it.", "Nothing carries it.",
    HOUSE,
    quantity="length without support",
)  # fmt: skip
POCKET_FOOTPRINT = Law(
    Code.POCKET_FOOTPRINT, "note", "A driver reaches every pocket",
    "Runners or cleats block the driver at the pockets", "Screw the tray to this divider from above.",
    "You cannot hold the driver straight there.", WORK,
    quantity="free height at the pocket",
)  # fmt: skip
END_IN_THE_AIR = Law(
    Code.END_IN_THE_AIR, "error", "Every bar ends on a bar", "The end of a bar meets no bar",
    "Move it, or add the bar that it should end on.", Code.END_IN_THE_AIR.why, PLACED,
)  # fmt: skip
JOINT_WITHOUT_FASTENER = Law(
    Code.JOINT_WITHOUT_FASTENER, "error", "Every joint has its fastener", "A joint has no fastener", "Join it.",
    "The two bars only touch.", HOUSE,
)  # fmt: skip
END_NOT_TAPPED = Law(
    Code.END_NOT_TAPPED, "error", "Every end that takes a screw is tapped", "An end that takes a screw is not tapped",
    "Tap it.", "The screw has no thread, and you cannot reach the end once the frame is together.", HOUSE,
)  # fmt: skip
#: Law by what the calculator finds of an edge.
EDGES: dict[str, Law] = {
    law.code: law
    for law in (
        TONGUE_WITHOUT_GROOVE,
        EDGE_WITHOUT_TONGUE,
        TONGUE_OFF_GROOVE,
        TONGUE_SHALLOW,
        GROOVE_TOO_SHORT,
    )
}


def completeness_checks(bench: Bench) -> Iterator[CheckResult]:
    """Edges, supports and joints."""
    yield from _edges(bench)
    yield from _tray_span(bench)
    yield from _supports(bench)
    yield from _joints(bench)
    yield from _pockets(bench)


def _mm(value: float) -> Fraction:
    """A length from the solids (mm), to a thousandth."""
    return Fraction(round(value * 1000), 1000)


def _edge_name(edge: tuple[int, int]) -> str:
    return FACES[AXES[edge[0]]][edge[1]]


def board_of(part: Part) -> BoardOutline:
    """A part as the calculator takes it."""
    thin = next(i for i, axis in enumerate(AXES) if axis not in (part.along, part.across))
    tongues = frozenset(
        (AXES.index(axis), faces.index(edge))
        for edge in part.tongues
        for axis, faces in FACES.items()
        if edge in faces
    )
    return BoardOutline(part.mark, block_about(part.box), thin, tongues, _notched(part))


def _notched(part: Part) -> dict[tuple[int, int], tuple[float, float]]:
    """What notches take of each edge, at its low and at its high end (mm)."""
    found: dict[tuple[int, int], tuple[float, float]] = {}
    for notch in part.notches:
        one, other = notch.corner.split()
        for edge, end in ((one, other), (other, one)):
            axis, along = face_axis(edge), face_axis(end)
            size = float(notch.along if along[0] == part.along else notch.across)
            key = (AXES.index(axis[0]), int(axis[1]))
            low, high = found.get(key, (0.0, 0.0))
            found[key] = (low, max(high, size)) if along[1] else (max(low, size), high)
    return found


def edge_states(bench: Bench) -> tuple[tuple[Part, EdgeState], ...]:
    """Every edge of every board: grooved, supported or free, with its longest unsupported span."""
    depth = float(bench.goods.members.groove)
    bars = [
        Bar(part.mark, block_about(part.box), AXES.index(part.along), depth)
        for part in bench.parts
        if part.is_bar
    ]
    blocks = [(part.mark, block_about(part.box)) for part in bench.parts]
    found = []
    for part in bench.of(*BOARDS):
        board = board_of(part)
        rests = [(mark, block) for mark, block in blocks if mark != part.mark]
        found += [(part, edge_state(board, edge, bars, rests)) for edge in board.edges]
    return tuple(found)


def _edges(bench: Bench) -> Iterator[CheckResult]:
    spec = bench.spec
    states: dict[str, list[EdgeState]] = {}
    parts = {}
    for part, state in edge_states(bench):
        states.setdefault(part.mark, []).append(state)
        parts[part.mark] = part
    clearance, faults = float(spec.panels.groove_clearance), 0
    for mark, own in states.items():
        board, path = board_of(parts[mark]), _path_of(parts[mark])
        for code, state in tongue_faults(board, own, clearance):
            if EDGES[code] is TONGUE_SHALLOW and _edge_name(state.edge) in parts[mark].floating:
                continue  # how far it reaches in is judged for the driest weeks
            faults += 1
            where = f"{mark} {_edge_name(state.edge)}" + (f", {' and '.join(state.by)}" if state.by else "")
            law = EDGES[code]
            value = {TONGUE_OFF_GROOVE: abs(state.off), TONGUE_SHALLOW: state.grip}.get(law, state.span)
            yield check_result(law, False, where, path, value=_mm(value), unit="mm")
        for state in own:
            edge = _edge_name(state.edge)
            reason = DECLARED_FREE.get((parts[mark].role, edge), "")
            if state.state == "free" and state.edge not in board.tongues and not reason:
                faults += 1
                severity = "note" if parts[mark].role is Role.EXTRA_PANEL else ""
                where, span = f"{mark} {edge}", _mm(state.span)
                yield check_result(
                    EDGE_UNSUPPORTED, False, where, path, value=span, unit="mm", severity=severity
                )
    if not faults:
        yield check_result(EDGE_UNSUPPORTED, True, f"{sum(map(len, states.values()))} edges", ())


def _path_of(part: Part) -> tuple[str | int, ...]:
    paths: dict[Role, tuple[str | int, ...]] = {
        Role.TRAY: ("tray",),
        **{role: path for kind in FILLINGS for role, path in kind.boards.items()},
        Role.EXTRA_PANEL: ("extra", "panels"),
    }
    return paths.get(part.role, ("panels",))


def _tray_span(bench: Bench) -> Iterator[CheckResult]:
    """The widest space that the tray really bridges, checked when a wall that the spec asks for is not there.

    A divider counts as wide as the bars that it is in.
    """
    spec = bench.spec
    if "dividers" not in wall_names(spec):
        return
    for part in bench.of(Role.TRAY):
        rests, bottom = [], float(part.box.z.low)
        for wall in bench.of(Role.DIVIDER, Role.END_PANEL):
            offset = float(wall.fit.offset) if wall.fit else 0.0
            x0, y0, z0, x1, y1, z1 = block_about(wall.box)
            top = bottom if 0 <= bottom - z1 <= SETTLES else z1
            rests.append((x0 - offset, y0, z0, x1 + offset, y1, top))
        for rail in bench.of(Role.TRAY_END_RAIL):
            x0, y0, z0, x1, y1, _ = block_about(rail.box)
            rests.append((x0, y0, z0, x1, y1, bottom))
        span = lying_span(board_of(part), rests)
        limit = SPAN_PER_THICKNESS * 12
        planned = max(b - a for a, b in pairwise(_lines(bench))) - float(bench.layout.section)
        if span > max(limit, planned + 1):
            yield check_result(
                SUPPORT_MISSING, False, "tray", ("tray",), value=_mm(span), limit=_mm(limit), unit="mm"
            )


def _lines(bench: Bench) -> list[float]:
    plan = bench.layout
    return [0.0, *(float(line) for line in plan.lines), float(plan.length - plan.section)]


def _supports(bench: Bench) -> Iterator[CheckResult]:
    """What hangs or slides lies on its strips."""
    missing = [name for kind in FILLINGS for name in kind.hanging(bench)]
    for name in missing:
        yield check_result(SUPPORT_MISSING, False, name, ("zones",))
    if not missing:
        yield check_result(SUPPORT_MISSING, True, "", ("zones",))


def _pockets(bench: Bench) -> Iterator[CheckResult]:
    """Where the tray is screwed through pockets, these find room above runners and cleats."""
    pockets, _ = tray_screws(bench)
    if not pockets:
        return
    needed = pocket_footprint(bench.goods.wall.thickness)
    lying = lying_strips(bench)
    for wall in bench.of(Role.DIVIDER):
        faces = {
            side: [
                strip for strip in lying if at in (strip.box.x.low, strip.box.x.high) and _beside(strip, wall)
            ]
            for side, at in (("left", wall.box.x.low), ("right", wall.box.x.high))
        }
        rooms = [
            wall.box.z.high - max((strip.box.z.high for strip in strips), default=wall.box.z.low)
            for strips in faces.values()
        ]
        if max(rooms) < needed:
            yield check_result(
                POCKET_FOOTPRINT, False, wall.mark, ("panels",),
                value=max(rooms), limit=needed, unit="mm", sense="at least",
            )  # fmt: skip


def _beside(strip: Part, wall: Part) -> bool:
    return strip.box.y.overlap(wall.box.y) > 0


def _joints(bench: Bench) -> Iterator[CheckResult]:
    spec = bench.spec
    bars = [part for part in bench.parts if part.is_bar]
    expected, _ = find_joints(spec, bars, bench.joinings)
    have = {(joint.member, joint.end): joint for joint in bench.joints}
    by_mark = {part.mark: part for part in bars}
    faults = [(END_IN_THE_AIR, place) for place in _loose_ends(spec, bars, expected)]
    for joint in expected:
        where = f"{joint.member} {joint.end} on {joint.crossing}"
        if (joint.member, joint.end) not in have:
            faults.append((JOINT_WITHOUT_FASTENER, f"{where}, {joint.fastener}"))
            continue
        faults += [
            (law, f"{where}{what}")
            for law, what in _machining(
                have[joint.member, joint.end], bench.joinings[joint.fastener], by_mark
            )
        ]
    path = ("frame", "joints")
    for law, where in faults:
        yield check_result(law, False, where, path)
    if not faults:
        yield check_result(JOINT_WITHOUT_FASTENER, True, f"{len(expected)} joints", path)


def _loose_ends(spec: Spec, bars: Sequence[Part], joints: Sequence[Joint]) -> Iterator[str]:
    """Ends that should meet a bar and do not; those that run through, and extra members', are left out."""
    through = {"posts": Role.CORNER_POST, "rails": Role.LONG_RAIL}[spec.frame.through]
    meeting = {(joint.member, joint.end) for joint in joints}
    for bar in bars:
        if bar.role not in (through, Role.EXTRA_MEMBER):
            ends = FACES["z"][1:] if bar.role is Role.KNEE_POST else FACES[bar.along]
            yield from (f"{bar.mark} {end}" for end in ends if (bar.mark, end) not in meeting)


def _machining(joint: Joint, fixing: Joining, bars: dict[str, Part]) -> Iterator[tuple[Law, str]]:
    """What a joint lacks on its two bars: (law, words to add to its place)."""
    member, crossing = bars[joint.member], bars[joint.crossing]
    ends = TENONS if fixing.tenon else (fixing.end,)
    if not any(op.op in ends and op.face == joint.end for op in member.operations):
        yield END_NOT_TAPPED, ""
    needed = tuple(hole.op for hole in fixing.holes)
    for op in needed:
        holes = [each for each in crossing.operations if each.op == op and each.face == joint.face]
        if any(joint.at + place not in {hole.at[0] for hole in holes} for place in fixing.places):
            yield (
                ACCESS_MISSING,
                f", {op} {float(joint.at):g} mm from its datum end in the {joint.face} face",
            )
    same = [each for each in crossing.operations if each.op in needed[:1] and each.at[0] == joint.at]
    if fixing.face_to_face and any(_opposite(each.face, joint.face) for each in same):
        yield fixing.face_to_face, ""


def _opposite(one: str, other: str) -> bool:
    return any(set(faces) == {one, other} for faces in FACES.values())
