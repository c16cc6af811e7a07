"""Small changes that change nothing, and why: no test can notice them. By module, what stood there, what stands.

`python -m tests.mutation` counts them apart from those that no test noticed.
"""

from __future__ import annotations

from collections.abc import Mapping

NO_FAULT_OF_NOTHING = "a check that fails by nothing does not fail, so no cure is asked for it"
MIRRORED = "corners are mirrored: what one side has less, its opposite has too"
ON_THE_EDGE = "two floats that are equal to the last bit; what is measured there is far from it"

SAME: Mapping[tuple[str, str, str], str] = {
    ("bench/remedies.py", "more < 0", "more <= 0"): NO_FAULT_OF_NOTHING,
    ("bench/joints/screws.py", "more > 0", "more >= 0"): NO_FAULT_OF_NOTHING,
    ("bench/stands/caster_goods.py", "min(at - span.low, span.high - at)", "at - span.low"): MIRRORED,
    ("calculators/spacing.py", "rest <= 0", "rest < 0"): "shares of nothing are nothing by either way",
    ("calculators/collisions.py", "place < index", "place <= index"): "no body is paired with itself",
    ("calculators/holding.py", "high[1] - low[1] > TOLERANCE", "high[1] - low[1] >= TOLERANCE"): ON_THE_EDGE,
    (
        "calculators/bodies.py",
        "rest[axis] < void[axis] - NOTHING",
        "rest[axis] <= void[axis] - NOTHING",
    ): ON_THE_EDGE,
    (
        "bench/tops/brackets.py",
        "0 * layout.section",
        "0 / layout.section",
    ): "nothing is nothing by either way",
    (
        "bench/tops/board.py",
        "grid is None or spec.top.holes is None",
        "grid is None and spec.top.holes is None",
    ): "there is a grid where there are holes, and none where there are none",
    ("bench/fillings/shelves.py", "2 * PLAY", "2 / PLAY"): "the play is 1",
    (
        "bench/solids.py",
        "min(one.low, other.low)",
        "one.low",
    ): "the first piece of every item is its lowest, its foremost and its leftmost",
}
