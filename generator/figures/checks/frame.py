"""Checks of the layout, the joints and the machining of the bars."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial
from itertools import combinations, pairwise

from generator.bench.fillings import FILLINGS
from generator.bench.frames import frame_kind
from generator.bench.joints import holds
from generator.bench.law import WORK, Case, Law, bay_path, said, to_limit
from generator.bench.model import Bench, Part
from generator.bench.remedies import wider_bay
from generator.calculators.fasteners import (
    BoltWindow,
)
from generator.calculators.reliefs import clear_of_holes
from generator.calculators.spacing import Share
from generator.codes import Code
from generator.figures.checks.check_result import (
    CheckResult,
    Path,
    at_least,
    at_most,
    check_result,
    of_verdict,
)
from generator.figures.hardware import bolted_thickness, bracket_window, nut_window
from generator.findings import Change, dotted
from generator.provenance import constant
from generator.spec.schema import ClampAccess

#: Common practice, no source (mm).
NARROWEST_BAY = constant(150, "narrowest bay to reach into")
LOWEST_CLAMP_GAP = constant(110, "lowest gap for a clamp and a hand")
NARROWEST_GAP = constant(20, "narrowest gap for a panel")
RELIEF_METAL = constant(6, "metal between a relief and a hole")
BUSH_WALLS = constant(1, "a guide bush is larger than its cutter by at least")


#: The router's usual opening, bush and cutter.
USUAL = ClampAccess()


def _whole_shares(case: Case) -> tuple[Change, ...]:
    zone = case.layout.zones[int(case.path[1])]
    last = [bay.name for bay in zone.bays if isinstance(bay.spec.width, Share)][-1]
    step = "1/16" if case.spec.units == "in" else "1"
    return (Change("bench.round_shares", f"{{step: {step}, remainder: {last}}}"),)


def _higher_bench(case: Case) -> tuple[Change, ...]:
    return case.length(("bench", "height"), case.spec.bench.height + case.off)


def _one_line(case: Case) -> tuple[Change, ...]:
    """The later of two lines moves onto the earlier one: the bay before it gets so much narrower."""
    plan = case.layout
    for left, right in pairwise(plan.lines):
        if right - left - plan.section == case.value:
            for zone in plan.zones:
                for bay in zone.bays:
                    if bay.right_line == right:
                        path = ("zones", zone.index, "bays", bay.index, "width")
                        return case.length(path, bay.width - (right - left), down=True)
    return ()


def _usual_bush(case: Case) -> tuple[Change, ...]:
    """The usual bush where the cutter turns in it: bushes are sold in few sizes."""
    return case.length(case.path, max(USUAL.guide_bush, case.limit))


def _narrower_relief(case: Case) -> tuple[Change, ...]:
    """The usual width, or what the bar has room for where that is less."""
    across = min(USUAL.opening[0], case.limit)
    along = case.spec.frame.clamp_access.opening[1]
    sizes = ", ".join(said(case.spec, size, down=True) for size in (across, along))
    return (Change(dotted(case.path), f"[{sizes}]"),)


def _relief_moved(case: Case) -> tuple[Change, ...]:
    return case.length(case.path, case.spec.frame.clamp_access.from_end + case.off)


def _bolted(case: Case) -> tuple[Change, ...]:
    """The nearest thickness that a stock bolt fits, of the plate, or of the bracket's leg."""
    spec, goods = case.spec, case.goods
    if case.path[-1] == "thickness" and case.path[0] == "hardware":
        bolted = goods.gussets.get(str(case.path[1])) or goods.panel_brackets[str(case.path[1])]
        thick = bolted_thickness(partial(bracket_window, goods), bolted.thickness)
        return case.length(case.path, thick or Fraction(0))
    card = case.goods.bracket
    if case.path[0] == "base":
        thick = bolted_thickness(partial(nut_window, goods), spec.base.plate.thickness)
    else:
        thick = bolted_thickness(partial(bracket_window, goods), goods.bracket_thickness)
    if thick is None or card is None or case.path[0] == "base":
        return case.length(case.path, thick or Fraction(0))
    along, leg, _ = card.size
    size = ", ".join(said(spec, side) for side in (along, leg, thick))
    return (Change(dotted(case.path), f"[{size}]"),)


