"""The steps in which parts are coated: before the first joint, when the late parts are cut, and at the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.finish import Coated
from generator.bench.model import Bench
from generator.figures.rows.assembly import Step
from generator.figures.steps.words import FILL, PREPARE, step

FIRST = "before assembly"
#: A bare stripe would show where a panel has shrunk.
WHOLE = "Coat panels of solid wood to their edges: in a dry season you see more of them."


def early_finish(bench: Bench) -> Iterator[Step]:
    """Parts that are cut before the frame, and coated before it."""
    own = [each for each in bench.coats if each.coat.when == FIRST and not each.late]
    yield from _step(PREPARE, "finish", "Finish the parts", own)


def late_finish(bench: Bench) -> Iterator[Step]:
    """Parts that are cut when the frame stands."""
    own = [each for each in bench.coats if each.coat.when == FIRST and each.late]
    yield from _step(FILL, "late-finish", "Finish the parts that are cut now", own)


def last_finish(bench: Bench) -> Iterator[Step]:
    """What is coated on the finished bench."""
    own = [each for each in bench.coats if each.coat.when != FIRST]
    yield from _step(FILL, "last-finish", "Finish the assembled bench", own)


def _step(stage: str, key: str, title: str, own: Sequence[Coated]) -> Iterator[Step]:
    if not own:
        return
    parts = tuple(part for each in own for part in each.parts)
    masks = dict.fromkeys(mask for each in own for mask in each.masks)
    first = () if key == "last-finish" else ("Put the parts together dry first, to see that they fit.",)
    yield step(
        stage, key, title, parts, "",
        (
            *first,
            "Sand all faces and break the edges.",
            "Take off the dust.",
            *((f"Mask {', '.join(masks)}.",) if masks else ()),
            *((WHOLE,) if any(part.floating for part in parts) else ()),
            *(line for each in own for line in _lines(each)),
        ),
        ("The last coat is dry.", *(("Measure a tongue again: finish makes it thicker.",) if key == "finish" else ())),
        ("finish", "dust"),
    )  # fmt: skip


def _lines(each: Coated) -> Iterator[str]:
    """What goes on one key's parts, and how long it takes."""
    coat = each.coat
    times = "one coat" if coat.coats == 1 else f"{coat.coats} coats"
    same = ", the same on both faces" if each.both_faces else ""
    yield f"Coat the {each.key} with {coat.coat}: {times}{same}."
    if coat.coats > 1:
        yield f"Let each coat dry for {_hours(coat.dry)}, and sand lightly before the next."
        yield f"All coats take {_hours(coat.dry * coat.coats)} to dry."
    else:
        yield f"Let it dry for {_hours(coat.dry)}."


def _hours(hours: Fraction) -> str:
    return f"{round(float(hours), 1):g} h"
