"""The demo bench as Figures by hand: enough for the drawings, and no more exact than they need."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import fields
from typing import Any

from generator.bench.solve import solve
from generator.figures.model import Figures, Standing
from generator.figures.rows.assembly import Assembly
from generator.figures.rows.checks import Fit
from generator.figures.rows.hardware import Joints
from generator.figures.rows.layout import Bay, LayoutFacts, Zone
from generator.figures.rows.masses import Mass, Stands
from generator.figures.rows.parts import PartRow
from generator.figures.rows.setting_out import Mark, Stick, TopGrid
from generator.figures.rows.spec import SpecFacts
from generator.figures.rows.storage import Drawer, Shelf, Tote
from generator.figures.storage import shown
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.drawings.parts_fixture import F, bars, f, panels, storage

LOAD = Stands(
    138.2,
    172.8,
    6,
    180.0,
    tuple((F(x), F(y)) for y in (100, 800) for x in (100, 1000, 1900)),
)


def layout() -> LayoutFacts:
    widths = (("F1", 40, 500), ("F2", 580, 400), ("F3", 1020, 400), ("F4", 1460, 500))
    front = [Bay(name, "front", F(x), F(w), F(40), F(497)) for name, x, w in widths]
    back = [Bay(n, "back", F(x), F(940), F(40), F(497), "rear") for n, x in (("B1", 40), ("B2", 1020))]
    return LayoutFacts(
        frame_height=F(725),
        zones=(Zone("front", F(500), F(40)), Zone("back", F(280), F(580))),
        bays=(*front, *back),
        post_edges={
            "front": tuple(F(x) for x in (0, 540, 980, 1420, 1960)),
            "back": tuple(F(x) for x in (0, 980, 1960)),
        },
        clamp_gap=F(134),
        length=F(2000),
        depth=F(900),
        height=F(880),
        section=F(40),
        floor_to_frame=F(137),
        lines=(F(540), F(980), F(1420)),
    )


def marks(edges: Iterable[tuple[int, str]], centres: Iterable[tuple[int, str]] = ()) -> tuple[Mark, ...]:
    them = [
        *(Mark(F(at), label, "edge") for at, label in edges),
        *(Mark(F(at), label, "centre") for at, label in centres),
    ]
    return tuple(sorted(them, key=lambda mark: mark.at))


def sticks() -> tuple[Stick, ...]:
    front = marks(
        (
            (0, "left end"),
            (500, "P2 left"),
            (540, "P2 right"),
            (940, "P3 left"),
            (980, "P3 right"),
            (1380, "P4 left"),
            (1420, "P4 right"),
            (1920, "right end"),
        ),
        ((520, "P2 centre"), (960, "P3 centre"), (1400, "P4 centre")),
    )
    corner = marks(
        (
            (0, "base rail bottom"),
            (40, "base rail top"),
            (525, "tray end rail bottom"),
            (565, "tray end rail top"),
            (685, "top rail bottom"),
            (725, "top rail top"),
        ),
        ((20, "base rail centre"), (545, "tray end rail centre"), (645, "relief"), (705, "top rail centre")),
    )
    return (
        Stick("X front", "x", "left end", F(1920), front, "B1, B3"),
        Stick("Z corner post", "z", "bottom end", F(725), corner, "A1 to A4"),
    )


def drawers() -> tuple[Drawer, ...]:
    rows = ((43, 165, 140, 80, "57.5", "17.5"), (211, 130, 105, 248, "225.5", 123))
    rows += ((344, 107, 82, 381, "358.5", 88), (454, 80, 55, 491, "468.5", 65))
    return tuple(
        Drawer(
            bay,
            n,
            F(494),
            F(height),
            F(bottom),
            F(472),
            F(500),
            F(box),
            F(bottom + 10),
            F(axis),
            f(lower),
            f(spacer),
            (F(459), F(487)),
        )
        for bay in ("F1", "F4")
        for n, (bottom, height, box, axis, lower, spacer) in enumerate(rows, 1)
    )


def figures() -> Figures:
    demo = solve(read_spec_file(bundled("specs") / "demo.yml"))
    drawn: dict[str, Any] = dict(  # noqa: C408 - reads as the call that it becomes
        spec=SpecFacts("Rolling bench", "B", "0123456789ab", "mm"),
        layout=layout(),
        parts=(*bars(), *panels(), *storage()),
        joints=Joints(35, 15, 50, 35, 20),
        fits=(
            Fit(
                "panels",
                f("8.2"),
                F(12),
                F(8),
                F(2),
                F(10),
                f("0.2"),
                f("0.2"),
                F(14),
                f("10.5"),
                f("2.3"),
                F(15),
            ),
        ),
        drawers=drawers(),
        totes=tuple(
            Tote(bay, n, F(bottom), F(bottom + 145), F(bottom + 137), F(31), "tote-145")
            for bay in ("F2", "F3")
            for n, bottom in enumerate((59, 216, 373), 1)
        ),
        shelves=tuple(
            Shelf(bay, n, F(top), F(966), F(278), F(top - 18))
            for bay in ("B1", "B2")
            for n, top in ((1, 100), (2, 328))
        ),
        sticks=sticks(),
        top=TopGrid(180, 20, 9, F(88), F(66), (F(568), F(1432)), (), F(20), F(96), F(2000), F(900), F(18)),
        relief=None,
        assembly=Assembly(True, ()),
        mass=Mass(172.8, 552.8, {}),
        casters=LOAD,
        # what stands below and what fills the bays are facts of their kinds, and no kind is built by hand
        stand=Standing(demo.stand, LOAD),
        fillings=shown(demo),
    )
    undrawn: dict[str, Any] = {field.name: () for field in fields(Figures) if field.name not in drawn}
    return Figures(**(undrawn | drawn))


def part(mark: str) -> PartRow:
    return next(row for row in figures().parts if row.mark == mark)
