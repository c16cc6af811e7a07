"""Where the tray is screwed to the dividers: through pockets below it, or from above where strips leave no room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from generator.bench.fillings import strip_paths
from generator.bench.frames.panels import wall_names
from generator.bench.frames.trays import joint_middles
from generator.bench.layout import BayPlace, ZonePlace
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.fasteners import pocket_footprint, pocket_places
from generator.figures.rows.assembly import PlaceRow

POCKET, FROM_ABOVE = "pocket", "screw through the tray"


def tray_screws(bench: Bench) -> tuple[tuple[PlaceRow, ...], tuple[PlaceRow, ...]]:
    """(pockets, screws from above), one row a divider; places from the divider's front end (mm).

    A pocket needs its footprint free below the divider's top edge. On a face with upright strips the pockets go between
    them; where both faces are taken the screws come from above, and so do those through a joint of two pieces.
    """
    spec = bench.spec
    if "dividers" not in wall_names(spec) or not spec.tray.there:
        return ((), ())
    joints, strips = joint_middles(bench.loaded, bench.layout), _Strips(bench)
    pockets: list[PlaceRow] = []
    above: list[PlaceRow] = []
    for zone in bench.layout.zones:
        sides = _sides(bench, zone)
        for divider in (part for part in bench.of(Role.DIVIDER) if part.box.y.contains_middle(zone.y)):
            free = (
                ()
                if divider.box.x.middle in joints
                else _free_faces(strips, sides.get(divider.box.x.middle, ()), divider)
            )
            faces = [PlaceRow(POCKET, divider.mark, *each) for each in free]
            if faces:
                pockets.append(max(faces, key=lambda each: len(each.at)))
            else:
                above.append(PlaceRow(FROM_ABOVE, divider.mark, "top", _along(divider)))
    return (tuple(pockets), tuple(above))


def faces_of(pockets: Iterable[PlaceRow]) -> str:
    """`left face of FD1, BD1; right face of FD3`: of all walls that have pockets."""
    faces: dict[str, list[str]] = {}
    for row in pockets:
        faces.setdefault(row.face, []).append(row.part)
    return "; ".join(f"{face} face of {', '.join(own)}" for face, own in faces.items())


def tray_holes(bench: Bench, above: tuple[PlaceRow, ...]) -> Iterator[PlaceRow]:
    """The screws from above once more, as holes of the tray: from its front edge, and each row from its left end."""
    by_mark = {part.mark: part for part in bench.parts}
    for tray in bench.of(Role.TRAY):
        for row in above:
            wall = by_mark[row.part]
            if not tray.box.x.low <= wall.box.x.middle <= tray.box.x.high:
                continue  # it is below another piece
            shift = wall.box.y.low - tray.box.y.low
            across = wall.box.x.middle - tray.box.x.low
            yield PlaceRow("hole", tray.mark, "top", tuple(at + shift for at in row.at), across)


def _along(divider: Part) -> tuple[Fraction, ...]:
    front = divider.tongues["front"]
    return tuple(front + at for at in pocket_places(divider.length - 2 * front))


def _sides(bench: Bench, zone: ZonePlace) -> Mapping[Fraction, Sequence[tuple[str, BayPlace]]]:
    """Middle of a wall -> its faces that bays of the zone are at."""
    half = bench.layout.section / 2
    found: dict[Fraction, list[tuple[str, BayPlace]]] = {}
    for bay in zone.bays:
        found.setdefault(bay.x.low - half, []).append(("right", bay))
        found.setdefault(bay.x.high + half, []).append(("left", bay))
    return found


class _Strips:
    """The strips of a bench by the bay and by the wall that they are at."""

    def __init__(self, bench: Bench) -> None:
        upright = _upright(bench)
        self.standing_in = {strip.place.bay for strip in upright}
        self.at: dict[tuple[str, Fraction], list[Part]] = {}
        for strip in upright:
            self.at.setdefault(("left", strip.box.x.high), []).append(strip)
            self.at.setdefault(("right", strip.box.x.low), []).append(strip)
        footprint = pocket_footprint(bench.goods.wall.thickness)
        self.near_the_top_in = {
            strip.place.bay
            for strip in lying_strips(bench)
            if bench.layout.levels.tray_bottom - strip.box.z.high < footprint
        }


def _free_faces(
    strips: _Strips, sides: Sequence[tuple[str, BayPlace]], divider: Part
) -> Iterator[tuple[str, tuple[Fraction, ...]]]:
    for face, bay in sides:
        if bay.name in strips.near_the_top_in:
            continue
        if bay.name in strips.standing_in:
            if places := _between_strips(strips, divider, face):
                yield face, places
        else:
            yield face, _along(divider)


def _between_strips(strips: _Strips, divider: Part, face: str) -> tuple[Fraction, ...]:
    at = divider.box.x.low if face == "left" else divider.box.x.high
    spans = sorted(
        (strip.box.y.low, strip.box.y.high)
        for strip in strips.at.get((face, at), ())
        if strip.box.y.overlap(divider.box.y) > 0
    )
    return tuple((high + low) / 2 - divider.box.y.low for (_, high), (low, _) in pairwise(spans))


def lying_strips(bench: Bench) -> tuple[Part, ...]:
    """Strips along the walls, under which no driver is held straight."""
    return tuple(strip for strip in bench.of(*strip_paths()) if strip.along != "z")


def _upright(bench: Bench) -> tuple[Part, ...]:
    """Strips that stand on the walls: a driver goes between them."""
    return tuple(strip for strip in bench.of(*strip_paths()) if strip.along == "z")


__all__ = ["lying_strips", "tray_holes", "tray_screws"]
