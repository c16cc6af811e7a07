from itertools import pairwise

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.assembly import BENCH, OrderError, Placing, arranged, mended, prove
from generator.calculators.blocking import blocking_graph, removable_groups, strong_groups
from generator.calculators.bodies import Body
from generator.calculators.disassembly import taken_apart


def body(name: str, *blocks: tuple[float, float, float, float, float, float]) -> Body:
    return Body(name, name, "board", blocks)


#: A box, its lid that rests on the rim, and what lies within.
BOX = body(
    "box", (0, 0, 0, 10, 10, 1), (0, 0, 1, 1, 10, 9), (9, 0, 1, 10, 10, 9),
    (1, 0, 1, 9, 1, 9), (1, 9, 1, 9, 10, 9),
)  # fmt: skip
LID = body("lid", (0, 0, 9, 10, 10, 10))
GIFT = body("gift", (3, 3, 1, 6, 6, 5))
#: Two hooks that hold each other along X and Z, but not along Y.
HOOK = body("hook", (0, 0, 0, 4, 2, 1), (3, 0, 1, 4, 2, 3))
EYE = body("eye", (2, 0, 2, 3, 2, 4), (2, 0, 4, 6, 2, 5), (4, 0, 2, 6, 2, 4))


def place(thing: Body, step: str = "", **more: object) -> Placing:
    return Placing(thing.name, step or thing.name, (thing,), **more)  # type: ignore[arg-type]


def names(order: tuple[Placing, ...]) -> list[str]:
    return [placing.name for placing in order]


def test_a_gift_goes_in_before_the_lid() -> None:
    proof = prove([place(BOX), place(GIFT), place(LID)])
    assert proof.ok
    assert [way.out for way in proof.ways] == ["+z", "+z", "+z"]


def test_after_the_lid_the_gift_is_blocked_and_the_report_says_by_what_and_since_when() -> None:
    (blockage,) = prove([place(BOX), place(LID), place(GIFT)]).blockages
    assert (blockage.placing.name, blockage.culprits) == ("gift", ("lid",))
    assert (blockage.closed_by.name, blockage.last_free) == ("lid", "box")
    assert blockage.ways == {"-z": "box", "-x": "box", "+x": "box", "-y": "box", "+y": "box", "+z": "lid"}


def test_a_blocked_thing_is_put_where_it_is_still_free() -> None:
    proof = mended([place(BOX), place(LID), place(GIFT)])
    assert proof.ok
    assert names(proof.order) == ["box", "gift", "lid"]


def test_a_wish_is_never_mended_away() -> None:
    proof = mended([place(BOX), place(GIFT), place(LID)], before=[("lid", "gift")])
    assert [each.placing.name for each in proof.blockages] == ["gift"]


def test_a_sub_assembly_moves_as_one_and_is_proved_by_itself() -> None:
    inner = [place(GIFT, into="parcel"), place(BOX, into="parcel"), place(LID, into="parcel")]
    whole = Placing("parcel", "post", brings="parcel")
    table = place(body("table", (-50, -50, -1, 50, 50, 0)))
    proof = prove([table, *inner, whole])
    # the gift first, then the box about it: the box leaves downwards, so that order is good too
    assert proof.ok
    assert proof.ways[-1].out == "+z"
    assert not prove([table, inner[1], inner[2], inner[0], whole]).ok


def test_a_thing_that_needs_no_straight_way_is_not_asked_for_one() -> None:
    assert prove([place(BOX), place(LID), place(GIFT, unproved="slipped in")]).ok


def test_things_wait_for_what_they_go_to() -> None:
    order = arranged([place(LID, after=("box",)), place(GIFT, after=("box",)), place(BOX)])
    assert names(order) == ["box", "lid", "gift"]


def test_first_things_come_first_with_all_that_they_need() -> None:
    things = [place(BOX), place(GIFT), place(LID, after=("gift",))]
    assert names(arranged(things, first=["lid"])) == ["gift", "lid", "box"]


@pytest.mark.parametrize(
    "before",
    [[("box", "lid"), ("lid", "box")], [("box", "box")], [("box", "gift"), ("gift", "lid"), ("lid", "box")]],
)
def test_a_circle_of_wishes_is_told_in_its_order(before) -> None:
    with pytest.raises(OrderError) as error:
        arranged([place(BOX), place(GIFT), place(LID)], before)
    circle = error.value.names
    assert circle[0] == circle[-1]
    assert set(pairwise(circle)) <= set(before)


def test_a_hook_and_its_eye_hold_each_other_across_but_not_along() -> None:
    units = {"hook": [HOOK], "eye": [EYE]}
    assert blocking_graph(units, "+x") == {"hook": ("eye",), "eye": ("hook",)}
    assert strong_groups(blocking_graph(units, "+x")) == (("hook", "eye"),)
    assert blocking_graph(units, "+z") == {"hook": ("eye",), "eye": ()}
    assert blocking_graph(units, "+y") == {"hook": (), "eye": ()}


def test_the_smallest_groups_that_can_leave_come_first() -> None:
    groups = removable_groups({"box": [BOX], "gift": [GIFT], "lid": [LID]})
    assert (("lid",), "+z") in groups
    assert [len(group) for group, _ in groups] == sorted(len(group) for group, _ in groups)


@settings(deadline=None, max_examples=400)
@given(st.dictionaries(st.integers(0, 12), st.lists(st.integers(0, 12), max_size=5), max_size=13))
def test_strong_groups_agree_with_networkx(arcs) -> None:
    nodes = sorted({*arcs, *(n for targets in arcs.values() for n in targets)})
    graph = {node: arcs.get(node, []) for node in nodes}
    reference = nx.DiGraph()
    reference.add_nodes_from(nodes)
    reference.add_edges_from((a, b) for a, targets in graph.items() for b in targets)
    groups = strong_groups(graph)
    assert {frozenset(group) for group in groups} == set(
        map(frozenset, nx.strongly_connected_components(reference))
    )
    place_of = {node: index for index, group in enumerate(groups) for node in group}
    assert all(place_of[b] <= place_of[a] for a, targets in graph.items() for b in targets)


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
    assert not mended(things).ok
    found = taken_apart(things, BENCH)
    assert found is not None
    proof = prove(found)
    assert proof.ok
    assert names(proof.order)[-1] == "lid"
    assert {placing.into for placing in proof.order if placing.name in ("jaw", "tongue")} == {
        "jaw with tongue"
    }


def test_what_cannot_be_taken_apart_is_said_to_be_so() -> None:
    ring = body("ring", *SHAFT.blocks, (-1, -1, 20, 7, 3, 21))
    ball = body("ball", (1, 0.5, 5, 2, 1.5, 6))
    assert taken_apart([place(ball), place(ring)], BENCH) is None
