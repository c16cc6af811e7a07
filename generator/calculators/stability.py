"""Does the bench tip? Moments about the line on the floor over which it would go.

Statics of a rigid body. Common practice for what is loaded and how far inwards a support may touch the floor.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.calculators.quantities import (
    GRAVITY,
    KilogramMillimetres,
    Kilograms,
    Millimetres,
    Newtons,
    NewtonsPerKilogram,
)
from generator.provenance import formula, named


@formula("stand_inset + inward", "mm", "common practice, no source")
def tip_line(*, stand_inset: Millimetres, inward: Millimetres) -> Millimetres:
    """How far behind the face the bench would tip: the axis it stands on, and how far that may touch inwards: s + i."""
    return stand_inset + inward


def holding_moment(*, mass: Kilograms, distance: Millimetres) -> KilogramMillimetres:
    """How much a mass holds the bench down, `distance` behind the tip line: m y. Negative before the line."""
    return mass * distance


def opening_moment(*, mass: Kilograms, travel: Millimetres) -> KilogramMillimetres:
    """How much holding moment a drawer takes away when it is pulled out: m s."""
    return mass * travel


@formula("force * height / gravity", "kg·mm", "statics")
def push_moment(
    *, force: Newtons, height: Millimetres, gravity: NewtonsPerKilogram = GRAVITY
) -> KilogramMillimetres:
    """What a level pull at the top edge takes from the holding moment: F h / g."""
    return force * height / gravity


def load_to_tip(*, margin: KilogramMillimetres, distance: Millimetres) -> Kilograms:
    """Mass that just tips the bench when it presses down `distance` before the tip line: M / y."""
    return margin / distance


def ballast_to_stand(*, lack: KilogramMillimetres, distance: Millimetres) -> Kilograms:
    """Mass `distance` behind the tip line that makes up for a lack of holding moment: M / y."""
    return lack / distance


def further_out(*, lack: KilogramMillimetres, mass: Kilograms) -> Millimetres:
    """How far the supports must move out so that the bench's own mass makes up for a lack of holding moment: M / m."""
    return lack / mass


STATICS = "statics of a rigid bench on equally soft supports"
MEAN = "The mean of their places."
SPREAD = "The distance of each from their middle, squared, or one direction times the other, added up."
SLOPE = "How much more of the mass a support carries for each millimetre that it is farther out."
WAYS = ("from the left", "from the front")

#: A load smaller than this part of the mass is none.
NEGLIGIBLE = 1e-6


@dataclass(frozen=True)
class DrawerMass:
    """A drawer on a face: its own mass and its load (kg), their middles behind the tip line when closed (mm)."""

    own: Kilograms
    load: Kilograms
    own_behind: Millimetres
    load_behind: Millimetres
    travel: Millimetres

    @property
    def held_empty(self) -> KilogramMillimetres:
        """Holding moment of the closed drawer without its load."""
        return holding_moment(mass=self.own, distance=self.own_behind)

    @property
    def held_load(self) -> KilogramMillimetres:
        """Holding moment of the load in the closed drawer."""
        return holding_moment(mass=self.load, distance=self.load_behind)

    @property
    def taken(self) -> KilogramMillimetres:
        """What opening it takes when it is loaded."""
        return opening_moment(mass=self.own + self.load, travel=self.travel)


@dataclass(frozen=True)
class Tipping:
    """Holding moments left (kg mm) with 0, 1, 2 … drawers open, and with how many the bench still stands.

    `margins` counts every drawer as loaded; `margins_alone` counts the load of open drawers only, because the load of
    closed ones holds the bench down. `push` is what the pull at the top edge takes.
    """

    margins: tuple[KilogramMillimetres, ...]
    margins_alone: tuple[KilogramMillimetres, ...]
    push: KilogramMillimetres

    @property
    def safe_open(self) -> int:
        """Most drawers open at once that a pull at the top edge does not tip, all drawers loaded; -1: none does."""
        return _standing(self.margins, self.push)

    @property
    def safe_open_alone(self) -> int:
        """The same with only the open drawers loaded."""
        return _standing(self.margins_alone, self.push)

    @property
    def safe_open_unpulled(self) -> int:
        """Only the open drawers loaded, and nobody pulls."""
        return _standing(self.margins_alone, 0.0)


