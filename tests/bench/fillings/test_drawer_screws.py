"""Wood screws of drawers: how many, through what, into what."""

from __future__ import annotations

from generator.bench.fillings.drawer_screws import drawer_screws
from tests.bench.benches import solved


def test_the_worked_screws() -> None:
    """Eight drawers: slides with three holes, in pairs and in two members; corners; faces of 18 behind boxes of 12."""
    packing, boxes, corners, faces = drawer_screws(solved())
    assert {packing.kind, boxes.kind} == {"slide screw"}
    assert packing.count == boxes.count == 8 * 3 * 2
    # the metal of a slide counts for nothing; behind the strip of 15 is the panel of 12, and a box has 12
    assert [(each.through, each.into, each.name) for each in (packing, boxes)] == [
        (0, 15 + 12, "4x16"),
        (0, 12, "4x10"),
    ]
    # both bays have the same boxes, and each box four corners; the screws go into ends of 448
    assert (corners.kind, corners.through, corners.edge, corners.into) == ("drawer box screw", 12, 12, 448)
    assert corners.count % (2 * 4) == 0
    assert (faces.kind, faces.count, faces.through, faces.into) == ("drawer front screw", 8 * 4, 12, 18)
    assert [each.shows for each in (packing, boxes, corners, faces)] == [False, False, False, True]
