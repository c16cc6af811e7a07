"""What a reader measures before the first cut, and the drills and taps that the machining asks for."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.model import Bench
from generator.calculators.fasteners import THREADS
from generator.figures.rows.goods import GoodsFacts, ToteFacts
from generator.spec.goods import Sheet


def goods_facts(bench: Bench) -> GoodsFacts:
    """Sizes of bar, boards, slide, totes and stands that this bench rests on. No slide sizes without a drawer."""
    spec, goods = bench.spec, bench.goods
    bar, slide = goods.profile, goods.slides[spec.drawers.slide]
    drawers = bool(bench.storage.drawers)
    used = dict.fromkeys(part.material for part in bench.parts)
    boards = dict.fromkeys(part.material for part in bench.parts if part.is_board)
    return GoodsFacts(
        bar=goods.members.posts,
        section=goods.members.section,
        rail=goods.members.rails,
        rail_width=goods.members.rail,
        slot_opening=bar.slot.opening if bar else None,
        slot_depth=bar.slot.depth if bar else None,
        slot_lip=bar.slot.lip if bar else None,
        slot_undercut=bar.slot.undercut if bar else None,
        bore=bar.bore if bar else None,
        panel_sheet=spec.panels.material,
        sheets={name: goods.sheets[name].thickness for name in boards if name in goods.sheets},
        solid=tuple(name for name in used if name in goods.timbers or _is_solid(goods.sheets.get(name))),
        slide=spec.drawers.slide,
        slide_length=slide.length if drawers else None,
        slide_space=slide.side_space if drawers else None,
        totes=_totes(bench),
        **bench.stand.goods,
        drills=_drills(bench),
        taps=_taps(bench),
    )


def _is_solid(board: Sheet | None) -> bool:
    return board is not None and board.species is not None


def _totes(bench: Bench) -> tuple[ToteFacts, ...]:
    spec = bench.spec
    cards = [(name, spec.totes[name]) for name in dict.fromkeys(tote.kind for tote in bench.storage.totes)]
    return tuple(ToteFacts(name, card.rim_width, card.body_width, card.height) for name, card in cards)


def _drills(bench: Bench) -> tuple[Fraction, ...]:
    """Diameters of all round holes, and the tap drills, smallest first (mm)."""
    holes = {
        op.size
        for part in bench.parts
        for op in part.operations
        if isinstance(op.size, Fraction) and op.op not in ("tap", "tapped hole")
    }
    return tuple(sorted(holes | {THREADS[thread].tap_drill for thread in _taps(bench)}))


def _taps(bench: Bench) -> tuple[str, ...]:
    """Threads that are cut: in the ends of members and in plates, whose tapped holes are as wide as their thread."""
    used = [bench.joinings[joint.fastener] for joint in bench.joints]
    tapped = [each.screw.thread for each in used if each.screw and each.end == "tap"]
    sizes = [
        op.size
        for part in bench.parts
        for op in part.operations
        if op.op == "tapped hole" and isinstance(op.size, Fraction)
    ]
    of_size = {thread.diameter: name for name, thread in THREADS.items()}
    return tuple(dict.fromkeys((*tapped, *(of_size[size] for size in sizes if size in of_size))))
