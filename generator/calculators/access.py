"""When a key reaches a screw and a nut its slot: free at the step itself, and until which motion. Millimetres."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from generator.calculators.assembly import BENCH, Motion, contents, moving_bodies
from generator.calculators.bodies import Block, Body
from generator.calculators.collisions import Direction, meet, obstacles


@dataclass(frozen=True)
class Access:
    """Access to a thing that is ready after motion `ready` (an index into the order).

    `barred_by` names what bars it at the end of that step; `lost_to` is the motion after which it is barred for
    good, `culprit` the body that bars it then. None and empty: it stays free in the finished bench.
    """

    name: str
    ready: int
    barred_by: tuple[str, ...] = ()
    lost_to: Motion | None = None
    culprit: str = ""

    @property
    def ok(self) -> bool:
        """True when nothing bars it at its step."""
        return not self.barred_by


class AssemblyTimeline:
    """What is around a body after each motion: first its sub-assembly alone, later all that this joins."""

    def __init__(self, order: Sequence[Motion]) -> None:
        self.order = tuple(order)
        self._whole = contents(order)
        self._inner: dict[str, list[int]] = {}
        self._joins: dict[str, int] = {}
        self._home: dict[str, str] = {}
        self._stages: dict[str, list[tuple[int, tuple[Body, ...]]]] = {}
        for index, motion in enumerate(self.order):
            self._inner.setdefault(motion.into, []).append(index)
            if motion.brings:
                self._joins[motion.brings] = index
            for body in motion.bodies:
                self._home[body.name] = motion.into

    def stages(self, body: str) -> Sequence[tuple[int, tuple[Body, ...]]]:
        """(index of a motion, bodies that it adds around `body`), in the order of the work."""
        home = self._home[body]
        if home not in self._stages:
            self._stages[home] = self._around(home)
        return self._stages[home]

    def _around(self, assembly: str) -> list[tuple[int, tuple[Body, ...]]]:
        """The stages of all bodies that are first put into a sub-assembly."""
        found: list[tuple[int, tuple[Body, ...]]] = []
        start, inside = -1, ""
        while True:
            for index in self._inner[assembly]:
                motion = self.order[index]
                if motion.brings != inside or not inside:
                    # what joined before this sub-assembly did is there when it comes
                    found.append((max(index, start), moving_bodies(motion, self._whole)))
            if assembly == BENCH or assembly not in self._joins:
                return sorted(found, key=lambda each: each[0])
            start, inside = self._joins[assembly], assembly
            assembly = self.order[start].into

    def end_of_step(self, index: int) -> int:
        """The last motion of the step that a motion belongs to, in the same assembly."""
        host = self.order[index]
        same = [i for i in self._inner[host.into] if self.order[i].step == host.step]
        return max(same)


def access(
    timeline: AssemblyTimeline,
    name: str,
    needs: Iterable[str],
    bars: Callable[[Sequence[Body]], Sequence[str]],
) -> Access:
    """Follow access to the body `name` from the step in which the last of the bodies `needs` is there."""
    wanted = {*needs, name}
    stages = timeline.stages(name)
    ready = 0
    for index, bodies in stages:
        if not wanted:
            break
        if here := wanted.intersection([body.name for body in bodies]):
            ready, wanted = index, wanted - here
    at_step: list[str] = []
    last = timeline.end_of_step(ready)
    for index, bodies in stages:
        culprits = bars([body for body in bodies if body.name != name])
        if not culprits:
            continue
        if index > last:
            return Access(name, ready, tuple(at_step), timeline.order[index], culprits[0])
        at_step += culprits
    return Access(name, ready, tuple(at_step))


def last_chance(timeline: AssemblyTimeline, nut: Body, bar: str, along: str) -> Access:
    """Until when a nut can still be slid to its place in the slot of `bar`, which runs `along` an axis."""
    way = SlotWay(nut, along)
    stages = timeline.stages(bar)
    ready = next(index for index, bodies in stages if any(body.name == bar for body in bodies))
    for index, bodies in stages:
        culprits = way(bodies)
        if culprits:
            return Access(nut.name, ready, (), timeline.order[index], culprits[0])
    return Access(nut.name, ready)


def key_line(*lines: Block) -> Callable[[Sequence[Body]], Sequence[str]]:
    """What is in the straight way of a key to a screw, or to one of several."""

    def bars(bodies: Sequence[Body]) -> Sequence[str]:
        return [
            body.name
            for body in bodies
            if any(
                meet(line, body.bounds) and any(meet(line, block) for block in body.blocks) for line in lines
            )
        ]

    return bars


class SlotWay:
    """The two ways of a nut along its slot. It is barred when both are closed; both stay closed from then on."""

    def __init__(self, nut: Body, along: str) -> None:
        ways: dict[str, tuple[Direction, Direction]] = {
            "x": ("-x", "+x"),
            "y": ("-y", "+y"),
            "z": ("-z", "+z"),
        }
        self.nut = nut
        self.open: list[Direction] = list(ways[along])

    def __call__(self, bodies: Sequence[Body]) -> Sequence[str]:
        """Close the ways that the bodies bar; the culprits once none is left."""
        if not self.open:
            return ()
        culprits: list[str] = []
        for direction in list(self.open):
            hits = [body.name for body in obstacles([self.nut], bodies, direction)]
            if hits:
                self.open.remove(direction)
                culprits += hits
        return () if self.open else culprits
