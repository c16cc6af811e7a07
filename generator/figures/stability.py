"""Does it tip, face by face, with drawers open; what hangs on one support when another hangs free."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.model import Bench, Part
from generator.calculators.stability import (
    DrawerMass,
    Tipping,
    ballast_to_stand,
    further_out,
    holding_moment,
    load_to_tip,
    push_moment,
    tip_line,
    tipping,
    worst_with_one_in_the_air,
)
from generator.figures.balance import Masses, PointMass, combined_mass
from generator.figures.rows.masses import Stands
from generator.figures.rows.strength import Holds, Stability
from generator.provenance import constant, inexact, named

OPENED = "Where they are when shut, less how far their middles turn out, by their areas."
FACES = ("front", "rear", "left", "right")
PER_METRE = inexact(constant(1000, "millimetres in a metre", "the metre", "mm/m"))


def stability(bench: Bench, weight: Masses) -> tuple[Stability, ...]:
    """One row a face: front, rear, left, right."""
    return tuple(_face(bench, weight, face) for face in FACES)


def _face(bench: Bench, weight: Masses, face: str) -> Stability:
    spec = bench.spec
    axis = 1 if face in ("front", "rear") else 0
    total = bench.layout.depth if axis else bench.layout.length
    places = [centre[axis] for centre in bench.stand.points]
    inset = min(places) if face in ("front", "left") else total - max(places)
    inward = bench.stand.inward
    line = inexact(inset) if inward is None else tip_line(stand_inset=inexact(inset), inward=inexact(inward))

    def behind(row: PointMass) -> float:
        at = row.at[axis] if face in ("front", "left") else inexact(total) - row.at[axis]
        return at - line

    def arm(row: PointMass) -> float:
        return behind(row) / PER_METRE

    zones = {bay.name: zone.opens for zone in bench.layout.zones for bay in zone.bays}
    mine = [each for each in weight.sliding if zones[each.bay] == face]
    others = [each.own for each in weight.sliding if each not in mine]
    turned = doors_open(bench, weight, face)
    opens = bool(mine) or turned is not weight.fixed
    rest = (*turned, *others) if opens else (weight.empty,)
    push = push_moment(force=inexact(spec.loads.push), height=inexact(bench.layout.height)) / PER_METRE
    travels = {each.fact.travel: inexact(each.fact.travel) for each in mine}
    boxes = [
        DrawerMass(
            each.own.mass,
            each.load.mass,
            arm(each.own),
            arm(each.load),
            travels[each.fact.travel] / PER_METRE,
        )
        for each in mine
    ]
    found = tipping([(row.mass, arm(row)) for row in rest], boxes, push)
    lack = push - found.margins_alone[1] if mine and found.safe_open_alone < 1 else None
    held = _holds(turned, weight, behind)
    far = inexact(max(places) - min(places)) - (line - inexact(inset))
    return Stability(
        face=face,
        tip_line=line,
        pull=inexact(spec.loads.push),
        safe_open=found.safe_open,
        drawers=len(mine),
        margins=found.margins,
        margins_alone=found.margins_alone,
        push=push,
        safe_open_alone=found.safe_open_alone,
        safe_open_unpulled=found.safe_open_unpulled,
        lean=_lean(found, max(travels.values()) - line) if mine else None,
        ballast=None if lack is None else ballast_to_stand(lack=lack, distance=far / PER_METRE),
        further=None if lack is None else further_out(lack=lack, mass=weight.empty.mass) * PER_METRE,
        holds=held if opens else tuple(map(_plain, held)),
    )


def doors_open(bench: Bench, weight: Masses, face: str) -> tuple[PointMass, ...]:
    """The fixed masses with all that turns open at this face, square to it; as they are where nothing turns there."""
    opens = {bay.name: zone.opens for zone in bench.layout.zones for bay in zone.bays}
    parts = {part.mark: part for part in bench.parts}
    turning = [parts[swing.part] for kind in FILLINGS for swing in kind.swings(bench)]
    groups = {part.group: [each for each in turning if each.group == part.group] for part in turning}
    rows = tuple(
        _turned(
            row,
            groups[row.group],
            [part for part in groups[row.group] if opens[part.place.bay] == face],
            face,
        )
        if row.group in groups
        else row
        for row in weight.fixed
    )
    return weight.fixed if rows == weight.fixed else rows


def _turned(row: PointMass, whole: Sequence[Part], turned: Sequence[Part], face: str) -> PointMass:
    """A group of boards of one thickness with some of them turned out by a right angle about their outer edge."""
    if not turned:
        return row
    # a board's middle goes from half its thickness behind the face to half its width before it
    moved = sum(
        (part.box.x.size * part.box.z.size * (part.box.x.size + part.box.y.size) for part in turned),
        Fraction(0),
    )
    area = sum((part.box.x.size * part.box.z.size for part in whole), Fraction(0))
    out = inexact(moved / area / 2)
    x, y, z = row.at
    at = named(
        y - out if face == "front" else y + out,
        f"middle of {row.group}, open at the {face}, from the front",
        OPENED,
        "geometry",
    )
    return replace(row, at=(x, at, z))


def _holds(
    fixed: Sequence[PointMass], weight: Masses, behind: Callable[[PointMass], float]
) -> tuple[Holds, ...]:
    """Masses and holding moments of each group of the empty bench, the one that holds most first."""
    rows = list(fixed)
    sliding: dict[str, list[PointMass]] = {}
    for each in weight.sliding:
        sliding.setdefault(each.fact.together, []).append(each.own)
    rows += [combined_mass(own, called) for called, own in sliding.items()]
    found = [_held(row, behind(row)) for row in rows if row.mass]
    return tuple(sorted(found, key=lambda each: -each.moment))


def _held(row: PointMass, behind: float) -> Holds:
    return Holds(row.group, row.mass, behind, holding_moment(mass=row.mass, distance=behind / PER_METRE))


def _plain(row: Holds) -> Holds:
    """A group on a face without drawers, without its working: no page prints it, the bench is judged as a whole."""
    return Holds(row.group, float(row.mass), float(row.behind), float(row.moment))


def _lean(found: Tipping, before: float) -> float:
    """Mass on the face of an open drawer, `before` the line, that just tips the bench with the safe number open."""
    margin = found.margins_alone[max(found.safe_open_alone, 1)]
    lean = load_to_tip(margin=margin, distance=before / PER_METRE)
    return lean if lean > 0 else 0.0


def with_one_in_the_air(bench: Bench, stands: Stands, weight: Masses, loaded: float) -> Stands:
    """The stands with the most that one of them carries when any other hangs free."""
    x, y, _ = weight.loaded.at
    places = [(inexact(a), inexact(b)) for a, b in bench.stand.points]
    return replace(stands, one_in_the_air=worst_with_one_in_the_air(places, loaded, (x, y)))
