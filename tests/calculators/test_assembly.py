from itertools import pairwise

import pytest

from generator.calculators.assembly import (
    Motion,
    MotionError,
    OrderError,
    placed_once,
    prove,
    repair,
    sequence,
)
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


def place(thing: Body, step: str = "", **more: object) -> Motion:
    return Motion(thing.name, step or thing.name, (thing,), **more)  # type: ignore[arg-type]


def names(order: tuple[Motion, ...]) -> list[str]:
    return [motion.name for motion in order]


def test_a_gift_goes_in_before_the_lid() -> None:
    proof = prove([place(BOX), place(GIFT), place(LID)])
    assert proof.ok
    assert [way.out for way in proof.ways] == ["+z", "+z", "+z"]


def test_after_the_lid_the_gift_is_blocked_and_the_report_says_by_what_and_since_when() -> None:
    (blockage,) = prove([place(BOX), place(LID), place(GIFT)]).blockages
    assert (blockage.motion.name, blockage.culprits) == ("gift", ("lid",))
    assert (blockage.closed_by.name, blockage.last_free) == ("lid", "box")
    assert blockage.ways == {"-z": "box", "-x": "box", "+x": "box", "-y": "box", "+y": "box", "+z": "lid"}


def test_a_blocked_thing_is_put_where_it_is_still_free() -> None:
    proof = repair([place(BOX), place(LID), place(GIFT)])
    assert proof.ok
    assert names(proof.order) == ["box", "gift", "lid"]


def test_a_wish_is_never_mended_away() -> None:
    proof = repair([place(BOX), place(GIFT), place(LID)], before=[("lid", "gift")])
    assert [each.motion.name for each in proof.blockages] == ["gift"]


def test_a_sub_assembly_moves_as_one_and_is_proved_by_itself() -> None:
    inner = [place(GIFT, into="parcel"), place(BOX, into="parcel"), place(LID, into="parcel")]
    whole = Motion("parcel", "post", brings="parcel")
    table = place(body("table", (-50, -50, -1, 50, 50, 0)))
    proof = prove([table, *inner, whole])
    # the gift first, then the box about it: the box leaves downwards, so that order is good too
    assert proof.ok
    assert proof.ways[-1].out == "+z"
    assert not prove([table, inner[1], inner[2], inner[0], whole]).ok


def test_a_thing_that_needs_no_straight_way_is_not_asked_for_one() -> None:
    assert prove([place(BOX), place(LID), place(GIFT, unproved="slipped in")]).ok


def test_things_wait_for_what_they_go_to() -> None:
    order = sequence([place(LID, after=("box",)), place(GIFT, after=("box",)), place(BOX)])
    assert names(order) == ["box", "lid", "gift"]


def test_first_things_come_first_with_all_that_they_need() -> None:
    things = [place(BOX), place(GIFT), place(LID, after=("gift",))]
    assert names(sequence(things, first=["lid"])) == ["gift", "lid", "box"]


@pytest.mark.parametrize(
    "before",
    [[("box", "lid"), ("lid", "box")], [("box", "box")], [("box", "gift"), ("gift", "lid"), ("lid", "box")]],
)
def test_a_circle_of_wishes_is_told_in_its_order(before) -> None:
    with pytest.raises(OrderError) as error:
        sequence([place(BOX), place(GIFT), place(LID)], before)
    circle = error.value.names
    assert circle[0] == circle[-1]
    assert set(pairwise(circle)) <= set(before)


def test_every_body_is_placed_exactly_once() -> None:
    """Twice, never, and two bodies of one name are told, each with its number."""
    placed_once([place(BOX), place(GIFT), place(LID)], [BOX, GIFT, LID])
    with pytest.raises(MotionError) as error:
        placed_once([place(BOX), place(BOX), place(LID)], [BOX, GIFT, LID, LID])
    assert error.value.times == {"box": 2, "gift": 0, "lid": 1}
    for words in ("box 2 times", "gift never", "lid once, and there are several of this name"):
        assert words in str(error.value)
    # one that no bench has
    with pytest.raises(MotionError, match="lid once"):
        placed_once([place(BOX), place(LID)], [BOX])
    # what a sub-assembly brings counts when it comes, and only then
    inner = [place(GIFT, into="parcel"), place(BOX)]
    with pytest.raises(MotionError, match="gift never"):
        placed_once(inner, [BOX, GIFT])
    placed_once([*inner, Motion("parcel", "post", brings="parcel")], [BOX, GIFT])


def test_two_motions_of_one_name_are_refused() -> None:
    with pytest.raises(MotionError) as error:
        sequence([place(BOX), place(BOX), place(LID)])
    assert error.value.times == {"box": 2}
