"""Checks of the fasteners against the bar: what is tapped, what a clip bears on, what a head sinks into."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fasteners import ACROSS_CORNERS
from generator.bench.law import GOODS, Case, Law, said, to_limit
from generator.bench.model import Bench
from generator.bench.remedies import shorter_screw
from generator.calculators.fasteners import CAP_HEADS, THREADS
from generator.codes import Code
from generator.figures.checks.judged import Judged, Path, at_least, at_most
from generator.findings import Change, dotted
from generator.provenance import constant
from generator.spec.goods import Profile
from generator.spec.joints import EndClip, ThroughScrew
from generator.spec.load import LoadedSpec
from generator.spec.lookup import profile, slot_nut

#: Common practice, no source (mm).
CLIP_BEARS = constant(2, "a clip is wider than the slot's mouth by at least")
UNDER_HEAD = constant(3, "metal between a counterbore and the slot on the other side")
#: A tap that cuts deeper than this many diameters in one go breaks. Common practice, no source.
DEEPEST_THREAD = constant(4, "deepest thread in diameters", unit="")


def _other_clip(case: Case) -> tuple[Change, ...]:
    """A clip as wide as the limit says; none where the slot has no room between its mouth and its hollow."""
    spec = case.spec
    item, slot = spec.hardware[str(case.path[1])], profile(spec).slot
    assert isinstance(item, EndClip)
    if slot.opening + CLIP_BEARS > slot.undercut:
        return ()
    sizes = (item.clip[0], case.limit, item.clip[2])
    return (Change(dotted(case.path), f"[{', '.join(said(spec, size, down=case.down) for size in sizes)}]"),)


BORE_THREAD = Law(
    Code.BORE_THREAD, "error", "The bar's bore suits the thread that is tapped into it",
    "The bar's bore does not suit the thread that is tapped into it",
    "Take fasteners with the thread that the bore is made for.",
    "In too wide a bore the thread is shallow and strips; in too narrow a one the tap breaks.", GOODS,
)  # fmt: skip
CLIP_MOUTH = Law(
    Code.CLIP_MOUTH, "error", "The clip is wider than the slot's mouth",
    "The clip is too narrow to bear on the slot's lips", "Take a wider clip.",
    "The joint hangs on the lips: a clip that slips through the mouth holds nothing.", _other_clip,
)  # fmt: skip
CLIP_UNDERCUT = Law(
    Code.CLIP_UNDERCUT, "error", "The clip fits the hollow of the slot",
    "The clip is wider than the hollow of the slot",
    "Take a narrower clip.", "It does not slide into the slot.", _other_clip,
)  # fmt: skip
BOLT_MOUTH = Law(
    Code.BOLT_MOUTH, "error", "The screw passes the slot's mouth", "The screw is thicker than the slot's mouth",
    "Take a smaller thread here, or a bar with a wider `slot: {opening}`.", "It does not go in.", GOODS,
)  # fmt: skip
ACCESS_KEY = Law(
    Code.ACCESS_KEY, "error", "The key passes the access hole",
    "The key does not pass the access hole over its corners",
    "Drill a larger `access_hole`.",
    "The joint cannot be tightened, and the hole is hard to widen in a standing frame.", to_limit,
)  # fmt: skip
HEAD_COUNTERBORE = Law(
    Code.HEAD_COUNTERBORE, "error", "The screw's head goes into its counterbore",
    "The screw's head does not go into its counterbore",
    "Bore wider: write a larger `diameter`; 1 mm more than the head is usual.",
    "The head stops at the rim, and the joint never closes.", to_limit,
)  # fmt: skip
HEAD_PROUD = Law(
    Code.HEAD_PROUD, "error", "The screw's head lies within its counterbore",
    "The screw's head stands out of its counterbore", "Bore deeper: write a larger `depth`.",
    "What comes beside the bar stands on the head instead of on the bar.", to_limit,
)  # fmt: skip
COUNTERBORE_THROUGH = Law(
    Code.COUNTERBORE_THROUGH, "error", "Metal is left under the counterbore",
    "The counterbore comes out in the slot on the other side", "Bore less deep: write a smaller `depth`.",
    "The head would pull through: no metal is left to hold it.", to_limit,
)  # fmt: skip
SCREW_HOLE = Law(
    Code.SCREW_HOLE, "error", "The screw passes its hole", "The screw does not pass its hole", "Drill a larger `hole`.",
    "The screw cuts a thread into this bar too and holds the joint open.", to_limit,
)  # fmt: skip
SCREW_HOLE_WIDE = Law(
    Code.SCREW_HOLE_WIDE, "error", "The screw's head bears around its hole",
    "The hole leaves the screw's head too little to bear on", "Drill a smaller `hole`.",
    "The head would pull into the hole.", to_limit,
)  # fmt: skip
THREAD_DEEP = Law(
    Code.THREAD_DEEP, "warning", "The threads can be tapped in one go",
    "The thread is deeper than a tap cuts in one go",
    "Take a shorter screw.", "A tap that is full of chips breaks off in the bar.", shorter_screw,
)  # fmt: skip
THREADS_MEET = Law(
    Code.THREADS_MEET, "error", "Threads from both ends of a bar keep apart",
    "The threads from both ends of this bar meet", "Take shorter screws, or make the bar longer.",
    "The second tap or screw stops on the first.", GOODS,
)  # fmt: skip


def fastener_checks(bench: Bench) -> Iterator[Judged]:
    """Bore, clips, heads and keys of the fasteners in use; two threads in one bar; the slot nut's bolt."""
    loaded = bench.loaded
    spec = loaded.spec
    bar = profile(spec)
    for name in dict.fromkeys(joint.fastener for joint in bench.joints):
        item = spec.hardware[name]
        path: Path = ("hardware", name)
        if isinstance(item, EndClip | ThroughScrew):
            yield _bore(loaded, bar, item.screw.thread, name)
        if isinstance(item, EndClip):
            yield from _clip(bar, item, name, path)
        elif isinstance(item, ThroughScrew):
            yield from _through_screw(bar, item, name, path)
    yield from _thread_ends(bench)
    nut = slot_nut(spec)
    name = spec.frame.slot_nut
    yield at_most(
        BOLT_MOUTH, THREADS[nut.thread].diameter, bar.slot.opening, name, ("hardware", name, "thread")
    )


