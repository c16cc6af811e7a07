"""Checks of the layout, the joints and the machining of the bars."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

from generator.bench.model import Bench, Joint, Part
from generator.calculators.fasteners import (
    ENGAGEMENT,
    THREADS,
    BoltWindow,
    end_clip_fit,
    through_screw_thread,
)
from generator.calculators.reliefs import clear_of_holes
from generator.calculators.spacing import Share
from generator.figures.checks.judged import Judged, Path, at_least, at_most, bay_path, judged
from generator.figures.hardware import bracket_window, nut_window
from generator.spec.goods import EndClip, ThroughScrew
from generator.spec.lookup import profile
from generator.spec.schema import Spec
from generator.working import constant

#: Common practice, no source (mm).
NARROWEST_BAY = constant(150, "narrowest bay to reach into")
LOWEST_CLAMP_GAP = constant(110, "lowest gap for a clamp and a hand")
NARROWEST_GAP = constant(20, "narrowest gap for a panel")
RELIEF_CLEAR = constant(6, "metal between a relief and a hole")
BUSH_WALLS = constant(1, "a guide bush is larger than its cutter by at least")


def layout_checks(bench: Bench) -> Iterator[Judged]:
    """Widths to reach into, gaps for clamps, shares that no rule shows."""
    plan = bench.layout
    for bay in plan.bays:
        path = (*bay_path(bay), "width")
        yield at_least("bay-width", bay.width, NARROWEST_BAY, f"bay {bay.name}", path)
        is_share = isinstance(bay.spec.width, Share)
        if is_share and bay.width * 10 % 1 and bay.width * 64 * 5 % 127:
            yield judged("uneven-share", False, f"bay {bay.name}", path, value=bay.width, unit="mm")
    gap_path = ("tray", "end_rail_bottom")
    yield at_least(
        "clamp-gap", plan.levels.clamp_gap, LOWEST_CLAMP_GAP, "between tray and top rail", gap_path
    )
    edges = (Fraction(0), *plan.lines, plan.length - plan.section)
    for left, right in pairwise(edges):
        where = f"{plan.line_name(left)} to {plan.line_name(right)}"
        yield at_least("narrow-gap", right - left - plan.section, NARROWEST_GAP, where, ("zones",))


def joint_checks(bench: Bench) -> Iterator[Judged]:
    """Stacks and threads of the fasteners in use, and keys that a later screw shuts off."""
    spec = bench.spec
    for name in dict.fromkeys(joint.fastener for joint in bench.joints):
        item = spec.hardware[name]
        if isinstance(item, EndClip):
            yield from _end_clip(spec, name, item)
        elif isinstance(item, ThroughScrew):
            yield from _through_screw(spec, name, item)
    crossed = _crossing_keys(bench)
    yield judged("key-crosses-screw", not crossed, ", ".join(crossed), ("frame", "joints"))


def _end_clip(spec: Spec, name: str, item: EndClip) -> Iterator[Judged]:
    bar = profile(spec)
    fit = end_clip_fit(
        lip=bar.slot.lip,
        clip=item.clip[2],
        head=item.head_height,
        slot_depth=bar.slot.depth,
        screw=item.screw.length,
        diameter=THREADS[item.screw.thread].diameter,
    )
    yield at_most("clip-stack", fit.stack, fit.slot_depth, name, ("hardware", name))
    yield at_least("clip-thread", fit.thread, fit.thread_needed, name, ("hardware", name, "screw"))


def _through_screw(spec: Spec, name: str, item: ThroughScrew) -> Iterator[Judged]:
    bar, bore = profile(spec), item.counterbore.depth
    needed = ENGAGEMENT * THREADS[item.screw.thread].diameter
    thread = through_screw_thread(bar.section, bore, item.screw.length)
    yield at_least("through-thread", thread, needed, name, ("hardware", name, "screw"))
    yield at_least("counterbore", bore, bar.slot.depth, name, ("hardware", name, "counterbore"))


def _crossing_keys(bench: Bench) -> list[str]:
    """Bars on which a through-screw crosses the key line of an end clip."""
    screws = {(joint.crossing, joint.at) for joint in bench.joints if not _in_slot(bench, joint)}
    keys = {(joint.crossing, joint.at) for joint in bench.joints if _in_slot(bench, joint)}
    return [part.mark for part in bench.parts if any(mark == part.mark for mark, _ in screws & keys)]


def _in_slot(bench: Bench, joint: Joint) -> bool:
    return bench.joinings[joint.fastener].in_slot is not None


def relief_checks(bench: Bench) -> Iterator[Judged]:
    """The clamp reliefs keep clear of every hole on their face, and of the bar's ends; their router fits in."""
    spec = bench.spec
    access, path = spec.frame.clamp_access, ("frame", "clamp_access")
    along = access.opening[1]
    yield at_least(
        "bush-cutter", access.guide_bush, access.cutter + BUSH_WALLS, "clamp relief", (*path, "guide_bush")
    )
    yield at_most("cutter-opening", access.cutter, min(access.opening), "clamp relief", (*path, "cutter"))
    across, section = access.opening[0], profile(spec).section
    yield at_most("relief-wide", across, section, "clamp relief", (*path, "opening"))
    for part in bench.parts:
        reliefs = [op for op in part.operations if op.op == "relief"]
        if not reliefs:
            continue
        spaces = [clear_of_holes(op.at[0], along, _holes_on(part, op.face), Fraction(0)) for op in reliefs]
        spaces += [min(op.at[0], part.length - op.at[0]) - along / 2 for op in reliefs]
        spaces += [abs(a.at[0] - b.at[0]) - along for a, b in combinations(reliefs, 2) if a.face == b.face]
        where = f"{part.mark}, {part.group}"
        yield at_least("relief-clear", min(spaces), RELIEF_CLEAR, where, (*path, "from_end"))


def _holes_on(part: Part, face: str) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple(
        (op.at[0], op.size)
        for op in part.operations
        if op.face == face and op.op != "relief" and isinstance(op.size, Fraction)
    )


def bolt_checks(bench: Bench) -> Iterator[Judged]:
    """A stock length lies in each bolt's window; the value is the shortest that would do (mm)."""
    spec = bench.spec
    windows: tuple[tuple[str, BoltWindow, Path], ...] = (
        *((each.item, nut_window(spec, each.grip), each.path) for each in bench.stand.in_nuts),
        ("top bracket bolt", bracket_window(spec), ("top", "bracket_thickness")),
    )
    for what, window, path in windows:
        limit = window.length or window.longest
        ok = window.length is not None
        yield judged("bolt-window", ok, what, path, value=window.shortest, limit=limit, unit="mm")
