"""What has to be carried on the way to the finished bench, who lifts it, and through which door it goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.model import Bench
from generator.bench.stands.facts import StepWords
from generator.calculators.lifting import (
    FROM,
    REACH,
    TRAVEL,
    in_step,
    lifting_index,
    passes,
    persons,
    recommended_weight,
    share,
    stows,
)
from generator.calculators.work_height import work_height
from generator.figures.mass import moving_masses
from generator.figures.rows.assembly import Assembly, Step
from generator.figures.rows.hardware import HardwareRow
from generator.figures.rows.masses import Mass
from generator.figures.rows.parts import PartRow
from generator.figures.rows.strength import Handling, WorkHeight
from generator.provenance import inexact
from generator.spec.schema import Spec

Sizes = tuple[Fraction, Fraction, Fraction]

#: What is lighter than this (kg) is no matter of lifting.
LIGHT = 5.0


def handling(
    bench: Bench, rows: Sequence[PartRow], goods: Sequence[HardwareRow], work: Assembly, weight: Mass
) -> tuple[Handling, ...]:
    """Sub-assemblies in the order of the work, the heaviest single part, the frame, the whole bench."""
    spec = bench.spec
    kilograms = moving_masses(bench, rows, goods)
    boxes = {piece.mark: (piece.corner, piece.size) for row in rows for piece in row.pieces}
    found: dict[str, Handling] = {}
    for step in work.steps:
        for name, marks in _carried(step, bench.stand.step):
            known = [mark for mark in marks if mark in boxes]
            if not known:
                continue
            mass = sum(kilograms.get(mark, 0.0) for mark in marks)
            row = _row(spec, name, mass, _outside([boxes[mark] for mark in known]))
            if mass >= LIGHT and (name not in found or found[name].mass < mass):
                found[name] = row
    heaviest = max(rows, key=lambda row: row.mass)
    sizes = heaviest.pieces[0].size
    part = _row(spec, f"{heaviest.mark}, {heaviest.name}", heaviest.mass, sizes)
    layout = bench.layout
    outside = (layout.length, layout.depth, layout.height)
    return (*found.values(), part, _row(spec, "the finished bench, empty", weight.empty, outside, whole=True))


def _carried(step: Step, on: StepWords) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Sub-assemblies that move as one, and the frame that is lifted onto what it stands on."""
    for motion in step.motions:
        if len(motion.marks) > 1:
            yield motion.name, motion.marks
    if step.key == on.key:
        yield on.carried, step.standing


def _outside(boxes: Sequence[tuple[Sizes, Sizes]]) -> Sizes:
    """Outside sizes of several pieces together along X, Y, Z."""
    x, y, z = (
        max(corner[axis] + size[axis] for corner, size in boxes) - min(corner[axis] for corner, _ in boxes)
        for axis in range(3)
    )
    return (x, y, z)


def _row(spec: Spec, name: str, mass: float, sizes: Sizes, *, whole: bool = False) -> Handling:
    _, width, length = sorted(float(size) for size in sizes)
    recommended = recommended_weight(reach=REACH, height=FROM, travel=TRAVEL)
    count = in_step(persons(mass=float(mass), each=float(most_each(spec)), length=length, width=width))
    return Handling(
        name=name,
        mass=mass,
        sizes=sizes,
        persons=count,
        recommended=recommended,
        index=None if count is None else lifting_index(mass=float(mass) / count, recommended=recommended),
        door=passes(sizes, spec.limits.door),
        van=stows(sizes, spec.limits.van),
        whole=whole,
    )


def most_each(spec: Spec) -> float:
    """Most that one person lifts (kg), by the equation and the spec."""
    recommended = recommended_weight(reach=REACH, height=FROM, travel=TRAVEL)
    return share(recommended=recommended, own_limit=inexact(spec.limits.lift_one))


def work_height_of(spec: Spec) -> WorkHeight:
    """The bench's height and the range that suits its user."""
    user = spec.user
    found = work_height(user.work, user.elbow_height, user.saw_height)
    if found is None:
        return WorkHeight(spec.bench.height, user.work)
    return WorkHeight(spec.bench.height, user.work, found.low, found.high)
