"""Brackets in the corners of the frame, under its top rails: they fill no bay, and keep posts and rails square."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar

from generator.bench.driven import Path
from generator.bench.fillings.bolted import NUT_KEY, Bolted, BoltWay, Builder, bolt_name, bolt_ways, window
from generator.bench.fillings.facts import FillingGoods, FillStep, Need, SlotBolt, Solved
from generator.bench.fillings.kind import Ways
from generator.bench.fillings.outside import OutsideBays
from generator.bench.law import GOODS, Law, Verdict, at_least, at_most
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction
from generator.calculators.fasteners import BoltWindow
from generator.codes import Code
from generator.geometry import FACES
from generator.spec.bracing import CornerBracket
from generator.spec.schema import Spec

KEY, GUSSET, BOLT = "gussets", "corner bracket", "corner bracket bolt"
PATH = ("frame", "gussets")
#: The space above a bracket's foot in which a hand fits it (mm). Common practice, no source.
HAND = Fraction(20)

ROOM = Law(
    Code.GUSSET_ROOM, "error", "The corner brackets have their height between tray and rail",
    "The corner brackets are too high for the space between tray and rail",
    "Use a bracket with shorter legs, or lower the tray's end rails.",
    "The bracket does not go in.",
    "its legs are what you can buy, and the tray shares its height with the drawers below",
    quantity="space between the tray and the top rail",
)  # fmt: skip
WIDTH = Law(
    Code.GUSSET_WIDTH, "error", "The corner brackets are no wider than the bar",
    "The corner brackets are wider than the bar", "Use a narrower bracket.",
    "Its edges are in the way of hands and drawers.",
    GOODS,
    quantity="width of the bracket",
)  # fmt: skip
LAWS = (ROOM, WIDTH)


class GussetFilling(OutsideBays):
    """Angles in the corners that the spec names."""

    kind, goes_in = GUSSET, -2
    laws = LAWS
    terms = (
        TermWords(
            "corner bracket",
            "A metal angle in a corner of the frame, one leg on each bar. It keeps the corner square.",
            ("corner brackets", "gusset", "gussets"),
        ),
    )
    bought = (
        FillingGoods(GUSSET, KEY, mass="0.25"),
        FillingGoods(BOLT, KEY, NUT_KEY, mass="0.013"),
    )
    step_names: ClassVar = {KEY: "corner brackets"}

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Each with the heads of its bolts."""
        yield from (each.body for each in gussets(bench))

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """The bracket that the spec names."""
        return {"gusset": ("hardware", spec.frame.gussets.bracket)}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Each from the outside under its rail."""
        for each in gussets(bench):
            yield Motion(each.body.name, KEY, (ways.bodies[each.body.name],), out=(each.out,))

    def slot_bolts(self, bench: Solved) -> Iterator[SlotBolt]:
        """Those of both legs."""
        yield from (bolt for each in gussets(bench) for bolt in each.bolts)

    def bolt_ways(self, bench: Solved) -> Iterator[BoltWay]:
        """A key comes from the middle of the corner."""
        yield from bolt_ways(gussets(bench), PATH)

    def bolt_windows(self, bench: Solved) -> Iterator[tuple[str, BoltWindow, Path]]:
        """The bolts through a leg."""
        if bench.spec.frame.gussets.at:
            path = ("hardware", bench.spec.frame.gussets.bracket, "thickness")
            yield BOLT, window(bench.goods, _card(bench).thickness), path

    def needs(self, bench: Solved) -> Iterator[Need]:
        """Brackets with their bolts."""
        found = gussets(bench)
        if not found:
            return
        card, rules = _card(bench), bench.spec.frame.gussets
        yield Need(
            GUSSET,
            rules.bracket,
            len(found),
            ", ".join(rules.at),
            "legs {}",
            (card.leg, card.leg, card.width),
        )
        bolts, name = sum(len(each.bolts) for each in found), bolt_name(bench.goods, card.thickness)
        yield Need(BOLT, BOLT, bolts, "corner brackets to slot nuts, with washers; cap screws", name)

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """All of them, on the squared frame."""
        if not bench.spec.frame.gussets.at:
            return
        yield FillStep(
            KEY, "Corner brackets", (), "from outside",
            (
                "Measure the diagonals again: the brackets hold the frame as it is now.",
                "Slide the nuts to their corners.",
                "Push each bracket into its corner: one leg on the post, the other under the rail.",
                "Tighten the bolts in the post first, then those in the rail.",
            ),
            ("Both legs are flat on their bars.",),
        )  # fmt: skip

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """The bracket, where a corner has one."""
        if bench.spec.frame.gussets.at:
            yield "hardware", bench.spec.frame.gussets.bracket

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Its height and width."""
        if not bench.spec.frame.gussets.at:
            return
        card, levels = _card(bench), bench.layout.levels
        space = levels.frame_height - bench.layout.section - levels.tray_top
        name = bench.spec.frame.gussets.bracket
        yield at_least(ROOM, space, card.leg + HAND, name, PATH)
        yield at_most(WIDTH, card.width, bench.layout.section, name, ("hardware", name, "width"))


