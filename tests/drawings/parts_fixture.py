"""The pieces of the worked bench as rows, written by hand: what a drawing reads of a part."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from generator.figures.rows.parts import NotchRow, OperationRow, PartRow, PlacedRow

F = Fraction
Number = int | float | str


def f(value: Number) -> Fraction:
    return Fraction(str(value))


def placed(mark: str, corner: Sequence[Number], size: Sequence[Number]) -> PlacedRow:
    x, y, z = (f(v) for v in corner)
    a, b, c = (f(v) for v in size)
    return PlacedRow(mark, (x, y, z), (a, b, c))


def hole(
    face: str, at: Number, size: Number, purpose: str = "access", depth: Number | None = None
) -> OperationRow:
    return OperationRow("hole", face, (f(at), F(20)), f(size), None if depth is None else f(depth), purpose)


def through_screw(face: str, at: Number) -> tuple[OperationRow, ...]:
    return (
        hole(face, at, 9, "through screw"),
        OperationRow("counterbore", face, (f(at), F(20)), F(14), F("13.5"), "through screw"),
    )


def relief(face: str, at: Number) -> OperationRow:
    return OperationRow("relief", face, (f(at), F(20)), (F(40), F(16)), F("4.5"), "clamp access")


def tapped(along: str) -> tuple[OperationRow, ...]:
    faces = {"x": ("left", "right"), "y": ("front", "rear"), "z": ("bottom", "top")}[along]
    return tuple(
        OperationRow("tap", face, (F(20), F(20)), F(8), F(25), "M8 for the butt joint") for face in faces
    )


def bar(
    group: str,
    along: str,
    length: Number,
    pieces: Iterable[PlacedRow],
    operations: Sequence[OperationRow] = (),
) -> PartRow:
    them = tuple(pieces)
    across = "y" if along != "y" else "x"
    return PartRow(
        mark=them[0].mark,
        marks=tuple(piece.mark for piece in them),
        name=group,
        group=group,
        material="bar",
        kind="profile",
        count=len(them),
        length=f(length),
        width=F(40),
        thickness=F(40),
        mass=float(length) * 0.0017,
        operations=tuple(operations),
        along=along,
        across=across,
        pieces=them,
        metal=True,
    )


def bars() -> tuple[PartRow, ...]:
    corners = [(0, 0), (1960, 0), (0, 860), (1960, 860)]
    lines = (540, 980, 1420)
    a1 = bar(
        "corner post",
        "z",
        725,
        (placed(f"A{n}", (x, y, 0), (40, 40, 725)) for n, (x, y) in enumerate(corners, 1)),
        (
            *(hole("front", z, 8) for z in (20, 545, 705)),
            *through_screw("left", 20),
            *through_screw("left", 705),
            relief("front", 645),
            relief("left", 645),
        ),
    )
    rails = [
        bar(
            "long rail",
            "x",
            1920,
            [placed(mark, (40, y, z), (1920, 40, 40))],
            (
                *(hole("front", x, 8) for x in (520, 960, 1400)),
                *(extra for x in (520, 960, 1400) for extra in top_work(x, z)),
                *((relief("front", 80), relief("front", 1840)) if z else ()),
                *tapped("x"),
            ),
        )
        for mark, y, z in (("B1", 0, 0), ("B2", 860, 0), ("B3", 0, 685), ("B4", 860, 685))
    ]
    crossings = [
        bar(
            "base cross-member" if z == 0 else "top cross-member",
            "y",
            820,
            (placed(f"C{n + i}", (x, 40, z), (40, 820, 40)) for i, x in enumerate(lines)),
            (hole("top", 520, 8) if z == 0 else through_screw("top", 520)[0], *tapped("y")),
        )
        for n, z in ((1, 0), (4, 685))
    ]
    end_bars = [
        bar(
            group, "y", 820, (placed(f"C{n + i}", (x, 40, z), (40, 820, 40)) for i, x in enumerate((0, 1960)))
        )
        for n, z, group in ((7, 0, "base end member"), (9, 525, "tray end rail"), (11, 685, "top end member"))
    ]
    inner = [
        bar(
            "inner post",
            "z",
            645,
            (placed(f"D{n + i}", (x, y, 40), (40, 40, 645)) for i, x in enumerate(xs)),
            (relief("front", 565), *tapped("z")) if y != 540 else tapped("z"),
        )
        for n, y, xs in ((1, 0, lines), (4, 540, lines), (7, 860, (980,)))
    ]
    spine = bar(
        "end spine post",
        "z",
        485,
        (placed(f"E{i}", (x, 540, 40), (40, 40, 485)) for i, x in ((1, 0), (2, 1960))),
    )
    return (a1, *rails, *crossings, *end_bars, *inner, spine)


def top_work(x: int, z: int) -> tuple[OperationRow, ...]:
    return through_screw("top", x) if z else (hole("top", x, 8),)


TONGUE = {"tongue_thickness": F(8), "rabbet_depth": F(2), "rabbet_length": F("10.5")}


def sheet(
    group: str,
    size: tuple[Number, Number, Number],
    axes: str,
    pieces: Iterable[PlacedRow],
    tongues: dict[str, int] | None = None,
    notches: Sequence[tuple[str, Number, Number]] = (),
    operations: Sequence[OperationRow] = (),
    kind: str = "sheet",
) -> PartRow:
    them = tuple(pieces)
    cut = {} if not tongues else TONGUE
    return PartRow(
        mark=them[0].mark,
        marks=tuple(piece.mark for piece in them),
        name=group,
        group=group,
        material="ply-12",
        kind=kind,
        count=len(them),
        length=f(size[0]),
        width=f(size[1]),
        thickness=f(size[2]),
        mass=1.0,
        tongues={edge: F(length) for edge, length in (tongues or {}).items()},
        notches=tuple(NotchRow(corner, f(a), f(b)) for corner, a, b in notches),
        operations=tuple(operations),
        along=axes[0],
        across=axes[1],
        grain="length",
        pieces=them,
        **cut,
    )


def cutout(x: Number, y: Number, width: Number, height: Number, why: str) -> OperationRow:
    return OperationRow("cut-out", "top", (f(x), f(y)), (f(width), f(height)), None, why)


def tray() -> PartRow:
    return sheet(
        "tray",
        (1940, 896, 12),
        "xy",
        [placed("PAN", (30, 2, 539), (1940, 896, 12))],
        {"left": 10, "right": 10},
        [(corner, 12, 40) for corner in ("front left", "front right", "rear left", "rear right")],
        (
            *(cutout(x, 20, 42, 40, "front post") for x in (530, 970, 1410)),
            cutout(970, 876, 42, 40, "back post"),
            *(cutout(x, 558, 42, 42, "spine post") for x in (530, 970, 1410)),
        ),
    )


def panels() -> tuple[PartRow, ...]:
    lines = (540, 980, 1420)
    both = [("bottom front", 12, 12), ("bottom rear", 12, 12)]
    three = {"front": 10, "rear": 10, "bottom": 10}
    four = {**three, "top": 10}
    tops = [("top front", 12, 12), ("top rear", 12, 12)]
    two = {"left": 10, "right": 10}
    return (
        sheet(
            "divider",
            (520, 509, 12),
            "yz",
            (placed(f"FD{i}", (x + 14, 30, 30), (12, 520, 509)) for i, x in enumerate(lines, 1)),
            three,
            both,
        ),
        sheet("divider", (300, 509, 12), "yz", [placed("BD1", (994, 570, 30), (12, 300, 509))], three, both),
        sheet(
            "end panel",
            (520, 505, 12),
            "yz",
            (placed(f"EF{i}", (x + 14, 30, 30), (12, 520, 505)) for i, x in ((1, 0), (2, 1960))),
            four,
            [*both, *tops],
        ),
        sheet(
            "end panel",
            (300, 505, 12),
            "yz",
            (placed(f"EB{i}", (x + 14, 570, 30), (12, 300, 505)) for i, x in ((1, 0), (2, 1960))),
            four,
            [*both, *tops],
        ),
        sheet(
            "spine panel",
            (520, 498, 12),
            "xz",
            [placed("SP1", (30, 554, 40), (520, 12, 498))],
            two,
            [("top left", 12, 15)],
        ),
        sheet(
            "spine panel",
            (420, 498, 12),
            "xz",
            (placed(f"SP{i}", (x, 554, 40), (420, 12, 498)) for i, x in ((2, 570), (3, 1010))),
            two,
        ),
        sheet(
            "spine panel",
            (520, 498, 12),
            "xz",
            [placed("SP4", (1450, 554, 40), (520, 12, 498))],
            two,
            [("top right", 12, 15)],
        ),
        tray(),
    )


FRONTS = ((43, 165), (211, 130), (344, 107), (454, 80))


def storage() -> tuple[PartRow, ...]:
    fronts = [
        sheet(
            "drawer face",
            (494, height, 18),
            "xz",
            (placed(f"DF{n}{bay}", (x + 3, 0, z), (494, 18, height)) for bay, x in (("a", 40), ("b", 1460))),
        )
        for n, (z, height) in enumerate(FRONTS, 1)
    ]
    runners = sheet(
        "tote runner",
        (498, 31, 15),
        "yx",
        (
            placed(f"TR{i}{side}{x}", (x - 14 if side == "l" else x + 383, 20, top - 15), (31, 498, 15))
            for x in (580, 1020)
            for i, top in enumerate((196, 353, 510))
            for side in "lr"
        ),
        kind="strip",
    )
    strips = sheet(
        "packing strip",
        (480, 50, 15),
        "zy",
        (
            placed(f"PS{y}{x}", (x, y, 42), (15, 50, 480))
            for x in (26, 539, 1446, 1959)
            for y in (41, 256, 448)
        ),
        kind="strip",
        operations=(
            OperationRow("hole", "front", (F(30), F(25)), F(4), None, "screw"),
            OperationRow("hole", "front", (F(450), F(25)), F(4), None, "screw"),
        ),
    )
    shelves = sheet(
        "shelf",
        (966, 278, 18),
        "xy",
        (
            placed(f"SH{i}{x}", (x, 581, z), (966, 278, 18))
            for x in (27, 1007)
            for i, z in enumerate((82, 310))
        ),
    )
    trim = sheet("tray trim", (498, 15, 15), "xy", [placed("TT1", (41, 0, 537), (498, 15, 15))], kind="angle")
    top = sheet("top", (2000, 900, 18), "xy", [placed("TOP", (0, 0, 725), (2000, 900, 18))])
    plates = sheet(
        "caster plate",
        (170, 170, 10),
        "xy",
        (
            placed(f"CP{i}", (x, y, -10), (170, 170, 10))
            for i, (x, y) in enumerate(((0, 0), (915, 0), (1830, 0), (0, 730), (915, 730), (1830, 730)), 1)
        ),
    )
    return (*fronts, runners, strips, shelves, trim, top, plates)
