"""The steps in which edges are banded: after the boards are cut to size, before anything is machined in them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.law import said
from generator.bench.model import Bench, Part
from generator.figures.rows.assembly import Step
from generator.figures.steps.words import FILL, PREPARE, step


def early_bands(bench: Bench) -> Iterator[Step]:
    """Boards that are cut before the frame."""
    own = [part for part in bench.parts if part.bands and not part.waits]
    yield from _step(bench, PREPARE, "edges", "Band the edges", own)


def late_bands(bench: Bench) -> Iterator[Step]:
    """Boards that are cut when the frame stands."""
    own = [part for part in bench.parts if part.bands and part.waits]
    yield from _step(bench, FILL, "late-edges", "Band the edges of the parts that are cut now", own)


def _step(bench: Bench, stage: str, key: str, title: str, own: Sequence[Part]) -> Iterator[Step]:
    card = bench.goods.banding
    if card is None or not own:
        return
    put_on = (
        (
            "Iron the bands on, the ends first. The long ones cover their ends.",
            "Press each band down with a block of wood until it is cool.",
        )
        if card.on_by == "iron"
        else (
            "Glue the bands on, the ends first. The long ones cover their ends.",
            "Clamp a batten on each band until the glue is dry.",
        )
    )
    yield step(
        stage, key, title, own, "",
        (
            "Cut these boards to the sizes in the cut list: they are smaller than the finished boards.",
            f"Cut each band {said(bench.spec, bench.spec.edges.extra)} longer than its edge.",
            *put_on,
            "Trim the ends, then both faces. Work towards the board, so that the band does not tear off.",
            "Only then cut grooves, holes and cut-outs. They are measured from the finished edges.",
        ),
        ("Each board has its finished size.", "No band lifts when you pull at its end with a fingernail."),
        ("iron",) if card.on_by == "iron" else (),
    )  # fmt: skip
