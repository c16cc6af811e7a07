"""An order found by taking the finished work apart, for benches that no rule of order fits.

Whatever is free comes out, the last in the given order first. When nothing is free by itself, the smallest group that
is comes out as one: it is then a sub-assembly, and is taken apart by itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from generator.calculators.assembly import Motion, contents, moving_bodies
from generator.calculators.blocking import removable_groups
from generator.calculators.bodies import Body
from generator.calculators.collisions import way_out

#: With more motions than this in one assembly the search for groups takes too long.
MOST_MOTIONS = 150


def taken_apart(order: Sequence[Motion], assembly: str) -> tuple[Motion, ...] | None:
    """The order with the motions into one assembly found anew; None when they cannot be taken apart."""
    own = [motion for motion in order if motion.into == assembly]
    if len(own) > MOST_MOTIONS:
        return None
    found = _apart(own, assembly, contents(order))
    if found is None:
        return None
    first = next(index for index, motion in enumerate(order) if motion.into == assembly)
    rest = [motion for motion in order if motion.into != assembly]
    # sub-assemblies that are built later must be there before what they go into is begun anew
    inner = [motion for motion in rest if _leads_into(motion, assembly, order)]
    before = [p for p in order[:first] if p not in inner]
    after = [p for p in order[first:] if p.into != assembly and p not in inner]
    return (*before, *inner, *found, *after)


def _leads_into(motion: Motion, assembly: str, order: Sequence[Motion]) -> bool:
    joins = {each.brings: each.into for each in order if each.brings}
    into = motion.into
    while into in joins:
        into = joins[into]
        if into == assembly:
            return True
    return False


def _apart(
    own: Sequence[Motion], assembly: str, whole: Mapping[str, tuple[Body, ...]]
) -> list[Motion] | None:
    left = {motion.name: motion for motion in own}
    bodies = {name: moving_bodies(motion, whole) for name, motion in left.items()}
    done: list[list[Motion]] = []
    while left:
        free = next((name for name in reversed(list(left)) if _is_free(name, left, bodies)), None)
        if free is not None:
            done.append([replace(left.pop(free), into=assembly, after=())])
            continue
        group = next(iter(removable_groups({name: bodies[name] for name in left})), None)
        if group is None:
            return None
        names, way = group
        title = f"{names[0]} with {' and '.join(names[1:])}"
        inner = _apart([left[name] for name in names], title, whole)
        if inner is None:
            return None
        done.append([*inner, Motion(title, left[names[0]].step, brings=title, into=assembly, out=(way,))])
        for name in names:
            del left[name]
    return [motion for motions in reversed(done) for motion in motions]


def _is_free(name: str, left: Mapping[str, Motion], bodies: Mapping[str, Sequence[Body]]) -> bool:
    if left[name].unproved:
        return True
    others = [body for other in left if other != name for body in bodies[other]]
    return way_out(bodies[name], others, left[name].out) is not None
