"""What goes in when its bars are there: after both bars, at the end of that step, into what then holds them."""

from __future__ import annotations

from generator.bench.late_fasteners import (
    CarriedMember,
    LateFastener,
    with_carried_members,
    with_late_fasteners,
)
from generator.calculators.assembly import BENCH, Motion, sequence
from generator.calculators.bodies import Body


def body(name: str) -> Body:
    return Body(name, name, "bar", ((0, 0, 0, 1, 1, 1),))


def bar(name: str, step: str, into: str = BENCH) -> Motion:
    return Motion(name, step, (body(name),), into=into)


def screw(name: str, *bars: str) -> LateFastener:
    return LateFastener(body(name), (bars[0], bars[1]), "-x", "")


def names(order: tuple[Motion, ...]) -> list[str]:
    return [motion.name for motion in order]


#: A frame of two posts and a rail that goes into the bench as one, and two rails that are there before.
FRAME = (
    bar("rail one", "base"), bar("rail two", "base"), bar("post", "frame", "frame"), bar("foot", "frame", "frame"),
    Motion("frame", "close", brings="frame"), bar("top", "lid"),
)  # fmt: skip


def test_a_screw_follows_the_step_in_which_its_second_bar_comes() -> None:
    order = with_late_fasteners(FRAME, [screw("s", "rail one", "rail two")])
    assert names(order) == ["rail one", "rail two", "s", "post", "foot", "frame", "top"]
    assert (order[2].step, order[2].into, order[2].after) == ("base", BENCH, ("rail one", "rail two"))
    assert order[2].out == ("-x",)


def test_a_screw_within_a_sub_assembly_goes_in_there() -> None:
    order = with_late_fasteners(FRAME, [screw("s", "post", "foot")])
    assert names(order)[2:5] == ["post", "foot", "s"]
    assert (order[4].into, order[4].step) == ("frame", "frame")


def test_a_screw_between_two_assemblies_waits_until_they_meet() -> None:
    order = with_late_fasteners(FRAME, [screw("s", "post", "rail two"), screw("t", "rail one", "top")])
    assert names(order) == ["rail one", "rail two", "post", "foot", "frame", "s", "top", "t"]
    assert order[5].after == ("rail two", "frame")
    assert order[5].step == "close"


def test_screws_wait_for_the_end_of_a_step_and_keep_their_order() -> None:
    order = (bar("a", "base"), bar("b", "base"), bar("c", "base"), bar("d", "posts"))
    done = with_late_fasteners(order, [screw("s", "a", "b"), screw("t", "b", "c"), screw("u", "a", "d")])
    assert names(done) == ["a", "b", "c", "s", "t", "d", "u"]
    assert names(sequence(done)) == names(done)


def member(name: str, *bars: str) -> CarriedMember:
    return CarriedMember(bar(name, "extra"), bars)


def test_a_member_goes_in_when_the_last_of_its_bars_is_there() -> None:
    order = with_carried_members(FRAME, [member("strut", "rail one", "rail two")], "close")
    assert names(order)[:3] == ["rail one", "rail two", "strut"]
    inside = with_carried_members(FRAME, [member("strut", "post", "foot")], "close")
    assert names(inside)[2:5] == ["post", "foot", "strut"]
    assert inside[4].into == "frame"


def test_members_that_carry_each_other_come_in_that_order_and_circles_last() -> None:
    chain = [member("second", "first", "rail one"), member("first", "rail two")]
    assert names(with_carried_members(FRAME, chain, "close"))[:4] == [
        "rail one",
        "rail two",
        "first",
        "second",
    ]
    circle = [member("one", "two"), member("two", "one"), member("alone")]
    # after the step that is usual for them; without that step, at the end
    assert names(with_carried_members(FRAME, circle, "close"))[4:8] == ["frame", "one", "two", "alone"]
    assert names(with_carried_members(FRAME, circle, "no such step"))[-3:] == ["one", "two", "alone"]
