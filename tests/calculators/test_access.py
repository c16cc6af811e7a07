from generator.calculators.access import AssemblyTimeline, access, key_line, last_chance
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body


def body(name: str, *blocks: tuple[float, ...]) -> Body:
    return Body(name, name, "bar", tuple(blocks))  # type: ignore[arg-type]


#: A channel along X, a screw in its floor, a nut in it, and two stops for its ends.
CHANNEL = body("channel", (0, 0, 0, 100, 10, 1), (0, 0, 1, 100, 1, 6), (0, 9, 1, 100, 10, 6))
SCREW = body("screw", (50, 4, 1, 52, 6, 2))
NUT = body("nut", (20, 3, 1, 25, 7, 3))
LEFT, RIGHT = body("left", (-5, 0, 0, 0, 10, 10)), body("right", (100, 0, 0, 105, 10, 10))
LID = body("lid", (0, 0, 6, 100, 10, 7))
FRAME = "frame"


def place(thing: Body, step: str, into: str = FRAME) -> Motion:
    return Motion(thing.name, step, (thing,), into=into)


def order(*motions: Motion) -> AssemblyTimeline:
    return AssemblyTimeline(
        (*motions, Motion("frame", "stand it up", brings=FRAME), place(LID, "lid", "bench"))
    )


def key(timeline: AssemblyTimeline):
    return access(timeline, "screw", ("channel", "left"), key_line((50, 4, 2, 52, 6, 50)))


def test_a_key_is_free_at_its_step_and_lost_to_what_covers_it_later() -> None:
    found = key(order(place(CHANNEL, "one"), place(SCREW, "one"), place(LEFT, "two"), place(RIGHT, "two")))
    assert found.ok
    assert found.lost_to is not None
    assert (found.lost_to.name, found.culprit, found.ready) == ("lid", "lid", 2)


def test_a_key_that_is_barred_at_its_own_step_names_the_culprit() -> None:
    bar = body("bar", (40, 0, 8, 60, 10, 9))
    found = key(order(place(CHANNEL, "one"), place(SCREW, "one"), place(LEFT, "two"), place(bar, "two")))
    assert not found.ok
    assert found.barred_by == ("bar",)


def test_what_comes_in_the_same_step_but_in_another_assembly_bars_nothing() -> None:
    bar = body("bar", (40, 0, 8, 60, 10, 9))
    timeline = AssemblyTimeline(
        (place(bar, "one", "bench"), place(CHANNEL, "one"), place(SCREW, "one"), place(LEFT, "one"),
         Motion("frame", "later", brings=FRAME))
    )  # fmt: skip
    found = key(timeline)
    assert found.ok
    assert found.lost_to is not None
    assert (found.lost_to.name, found.culprit) == ("frame", "bar")


def test_a_nut_can_be_slid_in_until_the_second_end_closes() -> None:
    found = last_chance(
        order(place(CHANNEL, "one"), place(LEFT, "two"), place(RIGHT, "three")), NUT, "channel", "x"
    )
    assert found.lost_to is not None
    assert (found.lost_to.name, found.culprit) == ("right", "right")


def test_a_slot_with_one_open_end_stays_open() -> None:
    assert last_chance(order(place(CHANNEL, "one"), place(LEFT, "two")), NUT, "channel", "x").lost_to is None
