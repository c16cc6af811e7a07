"""Can it be put together in this order? Proved backwards: each thing must leave past all that came before it.

What cannot be taken out of the finished work in the reverse order cannot have been put in. A motion brings
bodies, or a whole sub-assembly that was put together before, into the bench or into another sub-assembly.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from generator.calculators.bodies import Body
from generator.calculators.collisions import DIRECTIONS, Direction, obstacles, way_out

BENCH = "bench"


@dataclass(frozen=True)
class Motion:
    """One motion of the work. `name` is what is placed, `step` the step that it belongs to.

    `brings` names a sub-assembly that moves as one, `into` the one (or the bench) that it joins. `out` are the ways out
    to try first, `after` the motions without which this one has nothing to go to. `unproved` says why no straight way
    is asked for: a shelf that is tilted in, a clip that is turned into its slot. `called` is what a picture
    writes beside it, where that is less than its name.
    """

    name: str
    step: str
    bodies: tuple[Body, ...] = ()
    brings: str = ""
    into: str = BENCH
    out: tuple[Direction, ...] = ()
    after: tuple[str, ...] = ()
    unproved: str = ""
    called: str = ""


@dataclass(frozen=True)
class Way:
    """A motion and the direction in which it can be taken out again; None when it needs no straight way."""

    motion: Motion
    out: Direction | None


@dataclass(frozen=True)
class Blockage:
    """A motion that cannot be made.

    `culprits` are the bodies that closed the last way, `closed_by` the motion that brought them, `last_free` the last
    step after which the way was still open (empty: none). `ways` says what closed each direction first.
    """

    motion: Motion
    culprits: tuple[str, ...]
    closed_by: Motion
    last_free: str
    ways: Mapping[Direction, str]


@dataclass(frozen=True)
class Proof:
    """Ways of all motions in their order, and what is blocked. An order without blockages is proved."""

    ways: tuple[Way, ...]
    blockages: tuple[Blockage, ...]

    @property
    def ok(self) -> bool:
        """True when nothing is blocked."""
        return not self.blockages

    @cached_property
    def order(self) -> tuple[Motion, ...]:
        """The motions in the order that was looked at."""
        return tuple(way.motion for way in self.ways)


class OrderError(ValueError):
    """Wishes about the order that contradict each other. `names` form the circle."""

    def __init__(self, names: Sequence[str]) -> None:
        super().__init__(" before ".join(names))
        self.names = tuple(names)


class MotionError(ValueError):
    """Bodies that an order places twice, or never: `times` says how often each of them is placed."""

    def __init__(self, times: Mapping[str, int]) -> None:
        said = {0: "never", 1: "once, and there are several of this name"}
        super().__init__(
            "every body is placed exactly once: "
            + ", ".join(f"{name} {said.get(count, f'{count} times')}" for name, count in times.items())
        )
        self.times = dict(times)


def placed_once(order: Iterable[Motion], bodies: Iterable[Body]) -> None:
    """Refuse an order that does not bring every body into the bench exactly once. Raises MotionError."""
    wanted = Counter(body.name for body in bodies)
    found = Counter(body.name for body in contents(order).get(BENCH, ()))
    wrong = {name: found[name] for name in wanted | found if found[name] != 1 or wanted[name] != 1}
    if wrong:
        raise MotionError(wrong)


def contents(order: Iterable[Motion]) -> dict[str, tuple[Body, ...]]:
    """All bodies of each sub-assembly and of the bench; a sub-assembly counts with what brings it."""
    own: dict[str, list[Body]] = {}
    for motion in order:
        brought = own.get(motion.brings, []) if motion.brings else []
        own.setdefault(motion.into, []).extend((*motion.bodies, *brought))
    return {name: tuple(bodies) for name, bodies in own.items()}


def prove(order: Sequence[Motion]) -> Proof:
    """Test every motion of an order against all that is in place when it comes."""
    return _Prover().proof(order)


class _Prover:
    """Proves orders of the same motions.

    A way depends on what is in place, not on the order in which it came: where only one motion was moved, most of what
    was found out before holds again.
    """

    def __init__(self) -> None:
        self._bits: dict[str, int] = {}
        self._known: dict[tuple[str, int], Direction | None] = {}

    def proof(self, order: Sequence[Motion]) -> Proof:
        """Ways and blockages of an order."""
        ways = self.ways(order)
        return Proof(ways, tuple(blockages(ways)))

    def ways(self, order: Sequence[Motion]) -> tuple[Way, ...]:
        """The way out of each motion, None where there is none."""
        whole = contents(order)
        standing: dict[str, list[Body]] = {}
        sets: dict[str, int] = {}
        found = []
        for motion in order:
            there = standing.setdefault(motion.into, [])
            moving = moving_bodies(motion, whole)
            key = motion.name, sets.get(motion.into, 0)
            if key not in self._known:
                proved = moving and not motion.unproved
                self._known[key] = way_out(moving, there, motion.out) if proved else None
            found.append(Way(motion, self._known[key]))
            there.extend(moving)
            sets[motion.into] = key[1] | 1 << self._bits.setdefault(motion.name, len(self._bits))
        return tuple(found)


def blockages(ways: Sequence[Way]) -> Iterator[Blockage]:
    """The motions of an order that have no way, in their order, each with what closes it."""
    whole = contents(way.motion for way in ways)
    before: dict[str, list[Motion]] = {}
    for way in ways:
        motion = way.motion
        if way.out is None and not motion.unproved and moving_bodies(motion, whole):
            yield _blockage(motion, before[motion.into], whole)
        before.setdefault(motion.into, []).append(motion)


def moving_bodies(motion: Motion, whole: Mapping[str, tuple[Body, ...]]) -> tuple[Body, ...]:
    """All bodies that one motion moves."""
    return (*motion.bodies, *(whole.get(motion.brings, ()) if motion.brings else ()))


def _blockage(motion: Motion, before: Sequence[Motion], whole: Mapping[str, tuple[Body, ...]]) -> Blockage:
    """Put the things before it in place one by one until the last way out is closed."""
    moving = moving_bodies(motion, whole)
    open_ways: list[Direction] = list(DIRECTIONS)
    closed: dict[Direction, str] = {}
    last_free = ""
    for other in before:
        bodies = moving_bodies(other, whole)
        culprits: list[str] = []
        for direction in list(open_ways):
            hits = [body.name for body in obstacles(moving, bodies, direction)]
            if hits:
                open_ways.remove(direction)
                closed[direction] = hits[0]
                culprits += hits
        if not open_ways:
            if last_free == other.step:
                last_free = _step_before(before, other)
            return Blockage(motion, tuple(dict.fromkeys(culprits)), other, last_free, closed)
        last_free = other.step
    raise ValueError(f"{motion.name} is not blocked")


def _step_before(before: Sequence[Motion], other: Motion) -> str:
    steps = list(dict.fromkeys(motion.step for motion in before))
    index = steps.index(other.step)
    return steps[index - 1] if index else ""


def sequence(
    motions: Sequence[Motion], before: Iterable[tuple[str, str]] = (), first: Sequence[str] = ()
) -> tuple[Motion, ...]:
    """The motions as near to the given order as the wishes let them be. Names are those of motions.

    A sub-assembly is complete before it moves. Raises OrderError when the wishes go round in a circle, MotionError
    when two motions have one name.
    """
    by_name = {motion.name: motion for motion in motions}
    if len(by_name) < len(motions):
        times = Counter(motion.name for motion in motions)
        raise MotionError({name: count for name, count in times.items() if count > 1})
    bringer = {motion.brings: motion.name for motion in motions if motion.brings}
    after: dict[str, set[str]] = {name: set() for name in by_name}
    for motion in motions:
        if motion.into in bringer:
            after[motion.name].add(bringer[motion.into])
        for needed in motion.after:
            after[needed].add(motion.name)
    for earlier, later in before:
        after[earlier].add(later)
    _put_first(after, first)
    rank = {name: index for index, name in enumerate(by_name)}
    waits = dict.fromkeys(by_name, 0)
    for followers in after.values():
        for name in followers:
            waits[name] += 1
    ready = _Ready(by_name, rank)
    for name in (name for name, count in waits.items() if not count):
        ready.add(name)
    done: list[Motion] = []
    while (following := ready.next()) is not None:
        done.append(following)
        for name in after[following.name]:
            waits[name] -= 1
            if not waits[name]:
                ready.add(name)
    if len(done) < len(by_name):
        raise OrderError(_circle(after, {name for name, count in waits.items() if count}))
    return tuple(done)


class _Ready:
    """Placings that wait for nothing. A step that was begun goes on while it can, else the first in rank follows."""

    def __init__(self, motions: Mapping[str, Motion], rank: Mapping[str, int]) -> None:
        self._motions, self._rank = motions, rank
        self._all: list[tuple[int, str]] = []
        self._of_step: dict[str, list[tuple[int, str]]] = {}
        self._taken: set[str] = set()
        self._step = ""

    def add(self, name: str) -> None:
        entry = (self._rank[name], name)
        heapq.heappush(self._all, entry)
        heapq.heappush(self._of_step.setdefault(self._motions[name].step, []), entry)

    def next(self) -> Motion | None:
        for heap in (self._of_step.get(self._step, []), self._all):
            while heap:
                name = heapq.heappop(heap)[1]
                if name not in self._taken:
                    self._taken.add(name)
                    self._step = self._motions[name].step
                    return self._motions[name]
        return None


def _put_first(after: dict[str, set[str]], first: Sequence[str]) -> None:
    """Let all that is neither in `first` nor must come before it follow."""
    needs: dict[str, set[str]] = {name: set() for name in after}
    for name, followers in after.items():
        for following in followers:
            needs[following].add(name)
    wanted, queue = set(first), list(first)
    while queue:
        new = needs[queue.pop()] - wanted
        wanted |= new
        queue += new
    for name, following in pairwise(first):
        after[name].add(following)
    for name in first:
        after[name] |= after.keys() - wanted


def _circle(after: Mapping[str, set[str]], left: set[str]) -> list[str]:
    """Some circle among the names that are left: walk on until a name comes twice."""
    before = {name: [each for each in left if name in after[each]] for name in left}
    path = [min(name for name in left if before[name])]
    while True:
        nearest = min(before[path[-1]])
        if nearest in path:
            return [nearest, *reversed(path[path.index(nearest) :])]
        path.append(nearest)


def repair(
    motions: Sequence[Motion], before: Sequence[tuple[str, str]] = (), first: Sequence[str] = ()
) -> Proof:
    """The nearest order that can be proved: what is blocked goes in before its last way is closed.

    The wishes hold whatever comes of it. When they leave no way, the proof's blockages are their doing: all that was
    in the way without being wished there has been moved. Without wishes the blockages are those of the order that was
    given.
    """
    learned: list[tuple[str, str]] = []
    impossible: set[tuple[str, str]] = set()
    prover = _Prover()
    given = ways = prover.ways(sequence(motions, before, first))
    # what was found impossible stays so while the ways do: the search goes on behind it, not from the first again
    found = blockages(ways)
    # each pair is learned once, and a learned pair holds from then on: the loop ends
    while True:
        pairs = ((each.motion.name, each.closed_by.name) for each in found)
        pair = next((each for each in pairs if each not in impossible), None)
        if pair is None:
            proof = Proof(ways, tuple(blockages(ways)))
            return proof if proof.ok or before or first else Proof(given, tuple(blockages(given)))
        moved = _moved_before([way.motion for way in ways], *pair)
        try:
            order = sequence(moved, (*before, *learned, pair), first)
        except OrderError:
            impossible.add(pair)
            continue
        learned.append(pair)
        ways = prover.ways(order)
        found = blockages(ways)


def _moved_before(order: Sequence[Motion], name: str, other: str) -> tuple[Motion, ...]:
    """The order with one motion put just before another."""
    moving = next(motion for motion in order if motion.name == name)
    rest = [motion for motion in order if motion.name != name]
    place = next(i for i, motion in enumerate(rest) if motion.name == other)
    return (*rest[:place], moving, *rest[place:])
