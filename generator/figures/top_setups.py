"""Set-up cards for what is let into the top: recesses, openings, slots."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.tops.features import Feature
from generator.figures.rows.setting_out import Setting, Setup

CUTTER = "cutter no thicker than twice the radius of the corners"


def top_setups(bench: Bench) -> Iterator[Setup]:
    """One card for each thing, in the order of the spec."""
    marks = tuple(part.mark for part in bench.of(Role.TOP))
    for number, each in enumerate((each for each in bench.features if each.operations), 1):
        yield (_slot if each.along else _opening)(each, number, marks)
    mitred = tuple(part.mark for part in bench.of(Role.TOP_EDGING) if part.mitres)
    if mitred:
        yield _mitre(mitred)


def _mitre(marks: tuple[str, ...]) -> Setup:
    return Setup(
        0,
        "top-edging-mitre",
        "Mitres of the edging",
        "mitre saw, or mitre gauge on the table saw, with a stop",
        (Setting("Angle between the cut and the outer face", text="45°"),),
        (
            "Mitre two pieces of scrap of the strip. Put them together against a square.",
            "Change the angle by half of the gap that you see, and try again.",
            "Mitre one end of each strip. Set the stop to its length at the outer face, and mitre the other end.",
            "A strip with one mitred end is cut square at its other end.",
        ),
        "Two test pieces make a square corner with no gap inside or outside.",
        marks,
        cautions=("kickback", "dust"),
    )


def _opening(each: Feature, number: int, marks: tuple[str, ...]) -> Setup:
    place = Setting("Middle, from the left edge, from the front edge of the top", each.at)
    corner = (Setting("Radius of the corners", (each.corner,)),) if each.corner else ()
    if each.opening is None or each.depth is None:
        round_ = each.diameter is not None
        size = (each.diameter,) if each.diameter is not None else each.size
        return Setup(
            0,
            f"top-opening-{number}",
            f"Opening for {each.name}",
            "hole saw, or router with a circle jig" if round_ else "jigsaw, then a router along a template",
            (place, Setting("Diameter" if round_ else "Opening, along and across", size), *corner),
            (
                "Mark the middle from the left and front edges of the top.",
                *(
                    ()
                    if round_
                    else ("Drill a hole inside each corner. Saw from hole to hole, inside the line.",)
                ),
                "Support the piece that falls out.",
                "Cut to the line.",
            ),
            "What goes into the opening passes by hand.",
            marks,
            cautions=("dust",),
        )
    return Setup(
        0,
        f"top-recess-{number}",
        f"Recess and opening for {each.name}",
        f"router with a guide bush and a template; {CUTTER}; jigsaw",
        (
            place,
            Setting("Recess, along and across", each.size),
            Setting("Recess, depth: the thickness of the plate", (each.depth,), fine=True),
            *corner,
            Setting("Opening within the ledge, along and across", each.opening),
        ),
        (
            "Measure the plate. Make the template by it, and rout a test recess in scrap of the same board.",
            "Lay the plate in. Change the depth until the plate is level with the board.",
            "Clamp the template to the top. Rout the recess in passes, from the middle outward.",
            "Drill a hole inside each corner of the opening. Saw from hole to hole.",
        ),
        "The plate goes in by hand, is level with the top all round, and does not rock.",
        marks,
        cautions=("dust",),
    )


def _slot(each: Feature, number: int, marks: tuple[str, ...]) -> Setup:
    axis = 1 if each.along == "x" else 0
    edge = "front" if axis else "left"
    depth = (each.depth,) if each.depth is not None else ()
    return Setup(
        0,
        f"top-slot-{number}",
        f"Slot for {each.name}",
        "router along a straight edge, cutter as wide as the slot or narrower",
        (
            Setting(f"Middle line, from the {edge} edge of the top", (each.at[axis],)),
            Setting("Slot, width", (each.size[axis],), fine=True),
            Setting("Slot, depth", depth, fine=True),
        ),
        (
            "Rout a test slot in scrap of the same board. Try the bar or track in it.",
            "Clamp the straight edge to the top. Measure its distance from the edge of the top at both ends.",
            "Rout in passes, always against the turn of the cutter.",
        ),
        "The bar moves by hand along the whole slot and does not rattle.",
        marks,
        cautions=("dust",),
    )
