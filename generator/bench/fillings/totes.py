"""Totes that hang by their rims on two runners, one above another with the lift that takes them out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.acts import HANG, THEN, Act
from generator.bench.box_body import block_about
from generator.bench.driven import Path
from generator.bench.fillings.covers import aside_of, cover_of
from generator.bench.fillings.facts import (
    BAY,
    Clearance,
    Effect,
    FillingPicture,
    FillStep,
    Load,
    Off,
    Opening,
    Placed,
    Seen,
    Solved,
    StackSlot,
    StickMark,
    Thing,
    ToMeasure,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.fillings.tote_laws import LAWS, tote_verdicts
from generator.bench.fillings.tote_runners import (
    PlacedTote,
    default_runner_gap,
    runner_material,
    runner_parts,
)
from generator.bench.fillings.walls import PLAY, from_face
from generator.bench.frames.panels import panel_rules
from generator.bench.law import Verdict
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators import totes as tote_rules
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.fit_verdicts import LAID_IN
from generator.codes import Code
from generator.findings import Finding, Severity
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.fillings import StackItem
from generator.spec.goods import ToteCard
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: What is common in moulded boxes (mm). Common practice, no source.
RIM = constant(1, "how far a tote's rim may be off")


#: What its step says.
HUNG = (
    "Hang each tote by its rim on its two runners.",
    "Push it to both sides: the rim must stay on the runners.",
)


class ToteFilling(FillingKind[PlacedTote]):
    """As many of one card as an item says."""

    kind, one, placed, goes_in = "totes", "tote", PlacedTote, 3
    terms = (
        TermWords("runner", "A strip on a wall. The rim of a tote slides on it.", ("runners",)),
        TermWords(
            "tote", "A box with a rim and no lid. It hangs on two runners.", ("totes",), ("storage bin",)
        ),
    )
    laws = LAWS
    fixed = (("a runner is shorter than its zone by", 2 * PLAY),)
    strips: ClassVar = {Role.TOTE_RUNNER: ("totes",)}

    def wanted(self, spec: Spec, item: StackItem) -> Fraction:
        """In a mixed stack each tote needs its lift, the uppermost too."""
        card = _card(spec, item)
        return item.count * (card.height + card.lift)

    def alone(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        bay: BayPlace,
        items: Sequence[StackItem],
        faults: list[Finding],
    ) -> list[StackSlot]:
        """They float in the middle of the opening."""
        spec, bottom, opening = loaded.spec, layout.levels.base_top, layout.levels.opening
        cards = [_card(spec, item) for item in items for _ in range(item.count)]
        needed = sum((card.height for card in cards), Fraction(0))
        needed += sum((card.lift for card in cards[:-1]), Fraction(0))
        if needed > opening:
            message = (
                f"the {len(cards)} totes of bay {bay.name} need {loaded.say(needed)}, {loaded.say(needed - opening)} "
                f"more than the opening of {loaded.say(opening)}"
            )
            where = loaded.where("zones", bay.zone, "bays", bay.index, "stack")
            faults.append(
                Finding(
                    Code.STACK_SUM, Severity.ERROR, message, where, advice="Use fewer totes, or lower ones."
                )
            )
        slots, at = [], bottom + (opening - needed) / 2
        for item in items:
            card = _card(spec, item)
            height = tote_rules.stack_height(card.height, card.lift, item.count)
            slots.append(StackSlot(item, at, height))
            at += height + card.lift
        return slots

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[PlacedTote]:
        """Each on the one below, with its lift between them."""
        offset = panel_rules(loaded).fit.offset
        number, cover = 0, cover_of(loaded, bay)
        width = bay.clear if cover is None else bay.clear - cover.sides
        for slot in slots:
            card = _card(loaded.spec, slot.item)
            gap = card.runner_gap or default_runner_gap(card.rim_width, card.body_width)
            for i in range(slot.item.count):
                number += 1
                bottom = slot.bottom + i * (card.height + card.lift)
                yield PlacedTote(
                    bay.name,
                    number,
                    str(slot.item.totes),
                    bottom,
                    bottom + card.height,
                    bottom + card.height - card.rim_height,
                    tote_rules.runner_width(width, offset, gap),
                    cover,
                )

    def parts(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedTote],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """A runner on each wall."""
        for tote in placed:
            yield from runner_parts(loaded, zone, bay, tote)

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """A tote's body up to its rim, and the rim that lies on the runners."""
        for tote in bench.storage.of(PlacedTote):
            zone, bay = bay_of(bench.layout, tote.bay)
            card = bench.spec.totes[tote.kind]
            front = tote.cover.depth if tote.cover else Fraction(0)
            y = from_face(bench.layout, zone, front, front + card.length)
            slabs = (
                (card.body_width, Span(tote.bottom, tote.runner_top)),
                (card.rim_width, Span(tote.runner_top, tote.top)),
            )
            middle = bay.x.middle + aside_of(tote.cover)
            blocks = tuple(
                block_about(Box(Span(middle - wide / 2, middle + wide / 2), y, z)) for wide, z in slabs
            )
            yield Body(tote.name, tote.name, "tote", blocks)

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """Its cards."""
        return {"tote": ("totes",)}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Each onto its runners, last of all."""
        for tote in bench.storage.of(PlacedTote):
            out, after = ways.out(tote.bay), ways.walls_of(tote.bay)
            yield Motion(
                tote.name, "totes", (ways.bodies[tote.name],), out=(out,), after=after, called=tote.called
            )

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """By their rims."""
        if bench.storage.of(PlacedTote):
            yield FillStep(
                "totes",
                "Totes",
                (),
                "from the open face",
                HUNG,
                acts=(Act(HANG, THEN, " ".join(HUNG)),),
            )

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """Its card."""
        for tote in bench.storage.of(PlacedTote):
            yield "totes", tote.kind

    def assumed(self, bench: Solved) -> Iterator[tuple[str, Fraction, str]]:
        """The gap of its runners."""
        hung = {tote.kind for tote in bench.storage.of(PlacedTote)}
        for name, card in bench.spec.totes.items():
            if card.runner_gap is None and name in hung:
                reason = "middle of the range that carries the rim and lets the body through"
                yield f"totes.{name}.runner_gap", default_runner_gap(card.rim_width, card.body_width), reason

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """From its floor to its rim."""
        for each in bench.storage.of(PlacedTote):
            yield Opening(each.bay, f"tote {each.number}", each.top - each.bottom, each.bottom, each.top)

    def to_measure(self, bench: Solved) -> Iterator[ToMeasure]:
        """Rim, body and height of each card."""
        for name in dict.fromkeys(tote.kind for tote in bench.storage.of(PlacedTote)):
            card, path = bench.spec.totes[name], f"totes.{name}"
            of = f"Tote {name}"
            yield ToMeasure(f"{of}: rim width", f"{of}, over the rim", f"{path}.rim_width", card.rim_width)
            yield ToMeasure(f"{of}: body under the rim", f"{of}, body", f"{path}.body_width", card.body_width)
            yield ToMeasure(f"{of}: height", f"{of}, height", f"{path}.height", card.height)

    def effects(self, bench: Solved) -> Iterator[Effect]:
        """The whole card."""
        if bench.storage.of(PlacedTote):
            changes = "runner widths and heights, the width and height a bay needs"
            yield Effect("Tote", "totes", changes)

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """Both runners, and the tote hanging by its rim between them."""
        spec, offset = bench.spec, panel_rules(bench.loaded).fit.offset
        for tote in bench.storage.of(PlacedTote):
            runner, rim = tote.runner_width - offset, tote.runner_top
            gap = bay_of(bench.layout, tote.bay)[1].clear - 2 * runner
            thick, n = bench.goods.strips[runner_material(spec, tote.kind)].thickness, tote.number
            yield FillingPicture(
                tote.bay,
                f"Tote {n}",
                (
                    Seen(runner, Span(rim - thick, rim), "fill-wood", walls=True),
                    Seen(gap - 6, Span(tote.bottom, rim), "fill-tote", tapers=True),
                    Seen(gap + runner, Span(rim, tote.top), "fill-tote"),
                ),
                ((tote.bottom, f"tote {n} bottom"), (rim, f"runner {n} top"), (tote.top, f"tote {n} top")),
                f"Tote {n}: from {{}} to {{}}, runner top at {{}}.",
                (tote.bottom, tote.top, rim),
                room=1,
            )

    def things(self, bench: Solved) -> Iterator[Thing]:
        """The body between its runners, and its rim on them; it projects from its zone."""
        offset = panel_rules(bench.loaded).fit.offset
        for tote in bench.storage.of(PlacedTote):
            zone, bay = bay_of(bench.layout, tote.bay)
            shown, rim = tote.runner_width - offset, tote.runner_top
            to_rear = zone.opens == "rear"
            near, far = zone.y.low + (2 if to_rear else -20), zone.y.high + (20 if to_rear else -2)
            for inset, z in ((shown + 3, Span(tote.bottom, rim)), (shown / 2, Span(rim, tote.top))):
                aside = aside_of(tote.cover)
                low, high = (
                    (bay.x.low + inset + aside, near, z.low),
                    (bay.x.high - inset + aside, far, z.high),
                )
                yield Thing(low, high, "fill-tote")

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """Its runners."""
        for tote in bench.storage.of(PlacedTote):
            at = tote.runner_top - bench.layout.levels.base_top
            yield StickMark(tote.bay, at, f"runner {tote.number} top")

    def payload(self, bench: Solved) -> Fraction | int:
        """As their cards say."""
        return sum(bench.spec.totes[tote.kind].load for tote in bench.storage.of(PlacedTote))

    def loads(self, bench: Solved) -> Iterator[Load]:
        """In the middle of each."""
        for tote in bench.storage.of(PlacedTote):
            zone, bay = bay_of(bench.layout, tote.bay)
            x, y, z = bay.x.middle, zone.y.middle, (tote.bottom + tote.top) / 2
            yield Load(bench.spec.totes[tote.kind].load, (x, y, z))

    def hanging(self, bench: Solved) -> Iterator[str]:
        """Each has two runners under its rim."""
        for tote in bench.storage.of(PlacedTote):
            own = (part for part in bench.of(Role.TOTE_RUNNER) if replace(part.place, wall="") == tote.place)
            if len([part for part in own if part.box.z.high == tote.runner_top]) < 2:
                yield tote.name

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Rims on their runners, totes in their bays."""
        return tote_verdicts(bench)

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """Each card in its narrowest bay."""
        totes = bench.storage.of(PlacedTote)
        for kind in dict.fromkeys(tote.kind for tote in totes):
            bays = dict.fromkeys(tote.bay for tote in totes if tote.kind == kind)
            narrowest = min((bay_of(bench.layout, name)[1] for name in bays), key=lambda bay: bay.width)
            card = bench.spec.totes[kind]
            yield Clearance(
                "tote between the posts",
                f"{kind}, bay {narrowest.name}",
                narrowest.width - card.rim_width,
                (Off("bay, width", narrowest.width, BAY), Off("tote, rim", card.rim_width, RIM)),
                LAID_IN,
                "Put one tote in before you screw the second runner down.",
            )


def _card(spec: Spec, item: StackItem) -> ToteCard:
    return spec.totes[str(item.totes)]
