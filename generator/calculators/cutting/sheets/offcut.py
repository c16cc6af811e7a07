"""The largest off-cut at the same cost: it is planned as one piece more, and made larger while it still fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.job import NO_RULE, SheetCut, SheetJob, cost_of, leaves
from generator.calculators.cutting.sheets.search import SheetSearch
from generator.calculators.cutting.sheets.strip_search import StripSearch

#: Shares of all that the pieces leave, and how much larger an off-cut must be to be worth a search.
SHARES = (0.2, 0.25, 0.3, 0.36, 0.43, 0.5, 0.58, 0.67, 0.76, 0.85)
LARGER = 1.1

#: A search for one off-cut takes one part in `PART` of the budget left; `FAILURES` vain ones in a row are the end.
PART, FAILURES = 3, 4


def larger_offcut(
    job: SheetJob, cuts: Sequence[SheetCut], known: StripSearch, budget: WorkBudget
) -> Sequence[SheetCut]:
    """The cuts, or others of the same cost that leave more in one part. `known` has sheets of the same job."""
    cost, largest, failed = cost_of(job, cuts), largest_offcut(job, cuts), 0
    for size in _sizes(job, cuts):
        if size[0] * size[1] < LARGER * largest or not _has_room(job, cuts, size):
            continue
        if budget.spent or failed == FAILURES:
            break
        failed += 1
        wider = _with_piece(job, size)
        if _proved_dearer(wider, cost, budget):
            continue
        search = StripSearch(wider, budget)
        search.learn_smaller(known)
        search.run(cost, budget.part(budget.left // PART))
        found = search.cuts(real=len(job.pieces)) if search.cost is not None and search.cost <= cost else None
        if found is not None and largest_offcut(job, found) > largest:
            cuts, largest, failed = found, largest_offcut(job, found), 0
    return cuts


def _proved_dearer(job: SheetJob, cost: int, budget: WorkBudget) -> bool:
    """Whether no plan has this cost, as far as is seen at once."""
    free = SheetSearch(replace(job, rule=NO_RULE), budget)
    free.prove_quickly(cost + 1)
    return free.bound.cost > cost


def largest_offcut(job: SheetJob, cuts: Sequence[SheetCut]) -> int:
    """The area of the largest off-cut that is worth keeping."""
    areas = [
        leaf.width * leaf.height
        for cut in cuts
        for leaf, _, _ in leaves(cut.layout)
        if leaf.piece < 0 and _kept(job, leaf.width, leaf.height)
    ]
    return max(areas, default=0)


def _kept(job: SheetJob, width: int, height: int) -> bool:
    return max(width, height) >= max(job.keep) and min(width, height) >= min(job.keep)


def _sizes(job: SheetJob, cuts: Sequence[SheetCut]) -> Iterator[tuple[int, int]]:
    """Off-cuts to try, the smallest first: across a whole sheet either way, and half as long again as they are wide."""
    free = sum(job.sheets[cut.stock][0] * job.sheets[cut.stock][1] * cut.times for cut in cuts)
    free -= job.areas.total
    found = set()
    for width, height in {job.sheets[cut.stock] for cut in cuts}:
        wide, high = width - job.rule.gap, height - job.rule.gap
        if min(wide, high) <= 0:
            continue  # a strip no wider than what a cut must leave
        for share in SHARES:
            area = min(share * free, wide * high)
            squarish = int((area / 1.5) ** 0.5)
            for one, two in (
                (wide, int(area / wide)),
                (int(area / high), high),
                (squarish * 3 // 2, squarish),
                (squarish, squarish * 3 // 2),
            ):
                if one <= wide and two <= high and _kept(job, one, two):
                    found.add((one, two))
    return iter(sorted(found, key=lambda size: (size[0] * size[1], size)))


def _has_room(job: SheetJob, cuts: Sequence[SheetCut], size: tuple[int, int]) -> bool:
    """Whether an off-cut may be beside each piece, where all are cut from one sheet; elsewhere nothing is known."""
    if len(job.sheets) > 1 or sum(cut.times for cut in cuts) > 1:
        return True
    width, height = job.sheets[0]
    return all(
        any(
            (one + size[0] <= width and max(two, size[1]) <= height)
            or (two + size[1] <= height and max(one, size[0]) <= width)
            for one, two in (piece, *((piece[1], piece[0]),) * turn)
        )
        for piece, turn in zip(job.pieces, job.turns, strict=True)
    )


def _with_piece(job: SheetJob, size: tuple[int, int]) -> SheetJob:
    return replace(job, pieces=(*job.pieces, size), turns=(*job.turns, False), demands=(*job.demands, 1))
