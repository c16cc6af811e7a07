"""Where a piece sits is a value: names of zones and bays mean nothing, and every body is placed exactly once."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from generator.bench.assembly_proof import assembly_proof
from generator.bench.solve import solve
from generator.calculators.assembly import BENCH, Motion, MotionError, placed_once, sequence
from generator.calculators.bodies import Body
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.number_names import numbers_of
from generator.findings import SpecError
from generator.spec.load import read_spec
from generator.writers.figures_json import figures_data
from tests.effort import sample
from tests.strategies import Plan, plans, spec_text

SPECS = Path(__file__).parents[2] / "specs"
DEMO = (SPECS / "demo.yml").read_text()
#: Names of a zone and a bay that would mean something if anything read them.
NAMES = [
    ("left", "saws, planes"),
    ("right", "left wall"),
    ("right end", "F2, drawer 1"),
    ("The right one", "x.1"),
    ("a {front} b", "front"),
    ("a { b", "a {0} b"),
    ("{0}", "P2"),
]


def renamed(zone: str, bay: str) -> str:
    """The demo with other names for its front zone and for the bay F1."""
    text = DEMO.replace("- name: front\n", f'- name: "{zone}"\n').replace("{name: F1,", f'{{name: "{bay}",')
    text = text.replace("remainder: F1", f'remainder: "{bay}"')
    assert text != DEMO
    return text


def figures(text: str) -> Figures:
    loaded = read_spec(text, "demo.yml")
    return compute(solve(loaded))[0]


def names_of_numbers(done: Figures) -> list[str]:
    """What the workings call each number."""
    return [name for _, name, _ in numbers_of(done)]


def with_names(value: Any, old: str, new: str) -> Any:
    """Figures with one word put for another in all their texts."""
    if isinstance(value, dict):
        return {with_names(key, old, new): with_names(each, old, new) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [with_names(each, old, new) for each in value]
    return value.replace(old, new) if isinstance(value, str) else value


#: The demo with names that stand nowhere else, so that they can be found in every text of its figures.
PLAIN_ZONE, PLAIN_BAY = "Zonenone", "Baynone"


@pytest.fixture(scope="module")
def plain() -> Figures:
    return figures(renamed(PLAIN_ZONE, PLAIN_BAY))


@pytest.mark.parametrize(("zone", "bay"), sample(NAMES, 3))
def test_other_names_of_a_zone_and_a_bay_change_names_only(plain: Figures, zone: str, bay: str) -> None:
    """Parts, order, steps, checks and every number: all the same, but for the name in the words."""
    found = figures(renamed(zone, bay))
    expected = with_names(with_names(figures_data(plain), PLAIN_ZONE, zone), PLAIN_BAY, bay)
    for section, value in figures_data(found).items():
        if section != "spec":  # its checksum is that of the text
            assert value == expected[section], section
    named = with_names(with_names(names_of_numbers(plain), PLAIN_ZONE, zone), PLAIN_BAY, bay)
    assert names_of_numbers(found) == named


# --- every body once


def placed(text: str) -> Counter[str]:
    """How often each body is placed, counted from the motions themselves."""
    loaded = read_spec(text, "bench.yml")
    done = assembly_proof(solve(loaded))
    brought = [motion.brings for motion in done.proof.order if motion.brings]
    assert len(set(brought)) == len(brought)
    assert {motion.into for motion in done.proof.order} == {BENCH, *brought}
    times = Counter(body.name for motion in done.proof.order for body in motion.bodies)
    assert set(times) == {body.name for body in done.bodies}
    return times


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_every_body_of_a_shipped_bench_is_placed_exactly_once(name: str) -> None:
    assert set(placed((SPECS / f"{name}.yml").read_text()).values()) == {1}


@given(plans())
@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_body_of_a_random_bench_is_placed_exactly_once(plan: Plan) -> None:
    try:
        times = placed(spec_text(plan))
    except SpecError:
        return  # a stack that does not fill its bay is another test's business
    assert set(times.values()) == {1}


BOX, LID = (Body(name, name, "board", ((0, 0, z, 9, 9, z + 1),)) for z, name in enumerate(("box", "lid")))


def test_an_order_that_places_a_body_twice_or_never_is_refused() -> None:
    box, lid = Motion("box", "box", (BOX,)), Motion("lid", "lid", (LID,))
    placed_once([box, lid], [BOX, LID])
    with pytest.raises(MotionError, match="exactly once: lid never"):
        placed_once([box], [BOX, LID])
    again = Motion("lid again", "lid", (LID,))
    with pytest.raises(MotionError, match="exactly once: lid 2 times"):
        placed_once([box, lid, again], [BOX, LID])
    alone = Motion("lid", "lid", (LID,), into="left end frame")
    with pytest.raises(MotionError, match="lid never"):
        placed_once([box, alone], [BOX, LID])
    with pytest.raises(MotionError, match="lid 2 times"):
        sequence([box, lid, lid])
