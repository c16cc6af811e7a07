"""Checks of the fasteners against the bar: what is tapped, what a clip bears on, what a head sinks into."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.joints import suits
from generator.bench.joints.screws import BOLT_MOUTH, shorter_screw
from generator.bench.law import GOODS, Law
from generator.bench.model import Bench
from generator.calculators.fasteners import THREADS
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, at_most, of_verdict
from generator.provenance import constant
from generator.spec.goods import Profile
from generator.spec.load import LoadedSpec

#: A tap that cuts deeper than this many diameters in one go breaks. Common practice, no source.
DEEPEST_THREAD = constant(4, "deepest thread in diameters", unit="")


BORE_THREAD = Law(
    Code.BORE_THREAD, "error", "The bar's bore suits the thread that is tapped into it",
    "The bar's bore does not suit the thread that is tapped into it",
    "Take fasteners with the thread that the bore is made for.",
    "In too wide a bore the thread is shallow and strips; in too narrow a one the tap breaks.", GOODS,
    quantity="diameter of the bore",
)  # fmt: skip
THREAD_DEEP = Law(
    Code.THREAD_DEEP, "warning", "The threads can be tapped in one pass",
    "The thread is deeper than a tap cuts in one pass",
    "Take a shorter screw.", "A tap full of chips breaks off in the bar.", shorter_screw,
    quantity="depth of the thread",
)  # fmt: skip
THREADS_MEET = Law(
    Code.THREADS_MEET, "error", "Threads from both ends of a bar keep apart",
    "The threads from both ends of this bar meet", "Take shorter screws, or make the bar longer.",
    "The second tap or screw stops on the first.", GOODS,
    quantity="depth of both threads together",
)  # fmt: skip


def fastener_checks(bench: Bench) -> Iterator[CheckResult]:
    """Bore, clips, heads and keys of the fasteners in use; two threads in one bar; the slot nut's bolt."""
    spec, goods = bench.spec, bench.goods
    for name in dict.fromkeys(joint.fastener for joint in bench.joints):
        screw = bench.joinings[name].screw
        if goods.profile is not None and screw is not None:
            yield _bore(bench.loaded, goods.profile, screw.thread, name)
        yield from map(of_verdict, suits(goods, name))
    yield from _thread_ends(bench)
    if goods.profile is None:
        return
    diameter, name = THREADS[goods.slot_nut.thread].diameter, spec.frame.slot_nut
    yield at_most(BOLT_MOUTH, diameter, goods.profile.slot.opening, name, ("hardware", name, "thread"))


def _bore(loaded: LoadedSpec, bar: Profile, name: str, fastener: str) -> CheckResult:
    thread, path = THREADS[name], ("materials", loaded.spec.frame.material, "bore")
    where = f"{name} of {fastener}"
    low, high = thread.minor
    fitting = " or ".join(each.name for each in THREADS.values() if each.takes(bar.bore))
    advice = f"Take a bar with a bore from {loaded.say(low)} to {loaded.say(high)}"
    advice += f", or use fasteners with the thread {fitting}" if fitting else ""
    if bar.bore >= low:
        return at_most(BORE_THREAD, bar.bore, high, where, path, advice=f"{advice}.")
    drill = loaded.say(thread.tap_drill)
    advice += f"; or drill every end that is tapped to {drill} first, and write `bore: {drill}`."
    return at_least(BORE_THREAD, bar.bore, low, where, path, severity="warning", advice=advice)


def _thread_ends(bench: Bench) -> Iterator[CheckResult]:
    """Threads from both ends of one bar, and threads that no tap cuts in one go."""
    fastener = {(joint.member, joint.end): joint.fastener for joint in bench.joints}
    by_fastener: dict[str, CheckResult] = {}
    for part in bench.parts:
        taps = [op for op in part.operations if op.op == "tap" and op.depth is not None]
        for tap in taps:
            name = fastener.get((part.mark, tap.face))
            if name is None or not isinstance(tap.size, Fraction) or tap.depth is None:
                continue
            deepest = tap.size * DEEPEST_THREAD
            by_fastener.setdefault(
                name,
                at_most(THREAD_DEEP, tap.depth, deepest, f"{part.mark}, {name}", ("hardware", name, "screw")),
            )
        depth = sum((tap.depth or Fraction(0) for tap in taps), Fraction(0))
        if depth > part.length:
            name = fastener.get((part.mark, taps[0].face), "")
            yield at_most(THREADS_MEET, depth, part.length, part.mark, ("hardware", name, "screw"))
    yield from by_fastener.values()