def tipping(
    rest: Sequence[tuple[Kilograms, Millimetres]], drawers: Sequence[DrawerMass], push: KilogramMillimetres
) -> Tipping:
    """Open the drawers one by one, each time the one that takes most.

    `rest` is everything but the drawers, as (kg, mm behind the tip line). With all distances in metres, and the pull
    in kg m, the moments are in kg m.
    """
    fixed = sum(holding_moment(mass=mass, distance=at) for mass, at in rest)
    empty = fixed + sum(each.held_empty for each in drawers)
    return Tipping(
        margins=_falling(empty + sum(each.held_load for each in drawers), [each.taken for each in drawers]),
        margins_alone=_falling(empty, [each.taken - each.held_load for each in drawers]),
        push=push,
    )


def _falling(whole: float, taken: Sequence[float]) -> tuple[float, ...]:
    left = [whole]
    for each in sorted(taken, reverse=True):
        left.append(left[-1] - each)
    return tuple(left)


def _standing(margins: Sequence[float], push: float) -> int:
    """The last count up to which the bench stands; what stands only after having tipped does not count."""
    fallen = (count for count, margin in enumerate(margins) if margin <= push)
    return next(fallen, len(margins)) - 1


def support_loads(
    supports: Sequence[tuple[float, float]], mass: float, centre: tuple[float, float]
) -> tuple[float, ...]:
    """Share of `mass` (kg) on each support (X, Y) of a rigid bench on equally soft supports; `centre` of gravity X, Y.

    The load is a plane over the floor: m (1/n + u x + v y) about the supports' middle, in balance with the mass. A
    support that would be pulled down is left out. Raises ValueError when the bench cannot stand on these supports.
    """
    kept = tuple(range(len(supports)))
    while True:
        loads = _plane([supports[i] for i in kept], mass, centre) if len(kept) > 2 else None
        if loads is None:
            raise ValueError("the bench cannot stand on these supports")
        if min(loads) >= -NEGLIGIBLE * mass:
            found = dict(zip(kept, loads, strict=True))
            return tuple(max(found.get(i, 0.0), 0.0) for i in range(len(supports)))
        lifted = loads.index(min(loads))
        kept = (*kept[:lifted], *kept[lifted + 1 :])


def _plane(
    supports: Sequence[tuple[float, float]], mass: float, centre: tuple[float, float]
) -> list[float] | None:
    """Loads in balance, some of them perhaps below 0; None when the supports are on one line."""
    count = len(supports)
    mx, my = (
        named(
            sum(each[axis] for each in supports) / count,
            f"middle of the supports that stand, {way}",
            MEAN,
            STATICS,
        )
        for axis, way in enumerate(WAYS)
    )
    xs, ys = [x - mx for x, _ in supports], [y - my for _, y in supports]
    xx = named(sum(x**2 for x in xs), f"spread of these supports, {WAYS[0]}", SPREAD, STATICS)
    yy = named(sum(y**2 for y in ys), f"spread of these supports, {WAYS[1]}", SPREAD, STATICS)
    xy = named(
        sum(x * y for x, y in zip(xs, ys, strict=True)),
        "spread of these supports, both ways",
        SPREAD,
        STATICS,
    )
    turn = xx * yy - xy**2
    if turn <= NEGLIGIBLE * (xx + yy) ** 2:
        return None
    ex, ey = centre[0] - mx, centre[1] - my
    u = named((ex * yy - ey * xy) / turn, f"slope of the load, {WAYS[0]}", SLOPE, STATICS)
    v = named((ey * xx - ex * xy) / turn, f"slope of the load, {WAYS[1]}", SLOPE, STATICS)
    return [mass / count + mass * (u * x + v * y) for x, y in zip(xs, ys, strict=True)]


def worst_with_one_in_the_air(
    supports: Sequence[tuple[float, float]], mass: float, centre: tuple[float, float]
) -> float:
    """Largest load (kg) on one support when any one of them carries nothing and the bench stays rigid.

    A support without which the bench would fall on it cannot hang free, so it is not counted. 0: none can hang free.
    """
    worst = 0.0
    for lifted in range(len(supports)):
        try:
            loads = support_loads([*supports[:lifted], *supports[lifted + 1 :]], mass, centre)
        except ValueError:
            continue
        worst = max(worst, *loads)
    return worst
