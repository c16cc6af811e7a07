"""Set-up cards for openings in boards, such as those for hoses and cables."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.model import Bench
from generator.bench.openings import CUT_OUT, PlacedOpening, openings
from generator.bench.role import Role
from generator.figures.rows.parts import OperationRow, PartRow
from generator.figures.rows.setting_out import Setting, Setup


def own_openings(bench: Bench) -> tuple[PlacedOpening, ...]:
    """The openings that the spec asks for in boards below the top."""
    return openings(bench.loaded, [part for part in bench.parts if part.role is not Role.TOP])


def without_own_cards(bench: Bench, rows: Sequence[PartRow]) -> Iterator[tuple[PartRow, OperationRow]]:
    """Cut-outs of boards but those that the spec asks for, in the top and below it: these have cards of their own."""
    own = {(each.board, each.operation.at) for each in own_openings(bench)}
    tops = {part.mark for part in bench.of(Role.TOP)}
    for row in rows:
        for op in row.operations:
            if row.is_board and op.op == CUT_OUT and row.mark not in tops and (row.mark, op.at) not in own:
                yield row, op


def opening_setups(bench: Bench) -> Iterator[Setup]:
    """One card a shape, with the boards that get it and the middles from their datum corners."""
    found: dict[tuple[Fraction | tuple[Fraction, Fraction], Fraction], list[PlacedOpening]] = defaultdict(
        list
    )
    for each in own_openings(bench):
        found[each.operation.size, each.operation.corner].append(each)
    lower = {part.mark: part.across != "z" for part in bench.parts}
    fit_of = {part.mark: part.fit for part in bench.parts}
    for number, ((size, corner), places) in enumerate(found.items(), 1):
        round_ = not isinstance(size, tuple)
        fits = [fit for each in places if (fit := fit_of[each.board])]
        cut = any(fit.needs_rabbet for fit in fits)
        hidden = ", tongues included" if cut else ", with what goes into its groove" if fits else ""
        yield Setup(
            0,
            f"opening-{number}",
            "Openings in boards" if len(found) == 1 else f"Openings in boards {number}",
            "hole saw with a drill press or stand" if round_ else "jigsaw, then a router along a template",
            (
                Setting("Diameter", (size,))
                if not isinstance(size, tuple)
                else Setting("Opening, along and across", size),
                *((Setting("Radius of the corners", (corner,)),) if corner else ()),
                *(
                    Setting(
                        f"{each.name}: middle along the board, and from its "
                        f"{'front' if lower[each.board] else 'lower'} edge",
                        each.operation.at,
                    )
                    for each in places
                ),
            ),
            (
                f"Measure from the datum end of the board{hidden}.",
                "Lay scrap below the board, so that its far face does not splinter.",
                *(
                    ("Drill until the centre bit comes through. Then drill from the other face.",)
                    if round_
                    else (
                        "Drill a hole inside each corner. Saw from hole to hole, inside the line, and rout to it.",
                    )
                ),
                "Break the edges, so that they do not cut a hose or a cable.",
            ),
            "What goes through passes by hand.",
            tuple(dict.fromkeys(each.board for each in places)),
            cautions=("dust", "drill") if round_ else ("dust",),
        )
