"""In which order bolt, washer, bracket or plate, bar and nut come together, for the windows of a step picture."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from generator.bench.fillings.screw_rules import FIXED_IN_BAY, HALVES
from generator.drawings.dimensions import Ruler
from generator.drawings.joint_views import JointView
from generator.drawings.stack import Stack, StackPiece
from generator.drawings.step_screws import PlacedScrew
from generator.figures.model import Figures
from generator.figures.rows.assembly import Fixing, Step

#: The half of what hangs in a bay, and that on the wall.
HUNG_HALF, WALL_HALF = HALVES
#: Where what moves that way comes from.
FROM: Mapping[str, str] = {"+y": " from the front", "-y": " from the rear"}
#: What is bought to go below the head of a bolt.
WASHER = "washer"


def with_stacks(figures: Figures, step: Step, views: Sequence[JointView], ruler: Ruler) -> list[JointView]:
    """Each view of what a bolt holds with its pieces pulled apart; others, such as two boards, need no order."""
    teller = _Teller(figures, step, ruler)
    return [replace(view, stacks=tuple(teller.stacks(view))) for view in views]


class _Teller:
    """Says of the screws of a step what each holds."""

    def __init__(self, figures: Figures, step: Step, ruler: Ruler) -> None:
        self.figures, self.step, self.ruler = figures, step, ruler
        self.rows = {mark: row for row in figures.parts for mark in row.marks}
        self.names = {row.name for row in figures.parts}
        self.kinds = {row.item: row.kind if row.has_card else row.item for row in figures.hardware}
        self.brackets = {body.name: body for body in figures.assembly.brackets}
        self.halves = {body.name for body in figures.assembly.solids if body.kind == FIXED_IN_BAY}
        self.plates = {bolt.plate for bolt in figures.stand.facts.bolts}

    def stacks(self, view: JointView) -> Iterator[Stack]:
        """One for each screw of a view; none where all are wood screws through boards."""
        for number, one in enumerate(view.driven):
            outer = one.joins[0] if one.joins else ""
            if outer in self.halves and len(one.joins) > 1:
                yield from self._on_halves(one, outer)
            elif outer in self.brackets:
                angle = self.brackets[outer]
                top = next((motion.called for motion in self.step.motions), "the top")
                yield self._at_bracket(one, angle.owner if number == 0 else top, "bracket")
            elif outer in self.plates and len(one.joins) > 1:
                yield self._at_plate(one)
            elif outer in self.plates:
                yield self._carried(one)
            elif one.bolt and len(one.joins) > 1:
                yield self._at_bracket(one, one.joins[1], "bracket")

    def _at_bracket(self, one: PlacedScrew, inner: str, picture: str) -> Stack:
        goods = [each for each in self.step.fixings if not each.tool and each.item != WASHER]
        units = next((each.count for each in goods), len(self.brackets))
        name = self._name(goods[0]) if goods else picture
        pieces = [self._driver(one, units), *self._washer(one), StackPiece(picture, name)]
        return self._stack([*pieces, *self._held(inner, one)], units)

    def _on_halves(self, one: PlacedScrew, outer: str) -> Iterator[Stack]:
        """Which half a screw holds, and how the half of what hangs there goes into that of the wall."""
        placed = {mark: motion for motion in self.step.motions for mark in motion.marks}
        hung = outer not in placed
        units = sum(shape.kind == FIXED_IN_BAY for shape in self.figures.assembly.shapes)
        if not hung:
            pieces = [
                self._driver(one, units),
                StackPiece("plate", WALL_HALF),
                StackPiece("wood", one.joins[1]),
            ]
            yield self._stack(pieces, units)
            return
        way = next((motion.way for mark, motion in placed.items() if mark == one.joins[1]), "")
        words = f"put the {HUNG_HALF} into the {WALL_HALF}{FROM.get(way, '')} and push it to its stop"
        yield Stack((StackPiece("rail", words),), "how it is hung")

    def _at_plate(self, one: PlacedScrew) -> Stack:
        plate, member = one.joins
        row = self.rows.get(plate)
        hole = (
            next((each.size for each in row.operations if each.op == "through hole"), None) if row else None
        )
        size = (
            f", hole {self.ruler.diameter(hole)}" if hole is not None and not isinstance(hole, tuple) else ""
        )
        pieces = [
            self._driver(one, len(self.plates)),
            *self._washer(one),
            StackPiece("plate", f"{plate}{size}"),
        ]
        return self._stack([*pieces, *self._held(member, one)], len(self.plates), "first the plate")

    def _carried(self, one: PlacedScrew) -> Stack:
        """What is screwed into a tapped plate: by its flange, or by its own thread."""
        (plate,) = one.joins
        plates = sum(mark in self.plates for motion in self.step.motions for mark in motion.marks)
        thread = one.sold.partition(" ")[0]
        goods = [each for each in self.step.fixings if not each.tool and each.count == plates]
        # the plates have part sheets, what they carry has none
        carried = [each for each in goods if self._name(each) not in self.names]
        own_thread = one.fixing.count == plates
        pieces = [StackPiece("pad" if own_thread else "bolt", self._count(one, plates))]
        if not own_thread and carried:
            pieces.append(StackPiece("carried", f"1 × {self._name(carried[0])}"))
        pieces.append(StackPiece("tapped", f"{plate}, tapped {thread}"))
        held = carried[0] if carried else one.fixing
        return self._stack(pieces, plates, f"then the {self._name(held)}")

    def _held(self, inner: str, one: PlacedScrew) -> Iterator[StackPiece]:
        """What it goes into: the slot of a bar with a nut in it, or wood."""
        row = self.rows.get(inner)
        if row and row.is_bar and row.metal and one.bolt:
            yield StackPiece("slot", f"slot of {inner}")
            yield StackPiece("nut", f"slot nut {one.sold.partition(' ')[0]}, in the slot")
        else:
            yield StackPiece("wood", inner)

    def _washer(self, one: PlacedScrew) -> Iterator[StackPiece]:
        count = next((each.count for each in self.step.fixings if each.item == WASHER), 0)
        if one.bolt and count == one.fixing.count:
            yield StackPiece("washer", f"1 × {WASHER}")

    def _driver(self, one: PlacedScrew, units: int) -> StackPiece:
        return StackPiece("bolt" if one.bolt else "screw", self._count(one, units))

    def _count(self, one: PlacedScrew, units: int) -> str:
        each = one.fixing.count // units if units and one.fixing.count % units == 0 else 0
        return f"{f'{each} × ' if each else ''}{self._name(one.fixing)} {one.sold}".rstrip()

    def _name(self, fixing: Fixing) -> str:
        return self.kinds.get(fixing.item) or fixing.item

    @staticmethod
    def _stack(pieces: Sequence[StackPiece], units: int, when: str = "") -> Stack:
        order = f"in order, one of {units}" if units > 1 else "in order"
        return Stack(tuple(pieces), f"{order}: {when}" if when else order)
