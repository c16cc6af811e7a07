"""Taking apart what goes in only together."""

from __future__ import annotations

from generator.calculators.assembly import BENCH, Motion, prove, repair
from generator.calculators.bodies import Body
from generator.calculators.disassembly import MOST_MOTIONS, taken_apart


def body(name: str, *blocks: tuple[float, float, float, float, float, float]) -> Body:
    return Body(name, name, "board", blocks)


def place(thing: Body, step: str = "", **more: object) -> Motion:
    return Motion(thing.name, step or thing.name, (thing,), **more)  # type: ignore[arg-type]


def names(order: tuple[Motion, ...]) -> list[str]:
    return [motion.name for motion in order]


#: A jaw and the tongue in it: they part along X only, and a shaft that they fill keeps them from that.
JAW = body("jaw", (0, 0, 0, 3, 2, 1), (0, 0, 2, 3, 2, 3), (0, 0, 1, 1, 2, 2))
TONGUE = body("tongue", (1, 0, 1, 5, 2, 2), (5, 0, 0, 6, 2, 3))
SHAFT = body(
    "shaft", (-1, -1, 0, 0, 3, 20), (6, -1, 0, 7, 3, 20), (0, -1, 0, 6, 0, 20), (0, 2, 0, 6, 3, 20),
    (-1, -1, -1, 7, 3, 0),
)  # fmt: skip


def turned(thing: Body, name: str) -> Body:
    """A body with Y and Z exchanged, 20 to the right."""
    return body(name, *((a + 20, c, b, u + 20, w, v) for a, b, c, u, v, w in thing.blocks))


def test_what_goes_in_only_together_is_found_as_a_sub_assembly() -> None:
    # of its two shafts one opens upwards and one to the back, so the case itself can leave neither pair
    case = body("case", *SHAFT.blocks, *turned(SHAFT, "").blocks)
    pairs = [JAW, TONGUE, turned(JAW, "other jaw"), turned(TONGUE, "other tongue")]
    things = [place(case), *(place(each) for each in pairs), place(body("lid", (-1, -1, 20, 7, 3, 21)))]
    assert not repair(things).ok
    found = taken_apart(things, BENCH)
    assert found is not None
    proof = prove(found)
    assert proof.ok
    assert names(proof.order)[-1] == "lid"
    assert {motion.into for motion in proof.order if motion.name in ("jaw", "tongue")} == {"jaw with tongue"}


def test_what_cannot_be_taken_apart_is_said_to_be_so() -> None:
    ring = body("ring", *SHAFT.blocks, (-1, -1, 20, 7, 3, 21))
    ball = body("ball", (1, 0.5, 5, 2, 1.5, 6))
    assert taken_apart([place(ball), place(ring)], BENCH) is None


def test_sub_assemblies_are_there_before_what_they_go_into_is_begun_anew() -> None:
    """Pairs that go in only together are found inside a crate; its tray is built before, the table stands after."""
    case = body("case", *SHAFT.blocks, *turned(SHAFT, "").blocks)
    pairs = [JAW, TONGUE, turned(JAW, "other jaw"), turned(TONGUE, "other tongue")]
    table = place(body("table", (-50, -50, -20, 50, 50, -1)))
    pin = place(body("pin", (-40, -40, -1, -39, -39, 9)), into="tray")
    tray = Motion("tray", "tray", brings="tray", into="crate")
    inside = [place(each, into="crate") for each in (case, *pairs)]
    order = [*inside, pin, tray, table, Motion("crate", "crate", brings="crate")]
    found = taken_apart(order, "crate")
    assert found is not None
    assert prove(found).ok
    at = {motion.name: index for index, motion in enumerate(found)}
    into_crate = [at[motion.name] for motion in found if motion.into == "crate"]
    assert at["pin"] < min(into_crate)
    assert max(into_crate) < at["table"] < at["crate"]
    assert found[at["jaw"]].into == found[at["tongue"]].into == "jaw with tongue"
    # nothing is lost and nothing is twice
    assert sorted(each.name for each in found if " with " not in each.name) == sorted(names(tuple(order)))


def test_a_thing_that_needs_no_straight_way_is_never_in_the_way_of_the_search() -> None:
    ring = body("ring", *SHAFT.blocks, (-1, -1, 20, 7, 3, 21))
    ball = body("ball", (1, 0.5, 5, 2, 1.5, 6))
    found = taken_apart([place(ring), place(ball, unproved="slipped in")], BENCH)
    assert found is not None
    assert names(found) == ["ring", "ball"]


def test_very_many_motions_are_not_searched() -> None:
    beads = [body(f"bead {n}", (n, 0, 0, n + 0.5, 1, 1)) for n in range(MOST_MOTIONS + 1)]
    assert taken_apart([place(each) for each in beads], BENCH) is None
