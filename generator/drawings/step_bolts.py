"""Bolts of a step that go through something into a nut in the slot of a bar: found by the nuts that wait for them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from generator.calculators.bodies import Body
from generator.drawings.step_screws import TOUCH, Block, PlacedScrew, driven
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step


def into_slots(
    figures: Figures, step: Step, bodies: Mapping[str, Body]
) -> Iterator[tuple[PlacedScrew, int, str]]:
    """Bolts through what moves in, where it lies on a bar over a nut, each with the axis across which it is shown."""
    fixings = [each for each in step.fixings if "key" in each.tool and not each.joints]
    if not fixings:
        return
    moved = [bodies[mark] for motion in step.motions for mark in motion.marks if mark in bodies]
    bars = [bodies[mark] for mark in step.standing if mark in bodies and bodies[mark].kind == "bar"]
    found = [each for body in moved if body.kind != "bar" for each in _over_nuts(figures, body, bars)]
    fixing = next((each for each in fixings if each.count == len(found)), None)
    into = {body.name: Counter(bar.name for other, bar, *_ in found if other is body) for body, *_ in found}
    for body, bar, block, nut, axis, sign in found if fixing else ():
        assert fixing is not None
        head, way = list(nut.centre), [0.0, 0.0, 0.0]
        head[axis] = block[axis + 3] if sign > 0 else block[axis]
        way[axis] = -float(sign)
        across = max(range(3), key=lambda i: bar.bounds[i + 3] - bar.bounds[i])
        one = driven(figures, fixing, tuple(head), tuple(way), body.name, bar.name)
        listed = ", ".join(f"{count} into {name}" for name, count in into[body.name].items())
        yield one, across, f"{body.name}: {listed}"


def _over_nuts(
    figures: Figures, body: Body, bars: list[Body]
) -> Iterator[tuple[Body, Body, Block, Body, int, int]]:
    """What lies flat on a bar over a nut in it: the piece, the bar, the piece's block there, the nut, and the face."""
    for bar in bars:
        low, high = bar.bounds[:3], bar.bounds[3:]
        for nut in figures.assembly.nuts:
            if not all(a < at < b for a, at, b in zip(low, nut.centre, high, strict=True)):
                continue
            along = max(range(3), key=lambda i: bar.bounds[i + 3] - bar.bounds[i])
            across = (i for i in range(3) if i != along)
            # the face that its slot opens to is the one that it is nearest to
            axis = max(across, key=lambda i: abs(nut.centre[i] - bar.centre[i]))
            sign = 1 if nut.centre[axis] > bar.centre[axis] else -1
            face = bar.bounds[axis + 3] if sign > 0 else bar.bounds[axis]
            for block in body.blocks:
                near = block[axis] if sign > 0 else block[axis + 3]
                over = all(block[i] < nut.centre[i] < block[i + 3] for i in range(3) if i != axis)
                if over and abs(near - face) < TOUCH:
                    yield body, bar, block, nut, axis, sign
                    break
