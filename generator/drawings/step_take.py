"""The line below a step picture that says what bought things to take for it, and how many."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence

from generator.bench.fillings.screw_rules import FIXED_IN_BAY
from generator.calculators.fasteners import THREADS
from generator.calculators.wood_screws import SHANKS
from generator.drawings.joint_views import FIRST_END, LAST_END, RUNS, TURNS, JointView
from generator.drawings.step_motions import DrawnMotion
from generator.drawings.step_screws import as_sold, size_of
from generator.figures.model import Figures
from generator.figures.rows.assembly import Fixing, Step

#: What goes into the slots of bars, in the hardware list; the key of the step that only loads it.
NUT, NUTS = "slot nut", "nuts"


def taken(
    figures: Figures,
    step: Step,
    moving: Sequence[DrawnMotion],
    joints: Collection[JointView],
    *,
    of_several: bool,
) -> Iterator[str]:
    """What is bought for the step, with how many and, where no window says it, of what size; or for one `of_several`.

    Of screws that the step has for a later one too, only those that the windows show. A joint that is cut is nothing to
    take. Clips are taken in the step
    that puts them into their bars, and in no later one.
    """
    # what the spec has no card for is called on the step's card by its item alone
    kinds = {row.item: row.kind if row.has_card else row.item for row in figures.hardware}
    shown = _shown(joints)
    counts = _clips(figures, step)
    clips = {shape.mark for shape in figures.assembly.shapes if shape.is_small}
    for each in step.fixings:
        counts[each.item] += shown[each.item] or max(0, each.count - len(clips & set(each.joints)))
    sides = sum(shape.kind == FIXED_IN_BAY for move in moving for shape in move.shapes)
    sizes = {
        each.item: _size(figures, each, joints) for each in step.fixings if each.tool and not shown[each.item]
    }
    items = [
        f"{count} pairs of {kinds.get(item) or item}s"
        if 2 * count == sides and kinds.get(item) == FIXED_IN_BAY
        else f"{count} × {kinds.get(item) or item}{sizes.get(item, '')}"
        for item, count in counts.items()
        if count and item in kinds
    ]
    if said := ", ".join((*items, *_nuts(figures, step, moving))):
        yield f"Take for one: {said}." if of_several else f"Take {said}."


def nuts_in(figures: Figures, bar: str) -> Mapping[str, int]:
    """How many nuts go into the slots of a bar as it is joined, by the slot's face; those of its plates are in it."""
    found: Counter[str] = Counter()
    if all(bolt.member != bar for bolt in figures.stand.facts.bolts):
        for each in (nuts for step in figures.assembly.steps for nuts in step.nuts):
            if each.bar == bar:
                found[each.face] += each.count
    return found


def spaces_in(figures: Figures, bar: str) -> str:
    """`2 in each of 4 spaces` of the nuts of a bar whose slot cross-members part; nothing where it has one space."""
    own = [nuts.count for step in figures.assembly.steps for nuts in step.nuts if nuts.bar == bar]
    return f"{own[0]} in each of {len(own)} spaces" if len(own) > 1 and len(set(own)) == 1 else ""


def _shown(joints: Collection[JointView]) -> Counter[str]:
    """How many of what windows show, of each item."""
    found: Counter[str] = Counter()
    for driven in {joint.kind: joint.driven for joint in joints}.values():
        for screw in driven:
            found[screw.fixing.item] += screw.fixing.count
    return found


def _clips(figures: Figures, step: Step) -> Counter[str]:
    """Clips in the ends of what moves, but for what was put together before and has a name of its own."""
    new = {mark for motion in step.motions if motion.name in motion.marks for mark in motion.marks}
    fixings = (each for other in figures.assembly.steps for each in other.fixings)
    found: Counter[str] = Counter()
    for each in fixings:
        found[each.item] += len(new & set(each.joints))
    return found


def ends_with_clips(figures: Figures, step: Step, joints: Collection[JointView]) -> Iterator[str]:
    """`Clips: both ends of C4, C5; lower end of D4.` of those that come with their bars.

    Where no window shows one, how far it is turned in and which way its long side goes too.
    """
    marks = {mark for motion in step.motions if motion.name in motion.marks for mark in motion.marks}
    alone = {motion.name for motion in step.motions}
    bodies = {body.name: body for body in figures.assembly.solids}
    ends: dict[str, set[int]] = {}
    ways: dict[str, None] = {}
    for shape in figures.assembly.shapes:
        clip = bodies.get(shape.mark)
        bar = bodies.get(clip.owner) if clip and shape.is_small else None
        if clip and bar and bar.name in marks and shape.mark in marks - alone:
            axis = max(range(3), key=lambda i: bar.bounds[i + 3] - bar.bounds[i])
            far = clip.centre[axis] > (bar.bounds[axis] + bar.bounds[axis + 3]) / 2
            ends.setdefault(bar.name, set()).add(axis + 3 if far else axis)
            across = (i for i in range(3) if i != axis)
            ways[RUNS[max(across, key=lambda i: clip.bounds[i + 3] - clip.bounds[i])]] = None
    alike: dict[str, list[str]] = {}
    for name, own in ends.items():
        where = "both ends" if len(own) == 2 else f"{(*FIRST_END, *LAST_END)[next(iter(own))]} end"
        alike.setdefault(where, []).append(name)
    if alike:
        said = "; ".join(f"{where} of {', '.join(own)}" for where, own in alike.items())
        rest = f", {TURNS} each, the long side {' or '.join(ways)}"
        shown = any(joint.alone and joint.on[0] in ends for joint in joints)
        yield f"Clips: {said}{'' if shown else rest}."


def _size(figures: Figures, fixing: Fixing, joints: Collection[JointView]) -> str:
    """` M8 × 16 (hexagon key 6 mm)` of a screw that no window shows, the tool where windows show others."""
    screws = {body.name for body in figures.assembly.screws}
    sold = size_of(figures, fixing.item)[2] if set(fixing.joints) <= screws else ""
    if sizes := {as_sold(use.shank, use.length) for use in fixing.uses}:
        # of an item in several sizes this step may take one
        sold = sizes.pop() if len(sizes) == 1 else sold
    if sold.partition(" ")[0] not in THREADS.keys() | SHANKS.keys():
        # a diameter alone is no size that a shop knows
        sold = ""
    own = any(joint.driven for joint in joints) and not fixing.joints
    return (f" {sold}" if sold else "") + (f" ({fixing.tool})" if own else "")


def _nuts(figures: Figures, step: Step, moving: Sequence[DrawnMotion]) -> Iterator[str]:
    """The nuts of all bars that labels give nuts to, with their thread."""
    if step.key == NUTS:
        marks = {move.motion.name for move in moving}
        count = sum(bolt.member in marks for bolt in figures.stand.facts.bolts)
    else:
        count = sum(sum(nuts_in(figures, move.motion.called).values()) for move in moving)
    size = next((row.size for row in figures.hardware if row.kind == NUT), "")
    if count:
        yield f"{count} × {NUT} {size.partition(',')[0]}".rstrip()
