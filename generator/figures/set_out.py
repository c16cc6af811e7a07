"""What is marked on the faces of boards: strips, the screws of the tray, and what each kind of filling marks."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings import FILLINGS, strip_paths
from generator.bench.layout import bay_of
from generator.bench.model import Bench, Part
from generator.bench.on_boards import SetOut, datum_of, normal_of, outlined, touched_face
from generator.bench.role import Role
from generator.calculators.fasteners import POCKET_HOLE, pocket_footprint
from generator.figures.rows.assembly import PlaceRow
from generator.figures.tray_screws import tray_screws
from generator.geometry import FACES

POCKET, FROM_ABOVE = "pocket", "screw from above"


def set_out(bench: Bench) -> tuple[SetOut, ...]:
    """All of it, board after board in the order of the bench."""
    found = [*_strips(bench), *(each for kind in FILLINGS for each in kind.set_out(bench))]
    found += _tray_screws(bench, found)
    order = {part.mark: number for number, part in enumerate(bench.parts)}
    return tuple(sorted(found, key=lambda each: (order[each.part], each.face, each.low, each.high)))


def _strips(bench: Bench) -> Iterator[SetOut]:
    """Each strip on the wall that it touches, from the wall's edge at the open face of the bay."""
    for wall in bench.of(Role.DIVIDER, Role.END_PANEL):
        for strip in bench.of(*strip_paths()):
            if face := touched_face(wall, strip.box):
                datum = datum_of(wall, bay_of(bench.layout, strip.place.bay)[0].opens)
                low, high = outlined(wall, strip.box, datum)
                yield SetOut(wall.mark, face, strip.mark, strip.name, low, high, datum)


def _tray_screws(bench: Bench, others: list[SetOut]) -> Iterator[SetOut]:
    """Pockets with their whole reach, screws from above as far as they go in at least: half a board's thickness."""
    by_mark = {part.mark: part for part in bench.parts}
    pockets, above = tray_screws(bench)
    reach = Fraction(pocket_footprint(bench.goods.wall.thickness))
    for row in pockets:
        wall = by_mark[row.part]
        yield from _at_the_top(wall, row, (row.face,), POCKET, POCKET_HOLE, reach, others)
    for row in above:
        wall = by_mark[row.part]
        faces = dict.fromkeys(each.face for each in others if each.part == wall.mark)
        own = tuple(faces) or FACES[normal_of(wall)][1:]
        yield from _at_the_top(wall, row, own, FROM_ABOVE, Fraction(0), wall.thickness, others)


def _at_the_top(
    wall: Part,
    row: PlaceRow,
    faces: tuple[str, ...],
    name: str,
    wide: Fraction,
    deep: Fraction,
    others: list[SetOut],
) -> Iterator[SetOut]:
    """What is at the upper edge of a wall, from the edges from which its strips are measured."""
    datum = next((each.datum for each in others if each.part == wall.mark), datum_of(wall, ""))
    front = FACES[wall.along][0]
    for face in faces:
        for place in row.at:
            at = place if datum[0] == front else wall.length - place
            low, high = (at - wide / 2, wall.width - deep), (at + wide / 2, wall.width)
            yield SetOut(wall.mark, face, "", name, low, high, datum, axis="across")
