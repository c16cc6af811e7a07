"""The steps that fill and finish the closed bench: slides, drawers, shelves, totes, top board, tests."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings.on_slides import OnSlides
from generator.bench.frames import frame_kind
from generator.bench.role import Role
from generator.figures.rows.assembly import PlaceRow, Step
from generator.figures.solid_top import is_solid
from generator.figures.steps.edge_bands import late_bands
from generator.figures.steps.finishing import last_finish, late_finish
from generator.figures.steps.words import FILL, StepWriter, step

#: How a top that moves across its grain is held.
SOLID = (
    "Use brackets with slotted holes, which run across the grain of the top.",
    "Set each screw in the middle of its slotted hole, with a washer, and only just tight.",
)


class FillingSteps(StepWriter):
    """The words of the steps from the slides to the label."""

    def _bracket_lines(self) -> Iterator[str]:
        where = (
            "in each space between the top bars" if self.spec.top.bracket is None else "at each place below"
        )
        yield f"Put one bracket {where}."
        if frame_kind(self.spec).in_nuts:
            yield "Bolt it to the nut in the bar's inner slot."
        else:
            yield "Screw it to the inner face of the timber."
        yield "Then screw it up into the top."

    def _brackets(self) -> tuple[PlaceRow, ...]:
        """Where the top's brackets go, bar by bar."""
        found: dict[tuple[str, str], list[Fraction]] = {}
        by_mark = {part.mark: part for part in self.bench.parts}
        for each in self.bench.brackets:
            bar = by_mark[each.bar]
            along = each.at[0 if bar.along == "x" else 1] - bar.box.span(bar.along).low
            found.setdefault((bar.mark, each.face), []).append(along)
        return tuple(PlaceRow("top bracket", bar, face, tuple(at)) for (bar, face), at in found.items())

    def _boards(self) -> Iterator[str]:
        """How boards and layers become one top."""
        top = self.spec.top
        if len(top.boards) > 1 and top.joint == "glued":
            yield "Glue the boards edge to edge on a flat surface."
        if top.layers > 1:
            staggered = ", with their joints staggered" if len(top.boards) > 1 else ""
            yield f"Glue the {top.layers} layers face to face on a flat surface{staggered}."
            yield "Clamp them all round until the glue is dry."
        if len(top.boards) > 1 and top.joint == "dry":
            yield "Lay the boards with a gap between them, and give each its own brackets."

    def _opened(self) -> Iterator[str]:
        """What of the load test a picture cannot show."""
        if self.bench.storage.of(OnSlides):
            yield "Open what pulls out one by one, the heaviest first."
        yield "Write the limits on a label."

    def _let_in(self) -> Iterator[str]:
        """What is cut, glued and bolted before the top is sealed. A slot goes through the edging, so it comes after."""
        made = [each for each in self.bench.features if each.operations]
        edging = self.spec.top.edging is not None
        first = [each.name for each in made if not (edging and each.along)]
        last = [each.name for each in made if edging and each.along]
        if first:
            yield "Cut what is let into the top first, by its set-up cards: " + ", ".join(first) + "."
        if edging:
            if any(part.mitres for part in self.pick(Role.TOP_EDGING)):
                yield "Lay all strips around the board dry, with their mitres. Begin with the longest."
            yield "Glue the edging to the board, a little proud of both faces."
            yield "Plane it flush when the glue is dry."
        if last:
            yield "Rout the slots through board and edging: " + ", ".join(last) + "."
        for each in self.bench.features:
            if not each.operations:
                yield f"Glue and screw a block of hard wood below the top for the {each.name}."
                yield "Notch the block round the bar."
                yield f"Bolt the {each.name} to the block, its rear jaw flush with the edge of the top."

    def all(self) -> Iterator[Step]:
        """Steps in the usual order."""
        yield from late_bands(self.bench)
        yield from late_finish(self.bench)
        yield from self.fillings(FILL, early=False)
        yield step(
            FILL,
            "top",
            "Top board",
            self.pick(Role.TOP, Role.TOP_EDGING),
            "down",
            (
                *self._boards(),
                *(
                    ("Drill the dog holes first, from a template.", "Break their edges.")
                    if self.spec.top.holes
                    else ()
                ),
                *self._let_in(),
                *(() if self.spec.finish.top else ("Seal both faces of the top.",)),
                *(
                    SOLID
                    if is_solid(self.bench)
                    else ("Use brackets with oversize holes, so that the top can move.",)
                ),
                *self._bracket_lines(),
            ),
            cautions=("lift", "drill", "dust", "finish"),
            places=self._brackets(),
        )
        yield from last_finish(self.bench)
        shown = tuple(self._opened())
        yield step(
            FILL,
            "load",
            "Load test, tip test, label",
            (),
            "",
            (
                "Load the bench in steps.",
                *shown,
                "Enter the finished bench in the build record.",
            ),
            (
                "Nothing moves under the load, and nothing lifts off the floor. "
                "If something does, take the load off and write a lower limit on the label.",
            ),
            cautions=("tip",),
            shown=shown,
        )
        yield from self.fillings(FILL, early=False, last=True)
