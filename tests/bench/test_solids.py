from dataclasses import replace
from pathlib import Path

import pytest

from generator.bench.model import Bench
from generator.bench.solids import part_bodies, solid_bodies
from generator.bench.solve import solve
from generator.calculators.collisions import clashes
from generator.spec.load import LoadedSpec, read_spec_file
from tests import solid_models

SPECS = Path(__file__).parents[2] / "specs"


def solved(name: str) -> tuple[LoadedSpec, Bench]:
    loaded = read_spec_file(SPECS / f"{name}.yml")
    return loaded, solve(loaded)


def without_notches(bench: Bench, *groups: str) -> Bench:
    return replace(
        bench, parts=tuple(replace(p, notches=()) if p.group in groups else p for p in bench.parts)
    )


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_no_two_bodies_of_a_bench_overlap(name) -> None:
    _loaded, bench = solved(name)
    assert not clashes(solid_bodies(bench))


def test_without_notches_twenty_pairs_of_parts_clash() -> None:
    _loaded, bench = solved("demo")
    found = clashes(solid_bodies(without_notches(bench, "divider", "end panel")))
    pairs = {(clash.first.owner, clash.second.owner) for clash in found}
    assert len(pairs) == 20
    # the clips at both ends of an end spine post count once with the post, so the bodies are four more
    assert len(found) == 24
    assert {("B1", "FD2"), ("FD2", "D5"), ("EF1", "C7"), ("EF1", "C9"), ("EF1", "E1")} <= pairs


@pytest.mark.parametrize("name", ["demo", "wall-bench"])
def test_volumes_and_centres_agree_with_an_independent_model(name) -> None:
    loaded, bench = solved(name)
    bodies = {body.name: body for body in part_bodies(loaded, bench.parts)}
    for part in bench.parts:
        # round holes are squares in the blocks and dog holes are left out of them
        square = replace(
            part, operations=tuple(op for op in part.operations if op.op in ("relief", "cut-out"))
        )
        (body,) = part_bodies(loaded, [square])
        solid = solid_models.model(square, loaded.spec)
        assert body.volume == pytest.approx(solid.volume(), rel=1e-4), part.mark
        assert body.centre == pytest.approx(solid_models.centre(solid), abs=0.02), part.mark
        if part.kind == "profile":
            whole = solid_models.model(part, loaded.spec)
            assert bodies[part.mark].volume == pytest.approx(whole.volume(), rel=0.01)