BAY_WIDTH = Law(
    Code.BAY_WIDTH, "error", "The bay is wide enough for a hand", "The bay is too narrow for a hand",
    "Remove a bay, or give this one a larger share.", "A hand and a drawer do not fit into it.", wider_bay,
    quantity="clear width of the bay",
)  # fmt: skip
UNEVEN_SHARE = Law(
    Code.UNEVEN_SHARE, "note", "The share is a whole tenth",
    "The share is not a whole tenth of a millimetre or 64th of an inch",
    "Mark out from the story stick, or use bench.round_shares.",
    "A tape does not show it, and if you round each mark the errors add up along the bench.", _whole_shares,
    quantity="width of the bay",
)  # fmt: skip
CLAMP_GAP = Law(
    Code.CLAMP_GAP, "warning", "A clamp and a hand fit between tray and top rail",
    "The gap between tray and top rail is too low for a clamp and a hand", "Lower the tray's end rail.",
    "You clamp work to the top through this gap, and your knuckles must pass too.", _higher_bench,
    quantity="clear height",
)  # fmt: skip
NARROW_GAP = Law(
    Code.NARROW_GAP, "warning", "There is space for a panel and a hand between two post lines",
    "There is no space for a panel and a hand between two post lines", "Put both posts on one line.",
    "Where no hand fits, you cannot slide a panel in or turn a screw.", _one_line,
    quantity="clear width between the posts",
)  # fmt: skip
KEY_CROSSES_SCREW = Law(
    Code.KEY_CROSSES_SCREW, "note", "No screw blocks a key",
    "A screw blocks the keys of these joints: tighten these joints first",
    "Tighten these joints before you fit the screw: it blocks the key.",
    "The order of tightening cannot be repaired later without taking the corner apart.", WORK,
)  # fmt: skip
BUSH_CUTTER = Law(
    Code.BUSH_CUTTER, "error", "The cutter turns freely in the guide bush",
    "The cutter does not turn freely in the guide bush", "Take a larger `guide_bush` or a smaller `cutter`.",
    "A cutter that touches the bush ruins both.", _usual_bush,
    quantity="diameter of the guide bush",
)  # fmt: skip
CUTTER_OPENING = Law(
    Code.CUTTER_OPENING, "error", "The cutter is narrower than the relief",
    "The cutter is wider than the relief that it cuts", "Take a smaller `cutter`.",
    "The first plunge would already be larger than the relief.", to_limit,
    quantity="diameter of the cutter",
)  # fmt: skip
RELIEF_WIDE = Law(
    Code.RELIEF_WIDE, "error", "The relief is narrower than its bar", "The relief is wider than its bar",
    "Make the relief narrower.", "The bar would be cut through at its corners.", _narrower_relief,
    quantity="width of the relief",
)  # fmt: skip
RELIEF_CLEAR = Law(
    Code.RELIEF_CLEAR, "error", "The clamp relief is clear of all holes and ends",
    "The clamp relief meets a hole or an end", "Move it with frame.clamp_access.from_end.",
    "A relief that opens into a hole weakens the lips where a clamp pulls on them.", _relief_moved,
    quantity="metal beside the relief",
)  # fmt: skip
BOLT_WINDOW = Law(
    Code.BOLT_WINDOW, "error", "A standard bolt fills its nut and clears the slot's floor",
    "No standard bolt length fills its nut and clears the slot's floor",
    "Change the thickness of the part under the bolt.",
    "A bolt that is too long lifts the plate off the bar; one that is too short strips its thread.", _bolted,
    quantity="shortest bolt that fills its nut",
)  # fmt: skip


