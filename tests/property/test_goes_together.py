"""Random benches go together: proved, without overlaps, and replayed step by step by another geometry library."""

from __future__ import annotations

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from generator.bench.assembly_proof import assembly_proof
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solids import part_bodies
from generator.bench.solve import solve
from generator.calculators.assembly import contents, moving_bodies, prove
from generator.calculators.collisions import OPPOSITE, clashes, way_out
from generator.figures.access_report import access_report
from generator.findings import SpecError
from generator.spec.load import LoadedSpec, read_spec
from tests import solid_models
from tests.effort import examples
from tests.replay import collisions
from tests.strategies import Plan, plans, spec_text

#: Fasteners (invented, with low heads, so that those of neighbouring faces miss each other) for the bars that the
#: default ones do not fit.
FASTENERS = {
    "profile 30": """hardware:
  end-clip: {kind: end clip, clip: [26, 14, 2.5], head_height: 3.2, screw: M8x25, key: 5, access_hole: 8}
  through-screw: {kind: through screw, screw: M8x40, hole: 9, counterbore: {diameter: 14, depth: 10.5}}
  slot-nut: {kind: slot nut, thread: M8, height: 4}
""",
    "profile 45": """hardware:
  end-clip: {kind: end clip, clip: [40, 18, 4], head_height: 5, screw: M10x30, key: 6, access_hole: 8}
  through-screw: {kind: through screw, screw: M10x50, hole: 11, counterbore: {diameter: 17, depth: 15.5}}
  slot-nut: {kind: slot nut, thread: M10, height: 7}
""",
}

SLOW = settings(deadline=None, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])


def frame_of(plan: Plan) -> tuple[LoadedSpec, Bench]:
    """The bench of a plan without what fills its bays: stacks that do not fit are another test's business."""
    text = "\n".join(
        line.split(", stack:")[0] + "}" if ", stack:" in line else line
        for line in spec_text(plan).split("\n")
    )
    loaded = read_spec(text + FASTENERS.get(plan.bar, ""), "random.yml")
    try:
        return loaded, solve(loaded)
    except SpecError:
        assume(False)
        raise


@given(plans())
@settings(SLOW, max_examples=examples(15, 60))
def test_a_frame_has_no_overlaps_and_a_proved_order(plan) -> None:
    _loaded, bench = frame_of(plan)
    done = assembly_proof(bench)
    plates = {part.mark for part in bench.of(Role.STAND)}
    found = [
        (c.first.name, c.second.name)
        for c in clashes(done.bodies)
        if not {c.first.name, c.second.name} <= plates
    ]
    assert not found
    assert done.proof.ok, [each.motion.name for each in done.proof.blockages]


@given(plans())
@settings(SLOW, max_examples=examples(15, 60))
def test_every_key_reaches_its_screw(plan) -> None:
    _loaded, bench = frame_of(plan)
    whole = access_report(bench)
    assert not [(name, found.barred_by) for name, (_, found) in whole.keys.items() if not found.ok]


@given(plans())
@settings(SLOW, max_examples=6)
def test_a_proved_order_replays_without_a_collision(plan) -> None:
    _loaded, bench = frame_of(plan)
    assume(len(bench.parts) < 70)
    done = assembly_proof(bench)
    assume(not clashes(done.bodies))
    assert done.proof.ok
    assert not collisions(done.proof, solid_models.all_models(bench, done.bodies))


@given(plans())
@settings(SLOW, max_examples=10)
def test_volumes_agree_with_the_independent_model(plan) -> None:
    loaded, bench = frame_of(plan)
    for part, body in zip(bench.parts, part_bodies(loaded, bench.parts), strict=True):
        if part.kind != "profile" and part.group not in ("top", "caster plate"):
            solid = solid_models.model(part, loaded.spec)
            assert abs(body.volume / solid.volume() - 1) < 1e-4, part.mark


@given(plans(), st.data())
@settings(SLOW, max_examples=examples(10, 40))
def test_a_blocked_thing_is_free_before_its_culprit_and_not_after(plan, data) -> None:
    """Put one motion later at random: when that blocks it, the report's culprit is the very thing that does."""
    _loaded, bench = frame_of(plan)
    order = list(assembly_proof(bench).proof.order)
    index = data.draw(st.integers(0, len(order) - 2))
    moved = order.pop(index)
    order.insert(data.draw(st.integers(index, len(order))), moved)
    proof = prove(order)
    whole = contents(order)
    for blockage in proof.blockages:
        home = [p for p in order[: order.index(blockage.motion)] if p.into == blockage.motion.into]
        before = home[: home.index(blockage.closed_by)]
        moving = moving_bodies(blockage.motion, whole)
        standing = [body for motion in before for body in moving_bodies(motion, whole)]
        closing = moving_bodies(blockage.closed_by, whole)
        assert way_out(moving, standing) is not None
        assert way_out(moving, [*standing, *closing]) is None
        assert {body.name for body in closing} >= set(blockage.culprits)


def test_every_direction_has_its_opposite() -> None:
    assert all(OPPOSITE[OPPOSITE[way]] == way for way in OPPOSITE)
