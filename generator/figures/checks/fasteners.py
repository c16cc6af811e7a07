"""Checks of the fasteners against the bar: what is tapped, what a clip bears on, what a head sinks into."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fasteners import ACROSS_CORNERS
from generator.bench.model import Bench
from generator.calculators.fasteners import CAP_HEADS, THREADS
from generator.figures.checks.judged import Judged, Path, at_least, at_most
from generator.spec.goods import EndClip, Profile, ThroughScrew
from generator.spec.load import LoadedSpec
from generator.spec.lookup import profile, slot_nut
from generator.working import constant

#: Common practice, no source (mm).
CLIP_BEARS = constant(2, "a clip is wider than the slot's mouth by at least")
UNDER_HEAD = constant(3, "metal between a counterbore and the slot on the other side")
#: A tap that cuts deeper than this many diameters in one go breaks. Common practice, no source.
DEEPEST_THREAD = constant(4, "deepest thread in diameters", unit="")


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
        "bolt-mouth", THREADS[nut.thread].diameter, bar.slot.opening, name, ("hardware", name, "thread")
    )


def _bore(loaded: LoadedSpec, bar: Profile, name: str, fastener: str) -> Judged:
    thread, path = THREADS[name], ("materials", loaded.spec.frame.material, "bore")
    where = f"{name} of {fastener}"
    low, high = thread.minor
    fitting = " or ".join(each.name for each in THREADS.values() if each.takes(bar.bore))
    advice = f"Take a bar with a bore from {loaded.say(low)} to {loaded.say(high)}"
    advice += f", or fasteners with the thread {fitting} in this one" if fitting else ""
    if bar.bore >= low:
        return at_most("bore-thread", bar.bore, high, where, path, advice=f"{advice}.")
    drill = loaded.say(thread.tap_drill)
    advice += f"; or drill every end that is tapped to {drill} first, and write `bore: {drill}`."
    return at_least("bore-thread", bar.bore, low, where, path, severity="warning", advice=advice)


def _clip(bar: Profile, item: EndClip, name: str, path: Path) -> Iterator[Judged]:
    slot, wide = bar.slot, item.clip[1]
    yield at_least("clip-mouth", wide, slot.opening + CLIP_BEARS, name, (*path, "clip"))
    yield at_most("clip-undercut", wide, slot.undercut, name, (*path, "clip"))
    diameter = THREADS[item.screw.thread].diameter
    yield at_most("bolt-mouth", diameter, slot.opening, name, (*path, "screw"))
    key = item.key * Fraction(str(ACROSS_CORNERS))
    yield at_least("access-key", item.access_hole, key, name, (*path, "access_hole"))


def _through_screw(bar: Profile, item: ThroughScrew, name: str, path: Path) -> Iterator[Judged]:
    thread, bore = THREADS[item.screw.thread], item.counterbore
    head = CAP_HEADS[item.screw.thread]
    where = f"{name}, {item.screw.thread}"
    yield at_least("head-counterbore", bore.diameter, head, where, (*path, "counterbore", "diameter"))
    yield at_least("head-proud", bore.depth, thread.diameter, where, (*path, "counterbore", "depth"))
    deepest = bar.section - bar.slot.depth - UNDER_HEAD
    yield at_most("counterbore-through", bore.depth, deepest, where, (*path, "counterbore", "depth"))
    yield at_least("screw-hole", item.hole, thread.diameter, where, (*path, "hole"))
    yield at_most("screw-hole-wide", item.hole, (thread.diameter + head) / 2, where, (*path, "hole"))


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
                at_most(
                    "thread-deep", tap.depth, deepest, f"{part.mark}, {name}", ("hardware", name, "screw")
                ),
            )
        depth = sum((tap.depth or Fraction(0) for tap in taps), Fraction(0))
        if depth > part.length:
            name = fastener.get((part.mark, taps[0].face), "")
            yield at_most("threads-meet", depth, part.length, part.mark, ("hardware", name, "screw"))
    yield from told.values()
