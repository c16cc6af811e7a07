"""Stacks piled up from below, and sums that fail by an amount."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.model import Bench
from tests.bench.benches import DEMO, STACK, codes, faults, solved


def opening(bench: Bench) -> tuple[Fraction, Fraction]:
    levels = bench.layout.levels
    return levels.base_top, levels.base_top + levels.opening


@pytest.mark.parametrize(
    ("stack", "kinds"),
    [
        ("{drawer: 150}, {open: 120}, {drawer: share}", "dod"),
        ("{totes: bin, count: 2}, {drawer: share}", "td"),
        ("{drawer: share}, {totes: bin, count: 2}", "dt"),
        ("{open: share}, {drawer: 100}, {open: share 2}", "odo"),
        ("{drawer: share}", "d"),
    ],
)
def test_a_stack_piled_up_with_its_gaps_fills_the_opening(stack: str, kinds: str) -> None:
    """3 mm below, between and above; totes with the lift of 12 over each."""
    bench = solved(STACK % stack)
    at, top = opening(bench)
    drawers, totes = iter(bench.storage.drawers), iter(bench.storage.totes)
    spaces = iter(bench.storage.open)
    for kind in kinds:
        at += 3
        if kind == "d":
            size = next(drawers).sizes
            assert size.front_bottom == at
            at += size.front_height
        elif kind == "o":
            space = next(spaces)
            assert space.bottom == at
            at += space.height
        else:
            for _ in range(2):
                tote = next(totes)
                assert tote.bottom == at
                at = tote.top + 12
    assert at + 3 == top
    assert [next(each, None) for each in (drawers, totes, spaces)] == [None] * 3


@pytest.mark.parametrize(
    ("stack", "says"),
    [
        # an opening of 499: 40 to 539
        ("{drawer: 200}, {drawer: 289}", "1 mm missing"),
        ("{drawer: 200}, {drawer: 292}", "2 mm too high"),
        ("{drawer: 493}, {drawer: share}", "3 mm too high"),
        ("{drawer: 490}, {drawer: share}", "nothing is left for the shares"),
        # four totes of 145 and three lifts of 12 are 616
        ("{totes: bin, count: 4}", "need 616 mm, 117 mm more"),
    ],
)
def test_a_stack_that_does_not_fill_says_by_how_much(stack: str, says: str) -> None:
    (fault,) = faults(STACK % stack)
    assert fault.code == "stack-sum"
    assert says in fault.message


@pytest.mark.parametrize(
    ("trim", "codes_found"), [("2.5", []), ("2.6", ["stack-sum"]), ("1.5", []), ("1.4", ["stack-sum"])]
)
def test_the_uppermost_gap_takes_half_a_millimetre_of_what_was_measured(
    trim: str, codes_found: list[str]
) -> None:
    """The trim is planned 2 thick; measured half a millimetre off, the gap below it takes that."""
    record = f"- {{date: 2026-11-05, measured: {{path: materials.angle-15.thickness, value: {trim}}}}}\n"
    assert sorted(set(codes(DEMO, record))) == codes_found


@pytest.mark.parametrize(
    "text", [DEMO, STACK % "{totes: bin}, {drawer: share}, {drawer: share}"], ids=["demo", "stack"]
)
def test_marks_are_numbered_from_one(text: str) -> None:
    """Each group by itself, without a gap."""
    groups: dict[str, list[int]] = {}
    for part in solved(text).parts:
        if part.place.bay and not part.is_bar:
            letters = part.mark.rstrip("0123456789")
            groups.setdefault(letters, []).append(int(part.mark[len(letters) :]))
    assert len(groups) > 4
    assert all(sorted(numbers) == list(range(1, len(numbers) + 1)) for numbers in groups.values())
