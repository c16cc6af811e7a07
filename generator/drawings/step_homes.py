"""Sub-assemblies that a step makes several of: which are equal, which are mirror images, which need a picture.

Two that differ only in marks, in sizes or as an image in a mirror differs share a picture. A wall that gets something
on both faces is shown twice: as it lies first, and turned over.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from generator.bench.fillings.screw_rules import RULES
from generator.calculators.collisions import OPPOSITE as OPPOSITE_WAYS
from generator.drawings.step_arrows import bounds
from generator.drawings.step_counts import screws_in
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Step

AXES = "xyz"
#: What most motions go into.
BENCH = "bench"
#: What follows the name of what a sub-assembly is built on, and how many pieces are named with it.
WITH, LITTLE = " with ", 2
DIGITS = "0123456789"
OPPOSITE: Mapping[str, str] = {str(way): str(back) for way, back in OPPOSITE_WAYS.items()}


@dataclass(frozen=True)
class Pictured:
    """What one picture shows: a step, or the part of it that works on one sub-assembly; and what it stands for.

    `turned` pictures show a sub-assembly again.
    """

    step: Step
    home: str = ""
    same: tuple[str, ...] = ()
    mirrored: tuple[str, ...] = ()
    resized: tuple[str, ...] = ()
    """The same pieces in the same order, of other sizes."""
    turned: bool = False
    also: str = ""
    """What the picture says of the sub-assemblies that it stands for."""

    @property
    def count(self) -> int:
        """How many are exactly as the picture shows."""
        return 1 + len(self.same)


def pictured(figures: Figures, step: Step) -> Iterator[Pictured]:
    """The pictures of a step, in the order of the work. What is said of the whole step is with the last one."""
    *before, last = _pictured(figures, step)
    yield from (
        replace(each, step=replace(each.step, hold=(), squares=(), shown=(), acts=())) for each in before
    )
    yield last


def _pictured(figures: Figures, step: Step) -> Iterator[Pictured]:
    homes = tuple(dict.fromkeys(motion.into for motion in step.motions))
    if len(homes) < 2 or step.assembly:
        yield Pictured(step)
        return
    into_bench = tuple(motion for motion in step.motions if motion.into == BENCH)
    homes = tuple(home for home in homes if home != BENCH)
    # of screws that no rule counts by the piece none is in a sub-assembly
    ruled = (each for each in step.fixings if each.uses and each.item not in RULES)
    number, going_in = 0, tuple(ruled) if into_bench else ()
    for shown in _shown(figures, step, homes):
        own = tuple(motion for motion in step.motions if motion.into == shown.home)
        for turned, part in enumerate(_lying(own, step.lies)):
            motions, standing, lies = part
            number += 1
            key = step.key if number == 1 else f"{step.key}-picture-{number}"
            marks = [mark for motion in motions for mark in motion.marks]
            fixings = tuple(
                replace(each, count=screws_in(figures, each.item, marks))
                for each in step.fixings
                if each not in going_in
            )
            one = replace(
                step,
                key=key,
                motions=motions,
                standing=standing,
                lies=lies,
                assembly=shown.home,
                fixings=fixings,
            )
            yield replace(shown, step=one, turned=bool(turned), also=_also(figures, step, shown, motions))
    if into_bench:
        yield Pictured(
            replace(
                step,
                key=f"{step.key}-picture-{number + 1}",
                motions=into_bench,
                fixings=going_in,
                tools=step.tools if step.shown else (),
            )
        )


def image_of(figures: Figures, step: Step, earlier: Sequence[Step]) -> tuple[Step, bool] | None:
    """An earlier step that does the same on another sub-assembly, and whether in a mirror."""
    pieces = _Pieces(figures, step.motions)
    for other in earlier:
        if (
            not step.assembly
            or other.assembly in ("", step.assembly)
            or len(other.motions) != len(step.motions)
        ):
            continue
        likeness = _likeness(_Pieces(figures, other.motions), pieces)
        if likeness in ("same", "mirrored"):
            return other, likeness == "mirrored"
    return None


def _also(figures: Figures, step: Step, shown: Pictured, motions: Sequence[MotionRow]) -> str:
    """`Make 2: C1 with D4, C2 with D5.`; those that are only like it with the marks of what this picture adds."""
    letters = {motion.called.rstrip(DIGITS) for motion in motions}
    found = []
    if shown.same:
        names = ", ".join(_called(step, home) for home in (shown.home, *shown.same))
        found.append(f"Make {shown.count}: {names}.")
    if shown.mirrored:
        of_each = (
            _made_of(step, home, letters) + _other_screws(figures, step, shown.home, home)
            for home in shown.mirrored
        )
        found.append(f"Mirrored: {'; '.join(of_each)}.")
    return " ".join(found)


def _other_screws(figures: Figures, step: Step, home: str, other: str) -> str:
    """`, 8 × strip screw` of a sub-assembly that takes more or fewer than the one that is shown."""
    counts = [
        {each.item: screws_in(figures, each.item, own) for each in step.fixings}
        for own in (
            [m for row in step.motions if row.into == into for m in row.marks] for into in (home, other)
        )
    ]
    return "".join(f", {n} × {item}" for item, n in counts[1].items() if n and n != counts[0][item])


def _made_of(step: Step, home: str, letters: Collection[str]) -> str:
    """A sub-assembly with the marks of its pieces that begin with these letters, in the order of the work."""
    name = home.partition(WITH)[0]
    own = (motion.called for motion in step.motions if motion.into == home)
    marks = [mark for mark in own if mark != name and mark.rstrip(DIGITS) in letters]
    return f"{name} ({', '.join(marks)})" if marks else name


def _called(step: Step, home: str) -> str:
    """A sub-assembly by what it is built on, and by what else is in it where that is little."""
    name = home.partition(WITH)[0]
    rest = [m.name for m in step.motions if m.into == home and m.name in step.parts and m.name != name]
    return f"{name} with {' and '.join(rest)}" if 0 < len(rest) <= LITTLE else name


def _shown(figures: Figures, step: Step, homes: Sequence[str]) -> list[Pictured]:
    """Each sub-assembly that no other one's picture shows, with those that its picture shows."""
    found: list[Pictured] = []
    pieces = {home: _Pieces(figures, [m for m in step.motions if m.into == home]) for home in homes}
    for home in homes:
        for index, other in enumerate(found):
            if likeness := _likeness(pieces[other.home], pieces[home]):
                found[index] = _with(other, likeness, home)
                break
        else:
            found.append(Pictured(step, home))
    return found


