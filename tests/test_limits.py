"""A limit is where it is said to be: just inside it a check says nothing, just outside it does."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import pytest

from generator.findings import SpecError
from tests.changes_of_the_demo import BASE
from tests.test_checks import batches, changed, codes

#: Code, text of the demo, just inside the limit, just outside.
LIMITS: tuple[tuple[str, str, str, str], ...] = (
    (
        "bay-width",
        "F2, width: 400, stack: [{totes: tote-145, count: 3}]",
        "F2, width: 150, stack: []",
        "F2, width: 149.9, stack: []",
    ),
    ("clamp-gap", "height: 880", "height: 856", "height: 855.9"),
    ("clip-stack", "head_height: 4.4", "head_height: 4.8", "head_height: 4.9"),
    ("counterbore", "depth: 13.5", "depth: 12.3", "depth: 12.2"),
    ("tongue-bottoms", "tongue: 10", "tongue: 10.3", "tongue: 10.4"),
    ("tongue-short", "tongue: 10", "tongue: 8", "tongue: 7.9"),
    ("box-height", "above: 15", "above: 17", "above: 17.1"),
    ("slide-depth", "depth: 500", "depth: 490", "depth: 489.9"),
    ("packing-thin", "proud: 1", "proud: 1.0", "proud: 1.1"),
    (
        "packing-narrow",
        "thickness: 15, width: 50",
        "thickness: 15, width: 40",
        "thickness: 15, width: 39.9",
    ),
    ("tote-bearing", "runner_gap: 366", "runner_gap: 367", "runner_gap: 367.1"),
    ("tote-gap-low", "runner_gap: 366", "runner_gap: 364", "runner_gap: 363.9"),
    ("tote-gap-high", "runner_gap: 366", "runner_gap: 370", "runner_gap: 370.1"),
    ("tote-rim", "rim_width: 386", "rim_width: 394", "rim_width: 394.1"),
    ("tote-depth", "length: 520", "length: 540", "length: 540.1"),
    ("shelf-low", "{shelf: 60}", "{shelf: 58}", "{shelf: 57.9}"),
    ("shelf-height", "{shelf: 288}", "{shelf: 485}", "{shelf: 485.1}"),
    ("wheel-sweep", "wheel: 100", "wheel: 120", "wheel: 120.1"),
    ("longer-than-stock", "{length: 6000", "{length: 1940", "{length: 1939.9"),
    ("caster-rating", "rating: 180 kg", "rating: 173 kg", "rating: 172 kg"),
    # ISO 965-1, 6H: the minor diameter of M8 lies between 6.647 and 6.912
    ("bore-thread", "bore: 6.8", "bore: 6.912", "bore: 6.913"),
    ("bore-thread", "bore: 6.8", "bore: 6.647", "bore: 6.646"),
    # ISO 4762: the head of M8 is 13 across
    ("head-counterbore", "diameter: 14", "diameter: 13", "diameter: 12.9"),
    ("head-proud", "depth: 13.5", "depth: 8", "depth: 7.9"),
    ("slide-hole", "261, 453]", "261, 500]", "261, 500.1]"),
    ("cutter-opening", "cutter: 6", "cutter: 16", "cutter: 16.1"),
    ("wheel-height", "wheel: 100", "wheel: 122", "wheel: 122.1"),
)


def in_all(changes: Iterable[tuple[str, str]]) -> set[str]:
    """The codes of what is found with all changes; none where no bench follows from them."""
    try:
        return codes(changed(changes))
    except SpecError:
        return set()


@pytest.mark.parametrize("limits", batches(LIMITS), ids=lambda limits: limits[0][0])
def test_a_limit_lies_where_it_is_said_to_lie(limits: Sequence[tuple[str, str, str, str]]) -> None:
    found = in_all((old, outside) for _, old, _, outside in limits)
    fine = codes(changed((old, inside) for _, old, inside, _ in limits))
    for code, old, inside, outside in limits:
        assert old in BASE
        assert code not in fine or code not in codes(changed([(old, inside)])), code
        assert code in found or code in codes(changed([(old, outside)])), code
