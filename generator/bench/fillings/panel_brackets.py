"""Brackets that fix the panels of a wall to the bars around them, from outside: they fill no bay."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from math import ceil
from typing import ClassVar

from generator.bench.box_body import face_axis
from generator.bench.driven import Driven, Path, chosen
from generator.bench.fillings.bolted import (
    NUT_KEY,
    Bolted,
    BoltWay,
    Builder,
    bolt_name,
    bolt_ways,
    clear_place,
    window,
)
from generator.bench.fillings.facts import FillingGoods, FillStep, Need, SlotBolt, Solved
from generator.bench.fillings.kind import Ways
from generator.bench.fillings.outside import OutsideBays
from generator.bench.frames.panels import wall_names
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction
from generator.calculators.fasteners import BoltWindow
from generator.calculators.wood_screws import WoodScrew, fitting, stock
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import FACES, Span
from generator.spec.bracing import PanelBracket, PanelFixing
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

KEY, BRACKET, BOLT, SCREW = "panel-brackets", "panel bracket", "panel bracket bolt", "panel screw"
#: Between two brackets side by side on one post, and between those of two edges at a corner (mm). Common practice.
BESIDE, AT_CORNER = Fraction(10), Fraction(5)
#: A slot nut along its slot, from its middle (mm).
HALF_NUT = Fraction(12)
#: Walls that can be fixed, by the key of the spec, and their panels.
WALLS: Mapping[str, Role] = {"back": Role.BACK_PANEL, "ends": Role.END_PANEL}
_OUT: Mapping[str, Direction] = {"left": "-x", "right": "+x", "rear": "+y"}

NO_BACK = (
    "no panel of a bench with two zones helps along its length: its spine is between the rows, and a back alone does "
    "not brace the front row"
)


def fixing(spec: Spec, wall: str) -> PanelFixing | None:
    """How a wall is fixed; None where nothing fixes it."""
    return spec.panels.fix.back if wall == "back" else spec.panels.fix.ends


def fixed_walls(spec: Spec) -> tuple[tuple[str, PanelFixing], ...]:
    """The walls that are fixed, and how."""
    return tuple((wall, how) for wall in WALLS if (how := fixing(spec, wall)) is not None)


def without_wall(loaded: LoadedSpec) -> Iterator[Finding]:
    """Walls that the spec fixes and does not have."""
    spec = loaded.spec
    if loaded.goods.profile is None:
        yield from _without_slots(loaded)
        return
    for wall, _ in fixed_walls(spec):
        if wall not in wall_names(spec):
            back_of_two = wall == "back" and len(spec.zones) > 1
            yield loaded.fault(
                Code.WALL_WITHOUT_PLACE, NO_BACK if back_of_two else f"the bench has no wall `{wall}` to fix",
                "panels", "fix", wall, found=wall,
                allowed="`frame.gussets`" if back_of_two else f"{wall} in `panels.walls`",
                advice="Corner brackets help along the length: write `frame: {gussets: {at: [long corners]}}`."
                if back_of_two else "",
            )  # fmt: skip


def _without_slots(loaded: LoadedSpec) -> Iterator[Finding]:
    """Brackets whose nuts have no slot."""
    keys = [("panels", "fix", wall) for wall, _ in fixed_walls(loaded.spec)]
    if loaded.spec.frame.gussets.at:
        keys.append(("frame", "gussets", "at"))
    for key in keys:
        yield loaded.fault(
            Code.WALL_WITHOUT_PLACE, "these brackets are bolted to slots, and the members of this frame have none",
            *key, found=key[-1], allowed="a frame of slotted bars",
            advice="Leave the key out. In wood, glued joints and wider rails make a frame stiffer.",
        )  # fmt: skip


class PanelBracketFilling(OutsideBays):
    """A bracket every so often around the panels of a fixed wall: a bolt in the bar, a wood screw in the panel."""

    kind, goes_in = BRACKET, -1
    terms = (
        TermWords(
            "panel bracket",
            "A bracket bent in two steps. It fixes a panel to the bar beside it, so that the panel braces the frame.",
            ("panel brackets",),
        ),
    )
    bought = (
        FillingGoods(BRACKET, KEY, mass="0.03"),
        FillingGoods(BOLT, KEY, NUT_KEY, mass="0.011"),
        FillingGoods(SCREW, KEY, "screwdriver", use="brackets to the panels", screw=True),
    )
    step_names: ClassVar = {KEY: "panel brackets"}

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Each with the head of its bolt."""
        yield from (each.body for _, found in by_panel(bench) for each in found)

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """The brackets of each wall."""
        return {wall: ("hardware", how.bracket) for wall, how in fixed_walls(spec)}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Panel by panel, from outside."""
        for panel, found in by_panel(bench):
            bodies = tuple(ways.bodies[each.body.name] for each in found)
            if bodies:
                yield Motion(f"brackets of {panel.mark}", KEY, bodies, out=(found[0].out,))

    def slot_bolts(self, bench: Solved) -> Iterator[SlotBolt]:
        """One a bracket."""
        yield from (bolt for _, found in by_panel(bench) for each in found for bolt in each.bolts)

    def bolt_ways(self, bench: Solved) -> Iterator[BoltWay]:
        """A key comes from outside."""
        for _, found in by_panel(bench):
            yield from bolt_ways(found, ("panels", "fix"))

    def bolt_windows(self, bench: Solved) -> Iterator[tuple[str, BoltWindow, Path]]:
        """The bolts through a leg."""
        for name in dict.fromkeys(how.bracket for _, how in fixed_walls(bench.spec)):
            path = ("hardware", name, "thickness")
            yield BOLT, window(bench.goods, bench.goods.panel_brackets[name].thickness), path

    def needs(self, bench: Solved) -> Iterator[Need]:
        """Brackets with their bolts."""
        for name, walls in _by_card(bench.spec).items():
            card = bench.goods.panel_brackets[name]
            count = sum(len(found) for wall in walls for _, found in _of_wall(bench, wall))
            step = bench.goods.wall.thickness
            sizes = (card.width, card.leg, card.leg, (bench.layout.section - step) / 2)
            use = f"fix the panels of {' and '.join(walls)}"
            yield Need(BRACKET, name, count, use, "width, legs, step: {}", sizes)
            bolts = "panel brackets to slot nuts, with washers; cap screws"
            yield Need(BOLT, BOLT, count, bolts, bolt_name(bench.goods, card.thickness))

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """One a bracket, into the panel."""
        for name, walls in _by_card(bench.spec).items():
            card, wall = bench.goods.panel_brackets[name], bench.goods.wall.thickness
            count = sum(len(found) for each in walls for _, found in _of_wall(bench, each))
            usual = _usual(bench, card)
            yield Driven(
                SCREW, chosen(card.screw, usual), count, card.thickness, wall, f"{name}, panel",
                ("hardware", name, "screw"), usual=usual, shows=True,
            )  # fmt: skip

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """All of them, on the squared frame."""
        if not fixed_walls(bench.spec):
            return
        yield FillStep(
            KEY, "Panel brackets", (), "from outside",
            (
                "Measure the diagonals again: the brackets hold the frame as it is now.",
                "Bolt each bracket to its slot nut, with its step against the bar. Leave the bolt loose.",
                "Drill the pilot holes no deeper than the panel.",
                "Screw each bracket to its panel.",
                "Then tighten the bolts.",
            ),
            ("Each bracket is flat on its bar and on its panel.",),
        )  # fmt: skip

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """The brackets of each wall."""
        yield from (("hardware", how.bracket) for _, how in fixed_walls(bench.spec))


def screw_of(bench: Solved, wall: str) -> WoodScrew:
    """The wood screw of a fixed wall's brackets."""
    how = fixing(bench.spec, wall) or PanelFixing()
    card = bench.goods.panel_brackets[how.bracket]
    return chosen(card.screw, _usual(bench, card))