def _bore(loaded: LoadedSpec, bar: Profile, name: str, fastener: str) -> Judged:
    thread, path = THREADS[name], ("materials", loaded.spec.frame.material, "bore")
    where = f"{name} of {fastener}"
    low, high = thread.minor
    fitting = " or ".join(each.name for each in THREADS.values() if each.takes(bar.bore))
    advice = f"Take a bar with a bore from {loaded.say(low)} to {loaded.say(high)}"
    advice += f", or fasteners with the thread {fitting} in this one" if fitting else ""
    if bar.bore >= low:
        return at_most(BORE_THREAD, bar.bore, high, where, path, advice=f"{advice}.")
    drill = loaded.say(thread.tap_drill)
    advice += f"; or drill every end that is tapped to {drill} first, and write `bore: {drill}`."
    return at_least(BORE_THREAD, bar.bore, low, where, path, severity="warning", advice=advice)


def _clip(bar: Profile, item: EndClip, name: str, path: Path) -> Iterator[Judged]:
    slot, wide = bar.slot, item.clip[1]
    yield at_least(CLIP_MOUTH, wide, slot.opening + CLIP_BEARS, name, (*path, "clip"))
    yield at_most(CLIP_UNDERCUT, wide, slot.undercut, name, (*path, "clip"))
    diameter = THREADS[item.screw.thread].diameter
    yield at_most(BOLT_MOUTH, diameter, slot.opening, name, (*path, "screw"))
    key = item.key * Fraction(str(ACROSS_CORNERS))
    yield at_least(ACCESS_KEY, item.access_hole, key, name, (*path, "access_hole"))


def _through_screw(bar: Profile, item: ThroughScrew, name: str, path: Path) -> Iterator[Judged]:
    thread, bore = THREADS[item.screw.thread], item.counterbore
    head = CAP_HEADS[item.screw.thread]
    where = f"{name}, {item.screw.thread}"
    yield at_least(HEAD_COUNTERBORE, bore.diameter, head, where, (*path, "counterbore", "diameter"))
    yield at_least(HEAD_PROUD, bore.depth, thread.diameter, where, (*path, "counterbore", "depth"))
    deepest = bar.section - bar.slot.depth - UNDER_HEAD
    yield at_most(COUNTERBORE_THROUGH, bore.depth, deepest, where, (*path, "counterbore", "depth"))
    yield at_least(SCREW_HOLE, item.hole, thread.diameter, where, (*path, "hole"))
    yield at_most(SCREW_HOLE_WIDE, item.hole, (thread.diameter + head) / 2, where, (*path, "hole"))


def _thread_ends(bench: Bench) -> Iterator[Judged]:
    """Threads from both ends of one bar, and threads that no tap cuts in one go."""
    fastener = {(joint.member, joint.end): joint.fastener for joint in bench.joints}
    told: dict[str, Judged] = {}
    for part in bench.parts:
        taps = [op for op in part.operations if op.op == "tap" and op.depth is not None]
        for tap in taps:
            name = fastener.get((part.mark, tap.face))
            if name is None or not isinstance(tap.size, Fraction) or tap.depth is None:
                continue
            deepest = tap.size * DEEPEST_THREAD
            told.setdefault(
                name,
                at_most(THREAD_DEEP, tap.depth, deepest, f"{part.mark}, {name}", ("hardware", name, "screw")),
            )
        depth = sum((tap.depth or Fraction(0) for tap in taps), Fraction(0))
        if depth > part.length:
            name = fastener.get((part.mark, taps[0].face), "")
            yield at_most(THREADS_MEET, depth, part.length, part.mark, ("hardware", name, "screw"))
    yield from told.values()
