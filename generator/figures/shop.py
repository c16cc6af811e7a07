"""The shop's own figures: cutters, holes, tightening, time at the machines, money for bars and sheets."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from generator.bench.frames import frame_kind
from generator.bench.frames.panels import panel_rules
from generator.bench.model import Bench
from generator.calculators.costs import MINUTES, OF_TIMBER, time_for, with_surcharge
from generator.calculators.cutter_speeds import (
    ALUMINIUM,
    BOARDS,
    MM_PER_M,
    PASS_ALUMINIUM,
    PASS_WOOD,
    feed_rate,
    pass_depth,
    passes,
    spindle_speed,
)
from generator.calculators.fasteners import THREADS, pocket_footprint
from generator.calculators.tightening import (
    clamping_force,
    proof_load,
    stress_area,
)
from generator.calculators.wood_screws import HARD, SOFT, next_drill, pilot_hole, shank_hole, stock
from generator.figures.rows.shop import CutterRow, ScrewHoles, Shop, Tightening, TimeRow
from generator.figures.tightening import torques
from generator.provenance import constant, inexact

#: Teeth of a small cutter; sizes of the wood screws that the hardware list names (mm). Common practice.
TEETH = 2
SIZES = ("4", "5")
#: A cutter for rabbets (mm). Common practice.
RABBET_CUTTER = constant(16, "cutter for rabbets")


def shop(bench: Bench, bought: float) -> Shop:
    """All figures of the shop for one bench; `bought` is what the shopping list comes to."""
    spec = bench.spec
    times = tuple(_times(bench))
    return Shop(
        cutters=tuple(_cutters(bench)),
        screw_holes=tuple(_screw_holes(spec.units)),
        tightening=tuple(_tightening(bench)),
        pocket=pocket_footprint(bench.goods.wall.thickness),
        times=times,
        minutes=sum(row.minutes for row in times),
        cost_with_surcharge=with_surcharge(price=bought),
    )


def _cutters(bench: Bench) -> Iterator[CutterRow]:
    spec = bench.spec
    cutter, bar = spec.frame.clamp_access.cutter, bench.goods.profile
    rabbet = panel_rules(bench.loaded).fit.rabbet_depth
    work = (
        ("clamp relief, through the lip", ALUMINIUM, PASS_ALUMINIUM, cutter, bar.slot.lip if bar else None),
        ("rabbet of a tongue, each face", BOARDS, PASS_WOOD, RABBET_CUTTER, rabbet),
    )
    for name, material, part, cutter, depth in work:
        if not depth:
            continue
        slowest, fastest = (
            spindle_speed(cutting_speed=speed, diameter=inexact(cutter))
            for speed in (material.slowest, material.fastest)
        )
        deep = pass_depth(diameter=inexact(cutter), part=part)
        yield CutterRow(
            work=name,
            material=material.name,
            diameter=cutter,
            slowest=slowest,
            fastest=fastest,
            feed=feed_rate(speed=slowest, chip=material.chip, teeth=TEETH),
            depth=depth,
            pass_depth=deep,
            passes=passes(depth=float(depth), pass_depth=float(deep)),
        )


def _screw_holes(units: str) -> Iterator[ScrewHoles]:
    for size in SIZES:
        screw = stock(size, units)[0]
        shank = float(screw.shank)
        yield ScrewHoles(
            screw=screw.size if units == "in" else "",
            shank=shank,
            through=next_drill(shank_hole(shank=shank)),
            softwood=next_drill(pilot_hole(shank=shank, part_of_root=SOFT)),
            hardwood=next_drill(pilot_hole(shank=shank, part_of_root=HARD)),
        )


def _tightening(bench: Bench) -> Iterator[Tightening]:
    if not frame_kind(bench.spec).in_nuts:
        return  # wood gives way before a screw is at its torque
    screws = (bench.joinings[joint.fastener].screw for joint in bench.joints)
    joined = (screw.thread for screw in screws if screw is not None)
    for name in dict.fromkeys((*joined, bench.goods.slot_nut.thread)):
        thread = THREADS[name]
        diameter, pitch = inexact(thread.diameter), inexact(thread.pitch)
        low, high = torques(bench, thread)
        least, most = (clamping_force(torque=torque, diameter=diameter) for torque in (low, high))
        proof = proof_load(area=stress_area(diameter=diameter, pitch=pitch))
        yield Tightening(name, low / MM_PER_M, high / MM_PER_M, least, most, most / proof)


def _times(bench: Bench) -> Sequence[TimeRow]:
    operations = [op.op for part in bench.parts for op in part.operations]
    holes = [hole for joint in bench.joints for hole in bench.joinings[joint.fastener].holes]
    counts = {
        **Counter(hole.timed for hole in holes if hole.timed),
        "tapped end": operations.count("tap"),
        "clamp relief": operations.count("relief"),
        "notch": sum(len(part.notches) for part in bench.parts),
        "banded edge": sum(len(part.bands) for part in bench.parts),
        **{name: operations.count(name) for name, _ in OF_TIMBER},
    }
    usual = list(MINUTES)
    return [
        TimeRow(name, counts[name], MINUTES[name], time_for(count=counts[name], each=MINUTES[name]))
        for name in sorted(counts, key=usual.index)
        if counts[name]
    ]
