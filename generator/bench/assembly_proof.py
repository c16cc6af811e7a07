"""The bench put together: its bodies, the order that was found, and the wishes that the spec has about it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from generator.bench.model import Bench
from generator.bench.order import natural_order
from generator.bench.proof import Assembled
from generator.bench.solids import solid_bodies
from generator.bench.steps import step_name
from generator.calculators.assembly import (
    BENCH,
    Blockage,
    Motion,
    OrderError,
    Proof,
    placed_once,
    prove,
    repair,
    sequence,
)
from generator.calculators.disassembly import taken_apart
from generator.codes import Code
from generator.findings import Finding, Severity, nearest
from generator.spec.load import LoadedSpec


def assembly_proof(bench: Bench) -> Assembled:
    """Put a bench together. Wishes that name nothing or contradict each other are left out and reported.

    Raises MotionError when a body would be placed twice or never: that order is no proof of anything.
    """
    done = _put_together(bench)
    placed_once(done.proof.order, done.bodies)
    return done


def _put_together(bench: Bench) -> Assembled:
    loaded = bench.loaded
    spec = loaded.spec
    bodies = solid_bodies(bench)
    natural = natural_order(bench, bodies)
    wishes = spec.assembly
    if not (wishes.first or wishes.before):
        return Assembled(bodies, _proved(natural), ())
    names = _Names(natural, {part.mark: part.group for part in bench.parts})
    faults = list(_unknown(loaded, names))
    if faults:
        return Assembled(bodies, repair(natural), tuple(faults))
    before = [pair for earlier, later in wishes.before for pair in names.pairs(earlier, later)]
    first = [name for wish in wishes.first for name in names.found(wish)]
    try:
        sequence(natural, before, first)
    except OrderError as error:
        return Assembled(bodies, repair(natural), (_contradiction(loaded, error),))
    proof = repair(natural, before, first)
    return Assembled(bodies, proof, tuple(_blocked(loaded, each) for each in causes(proof, before)))


def _proved(natural: Sequence[Motion]) -> Proof:
    """The natural order, mended; when that fails, one found by taking apart what is blocked."""
    proof = repair(natural)
    order = proof.order
    for assembly in dict.fromkeys(each.motion.into for each in proof.blockages):
        found = taken_apart(order, assembly)
        if found is None:
            return proof
        order = found
    again = prove(order) if order != proof.order else proof
    return again if again.ok else proof


def causes(proof: Proof, before: Sequence[tuple[str, str]] = ()) -> tuple[Blockage, ...]:
    """What is blocked by itself: with wishes, one blockage for each thing that closes a way, the wished ones."""
    if not before:
        return proof.blockages
    later = {name for _, name in before}
    ranked = sorted(proof.blockages, key=lambda each: each.motion.name not in later)
    return tuple({each.closed_by.name: each for each in reversed(ranked)}.values())[::-1]


def describe(blockage: Blockage) -> str:
    """Part, step and what blocks it, in words."""
    step = step_name(blockage.motion.step)
    culprits = " and ".join(blockage.culprits[:2])
    closed_by = blockage.closed_by.name
    of = f" of “{closed_by}”" if closed_by[0].isupper() else f" of the {closed_by}"
    where = "" if closed_by in blockage.culprits else of
    verb = "blocks" if len(blockage.culprits) == 1 else "block"
    return f"{blockage.motion.name} cannot go in at step “{step}”: {culprits}{where} {verb} it"


def when_free(blockage: Blockage) -> str:
    """The last step at which the part could go in, as a sentence."""
    last, name = step_name(blockage.last_free), blockage.motion.name
    return f"After step “{last}”, {name} could still go in." if last else f"{name} could go in at no step."


class _Names:
    """What a wish can name: a motion, a part's mark, a group or a step."""

    def __init__(self, natural: Sequence[Motion], groups: Mapping[str, str]) -> None:
        self.motions = {motion.name: motion for motion in natural}
        self.bringer = {motion.brings: motion.name for motion in natural if motion.brings}
        self.known: dict[str, list[str]] = {}
        for motion in natural:
            self.known.setdefault(motion.name, []).append(motion.name)
            self.known.setdefault(motion.step, []).append(motion.name)
            if motion.name in groups:
                self.known.setdefault(groups[motion.name], []).append(motion.name)
        for motion in natural:
            self.known[motion.name] = [motion.name]

    def found(self, wish: str) -> list[str]:
        return self.known[wish]

    def _levels(self, name: str) -> dict[str, str]:
        """The assemblies that a motion ends up in, innermost first, with what brings it into each."""
        levels = {}
        while True:
            into = self.motions[name].into
            levels[into] = name
            if into == BENCH:
                return levels
            name = self.bringer[into]

    def pairs(self, earlier: str, later: str) -> Iterator[tuple[str, str]]:
        """The wish as pairs of motions that meet in one assembly, the innermost that any pair shares."""
        for second in self.found(later):
            levels = self._levels(second)
            shared = [(self._levels(first), first) for first in self.found(earlier)]
            depths = [next(i for i, name in enumerate(levels) if name in other) for other, _ in shared]
            for depth, (other, _) in zip(depths, shared, strict=True):
                if depth == min(depths):
                    level = list(levels)[depth]
                    yield (other[level], levels[level])


def _unknown(loaded: LoadedSpec, names: _Names) -> Iterator[Finding]:
    wishes = loaded.spec.assembly
    named: list[tuple[tuple[str | int, ...], str]] = [
        (("first", i), name) for i, name in enumerate(wishes.first)
    ]
    named += [(("before", i, j), name) for i, pair in enumerate(wishes.before) for j, name in enumerate(pair)]
    for path, name in named:
        if name not in names.known:
            yield Finding(
                Code.UNKNOWN_NAME,
                Severity.ERROR,
                "this bench has no part, group or step with this name",
                loaded.where("assembly", *path),
                found=name,
                allowed="a part's mark, a group, a step, an end frame or `top grid`",
                nearest=nearest(name, names.known),
            )


def _contradiction(loaded: LoadedSpec, error: OrderError) -> Finding:
    return Finding(
        Code.ORDER_CONTRADICTION,
        Severity.ERROR,
        f"these wishes contradict each other: {' before '.join(error.names)}",
        loaded.where("assembly"),
        advice="Delete one of these wishes.",
    )


def _blocked(loaded: LoadedSpec, blockage: Blockage) -> Finding:
    return Finding(
        Code.ORDER_BLOCKED,
        Severity.ERROR,
        describe(blockage),
        loaded.where("assembly"),
        advice=f"{when_free(blockage)} Change the wishes: it goes in before {blockage.closed_by.name}.",
    )