def _usual(bench: Solved, card: PanelBracket) -> WoodScrew:
    return fitting(stock("4", bench.spec.units), card.thickness, bench.goods.wall.thickness)


def _by_card(spec: Spec) -> Mapping[str, tuple[str, ...]]:
    """The walls of each bracket that the spec names."""
    found: dict[str, tuple[str, ...]] = {}
    for wall, how in fixed_walls(spec):
        found[how.bracket] = (*found.get(how.bracket, ()), wall)
    return found


def by_panel(bench: Solved) -> Iterator[tuple[Part, tuple[Bolted, ...]]]:
    """Every panel of a fixed wall with its brackets."""
    for wall, _ in fixed_walls(bench.spec):
        yield from _of_wall(bench, wall)


def _of_wall(bench: Solved, wall: str) -> Iterator[tuple[Part, tuple[Bolted, ...]]]:
    how = fixing(bench.spec, wall)
    assert how is not None
    card = bench.goods.panel_brackets[how.bracket]
    for panel in bench.of(WALLS[wall]):
        places = (place for edge in panel.tongues for place in _along(panel, edge, card, how.spacing))
        found = (_bracket(bench, wall, panel, card, number, *place) for number, place in enumerate(places, 1))
        yield panel, tuple(each for each in found if each is not None)


