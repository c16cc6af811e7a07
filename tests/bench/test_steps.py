"""Every step of a bench has a name in the reader's words."""

from __future__ import annotations

from generator.bench.order import natural_order
from generator.bench.solids import solid_bodies
from generator.bench.steps import step_name
from tests.bench.benches import DEMO, WALL, solved

#: What the steps of the worked bench's end frames are called.
WORKED = {
    "left-ring": "left end frame: lower members",
    "right-clips": "right end frame: fasteners on the ends of the bars",
    "rails": "base rails and cross-members",
    "lid": "top grid on",
    "casters": "caster plates",
}


def test_names_of_steps() -> None:
    assert {key: step_name(key) for key in WORKED} == WORKED
    # a step that is called by its key is called so
    assert step_name("drawers") == "drawers"


def test_no_two_steps_of_a_bench_have_one_name() -> None:
    for text in (DEMO, WALL):
        bench = solved(text)
        keys = {motion.step for motion in natural_order(bench, solid_bodies(bench))}
        names = {step_name(key) for key in keys}
        assert len(names) == len(keys)
        # words, not keys
        assert not [name for name in names if "-" in name.replace("cross-member", "")]
