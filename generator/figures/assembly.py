"""The assembly in steps: the words of the trade in the order that was proved, with what the proof knows of each."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from generator.bench.assembly_proof import causes, describe
from generator.bench.frames import frame_kind
from generator.bench.frames.facts import StepSays
from generator.bench.model import Bench
from generator.bench.piece import MEMBERS
from generator.bench.place import ENDS
from generator.bench.steps import step_name
from generator.calculators.costs import PLACED, TIGHTENED, time_for
from generator.figures.access_report import AccessReport
from generator.figures.mass import moving_masses
from generator.figures.rows.assembly import Assembly, Diagonal, MotionRow, Square, Step
from generator.figures.rows.hardware import HardwareRow
from generator.figures.rows.parts import PartRow
from generator.figures.steps.closing import ClosingSteps
from generator.figures.steps.facts import Run, StepFacts, runs, tools
from generator.figures.steps.filling import FillingSteps
from generator.figures.steps.frame import FrameSteps
from generator.figures.steps.shapes import brackets, shapes

_WORDS = {
    "+x": "to the right",
    "-x": "to the left",
    "+y": "to the rear",
    "-y": "to the front",
    "+z": "up",
    "-z": "down",
}
#: A step that places nothing and that waits for the last of these, whatever order was proved.
WAITS_FOR = {
    "base-square": ("cross", "rails", "posts", "knee-posts"),
    "square": ("rails", "posts", "close-left", "close-right", "lid"),
}
#: A step that squares what it places together with these squares it in the last of them.
SQUARED_WITH = {
    f"{end}-{key}": tuple(f"{end}-{other}" for other in ("ring", "posts", "top"))
    for end in ENDS
    for key in ("posts", "top")
}
#: Told with the word for it only up to this many ways; a step with more says it in its notes.
MOST_WAYS = 2
#: What is in hand in a step that places nothing.
IN_HAND = {
    "bars": ("saw", "drill"),
    "boards": ("saw", "router"),
    "base-square": ("tape measure",),
    "square": ("tape measure",),
    "level": ("spirit level",),
}
#: The steps in which parts are cut.
CUTTING = ("bars", "boards")
#: A step of which a frame says nothing of its own.
NO_WORDS = StepSays()


def assembly(
    bench: Bench,
    squares: tuple[Diagonal, ...],
    rows: Sequence[PartRow],
    goods: Sequence[HardwareRow],
    whole: AccessReport,
) -> Assembly:
    """Steps in the proved order, numbered from 1. Marks are those of the pieces that each step adds."""
    diagonals = {square.name: square.value for square in squares}
    tellers = (FrameSteps, ClosingSteps, FillingSteps)
    described = list(
        _in_own_words(bench, [step for each in tellers for step in each(bench, diagonals).all()])
    )
    facts = StepFacts(bench, whole, moving_masses(bench, rows, goods), goods)
    proof = whole.done.proof
    steps = tuple(
        replace(step, n=number)
        for number, step in enumerate(_in_order(described, runs(proof.ways), facts), 1)
    )
    steps = tuple(_with_drills(steps, rows))
    blocked = tuple(describe(each) for each in causes(proof))
    shown = shapes(bench, whole.done.bodies)
    marks = {shape.mark for shape in shown}
    solids = tuple(body for body in whole.done.bodies if body.name in marks)
    screws = tuple(body for body in whole.done.bodies if body.name in whole.keys and body.name not in marks)
    nuts = tuple(nut.body for nut, _ in whole.nuts)
    held = tuple(brackets(bench))
    return Assembly(
        proof.ok, steps, blocked, shown, solids, screws, nuts, held, by_hand(steps), bench.spec.loads.top
    )


def by_hand(steps: Sequence[Step]) -> float:
    """Minutes in which one person puts all pieces in their places and tightens all fasteners."""
    placed = sum(len(step.parts) for step in steps)
    tightened = sum(fixing.count for step in steps for fixing in step.fixings)
    return time_for(count=placed, each=PLACED) + time_for(count=tightened, each=TIGHTENED)


def _in_own_words(bench: Bench, described: Sequence[Step]) -> Iterator[Step]:
    """The steps as the frame says them; without those that it does not have."""
    own, measured = frame_kind(bench.spec).says(bench), {step.key: step.squares for step in described}
    for step in described:
        says = own.get(step.key, NO_WORDS)
        if says is not None:
            notes = step.notes if says.notes is None else says.notes
            yield replace(
                step,
                title=step.title if says.title is None else says.title,
                direction=step.direction if says.direction is None else says.direction,
                notes=notes,
                hold=step.hold if says.hold is None else says.hold,
                cautions=step.cautions if says.cautions is None else says.cautions,
                squares=(*step.squares, *measured.get(says.squared_as, ())),
                shown=step.shown if says.notes is None else _kept(step.shown, says.notes),
                acts=tuple(act for act in step.acts if act.said_in(notes)),
            )


def _with_drills(steps: Sequence[Step], rows: Sequence[PartRow]) -> Iterator[Step]:
    """Steps with a tap for each thread that they cut; pieces of metal that no step cuts are drilled where they come."""
    by_mark = {mark: row for row in rows for mark in row.marks}
    cut = {mark for step in steps if step.key in CUTTING for mark in step.parts}
    for step in steps:
        placed = dict.fromkeys(mark for motion in step.motions for mark in motion.marks)
        marks = step.parts if step.key in CUTTING else [mark for mark in placed if mark not in cut]
        own = [by_mark[mark] for mark in marks if mark in by_mark and by_mark[mark].metal]
        acts = [each for row in own for each in row.operations]
        drill = ("drill",) if acts and step.key not in CUTTING else ()
        taps = (f"tap {each.thread}" for each in acts if each.thread)
        yield replace(step, tools=tuple(dict.fromkeys((*step.tools, *drill, *taps))))


def _kept(shown: Sequence[str], notes: Collection[str]) -> tuple[str, ...]:
    """Of what is written below a picture what a frame's own words say too."""
    return tuple(line for line in shown if line in notes)