def opening(panel: Part) -> Mapping[str, Span]:
    """The clear opening of a panel along its two axes (mm)."""
    spans = {}
    for axis in (panel.along, panel.across):
        low, high = (panel.tongues.get(face, Fraction(0)) for face in FACES[axis])
        span = panel.box.span(axis)
        spans[axis] = Span(span.low + low, span.high - high)
    return spans


def _along(panel: Part, edge: str, card: PanelBracket, spacing: Fraction) -> Iterator[tuple[str, Fraction]]:
    """Places along an edge. Two panels share a post: those of its one side are higher than those of the other."""
    axis, end = face_axis(edge)
    run = panel.across if axis == panel.along else panel.along
    span = opening(panel)[run]
    margin = card.leg + card.width / 2 + AT_CORNER
    low, high = span.low + margin, span.high - margin
    if run == "z":
        aside = card.width + BESIDE
        low, high = (low + aside, high) if end else (low, high - aside)
    if high - low < card.width + BESIDE:
        yield edge, (low + high) / 2
        return
    count = ceil((high - low) / spacing) + 1
    yield from ((edge, low + (high - low) * n / (count - 1)) for n in range(count))


def _bracket(
    bench: Solved, wall: str, panel: Part, card: PanelBracket, number: int, edge: str, at: Fraction
) -> Bolted | None:
    """The bracket at a place of an edge; None where no bar is, as beside leg room."""
    axis, end = face_axis(edge)
    run = panel.across if axis == panel.along else panel.along
    normal = "x" if panel.along == "y" else "y"
    face = _face(bench, panel, normal)
    inner = opening(panel)[axis].high if end else opening(panel)[axis].low
    sign = 1 if end else -1
    middle = {axis: inner + sign, run: at, normal: panel.box.span(normal).middle}
    bar = next(
        (
            bar
            for bar in bench.parts
            if bar.is_bar and all(_within(bar, each, mid) for each, mid in middle.items())
        ),
        None,
    )
    if bar is None or bar.along != run:
        return None
    at = clear_place(bar, face, at, max(card.width / 2, HALF_NUT))
    out = 1 if face_axis(face)[1] else -1
    surface, back = _surface(bar, normal, out), _surface(panel, normal, out)
    wide, thick = (at - card.width / 2, at + card.width / 2), card.thickness
    built = Builder(bench, "panel brackets", thick)
    built.plate(
        **{axis: (inner, inner + sign * card.leg), run: wide, normal: (surface, surface + out * thick)}
    )
    built.plate(**{axis: (inner - sign * thick, inner), run: wide, normal: (back, surface + out * thick)})
    foot = (inner - sign * thick, inner - sign * card.leg)
    built.plate(**{axis: foot, run: wide, normal: (back, back + out * thick)})
    built.bolt(bar, face, at)
    name = f"{wall} bracket {panel.mark}.{number}"
    return built.built(name, name, _OUT[face])


def _face(bench: Solved, panel: Part, normal: str) -> str:
    """The side of the bench that a panel looks out of."""
    if normal == "y":
        return "rear"
    return "left" if panel.box.x.middle < bench.layout.length / 2 else "right"


def _within(bar: Part, axis: str, place: Fraction) -> bool:
    return bar.box.span(axis).low < place < bar.box.span(axis).high


def _surface(part: Part, axis: str, out: int) -> Fraction:
    span = part.box.span(axis)
    return span.high if out > 0 else span.low
