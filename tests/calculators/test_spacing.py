"""Dividing a length: the worked bays, by trying, and by the law that nothing is lost."""

from __future__ import annotations

from fractions import Fraction
from itertools import accumulate

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.spacing import Division, Share, divide, round_shares, starts

lengths = st.fractions(1, 500, max_denominator=64)
weights = st.integers(1, 9).map(Fraction)
items = st.lists(st.one_of(lengths, weights.map(Share)), min_size=1, max_size=7)


def test_the_worked_bays() -> None:
    """2000 less five posts of 40: 400, 400 fixed and two shares of 500; 2000 less three posts: 940 twice."""
    fixed, share = Fraction(400), Share(Fraction(1))
    assert divide(Fraction(1800), [share, fixed, fixed, share]) == Division(
        (Fraction(500), fixed, fixed, Fraction(500)), Fraction(0)
    )
    assert divide(Fraction(1880), [share, share]).sizes == (940, 940)
    assert starts([Fraction(500), fixed, fixed, Fraction(500)], Fraction(40), Fraction(40)) == (
        40, 580, 1020, 1460,
    )  # fmt: skip


def test_a_sum_that_fails_says_by_how_much() -> None:
    """497 less five gaps of 3 is 482: fronts of 481 leave 1, fronts of 485 are 3 too high."""
    fronts = [Fraction(n) for n in (165, 130, 107, 79)]
    assert divide(Fraction(482), fronts).residual == 1
    assert divide(Fraction(482), [*fronts[:3], Fraction(83)]).residual == -3
    assert not divide(Fraction(482), fronts).ok
    assert divide(Fraction(482), [*fronts[:3], Fraction(80)]).ok


@pytest.mark.parametrize(("total", "residual"), [(100, 0), (99, -1)])
def test_a_share_of_nothing_is_no_size(total: int, residual: int) -> None:
    division = divide(Fraction(total), [Fraction(100), Share(Fraction(1))])
    assert division == Division((Fraction(100), Fraction(0)), Fraction(residual))
    assert not division.ok


@given(total=st.integers(1, 5000).map(Fraction), given_items=items)
def test_nothing_is_lost_and_shares_go_by_their_weights(
    total: Fraction, given_items: list[Fraction | Share]
) -> None:
    division = divide(total, given_items)
    found = list(zip(given_items, division.sizes, strict=True))
    assert all(size == item for item, size in found if isinstance(item, Fraction))
    parts = {size / item.weight for item, size in found if isinstance(item, Share)}
    assert len(parts) <= 1
    if division.residual >= 0:
        assert sum(division.sizes) + division.residual == total
    assert division.ok == (sum(division.sizes) == total and min(division.sizes) > 0)
    if parts and max(parts) > 0:
        assert division.ok


@settings(max_examples=60)
@given(
    sizes=st.lists(st.tuples(lengths, st.booleans()), min_size=1, max_size=6),
    step=st.sampled_from([Fraction(1, 2), Fraction(1), Fraction(5), Fraction(127, 80)]),
    data=st.data(),
)
def test_rounded_shares_lie_on_the_tape_s_marks(
    sizes: list[tuple[Fraction, bool]], step: Fraction, data: st.DataObject
) -> None:
    given_items = [Share(Fraction(1)) if shared else size for size, shared in sizes]
    before = [size for size, _ in sizes]
    shares = [index for index, (_, shared) in enumerate(sizes) if shared]
    if not shares:
        with pytest.raises(ValueError, match="share"):
            round_shares(before, given_items, step, 0)
        return
    taker = data.draw(st.sampled_from(shares))
    after = round_shares(before, given_items, step, taker)
    assert sum(after) == sum(before)
    for index, (old, new) in enumerate(zip(before, after, strict=True)):
        if index not in shares:
            assert new == old
        elif index != taker:
            assert (new / step).denominator == 1
            assert 0 <= old - new < step


@given(sizes=st.lists(lengths, min_size=1, max_size=6), first=lengths, between=lengths)
def test_each_begins_where_all_before_it_end(
    sizes: list[Fraction], first: Fraction, between: Fraction
) -> None:
    chain = list(accumulate((size + between for size in sizes), initial=first))
    assert list(starts(sizes, first, between)) == chain[:-1]


def test_a_share_as_it_is_written() -> None:
    assert [str(Share(weight)) for weight in (Fraction(1), Fraction(2), Fraction(1, 2))] == [
        "share", "share 2", "share 1/2",
    ]  # fmt: skip
