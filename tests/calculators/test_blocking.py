"""What bars whose way: hooks and boxes by hand, and groups by an independent library of graphs."""

from __future__ import annotations

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.blocking import blocking_graph, removable_groups, strong_groups
from generator.calculators.bodies import Body


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


@settings(deadline=None, max_examples=200)
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


def test_what_leaves_together_names_its_members_and_the_whole_is_no_group() -> None:
    """The eye is lifted off; the hook drops; together they would be the whole. A thing of two bodies is one unit."""
    groups = dict(removable_groups({"hook": [HOOK], "eye": [EYE]}))
    assert set(groups) == {("eye",), ("hook",)}
    assert groups["eye",] == "+z"
    parcel = {"parcel": [BOX, GIFT], "lid": [LID]}
    assert blocking_graph(parcel, "+z") == {"parcel": ("lid",), "lid": ()}
    assert blocking_graph(parcel, "-z") == {"parcel": (), "lid": ("parcel",)}
    assert blocking_graph(parcel, "+x") == {"parcel": (), "lid": ()}