def _card(bench: Solved) -> CornerBracket:
    return bench.goods.gussets[bench.spec.frame.gussets.bracket]


def gussets(bench: Solved) -> tuple[Bolted, ...]:
    """Every bracket, corner by corner; one on the side towards the middle at an inner post."""
    at = bench.spec.frame.gussets.at
    corners = [
        *(_at_rails(bench, Role.CORNER_POST) if "long corners" in at else ()),
        *(_at_rails(bench, Role.INNER_POST, Role.KNEE_POST) if "inner posts" in at else ()),
        *(_at_end_members(bench) if "end corners" in at else ()),
    ]
    return tuple(_gusset(bench, f"gusset {n}", *each) for n, each in enumerate(corners, 1))


def _at_rails(bench: Solved, *roles: Role) -> Iterator[tuple[Part, Part, Direction]]:
    for rail in bench.of(Role.LONG_RAIL, level="top"):
        out: Direction = "-y" if rail.place.side == "front" else "+y"
        posts = (post for post in bench.of(*roles) if _meets(post, rail, "y"))
        yield from ((rail, post, out) for post in posts)


def _at_end_members(bench: Solved) -> Iterator[tuple[Part, Part, Direction]]:
    for member in bench.of(Role.TOP_END_MEMBER):
        out: Direction = "-x" if member.place.end == "left" else "+x"
        posts = (post for post in bench.of(Role.CORNER_POST) if _meets(post, member, "x"))
        yield from ((member, post, out) for post in posts)


def _meets(post: Part, rail: Part, across: str) -> bool:
    """Whether a post is in the line of a rail, and reaches up to it."""
    return post.box.span(across) == rail.box.span(across) and post.box.z.high >= rail.box.z.low


def _gusset(bench: Solved, name: str, rail: Part, post: Part, out: Direction) -> Bolted:
    card, axis = _card(bench), rail.along
    across = "y" if axis == "x" else "x"
    span, under = post.box.span(axis), rail.box.z.low
    whole = bench.layout.length if axis == "x" else bench.layout.depth
    sign = 1 if span.middle < whole / 2 else -1
    face = span.high if sign > 0 else span.low
    middle = post.box.span(across).middle
    wide = (middle - card.width / 2, middle + card.width / 2)
    built = Builder(bench, "corner brackets", card.thickness)
    inner, outer = face + sign * card.thickness, face + sign * card.leg
    built.plate(**{axis: (face, inner), across: wide, "z": (under - card.leg, under)})
    built.plate(**{axis: (inner, outer), across: wide, "z": (under - card.thickness, under)})
    for hole in card.holes:
        built.bolt(post, FACES[axis][1 if sign > 0 else 0], under - hole)
        built.bolt(rail, "bottom", face + sign * hole)
    return built.built(name, name, out)
