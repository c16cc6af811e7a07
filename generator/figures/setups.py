"""Set-up cards: every setting of a machine, once, with all parts that are cut with it, and its test piece.

The order is that of the work: saw, tongues, notches, then the bars' ends, keys, screws and reliefs; what waits until
every bay is measured comes last. Common practice.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.frames.slotted import slotted
from generator.bench.model import Bench
from generator.figures.glued_boards import glued_cards
from generator.figures.material_labels import material_labels
from generator.figures.measure_first import card_released
from generator.figures.member_setups import by_size, filling_cards, joint_holes, member_cards, stops, unique
from generator.figures.opening_setups import opening_setups, without_own_cards
from generator.figures.rows.cutting import Cutting
from generator.figures.rows.parts import OperationRow, PartRow
from generator.figures.rows.setting_out import Setting, Setup, Sketch
from generator.figures.saw_setups import bar_stops, marks_of, names_of, sheet_fences
from generator.figures.top_setups import top_setups
from generator.figures.tray_setups import tray_setups
from generator.provenance import constant
from generator.spec.chosen import ChosenGoods

FIRST_PASS = constant("3/10", "first cut on scrap stays short of the rabbet by")
"""The first cut of a rabbet on scrap is so much shallower in mm than it will be."""
HALF_STEPS = tuple(
    (thick, thick / 2)
    for thick in (
        constant(Fraction(n, 10), f"tongue of a test piece too thick by 0.{n}") for n in (6, 5, 4, 3, 2, 1)
    )
)
"""What a tongue may be too thick by on the test piece, and half of it: the cutter works on both faces (mm)."""
TONGUE_TOLERANCE = constant("1/10", "how far a tongue may be off")
"""A tongue passes when it is within this (mm) of its thickness."""


def setups(bench: Bench, rows: Sequence[PartRow], plans: Cutting) -> tuple[Setup, ...]:
    """All cards in order, numbered from 1."""
    makers: tuple[Callable[[], Iterable[Setup]], ...] = (
        lambda: member_cards(bench, first=True),
        lambda: bar_stops(rows),
        lambda: sheet_fences(rows, plans, waiting=False),
        lambda: glued_cards(bench, rows),
        lambda: tongues(bench.goods, rows),
        lambda: notches(rows),
        lambda: tray_setups(rows),
        lambda: cut_outs(bench, rows),
        lambda: opening_setups(bench),
        lambda: taps(bench.goods, rows),
        lambda: member_cards(bench),
        lambda: joint_holes(rows),
        lambda: top_setups(bench),
        lambda: reliefs(bench, rows),
        lambda: sheet_fences(rows, plans, waiting=True),
        lambda: grooves(rows),
        lambda: cross_grooves(rows),
        lambda: filling_cards(bench),
    )
    cards = [card for make in makers for card in make()]
    labels = material_labels(bench)
    return tuple(card_released(replace(card, n=n), labels) for n, card in enumerate(cards, 1))


# --- panels


def tongues(goods: ChosenGoods, rows: Sequence[PartRow]) -> Iterator[Setup]:
    """The rabbet on both faces, one card for each thickness of sheet, with the half-step table."""
    found: dict[tuple[Fraction, Fraction, Fraction, Fraction], list[PartRow]] = defaultdict(list)
    for row in rows:
        if row.tongues and row.tongue_thickness is not None and row.rabbet_depth and row.rabbet_length:
            found[(row.thickness, row.tongue_thickness, row.rabbet_depth, row.rabbet_length)].append(row)
    for number, ((thickness, tongue, depth, length), parts) in enumerate(found.items(), 1):
        yield Setup(
            0,
            f"tongue-{number}",
            "Tongue" if len(found) == 1 else f"Tongue {number}",
            "router table or saw with a rabbet cutter, feather board above, fence",
            (
                Setting("Sheet, measured", (thickness,), fine=True),
                Setting("Slot, measured", (slotted(goods).slot.opening,), fine=True),
                Setting("Tongue, thickness", (tongue,), fine=True),
                Setting("Rabbet, from the edge of the board", (length,), fine=True),
                Setting(
                    "Cutter above the table, first cut on scrap",
                    (max(depth - FIRST_PASS, Fraction(0)),),
                    fine=True,
                ),
                Setting("Cutter above the table, final", (depth,), fine=True),
                Setting("The tongue may be thicker or thinner by", (TONGUE_TOLERANCE,), fine=True),
            ),
            (
                "Take scrap of the same sheet. Cut both faces at the first height.",
                "Measure the tongue. Raise the cutter by half of what is too thick, because it cuts both faces.",
                "Cut both faces and measure again until the thickness is right.",
                "Try the tongue in a bar. Then cut all panels at this setting.",
            ),
            "The tongue slides in by hand, does not rattle, and stays in when you turn the bar over.",
            marks_of(parts),
            tuple(step for step in HALF_STEPS if step[0] <= 2 * FIRST_PASS),
            ("kickback", "dust"),
            sketch=Sketch(
                "rabbet",
                {"edge": (length,), "height": (depth,), "thickness": (thickness,), "tongue": (tongue,)},
            ),
        )


def notches(rows: Sequence[PartRow]) -> Iterator[Setup]:
    """One card a size of notch, with the corners that get it."""
    found: dict[tuple[Fraction, Fraction], list[tuple[PartRow, str]]] = defaultdict(list)
    for row in rows:
        for notch in row.notches:
            found[(notch.along, notch.across)].append((row, notch.corner))
    for number, ((along, across), places) in enumerate(found.items(), 1):
        parts = list(dict.fromkeys(row.mark for row, _ in places))
        corners = {mark: [corner for row, corner in places if row.mark == mark] for mark in parts}
        yield Setup(
            0,
            f"notch-{number}",
            f"Notch {number}",
            "saw with a cross-cut fence and stop, or a jigsaw along the template",
            (
                Setting("Stop: from the corner, along the part's first size", (along,)),
                Setting("Depth of cut: from the edge, across it", (across,)),
                *(Setting(f"{mark}: corners", text=", ".join(corners[mark])) for mark in parts),
            ),
            (
                "Cut the notch in scrap and lay it on the template.",
                "Mark the corners on every panel before the first cut. Not every corner gets a notch.",
            ),
            "A corner of bar goes into the notch without touching its sides.",
            marks_of({row.mark: row for row, _ in places}.values()),
            cautions=("kickback",),
            sketch=Sketch("notch", {"along": (along,), "across": (across,)}),
        )


def cut_outs(bench: Bench, rows: Sequence[PartRow]) -> Iterator[Setup]:
    """A card a size of cut-out, with their centres from the datum edges.

    Apart are those at an edge, and those in boards that lie: a bar passes through these.
    """
    found: dict[tuple[tuple[Fraction, Fraction], bool, bool], list[tuple[PartRow, OperationRow]]] = (
        defaultdict(list)
    )
    for row, op in without_own_cards(bench, rows):
        if isinstance(op.size, tuple):
            found[(op.size, row.at_edge(op), row.across != "z")].append((row, op))
    for number, ((size, edge, lying), places) in enumerate(found.items(), 1):
        yield Setup(
            0,
            f"cut-out-{number}",
            f"Cut-out {number}, {'at the edge' if edge else 'within the board'}",
            "jigsaw or router along the template, drill for the corners",
            (
                Setting("Cut-out, along and across", size),
                *(
                    Setting(
                        f"{names_of((row,))}, {op.purpose}: centre from the left edge, from the "
                        f"{'front' if lying else 'lower'} edge",
                        op.at,
                    )
                    for row, op in places
                ),
            ),
            (
                f"Measure every centre from the left and {'front' if lying else 'lower'} edges. "
                "Draw each cut-out with the template.",
                *(("Make one in scrap first and push a piece of bar through.",) if lying else ()),
                "Saw from the edge. Stay inside the line."
                if edge
                else "Drill a hole in each corner, inside the line. Saw from hole to hole, inside the line.",
                "Support the board on both sides of the cut-out. Rout or file to the line.",
            ),
            "A piece of bar passes by hand. The gap is the same on every side."
            if lying
            else "The edges of the template are on the edges of the cut-out, all round.",
            marks_of(row for row, _ in places),
            cautions=("kickback", "dust"),
            sketch=Sketch("opening", {"along": (size[0],), "across": (size[1],)}, end="edge" if edge else ""),
        )


def grooves(rows: Sequence[PartRow]) -> Iterator[Setup]:
    """Grooves for drawer bottoms: one card a width, depth and distance from the edge."""
    found: dict[tuple[Fraction, Fraction, Fraction], list[PartRow]] = defaultdict(list)
    for row in rows:
        for op in row.operations:
            if op.op == "groove" and op.depth is not None and isinstance(op.size, tuple):
                length, width = op.size
                if length > width:
                    found[(width, op.depth, op.at[1] - width / 2)].append(row)
    for number, ((width, depth, edge), parts) in enumerate(found.items(), 1):
        yield Setup(
            0,
            f"groove-{number}",
            "Groove for drawer bottoms" if len(found) == 1 else f"Groove for drawer bottoms {number}",
            "router table or saw, fence",
            (
                Setting("Groove, width", (width,), fine=True),
                Setting("Groove, depth", (depth,), fine=True),
                Setting("Groove, from the lower edge of the board", (edge,)),
            ),
            (
                "Cut the groove in scrap and push the real bottom in.",
                "Lay the sides and ends of each box in place. Mark their inside faces: only these get a groove.",
            ),
            "The bottom goes in by hand along its whole length and does not fall out.",
            marks_of({row.mark: row for row in parts}.values()),
            cautions=("kickback", "dust"),
            sketch=Sketch("groove", {"edge": (edge,), "height": (depth,), "width": (width,)}),
        )


def cross_grooves(rows: Sequence[PartRow]) -> Iterator[Setup]:
    """Grooves across boards, from front to rear: one card a width, depth and purpose, with their left edges."""
    found: dict[tuple[Fraction, Fraction, str], dict[str, list[Fraction]]] = defaultdict(dict)
    by_mark = {row.mark: row for row in rows}
    for row in rows:
        for op in row.operations:
            if op.op == "groove" and op.depth is not None and isinstance(op.size, tuple):
                width, length = op.size
                if length > width:
                    edges = found[(width, op.depth, op.purpose)].setdefault(row.mark, [])
                    edges.append(op.at[0] - width / 2)
    for number, ((width, depth, purpose), places) in enumerate(found.items(), 1):
        yield Setup(
            0,
            f"cross-groove-{number}",
            f"Groove across the board {number}, {purpose}",
            "router along a fence, or a saw with a dado set",
            (
                Setting("Groove, width", (width,), fine=True),
                Setting("Groove, depth", (depth,), fine=True),
                *(
                    Setting(
                        f"{names_of((by_mark[mark],))}: left edge of each groove, from the left edge",
                        tuple(edges),
                    )
                    for mark, edges in places.items()
                ),
            ),
            (
                "Cut the groove in scrap and push the real board in.",
                "Measure every groove from the left edge of its board, never from the groove before it.",
                "Lay both boards of a pair edge to edge and mark the grooves on both at once.",
            ),
            "The board goes along the groove by hand and does not rattle.",
            marks_of(by_mark[mark] for mark in places),
            cautions=("kickback", "dust"),
        )


# --- bars


def taps(goods: ChosenGoods, rows: Sequence[PartRow]) -> Iterator[Setup]:
    """Threads in the ends of bars, one card a thread, with the depth of each kind of joint."""
    found: dict[str, dict[Fraction, list[PartRow]]] = defaultdict(lambda: defaultdict(list))
    ends: dict[str, int] = defaultdict(int)
    for row in rows:
        for op in row.operations:
            if op.op == "tap" and op.depth is not None:
                thread = op.purpose.split(" for ")[0]
                found[thread][op.depth].append(row)
                ends[thread] += row.count
    for number, (thread, depths) in enumerate(found.items(), 1):
        parts, bore = [row for each in depths.values() for row in each], slotted(goods).bore
        yield Setup(
            0,
            f"tap-{number}",
            f"Tap {thread}",
            f"tap {thread}, spiral or forming, with lubricant; guide block or drill press",
            (
                Setting("Bore, measured", (bore,), fine=True),
                *(
                    Setting(f"Depth: {names_of(unique(each))}", (depth,))
                    for depth, each in sorted(depths.items(), key=lambda item: item[0])
                ),
                Setting("Ends to tap, total", text=str(ends[thread])),
            ),
            (
                "Drive a screw into a test end by hand to its full depth.",
                "Keep the tap in line with the bar. A crooked tap cracks the wall of the bore.",
                "Clear the chips out, then deburr the end.",
            ),
            "The screw turns in by hand to its full depth. A square beside it shows no lean.",
            marks_of(unique(parts)),
            cautions=("drill", "chips"),
            sketch=Sketch("thread", {"bore": (bore,), "depth": tuple(sorted(depths))}),
        )


def reliefs(bench: Bench, rows: Sequence[PartRow]) -> Iterator[Setup]:
    """The clamp-access relief with its template, bush and cutter."""
    spec = bench.spec
    places = [place for each in by_size(rows, "relief").values() for place in each]
    if not places:
        return
    access, relief = spec.frame.clamp_access, bench.relief
    yield Setup(
        0,
        "relief",
        "Clamp reliefs",
        "router with guide bush and a carbide cutter for aluminium, template clamped to the bar",
        (
            Setting("Guide bush", (access.guide_bush,)),
            Setting("Cutter", (access.cutter,)),
            Setting("Opening in the template, along and across the bar", relief.template[::-1]),
            Setting("Opening in the bar, along and across it", relief.opening[::-1]),
            Setting("Template larger than the opening, each side", (relief.offset,), fine=True),
            Setting("Deepest pass", (access.cutter / 3,), fine=True),
            Setting(
                "Depth, from the bar's face: the lip of the slot", (slotted(bench.goods).slot.lip,), fine=True
            ),
            *stops(places),
        ),
        (
            "Measure the bush and the cutter: do not trust the catalogue. The offset is half of their difference.",
            "Rout a test piece. Measure the opening and put the head of the clamp in.",
            "Clamp the bar and the template. Cut in passes, with wax or spirit.",
            "Stop when chips turn to dust or smear.",
        ),
        "The head of the clamp or a slot nut drops in anywhere along the opening.",
        marks_of(row for row, _, _ in places),
        cautions=("router", "chips"),
        sketch=Sketch(
            "template",
            {
                "along": (relief.template[1], relief.opening[1]),
                "across": (relief.template[0], relief.opening[0]),
                "offset": (relief.offset,),
            },
        ),
    )