def _with(shown: Pictured, likeness: str, home: str) -> Pictured:
    if likeness == "same":
        return replace(shown, same=(*shown.same, home))
    if likeness == "mirrored":
        return replace(shown, mirrored=(*shown.mirrored, home))
    return replace(shown, resized=(*shown.resized, home))


def _lying(
    motions: tuple[MotionRow, ...], lies: str
) -> Iterator[tuple[tuple[MotionRow, ...], tuple[str, ...], str]]:
    """The motions of one picture, what is there before it, and what points up: first what goes on the face above."""
    if not lies:
        yield motions, (), ""
        return
    first, rest = motions[0], motions[1:]
    there: tuple[str, ...] = ()
    for way in dict.fromkeys(motion.way for motion in rest):
        own = tuple(motion for motion in rest if motion.way == way)
        yield ((first, *own) if not there else own), there, OPPOSITE[way]
        there += tuple(mark for motion in ((first, *own) if not there else own) for mark in motion.marks)


class _Pieces:
    """What moves into a sub-assembly, told without marks."""

    def __init__(self, figures: Figures, motions: Sequence[MotionRow]) -> None:
        groups = {mark: row.group for row in figures.parts for mark in row.marks}
        shapes = {shape.mark: shape for shape in figures.assembly.shapes}
        self._moving = [
            (groups.get(mark, shapes[mark].kind), motion.way, bounds(shapes[mark].whole))
            for motion in motions
            for mark in motion.marks
            if mark in shapes
        ]

    @cached_property
    def ways(self) -> list[tuple[str, str]]:
        """The kinds of pieces in their order, each with its way in."""
        return [(group, way) for group, way, _ in self._moving]

    def placed(self, mirror: int | None = None) -> Counter[tuple[object, ...]]:
        """Each piece with its way and its place from the low corner of them all; as in a mirror across an axis."""
        turned = []
        for group, way, box in self._moving:
            low, high = list(box[:3]), list(box[3:])
            if mirror is not None:
                low[mirror], high[mirror] = -high[mirror], -low[mirror]
                way = OPPOSITE[way] if way and AXES.index(way[1]) == mirror else way
            turned.append((group, way, (*low, *high)))
        corner = bounds([box for _, _, box in turned])[:3] if turned else (0.0, 0.0, 0.0)
        return Counter(
            (group, way, *(round(value - corner[index % 3], 1) for index, value in enumerate(box)))
            for group, way, box in turned
        )


def _likeness(one: _Pieces, other: _Pieces) -> str:
    """How another sub-assembly is like one that has a picture: same, mirrored, resized; empty when it is not."""
    if one.placed() == other.placed():
        return "same"
    if any(one.placed() == other.placed(axis) for axis in (0, 1)):
        return "mirrored"
    return "resized" if one.ways == other.ways else ""