def _in_order(described: Sequence[Step], proved: Sequence[Run], facts: StepFacts) -> list[Step]:
    """The steps as proved. Steps that place nothing stay behind the one that they follow in the description."""
    motion = {run.key for run in proved}
    latest = {run.key: index for index, run in enumerate(proved)}
    words = {step.key: step for step in described}
    following: dict[str, list[Step]] = {}
    last = ""
    for step in described:
        if step.key in motion:
            last = step.key
        else:
            fixings = facts.fixings(Run(step.key, ()))
            waits = [key for key in WAITS_FOR.get(step.key, ()) if key in motion]
            host = max(waits, key=latest.__getitem__, default=last)
            own = (*IN_HAND.get(step.key, ()), *tools(fixings))
            following.setdefault(host, []).append(replace(step, fixings=fixings, tools=own))
    steps = list(following.get("", []))
    times: dict[str, int] = {}
    counts = {key: sum(run.key == key for run in proved) for key in motion}
    squares = _squares(described, latest)
    told = {mark for step in described if step.key in motion for mark in step.parts}
    for index, run in enumerate(proved):
        times[run.key] = times.get(run.key, 0) + 1
        step = _step(words, run, facts, times[run.key], counts[run.key])
        step = replace(step, parts=(*step.parts, *_untold(step, told, facts)), squares=squares.get(index, ()))
        if step.squares:
            step = replace(step, tools=(*step.tools, *IN_HAND["square"]))
        # what no words are kept for belongs to the stage in which it comes
        steps.append(step if step.stage or not steps else replace(step, stage=steps[-1].stage))
        if times[run.key] == counts[run.key]:
            steps += [_after(each, run, facts, steps) for each in following.get(run.key, [])]
    return steps


def _untold(step: Step, told: Collection[str], facts: StepFacts) -> Iterator[str]:
    """Members that a step places and that no step lists: those of a step that the frame does not have."""
    members = {body.name for body in facts.whole.done.bodies if body.kind in MEMBERS}
    names = (each.name for each in step.motions if each.name in members)
    return (name for name in names if name not in told and name not in step.parts)


def _after(step: Step, run: Run, facts: StepFacts, before: Sequence[Step]) -> Step:
    """A step that places nothing, with what stands there; what is squared is tightened by the keys used so far."""
    screws = {key.screw for each in before for key in each.keys}
    fixings = (fixing for each in before for fixing in each.fixings if step.squares)
    keys = (fixing.tool for fixing in fixings if screws & set(fixing.joints))
    own = tuple(dict.fromkeys((*step.tools, *keys)))
    return replace(step, standing=facts.there_after(run), tools=own)


def _squares(described: Sequence[Step], latest: Mapping[str, int]) -> dict[int, tuple[Square, ...]]:
    """What is squared in the runs that place something: only when all of its bars are there."""
    found: dict[int, tuple[Square, ...]] = {}
    for step in described:
        if step.squares and step.key in latest:
            last = max(latest[key] for key in SQUARED_WITH.get(step.key, (step.key,)) if key in latest)
            found[last] = (*found.get(last, ()), *step.squares)
    return found


def _again(title: str, motions: Sequence[MotionRow], facts: StepFacts) -> str:
    """The title of a step that goes on later: by the kind of parts that it adds where that is another one."""
    groups = {facts.groups[mark] for motion in motions for mark in motion.marks if mark in facts.groups}
    where, of, _ = title.rpartition(": ")
    other = groups.pop() if len(groups) == 1 else title
    return f"{where}: {other}" if of and other not in title else f"{title}, continued"


def _step(words: Mapping[str, Step], run: Run, facts: StepFacts, time: int, times: int) -> Step:
    motions = facts.motions(run)
    step = words.get(run.key) or Step(0, _sentence(step_name(run.key)), (), "", (), key=run.key)
    if times > 1 or run.key not in words:
        marks = tuple(dict.fromkeys(motion.name for motion in motions))
        step = replace(step, parts=marks, direction="")
    if time > 1:
        # named by what they place, not by a position, so that a tick stays with its step
        step = replace(step, key=f"{run.key}-{time}", title=_again(step.title, motions, facts), places=())
    fixings, holds = facts.fixings(run, first=time == 1), tuple(facts.holds(run))
    return replace(
        step,
        notes=(*step.notes, *holds),
        shown=(*step.shown, *holds),
        cautions=facts.cautions(run, step.cautions),
        direction=step.direction or _direction(motions),
        fixings=fixings,
        tools=tools(fixings),
        persons=facts.persons(run),
        kg=facts.heaviest(run),
        standing_kg=facts.lifted(run),
        keys=facts.keys(run),
        nuts=facts.nuts(run),
        final=facts.final(run),
        motions=motions,
        assembly=facts.assembly(run),
        standing=facts.standing(run),
    )


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _direction(motions: Sequence[MotionRow]) -> str:
    ways = dict.fromkeys(_WORDS[motion.way] for motion in motions if motion.way)
    return " or ".join(ways) if len(ways) <= MOST_WAYS else ""