def layout_checks(bench: Bench) -> Iterator[CheckResult]:
    """Widths to reach into, gaps for clamps, shares that no rule shows."""
    plan = bench.layout
    for bay in plan.bays:
        path = (*bay_path(bay), "width")
        yield at_least(BAY_WIDTH, bay.width, NARROWEST_BAY, f"bay {bay.name}", path)
        is_share = isinstance(bay.spec.width, Share)
        if is_share and bay.width * 10 % 1 and bay.width * 64 * 5 % 127:
            yield check_result(UNEVEN_SHARE, False, f"bay {bay.name}", path, value=bay.width, unit="mm")
    if bench.spec.tray.there:
        gap, gap_path = plan.levels.clamp_gap, ("tray", "end_rail_bottom")
        yield at_least(CLAMP_GAP, gap, LOWEST_CLAMP_GAP, "between tray and top rail", gap_path)
    edges = (Fraction(0), *plan.lines, plan.length - plan.section)
    for left, right in pairwise(edges):
        where = f"{plan.line_name(left)} to {plan.line_name(right)}"
        yield at_least(NARROW_GAP, right - left - plan.section, NARROWEST_GAP, where, ("zones",))


def joint_checks(bench: Bench) -> Iterator[CheckResult]:
    """Stacks and threads of the fasteners in use, and keys that a later screw shuts off."""
    for name in dict.fromkeys(joint.fastener for joint in bench.joints):
        yield from map(of_verdict, holds(bench.goods, name))
    yield from map(of_verdict, frame_kind(bench.spec).judge(bench))
    crossed = _crossing_keys(bench)
    yield check_result(KEY_CROSSES_SCREW, not crossed, ", ".join(crossed), ("frame", "joints"))


def _crossing_keys(bench: Bench) -> list[str]:
    """Bars on which a screw is across the way of a key."""
    placed = [(joint.crossing, joint.at, bench.joinings[joint.fastener]) for joint in bench.joints]
    screws = {(mark, at) for mark, at, fixing in placed if fixing.across}
    keys = {(mark, at) for mark, at, fixing in placed if fixing.in_slot}
    return [part.mark for part in bench.parts if any(mark == part.mark for mark, _ in screws & keys)]


def relief_checks(bench: Bench) -> Iterator[CheckResult]:
    """The clamp reliefs keep clear of every hole on their face, and of the bar's ends; their router fits in."""
    spec = bench.spec
    if bench.goods.profile is None:
        return
    access, path = spec.frame.clamp_access, ("frame", "clamp_access")
    along = access.opening[1]
    yield at_least(
        BUSH_CUTTER, access.guide_bush, access.cutter + BUSH_WALLS, "clamp relief", (*path, "guide_bush")
    )
    yield at_most(CUTTER_OPENING, access.cutter, min(access.opening), "clamp relief", (*path, "cutter"))
    across, section = access.opening[0], bench.goods.members.section
    yield at_most(RELIEF_WIDE, across, section, "clamp relief", (*path, "opening"))
    for part in bench.parts:
        reliefs = [op for op in part.operations if op.op == "relief"]
        if not reliefs:
            continue
        spaces = [clear_of_holes(op.at[0], along, _holes_on(part, op.face), Fraction(0)) for op in reliefs]
        spaces += [min(op.at[0], part.length - op.at[0]) - along / 2 for op in reliefs]
        spaces += [abs(a.at[0] - b.at[0]) - along for a, b in combinations(reliefs, 2) if a.face == b.face]
        where = f"{part.mark}, {part.group}"
        yield at_least(RELIEF_CLEAR, min(spaces), RELIEF_METAL, where, (*path, "from_end"))


def _holes_on(part: Part, face: str) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple(
        (op.at[0], op.size)
        for op in part.operations
        if op.face == face and op.op != "relief" and isinstance(op.size, Fraction)
    )


def bolt_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each bolt's window contains a stock length; the value is the shortest length that is enough (mm)."""
    spec = bench.spec
    if bench.goods.profile is None:
        return
    named = spec.top.bracket
    leg: Path = ("hardware", named, "size") if named else ("top", "bracket_thickness")
    windows: tuple[tuple[str, BoltWindow, Path], ...] = (
        *((each.item, nut_window(bench.goods, each.grip), each.path) for each in bench.stand.in_nuts),
        ("top bracket bolt", bracket_window(bench.goods), leg),
        *(each for kind in FILLINGS for each in kind.bolt_windows(bench)),
    )
    for what, window, path in windows:
        limit = window.length or window.longest
        ok = window.length is not None
        yield check_result(BOLT_WINDOW, ok, what, path, value=window.shortest, limit=limit, unit="mm")
