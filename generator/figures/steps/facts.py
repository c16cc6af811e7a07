"""What the proved order knows of each step: what moves and how, fixings, keys, nuts, weight, what stays final."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fasteners import nut_name
from generator.bench.fillings import FILLINGS
from generator.bench.fillings.bolted import NUT_KEY
from generator.bench.frames.slot_nuts import PlacedNut
from generator.bench.model import Bench, Joint
from generator.bench.piece import MEMBERS
from generator.calculators.access import Access
from generator.calculators.assembly import BENCH, Way, contents, moving_bodies
from generator.calculators.bodies import Body
from generator.calculators.collisions import OPPOSITE
from generator.calculators.fasteners import CAP_KEYS
from generator.calculators.holding import lies
from generator.calculators.lifting import (
    FROM,
    REACH,
    TRAVEL,
    in_step,
    lifting_index,
    persons,
    recommended_weight,
)
from generator.figures.access_report import AccessReport
from generator.figures.handling import most_each
from generator.figures.rows.assembly import Fixing, KeyPlace, MotionRow, Preload, ScrewUse
from generator.figures.rows.hardware import HardwareRow
from generator.figures.screws import bracket_screws, driven, rail_screws
from generator.figures.steps.words import key_size

#: People who lower a bench from its blocks. Trade practice.
BESIDE_BLOCKS = 2

#: The step in which bought hardware other than joints is used.
HARDWARE_STEPS = {
    **{
        each.kind: (each.step, each.tool)
        for kind in FILLINGS
        for each in kind.bought
        if each.screw or not each.use
    },
    "strip screw": ("strips", "screwdriver"),
    "trim screw": ("tray-fix", "screwdriver"),
    "pocket screw": ("tray-fix", "long screwdriver"),
    "tray screw": ("tray-fix", "screwdriver"),
    "top bracket": ("top", ""),
    "bracket": ("top", ""),
    "vise": ("top", ""),
    "vise bolt": ("top", "wrench for the vise bolts"),
    "top bracket bolt": ("top", NUT_KEY),
    "washer": ("top", ""),
    "top bracket wood screw": ("top", "screwdriver"),
    "bracket rail screw": ("top", "screwdriver"),
}
#: The same by their use, where goods of one kind are used in more than one step.
STEPS_OF_USES = {
    (each.kind, each.use): (each.step, each.tool) for kind in FILLINGS for each in kind.bought if each.use
}
#: Steps that say themselves how their pieces are held, or whose pieces hang in their slides.
HELD_OTHERWISE = ("spine-panel", *(key for kind in FILLINGS for key in kind.held))
#: The frame is put together on blocks below its underside (mm of the frame).
UNDERSIDE = 0.0


@dataclass(frozen=True)
class Run:
    """Motions of one step that follow each other in the proved order, by their indices."""

    key: str
    indices: tuple[int, ...]


def runs(ways: Sequence[Way]) -> tuple[Run, ...]:
    """The proved order cut where the step changes."""
    found: list[tuple[str, list[int]]] = []
    for index, way in enumerate(ways):
        if not found or found[-1][0] != way.motion.step:
            found.append((way.motion.step, []))
        found[-1][1].append(index)
    return tuple(Run(key, tuple(indices)) for key, indices in found)


class StepFacts:
    """Facts of the steps of one bench. `masses` are kilograms of one piece by mark."""

    def __init__(
        self,
        bench: Bench,
        whole: AccessReport,
        masses: Mapping[str, float],
        goods: Sequence[HardwareRow],
    ) -> None:
        spec = bench.spec
        self.stand = stand = bench.stand
        self.joinings, self.nut = bench.joinings, bench.goods.slot_nut
        self.own = {
            each.kind or each.item: (stand.step.key, NUT_KEY if each.key == "nut" else each.key)
            for each in stand.fixings
        }
        self.spec, self.whole, self.masses, self.goods = spec, whole, masses, goods
        self.uses = _uses(bench)
        self.ways = whole.done.proof.ways
        self.contents = contents(whole.done.proof.order)
        self.groups = {part.mark: part.group for part in bench.parts}
        self.index = {way.motion.name: index for index, way in enumerate(self.ways)}

    def _moving(self, index: int) -> tuple[Body, ...]:
        return moving_bodies(self.ways[index].motion, self.contents)

    def motions(self, run: Run) -> tuple[MotionRow, ...]:
        """What moves, without the screws, which are too small to show."""
        found = []
        for index in run.indices:
            way = self.ways[index]
            marks = tuple(body.name for body in self._moving(index) if body.kind != "screw")
            if marks:
                # what is tilted in is shown before the opening that it goes through
                out = way.out or next(iter(way.motion.out), None)
                into = OPPOSITE[out] if out else ""
                called = way.motion.called or way.motion.name
                found.append(
                    MotionRow(way.motion.name, marks, into, way.motion.into, way.out is not None, called)
                )
        return tuple(found)

    def assembly(self, run: Run) -> str:
        """The one sub-assembly that a step works on; empty for the bench, or for several."""
        into = {self.ways[index].motion.into for index in run.indices}
        return into.pop() if len(into) == 1 and BENCH not in into else ""

    def standing(self, run: Run) -> tuple[str, ...]:
        """Marks of what is there before the step."""
        return self._there(self.assembly(run) or BENCH, run.indices[0])

    def there_after(self, run: Run) -> tuple[str, ...]:
        """Marks of what the bench has after a step."""
        return self._there(BENCH, run.indices[-1] + 1)

    def _there(self, home: str, end: int) -> tuple[str, ...]:
        before = (index for index in range(end) if self.ways[index].motion.into == home)
        return tuple(body.name for index in before for body in self._moving(index) if body.kind != "screw")

    def heaviest(self, run: Run) -> float:
        """Mass (kg) of the heaviest thing that moves as one."""
        return max((self._kilograms(self._moving(i)) for i in run.indices), default=0.0)

    def persons(self, run: Run) -> int | None:
        """How many people the heaviest and the largest thing of the step need; None: more than can lift together.

        Two lower the bench from its blocks.
        """
        each = float(most_each(self.spec))
        asked: list[int | None] = [BESIDE_BLOCKS if self.lifted(run) else 1]
        for index in run.indices:
            bodies = self._moving(index)
            length, width = _face(bodies)
            kilograms = float(self._kilograms(bodies))
            asked.append(in_step(persons(mass=kilograms, each=each, length=length, width=width)))
        counts = [each for each in asked if each is not None]
        return max(counts) if len(counts) == len(asked) else None

    def cautions(self, run: Run, usual: Sequence[str]) -> tuple[str, ...]:
        """The usual cautions of a step; that for lifting only where one person alone would lift too much."""
        return tuple(key for key in usual if key != "lift" or self._is_heavy(run))

    def _is_heavy(self, run: Run) -> bool:
        """Whether the lifting index of one person is above 1, from where on the risk grows; it is good to a tenth."""
        recommended = recommended_weight(reach=REACH, height=FROM, travel=TRAVEL)
        mass = max(float(self.heaviest(run)), float(self.lifted(run)))
        return round(float(lifting_index(mass=mass, recommended=recommended)), 1) > 1

    def lifted(self, run: Run) -> float:
        """Mass (kg) of the bench so far, in the step after which it comes down from its blocks; else nothing."""
        if run.key != self.stand.step.key or not self.stand.step.lowers:
            return 0.0
        so_far = (i for i in range(run.indices[-1] + 1) if self.ways[i].motion.into == BENCH)
        return sum(self._kilograms(self._moving(i)) for i in so_far)

    def holds(self, run: Run) -> Iterator[str]:
        """What must be held because nothing below carries it yet, each with what will carry it."""
        until: dict[str, list[str]] = {}
        for index in run.indices:
            name = self.ways[index].motion.name
            if self._needs_support(index) and (carrier := self._carried_by(index)) != name:
                until.setdefault(carrier, []).append(name)
        for carrier, names in until.items():
            # a screw or clip that carries it is what fixes it
            end = f"{carrier} is on" if carrier and carrier not in self.whole.keys else "it is fixed"
            yield f"Hold {', '.join(names)} by hand or with a clamp until {end}: nothing carries it from below yet."

    def _needs_support(self, index: int) -> bool:
        """Bars and boards that are put down; the rest, and the stand, is screwed on at once or hangs in its slides."""
        motion, moving = self.ways[index].motion, self._moving(index)
        return (
            motion.into == BENCH
            and bool(moving)
            and moving[0].kind in (*MEMBERS, "board")
            and motion.step not in (*HELD_OTHERWISE, self.stand.step.key)
        )

    def _carried_by(self, index: int) -> str:
        """The motion from which on something below carries what this one brings; empty when nothing ever does."""
        moving, there = self._moving(index), list[Body]()
        for later, way in enumerate(self.ways):
            if way.motion.into == BENCH and way.motion.step not in HELD_OTHERWISE:
                there += self._moving(later) if later != index else ()
                if later >= index and lies(moving, there, UNDERSIDE):
                    return way.motion.name
        return ""

    def _kilograms(self, bodies: Iterable[Body]) -> float:
        return sum(self.masses.get(body.name, 0.0) for body in bodies)

    def _joints(self, run: Run) -> Iterator[tuple[str, Joint]]:
        for name, (joint, found) in self.whole.keys.items():
            if found.ready in run.indices:
                yield name, joint

    def keys(self, run: Run) -> tuple[KeyPlace, ...]:
        """Where the keys go that tighten this step's joints."""
        return tuple(
            KeyPlace(name, joint.crossing, joint.face, joint.at, self._key(joint))
            for name, joint in self._joints(run)
            if self._key(joint)
        )

    def _key(self, joint: Joint) -> Fraction:
        return self.joinings[joint.fastener].key

    def fixings(self, run: Run, *, first: bool = True) -> tuple[Fixing, ...]:
        """Joints by their fastener, then what else the step uses. A step that places nothing has an empty run.

        What is no joint belongs to the `first` run of its step.
        """
        by_item: dict[str, list[tuple[str, Joint]]] = {}
        for name, joint in self._joints(run):
            by_item.setdefault(joint.fastener, []).append((name, joint))
        found = [
            Fixing(
                item,
                self._count(item, joints),
                self._tool(item, joints[0][1]),
                tuple(name for name, _ in joints),
                glued=self.joinings[item].glue is not None,
            )
            for item, joints in by_item.items()
        ]
        found += self._beside(run, by_item)
        for row in self.goods:
            use = self.own.get(row.kind) or STEPS_OF_USES.get((row.kind, row.for_))
            step, tool = use or HARDWARE_STEPS.get(row.kind, ("", ""))
            own, count = self._driven_in(run.key, row, step)
            if count and first:
                key = self._nut_key() if tool == NUT_KEY else tool
                found.append(Fixing(row.item, count, key, uses=own))
        return tuple(found)

    def _driven_in(self, key: str, row: HardwareRow, usual: str) -> tuple[tuple[ScrewUse, ...], int]:
        """Of goods that have a `usual` step what this one uses, and how many: some of their uses have other steps."""
        uses = self.uses.get(row.kind, [])
        own = tuple(each for each in uses if (each.step or usual) == key)
        if key != usual:
            return own, sum(each.count for each in own)
        return own, row.count - sum(each.count for each in uses if each not in own)

    def _beside(self, run: Run, joints: Mapping[str, Sequence[object]]) -> Iterator[Fixing]:
        """What goes in with the fasteners of a step, and what goes into its members before theirs."""
        placed = {self.ways[index].motion.name for index in run.indices}
        before = Counter(joint.fastener for joint, _ in self.whole.keys.values() if nut_name(joint) in placed)
        counts = {"with": {item: len(own) for item, own in joints.items()}, "before": before}
        for when, items in counts.items():
            for item, count in items.items():
                for each in self.joinings[item].bought:
                    if each.taken == when:
                        yield Fixing(each.item, count * each.count)

    def _count(self, item: str, joints: Sequence[object]) -> int:
        """How many of a fastener some joints take."""
        return len(joints) * len(self.joinings[item].places)

    def _nut_key(self) -> str:
        return f"hexagon key {key_size(CAP_KEYS[self.nut.thread])}"

    def _tool(self, item: str, joint: Joint) -> str:
        return self.joinings[item].tool or f"hexagon key {key_size(self._key(joint))}"

    def nuts(self, run: Run) -> tuple[Preload, ...]:
        """Nuts whose slot closes in this step; none that roll in."""
        if self.nut.entry == "roll-in":
            return ()
        groups: dict[tuple[str, str, str, str], list[PlacedNut]] = {}
        for nut, found in self.whole.nuts:
            if found.lost_to is not None and self.index[found.lost_to.name] in run.indices:
                key = (nut.bar.mark, nut.face, nut.purpose, found.culprit)
                groups.setdefault(key, []).append(nut)
        return tuple(
            Preload(bar, face, sum(nut.count for nut in own), use, culprit, sum(nut.spare for nut in own))
            for (bar, face, use, culprit), own in groups.items()
        )

    def final(self, run: Run) -> tuple[str, ...]:
        """What this step covers for good."""
        covered: dict[str, list[str]] = {}
        for name, (_, found) in self.whole.keys.items():
            if self._lost_in(found, run):
                covered.setdefault(found.culprit, []).append(name)
        return tuple(
            f"Tighten {', '.join(names)}: {culprit} will block the key." for culprit, names in covered.items()
        )

    def _lost_in(self, found: Access, run: Run) -> bool:
        return found.lost_to is not None and self.index[found.lost_to.name] in run.indices


def _uses(bench: Bench) -> dict[str, list[ScrewUse]]:
    """The wood screws by their kind."""
    found: dict[str, list[ScrewUse]] = {}
    for each in (*driven(bench), *rail_screws(bench), *bracket_screws(bench)):
        sizes = (float(size) for size in (each.through, each.into, each.screw.shank, each.screw.length))
        through, into, shank, length = sizes
        found.setdefault(each.kind, []).append(ScrewUse(through, into, shank, length, each.count, each.step))
    return found


def _face(bodies: Sequence[Body]) -> tuple[float, float]:
    """The two largest sizes of what moves as one (mm)."""
    blocks = [block for body in bodies for block in body.blocks]
    if not blocks:
        return (0.0, 0.0)
    sizes = sorted(max(b[a + 3] for b in blocks) - min(b[a] for b in blocks) for a in range(3))
    return (sizes[2], sizes[1])


def tools(fixings: Iterable[Fixing]) -> tuple[str, ...]:
    """Tools of a step, each once."""
    return tuple(dict.fromkeys(fixing.tool for fixing in fixings if fixing.tool))
