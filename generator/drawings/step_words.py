"""What is written below a step picture: what is made alike, how the work lies, what it is seen from, and the tools."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from generator.bench.fillings.screw_rules import FIXED_IN_BAY
from generator.drawings.dimensions import Ruler
from generator.drawings.eye import Eye
from generator.drawings.joint_views import JointView
from generator.drawings.mark_runs import by_number, runs
from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion
from generator.drawings.step_places import STRIP, common_setback, faces_placed, far_text, hangs_in_bay
from generator.drawings.step_take import NUTS, ends_with_clips, taken
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step
from generator.units.format import format_mm, next_finer

#: What a part of metal is cut with where it is fitted.
MACHINING = ("drill", "tap ")
#: What begins a check.
CHECK = "Check:"
#: Which face of a wall is up when an axis of the bench points up.
UPWARD: Mapping[str, str] = {"+x": "right", "-x": "left", "+y": "rear", "-y": "front"}


def words_below(
    figures: Figures,
    step: Step,
    view: Eye,
    standing: Collection[Shape],
    moving: Sequence[DrawnMotion],
    joints: Collection[JointView],
    ruler: Ruler,
    *,
    on_blocks: bool,
    of_several: bool,
) -> str:
    """The sentences below a picture, but for what is made like it: what to take has a line of its own."""
    placed = {mark for motion in step.motions for mark in motion.marks}
    found = [*_laid(moving, ruler)] if on_blocks and not standing else []
    # of what is cut all of the bench is shown, with what lies which way
    found += [] if "saw" in step.tools and not standing else [_seen(step, view, on_blocks)]
    if not step.tools and (step.motions or step.key == NUTS):
        found.append("By hand.")
    shown = [words for joint in joints if joint.key or joint.driven for words in joint.words]
    drills = [tool for tool in step.tools if tool.startswith(MACHINING) and "saw" not in step.tools]
    if drills:
        cut = [row for row in figures.parts for each in row.operations if each.thread]
        marks = dict.fromkeys(mark for row in cut for mark in row.marks if mark in placed)
        found.append(f"First {' and '.join(drills)}: {runs(sorted(marks, key=by_number))}.")
    tools = [tool for tool in step.tools if tool not in drills and not any(tool in words for words in shown)]
    if tools:
        found.append(f"With: {', '.join(tools)}.")
    if "saw" in step.tools:
        found += [*_tapped(figures, step), "All places are on the part sheets."]
    found += [*faces_placed(figures, moving, ruler), *_measured(figures, moving, standing, ruler)]
    said = " ".join(sentence for sentence in found if sentence)
    first = (
        *taken(figures, step, moving, joints, of_several=of_several),
        *ends_with_clips(figures, step, joints),
    )
    lines = [" ".join(first), said, " ".join(step.shown), *_checks(step, ruler)]
    return "\n".join(line for line in lines if line)


def _tapped(figures: Figures, step: Step) -> Iterator[str]:
    """Which of the parts that are cut get a thread in their ends; the others where these are fewer."""
    found: dict[str, list[str]] = {}
    for row in figures.parts:
        own = [mark for mark in row.marks if mark in step.parts]
        for thread in dict.fromkeys(each.thread for each in row.operations if each.thread):
            found.setdefault(thread, []).extend(own)
    for thread, marks in found.items():
        rest = [mark for mark in step.parts if mark not in marks]
        if marks:
            which = f"all but {runs(rest)}" if len(rest) < len(marks) else runs(marks)
            yield f"Tap {thread}: ends of {which if rest else 'all'}."


def with_note(words: str, note: str) -> str:
    """The sentences with what is said of the unit: before what is checked."""
    lines = words.split("\n")
    checks = next((n for n, line in enumerate(lines) if line.startswith(CHECK)), len(lines))
    before = " ".join(filter(None, (lines[checks - 1] if checks else "", note)))
    return "\n".join((*lines[: max(checks - 1, 0)], before, *lines[checks:])).strip()


def _checks(step: Step, ruler: Ruler) -> Iterator[str]:
    """What must be so before the next step, and what to do when it is not."""
    yield from (f"{CHECK} {hold}" for hold in step.hold)
    for square in step.squares:
        value = ruler.text(Fraction(str(round(square.value, 3))))
        within = ruler.either(format_mm(square.tolerance), next_finer(square.tolerance))
        yield (
            f"{CHECK} both diagonals ({square.name}) are {value} and agree within {within}. "
            "If not, press the frame together along the longer one."
        )


def _measured(
    figures: Figures, moving: Sequence[DrawnMotion], standing: Collection[Shape], ruler: Ruler
) -> Iterator[str]:
    """From where the distances are that are said of pieces without a mark of their own."""
    kinds = {move.shapes[0].kind for move in moving if any(move.offset) and len(move.shapes) == 1}
    if any(not move.lines and hangs_in_bay(move, standing) for move in moving):
        yield "Heights are from the top of the base rail to the lowest edge."
    if STRIP in kinds:
        walls = {shape.mark for shape in (*standing, *(s for move in moving for s in move.shapes))}
        rows = [row for row in figures.parts if row.tongues and walls & set(row.marks)]
        # an edge as thick as its groove has no tongue to see
        cut = any(row.rabbet_depth for row in rows)
        hidden = ", tongues included" if cut else ", with what goes into the grooves" if rows else ""
        yield f"Distances are from the wall's edges as cut{hidden}."
    if FIXED_IN_BAY in kinds:
        yield "Heights are from the top of the base rail to the lower edge."
        yield f"The lowest spacer block rests on the rail, each other one on the {FIXED_IN_BAY} below it."
        if common := common_setback(figures, moving):
            yield f"All front ends are {far_text(common[0], ruler)} behind the bench's face."


def _laid(moving: Sequence[DrawnMotion], ruler: Ruler) -> Iterator[str]:
    """Two bars that are only laid down: how far apart, where nothing between them says it."""
    if len(moving) != 2 or any(value for move in moving for value in move.offset):
        return
    first, second = (bounds([block for shape in move.shapes for block in shape.whole]) for move in moving)
    gap = max(max(second[i] - first[i + 3], first[i] - second[i + 3]) for i in range(3))
    names = " and ".join(move.motion.called for move in moving)
    if gap > 0:
        yield f"Lay {names} on blocks, {ruler.text(Fraction(round(gap, 3)))} apart inside."


def _seen(step: Step, view: Eye, on_blocks: bool) -> str:
    if step.lies and on_blocks:
        return "Seen from above. The frame is flat on blocks, its outer face down."
    if step.lies:
        how = f"{step.standing[0]} is turned over" if step.standing else "The wall is laid flat"
        return f"Seen from above. {how}: its {UPWARD[step.lies]} face is up."
    if view.below:
        blocks = " The bench stays on its blocks." if step.standing_kg else ""
        return f"Seen from below, from the {view.name}.{blocks}"
    return f"Seen from the {view.name}."


def description(step: Step, moving: Sequence[DrawnMotion]) -> str:
    """What a picture shows, for a reader who cannot see it."""
    names = ", ".join(move.motion.name for move in moving)
    where = f" in the {step.assembly}" if step.assembly else ""
    direction = f" {step.direction[0].upper()}{step.direction[1:]}." if step.direction else ""
    return f"Added{where}: {names}.{direction}"
