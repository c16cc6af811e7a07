"""Power and dust: socket strips and hose ports that are let into boards. They fill no bay."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar

from generator.bench.box_body import block_about
from generator.bench.driven import Driven, Path, chosen
from generator.bench.fillings.facts import FillingGoods, FillStep, Need, Solved
from generator.bench.fillings.kind import Ways
from generator.bench.fillings.outside import OutsideBays
from generator.bench.law import WORK, Law, Verdict
from generator.bench.services import RIM, LetIn, let_in
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.wood_screws import fitting, stock
from generator.codes import Code
from generator.geometry import AXES
from generator.spec.schema import Spec

KEY, MAINS_KEY = "services", "mains"
STRIP, PORT, SCREW = "socket strip", "hose port", "rim screw"
#: The longest screw in a rim (mm). Common practice, no source.
MOST_SCREW = Fraction(16)

MAINS = Law(
    Code.MAINS, "warning", "No mains is on this bench", "Mains is on this bench",
    "Let a licensed electrician connect the sockets and bond a metal frame to protective earth. The rules of your "
    "country come first.",
    "A worn cable can put mains on the whole frame.", WORK, caution=MAINS_KEY,
)  # fmt: skip
ROOM = Law(
    Code.SERVICE_ROOM, "error", "Sockets and hose ports have their space at the board",
    "Something is in the way of a socket strip or hose port", "Move it, or use one that is less deep.",
    "It does not go in, or it pinches its cable or hose.", "where else it may be is a choice of the maker",
)  # fmt: skip


class ServiceFilling(OutsideBays):
    """What the spec lets into boards for power and dust."""

    kind, goes_in = KEY, 5
    laws = (MAINS, ROOM)
    terms = (
        TermWords("socket strip", "Several sockets in one frame, let into a board.", ("socket strips",)),
        TermWords("hose port", "A ring in a board through which a dust hose passes.", ("hose ports",)),
    )
    cautions: ClassVar = {
        MAINS_KEY: (
            "danger",
            "Mains on a metal frame",
            "A licensed electrician connects the sockets and bonds the frame to protective earth. Local codes come "
            "first. Until then nothing is plugged in.",
        )
    }
    bought = (
        FillingGoods(STRIP, KEY, "screwdriver", mass="0.6"),
        FillingGoods(PORT, KEY, "screwdriver", mass="0.15"),
        FillingGoods(SCREW, KEY, "screwdriver", use="socket strips and hose ports to boards", screw=True),
    )
    step_names: ClassVar = {KEY: "sockets and hose ports"}

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Their rims: what is behind them is in a cut-out of the board."""
        for name, each in _named(bench):
            yield Body(name, name, each.card.kind, (block_about(each.rim),))

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """Where the spec asks for them."""
        return {"socket": ("services",), "hose": ("services",)}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Each onto the face of its board."""
        for name, each in _named(bench):
            yield Motion(name, KEY, (ways.bodies[name],), out=(each.out,), after=(each.board.mark,))

    def needs(self, bench: Solved) -> Iterator[Need]:
        """One for each board that a key names."""
        found: dict[str, list[LetIn]] = {}
        for each in _all(bench):
            found.setdefault(each.item, []).append(each)
        for item, own in found.items():
            text, sizes = own[0].card.says
            where = ", ".join(each.board.mark for each in own)
            yield Need(own[0].card.kind, item, len(own), f"in {where}", text, sizes)

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """Those of the rims."""
        for each in _all(bench):
            into = each.board.thickness
            usual = fitting(stock("3.5", bench.spec.units), RIM, into, MOST_SCREW)
            yield Driven(
                SCREW, chosen(each.card.screw, usual), each.card.screws, RIM, into, each.name,
                ("hardware", each.item, "screw"), usual=usual, told=each.name,
            )  # fmt: skip

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Rims, cables and hoses; then the electrician."""
        found = list(_all(bench))
        if not found:
            return
        strips = " and ".join(f"the {each.name}" for each in found if each.card.mains)
        mains = bool(strips)
        yield FillStep(
            KEY, "Sockets and hose ports" if mains else "Hose ports", (), "from outside",
            (
                *(f"Put the {each.name} into its cut-out and screw its rim on." for each in found),
                "Lead cables and hoses clear of drawers, doors and hinges, and tie them to the frame.",
                *(
                    (
                        "Stop here: a licensed electrician connects the sockets.",
                        "A metal frame is bonded to protective earth and tested.",
                    )
                    if mains
                    else ()
                ),
            ),
            (
                "No drawer or door touches a cable or hose.",
                *((f"The electrician has tested {strips} and the earth, and has signed.",) if mains else ()),
            ),
            (MAINS_KEY,) if mains else (),
        )  # fmt: skip

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """Its goods."""
        yield from (("hardware", each.item) for each in bench.spec.services)

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Mains, and the room behind each."""
        for each in _all(bench):
            inside = [
                part.mark
                for part in bench.parts
                if part.mark != each.board.mark
                and (part.box.overlaps(each.behind) or part.box.overlaps(each.rim))
            ]
            thin = next(axis for axis in AXES if axis not in (each.board.along, each.board.across))
            reach = {"x": bench.layout.length, "y": bench.layout.depth, "z": bench.layout.height}[thin]
            if each.card.depth >= reach:
                inside.append("the other side of the bench")
            where = f"{each.name}, {inside[0]}" if inside else each.name
            yield Verdict(ROOM, not inside, where, (*each.path, "at"))
        strips = [each for each in _all(bench) if each.card.mains]
        if strips:
            yield Verdict(MAINS, False, ", ".join(each.name for each in strips), (*strips[0].path, "item"))


def _all(bench: Solved) -> Iterator[LetIn]:
    return let_in(bench.loaded, bench.parts)


def _named(bench: Solved) -> Iterator[tuple[str, LetIn]]:
    """Each with a name as a body."""
    for number, each in enumerate(_all(bench), 1):
        yield f"{each.card.kind} {number}", each
