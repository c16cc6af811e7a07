import pytest

from generator.calculators.completeness import (
    Bar,
    BoardOutline,
    edge_state,
    longest_gap,
    lying_span,
    tongue_faults,
)

#: An upright board along Y between two posts, its lower edge in a rail; 12 thick, bars of 40, tongues of 10.
FRONT, REAR, BOTTOM, TOP = (1, 0), (1, 1), (2, 0), (2, 1)
OUTLINE = (14.0, 30.0, 30.0, 26.0, 550.0, 539.0)
POST_F = Bar("front post", (0, 0, 40, 40, 40, 700), 2, 12.3)
POST_R = Bar("rear post", (0, 540, 40, 40, 580, 700), 2, 12.3)
RAIL = Bar("rail", (0, 0, 0, 40, 600, 40), 1, 12.3)
BARS = (POST_F, POST_R, RAIL)


def board(*tongues: tuple[int, int], outline: tuple[float, ...] = OUTLINE) -> BoardOutline:
    return BoardOutline("FD", outline, 0, frozenset(tongues))  # type: ignore[arg-type]


def codes(one: BoardOutline, bars=BARS) -> list[str]:
    states = [edge_state(one, edge, bars, ()) for edge in one.edges]
    return [code for code, _ in tongue_faults(one, states, 0.2)]


def test_three_tongues_in_three_grooves_and_a_free_top() -> None:
    one = board(FRONT, REAR, BOTTOM)
    states = {edge: edge_state(one, edge, BARS, ()) for edge in one.edges}
    assert {edge: state.state for edge, state in states.items()} == {
        FRONT: "grooved", REAR: "grooved", BOTTOM: "grooved", TOP: "free",
    }  # fmt: skip
    assert states[FRONT].by == ("front post",)
    assert states[TOP].span == pytest.approx(520)
    assert codes(one) == []


@pytest.mark.parametrize(
    ("one", "bars", "code"),
    [
        (board(FRONT, REAR, BOTTOM), (POST_F, RAIL), "tongue-without-groove"),
        (board(FRONT, REAR), BARS, "edge-without-tongue"),
        (board(FRONT, REAR, BOTTOM, outline=(15, 30, 30, 27, 550, 539)), BARS, "tongue-off-groove"),
        (board(FRONT, REAR, BOTTOM, outline=(14, 35, 30, 26, 550, 539)), BARS, "tongue-shallow"),
        (
            board(FRONT, REAR, BOTTOM),
            (POST_F, POST_R, Bar("short rail", (0, 100, 0, 40, 600, 40), 1, 12.3)),
            "groove-too-short",
        ),
    ],
)
def test_a_fault_of_tongue_and_groove_is_told_apart(one, bars, code) -> None:
    assert code in codes(one, bars)


def test_an_edge_on_a_support_is_supported_as_far_as_it_goes() -> None:
    state = edge_state(
        board(outline=(14, 30, 40, 26, 550, 539)), BOTTOM, (), [("cleat", (0, 30, 0, 40, 130, 40))]
    )
    assert (state.state, state.by, state.span) == ("supported", ("cleat",), 420)


@pytest.mark.parametrize("left", [-30.0, 60.0])
def test_a_board_beside_the_bars_is_in_no_groove(left: float) -> None:
    """Bars from 0 to 40; the board of 12 passes them on either side."""
    one = board(outline=(left, 30, 30, left + 12, 550, 539))
    assert {edge_state(one, edge, BARS, ()).state for edge in one.edges} == {"free"}


def test_what_lies_lower_than_the_edge_supports_nothing() -> None:
    state = edge_state(
        board(outline=(14, 30, 41, 26, 550, 539)), BOTTOM, (), [("cleat", (0, 30, 0, 40, 130, 40))]
    )
    assert (state.state, state.span) == ("free", 520)


@pytest.mark.parametrize(
    ("runs", "gap"),
    [([], 100), ([(0, 100)], 0), ([(20, 30)], 70), ([(0, 40), (30, 60)], 40), ([(-10, 5), (95, 120)], 90)],
)
def test_the_longest_gap_is_what_no_run_covers(runs, gap) -> None:
    assert longest_gap(0, 100, runs) == gap


def test_a_lying_board_spans_between_what_touches_its_underside() -> None:
    tray = BoardOutline("tray", (0, 0, 50, 1000, 400, 62), 2)
    walls = [(0, 0, 0, 20, 400, 50), (500, 0, 0, 512, 400, 50), (700, 0, 0, 712, 400, 49)]
    assert lying_span(tray, walls) == 488


@pytest.mark.parametrize(
    ("outline", "found"),
    [
        # a tongue holds from 6 mm on; its middle may miss the groove's by a tenth. Common practice, no source
        ((14, 34, 30, 26, 550, 539), []),
        ((14, 34.1, 30, 26, 550, 539), ["tongue-shallow"]),
        ((14.09, 30, 30, 26.09, 550, 539), []),
        ((14.11, 30, 30, 26.11, 550, 539), ["tongue-off-groove"] * 3),
        # 12.3 deep: past the slot's floor there is no groove
        ((14, 27.8, 30, 26, 550, 539), []),
        ((14, 27.6, 30, 26, 550, 539), ["tongue-without-groove"]),
    ],
)
def test_limits_of_a_tongue(outline: tuple[float, ...], found: list[str]) -> None:
    assert codes(board(FRONT, REAR, BOTTOM, outline=outline)) == found


@pytest.mark.parametrize(("start", "found"), [(80, []), (80.1, ["groove-too-short"])])
def test_a_corner_of_a_tongue_may_lie_outside_its_groove(start: float, found: list[str]) -> None:
    """50 mm, for notches and the ends of bars: common practice, no source. The panel begins at 30."""
    rail = Bar("rail", (0, start, 0, 40, 600, 40), 1, 12.3)
    assert codes(board(FRONT, REAR, BOTTOM), (POST_F, POST_R, rail)) == found


def test_a_lying_board_rests_near_its_edge() -> None:
    """Within a hand's breadth of 50: a cleat that ends 49 from the edge carries it, one at 51 does not."""
    tray = BoardOutline("tray", (0, 0, 50, 1000, 400, 62), 2)
    for gap, state in ((49, "supported"), (51, "free")):
        low = edge_state(tray, (0, 0), (), [("cleat", (gap, 0, 0, gap + 20, 400, 50))])
        high = edge_state(tray, (0, 1), (), [("cleat", (980 - gap, 0, 0, 1000 - gap, 400, 50))])
        assert (low.state, high.state) == (state, state)
