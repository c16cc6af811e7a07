"""Seats under a frame of slotted bars, asked as a stand asks: by the worked frame, and with a plate of another size."""

from __future__ import annotations

import pytest

from generator.bench.frames import frame_kind
from generator.bench.frames.facts import Seat
from generator.bench.place import Place, Side
from tests.bench.benches import DEMO, solved


def seat(side: Side, end: str, point: tuple[int, int], size: tuple[int, int] = (150, 120)) -> Seat:
    """What the worked frame offers there; its bars are joined anew."""
    bench = solved(DEMO)
    bars = [part for part in bench.parts if part.kind == "profile"]
    frame = frame_kind(bench.spec).joined(bench.loaded, bench.layout, bars, ())
    return frame.seat(Place(side=side, end=end), point, size)  # type: ignore[arg-type]


def spans(found: Seat) -> tuple[tuple[float, float], tuple[float, float]]:
    return (float(found.x.low), float(found.x.high)), (float(found.y.low), float(found.y.high))


@pytest.mark.parametrize(
    ("side", "end", "point", "plate"),
    [
        ("front", "left", (95, 95), ((0, 150), (0, 120))),
        ("front", "right", (1905, 95), ((1850, 2000), (0, 120))),
        ("back", "left", (95, 805), ((0, 150), (780, 900))),
        ("front", "middle", (1000, 95), ((925, 1075), (0, 120))),
    ],
)
def test_a_plate_lies_flush_with_the_outside_or_about_the_middle(
    side: Side, end: str, point: tuple[int, int], plate: tuple[tuple[int, int], tuple[int, int]]
) -> None:
    assert spans(seat(side, end, point)) == plate


def test_two_bolts_hold_in_each_of_two_bars() -> None:
    """Thirty to either side of the point, in the middle of the 40 bars: B1 along X, the end member along Y."""
    found = seat("front", "left", (95, 95))
    assert (found.by.into, found.thread.name) == ("slot nut", "M8")
    assert [(hold.member, hold.at) for hold in found.holds] == [
        ("B1", (65, 20)), ("B1", (125, 20)), ("C7", (20, 65)), ("C7", (20, 125)),
    ]  # fmt: skip


def test_bolts_are_shifted_off_the_end_of_a_post() -> None:
    """A1 ends at 40: of bolts at 30 and 90 the first would go into its end. Half a nut beyond it is 50."""
    found = seat("front", "left", (60, 95))
    assert [(hold.member, hold.at[0]) for hold in found.holds[:2]] == [("B1", 50), ("B1", 110)]
    last = seat("front", "right", (1940, 95))
    assert [(hold.member, hold.at[0]) for hold in last.holds[:2]] == [("B1", 1890), ("B1", 1950)]


def test_a_port_keeps_the_key_hole_in_a_bar_open() -> None:
    """The foot of P3's post is screwed through B1 at X 1000; only a plate below it needs the port, 4 wider than 8."""
    (port,) = seat("front", "middle", (1000, 95)).ports
    assert (port.at, port.size) == ((1000, 20), 12)
    assert seat("front", "left", (95, 95)).ports == ()


@pytest.mark.parametrize(("side", "y"), [("front", 85), ("back", 815)])
def test_a_middle_plate_near_the_edge_draws_its_bolts_together(side: Side, y: int) -> None:
    """85 from the outside, less the rail's 40 and half a nut of 10: 35 along the cross-member, 50 along the rail."""
    found = seat(side, "middle", (1000, y))
    rail = 20 if side == "front" else 880
    assert [hold.at for hold in found.holds] == [(950, rail), (1050, rail), (1000, y - 35), (1000, y + 35)]
