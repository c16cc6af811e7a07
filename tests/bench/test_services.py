"""Power and dust: what is let into boards has its cut-out, its room, its goods and its caution."""

from __future__ import annotations

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fillings.services import ServiceFilling
from generator.bench.model import Bench
from tests.bench.benches import DEMO, changed, faults, solved

STRIP = "  sockets: {kind: socket strip, cutout: [200, 52], flange: [220, 66], depth: 60, sockets: 3}\n"
PORT = "  port: {use: hose port 100, cutout: 60, hose: 58, flange: 80, depth: 70}\n"


def text(services: str) -> str:
    return changed(
        DEMO,
        ("  caster: {", f"{STRIP}{PORT}  caster: {{"),
        ("shelves: {", f"services: [{services}]\nshelves: {{"),
    )


BOTH = "{item: sockets, in: BD1, at: [150, 150]}, {item: port, in: BD1, at: [150, 400]}"


@pytest.fixture(scope="module")
def bench() -> Bench:
    return solved(text(BOTH))


def test_each_has_its_cut_out_in_its_board(bench: Bench) -> None:
    (board,) = (part for part in bench.parts if part.mark == "BD1")
    cuts = [(act.purpose, act.at, act.size, act.corner) for act in board.operations if act.op == "cut-out"]
    assert cuts == [("socket strip", (150, 150), (200, 52), 3), ("hose port", (150, 400), 60, 0)]


def test_goods_and_screws_are_counted_by_their_cards(bench: Bench) -> None:
    needs = [(need.kind, need.item, need.count, need.use) for need in ServiceFilling().needs(bench)]
    assert needs == [("socket strip", "sockets", 1, "in BD1"), ("hose port", "port", 1, "in BD1")]
    assert [(each.count, each.through, each.into) for each in ServiceFilling().screws(bench)] == [
        (4, 2, 12)
    ] * 2


def test_an_electrician_connects_what_bears_mains(bench: Bench) -> None:
    (step,) = ServiceFilling().steps(bench)
    assert step.cautions == ("mains",) and any("licensed electrician" in note for note in step.notes)
    assert [v.law.code for v in ServiceFilling().judge(bench) if not v.ok] == ["mains"]
    proof = assembly_proof(bench).proof
    assert proof.ok
    ways = [(way.motion.name, way.out) for way in proof.ways if way.motion.step == "services"]
    assert ways == [("socket strip 1", "+x"), ("hose port 2", "+x")]
    dust = solved(text("{item: port, in: BD1, at: [150, 400]}"))
    (step,) = ServiceFilling().steps(dust)
    assert step.cautions == () and not any("electrician" in note for note in step.notes)
    assert all(v.ok for v in ServiceFilling().judge(dust))


@pytest.mark.parametrize(("at", "meets"), [("[150, 210]", "SC7"), ("[150, 205]", "")])
def test_a_strip_behind_the_board_is_in_the_way_of_the_rim(at: str, meets: str) -> None:
    """The cleats of the upper shelves are from 240 on above the board's lower edge, and the rim reaches 33 up."""
    on = solved(text(f"{{item: sockets, in: BD1, at: {at}}}"))
    failed = [v.where for v in ServiceFilling().judge(on) if v.law.code == "service-room" and not v.ok]
    assert [where.split(", ")[1] for where in failed] == ([meets] if meets else [])


def test_what_has_no_board_or_no_card_is_refused() -> None:
    assert [each.code for each in faults(text("{item: sockets, in: XX1, at: [150, 200]}"))] == [
        "unknown-board"
    ]
    assert "unknown-name" in {each.code for each in faults(text("{item: plug, in: BD1, at: [150, 200]}"))}


@pytest.mark.parametrize(
    ("old", "new", "key", "allowed"),
    [
        ("flange: [220, 66]", "flange: [150, 66]", "hardware.sockets.flange", "more than 200 mm"),
        ("flange: [220, 66]", "flange: [220, 40]", "hardware.sockets.flange", "more than 52 mm"),
        ("flange: 80", "flange: 60", "hardware.port.flange", "more than 60 mm"),
        ("hose: 58", "hose: 61", "hardware.port.hose", "60 mm or less"),
        ("flange: [220, 66]", "corner: 27, flange: [220, 66]", "hardware.sockets.corner", "less than 26 mm"),
        ("cutout: [200, 52], flange: [220, 66]", "cutout: [200, 9000], flange: [220, 9900]",
         "hardware.sockets.cutout", "less than 509 mm"),
    ],
)  # fmt: skip
def test_cards_that_nothing_holds_or_goes_through(old: str, new: str, key: str, allowed: str) -> None:
    (found,) = faults(changed(text(BOTH), (old, new)))
    assert (found.code, found.allowed) == ("feature-size", allowed)
    assert found.where and found.where.path == key


def test_what_is_deeper_than_the_bench_reaches_out_of_it() -> None:
    bench = solved(changed(text(BOTH), ("depth: 60", "depth: 9000")))
    where = [v.where for v in ServiceFilling().judge(bench) if not v.ok and v.law.code == "service-room"]
    assert len(where) == 1 and "socket strip in BD1" in where[0]


def test_two_sorts_of_sockets_have_their_names() -> None:
    long = STRIP.replace("sockets:", "long:", 1)
    names = changed(text(f"{BOTH}, {{item: long, in: BD1, at: [150, 250]}}"), (STRIP, STRIP + long))
    (board,) = (part for part in solved(names).parts if part.mark == "BD1")
    assert [act.purpose for act in board.operations if act.op == "cut-out"] == [
        "socket strip sockets", "hose port", "socket strip long",
    ]  # fmt: skip
    (step,) = ServiceFilling().steps(solved(names))
    assert any("socket strip sockets in BD1 and the socket strip long in BD1" in hold for hold in step.hold)
