from itertools import combinations

import pytest

from generator.calculators.bodies import Body
from generator.calculators.collisions import DIRECTIONS, clashes, obstacles, way_out


def body(name: str, *blocks: tuple[float, float, float, float, float, float]) -> Body:
    return Body(name, name, "board", blocks)


PEG = body("peg", (4, 4, 1, 6, 6, 20))
#: A block with a square hole down to z = 1.
SOCKET = body(
    "socket", (0, 0, 0, 10, 10, 1), (0, 0, 1, 10, 4, 10), (0, 6, 1, 10, 10, 10),
    (0, 4, 1, 4, 6, 10), (6, 4, 1, 10, 6, 10),
)  # fmt: skip


@pytest.mark.parametrize(("gap", "found"), [(0.5, 0), (0, 0), (-0.02, 0), (-0.03, 1)])
def test_two_bodies_clash_from_two_hundredths_on(gap, found) -> None:
    one, other = body("one", (0, 0, 0, 1, 1, 1)), body("other", (1 + gap, 0, 0, 2, 1, 1))
    assert len(clashes([one, other])) == found


def test_a_clash_names_both_and_says_how_deep_and_where() -> None:
    (clash,) = clashes([body("one", (0, 0, 0, 10, 10, 10)), body("two", (9, 2, 2, 30, 4, 4))])
    assert (clash.first.name, clash.second.name, clash.depth) == ("one", "two", 1)
    assert clash.at == (9, 2, 2, 10, 4, 4)


def test_a_peg_in_its_socket_is_no_clash() -> None:
    assert not clashes([PEG, SOCKET])


@pytest.mark.parametrize("direction", DIRECTIONS)
def test_a_peg_leaves_its_socket_upwards_only(direction) -> None:
    assert [o.name for o in obstacles([PEG], [SOCKET], direction)] == (
        [] if direction == "+z" else ["socket"]
    )


def test_a_fork_passes_a_post_between_its_prongs() -> None:
    """Its bounds meet the post's, its prongs do not, whichever of the two axes across the way they lie along."""
    post = body("post", (4, 4, 5, 6, 6, 10))
    assert not list(obstacles([body("fork", (0, 0, 0, 2, 10, 4), (8, 0, 0, 10, 10, 4))], [post], "+z"))
    assert not list(obstacles([body("fork", (0, 0, 0, 10, 2, 4), (0, 8, 0, 10, 10, 4))], [post], "+z"))
    assert list(obstacles([body("fork", (0, 0, 0, 5, 10, 4), (8, 0, 0, 10, 10, 4))], [post], "+z"))


def test_a_lid_far_above_still_bars_the_way() -> None:
    lid = body("lid", (0, 0, 500, 10, 10, 510))
    assert [o.name for o in obstacles([PEG], [SOCKET, lid], "+z")] == ["lid"]
    assert way_out([PEG], [SOCKET, lid]) is None


def test_what_moves_as_one_does_not_bar_itself() -> None:
    assert way_out([PEG, SOCKET], [body("floor", (0, 0, -5, 10, 10, 0))]) == "+z"


def test_the_preferred_way_out_is_taken_when_it_is_free() -> None:
    assert way_out([PEG], [], ["-y"]) == "-y"


def test_clashes_come_in_the_order_of_the_bodies() -> None:
    """Against every pair in turn; the bodies lie here and there, so that a sweep finds them in another order."""
    starts = (12, 3, 18, 0, 9, 6, 15)
    bodies = [body(f"b{n}", (x, 0, 0, x + 8, 2, 2)) for n, x in enumerate(starts)]
    found = [(clash.first.name, clash.second.name) for clash in clashes(bodies)]
    pairs = [
        (one.name, other.name)
        for one, other in combinations(bodies, 2)
        if min(one.bounds[3], other.bounds[3]) - max(one.bounds[0], other.bounds[0]) > 0
    ]
    assert found == pairs
