"""The joints that a step picture may look into: where, across what, what is said of them, and the screws in them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings.screw_rules import FIXED_IN_BAY
from generator.calculators.bodies import Body
from generator.drawings.dimensions import Ruler
from generator.drawings.mark_runs import runs
from generator.drawings.stack import Stack
from generator.drawings.step_bolts import into_slots
from generator.drawings.step_counts import spread_words
from generator.drawings.step_motions import BRACKET
from generator.drawings.step_placed import placed, pocket_faces
from generator.drawings.step_screws import (
    HEAD,
    PlacedScrew,
    from_plates,
    in_brackets,
    into_plates,
    through_contact,
)
from generator.figures.model import Figures
from generator.figures.rows.assembly import KeyPlace, PlaceRow, Step
from generator.figures.tray_screws import FROM_ABOVE

#: The radius of a window (mm of paper).
RADIUS = 15.0
#: How much of the slot's bar a window shows about a tongue and about a screw, as part of the bar's width.
ABOUT_TONGUE, ABOUT_SCREW = 0.35, 0.75
#: What a window shows beyond a screw's head (mm).
ABOUT_HEAD = 2.0
#: A tongue enters a slot when the board is at least so deep within the outline of the bar (mm), and no deeper.
SHALLOWEST, DEEPEST = 2.0, 18.0
#: Which way a face of a bar looks.
LOOKS = {
    "left": (0, -1),
    "right": (0, 1),
    "front": (1, -1),
    "rear": (1, 1),
    "bottom": (2, -1),
    "top": (2, 1),
}

#: What the body of what a plate carries is called, before the plate's mark.
STAND = "below "
#: With more kinds of screws and clips there is no room to show a tongue too.
MOST_KINDS = 3
#: Beside so many windows there is none into a clip that comes in the end of its bar.
MOST_BESIDE_CLIPS = 2
#: What begins the line that says where a window is.
HERE = "here "
#: Other pieces with like screws that a window names.
MOST_NAMED = 5
#: The ends of a bar by its axis: places along it are measured from the first.
FIRST_END, LAST_END = ("left", "front", "lower"), ("right", "rear", "upper")
#: How far a clip goes into its bar's end.
TURNS = "three turns"
RUNS = ("from left to right", "from front to rear", "from bottom to top")


@dataclass(frozen=True)
class JointView:
    """A joint to look into: its middle in the bench (mm), the axis across which it is cut, what it shows in words."""

    middle: tuple[float, ...]
    axis: int
    reach: float
    words: tuple[str, ...]
    key: KeyPlace | None = None
    screw: Body | None = None
    driven: tuple[PlacedScrew, ...] = ()
    on: tuple[str, ...] = ()
    """What it is in, by name: a ring is about what shows of that."""
    way: tuple[float, ...] = (0.0, 0.0, 0.0)
    """Which way a screw goes in, where its ring is about its head."""
    kind: str = ""
    """Joints of one kind look alike: one window is for all."""
    turned: tuple[float, ...] = ()
    """From the middle to the outer end (mm) of what is turned in by hand."""
    alone: tuple[str, ...] = ()
    """The only bodies that it shows; empty for all."""
    stacks: tuple[Stack, ...] = ()
    """What its screws hold, pulled apart."""
    marked: bool = False
    """Whether the picture marks each of its kind: then one has a ring."""


@dataclass(frozen=True)
class CutOpen:
    """The bodies that a window may show, which of them are new, and which are small things in the ends of bars."""

    bodies: Mapping[str, Body]
    new: frozenset[str]
    small: frozenset[str]


def opened_by(figures: Figures, step: Step, standing: Collection[str], moving: Collection[str]) -> CutOpen:
    """What stands and what moves, with the screws of the step's joints, the nuts, and the brackets of a top."""
    marks = {*standing, *moving}
    screws = {place.screw for place in step.keys}
    own = (body for body in figures.assembly.solids if body.name in marks)
    top = figures.assembly.brackets if any(place.item == BRACKET for place in step.places) else ()
    hidden = (body for body in figures.assembly.screws if body.name in screws)
    small = frozenset(shape.mark for shape in figures.assembly.shapes if shape.is_small)
    below = (each for each in figures.stand.facts.pictures if each.on in marks)
    stands = (Body(f"{STAND}{each.on}", each.on, "plate", tuple(each.blocks)) for each in below)
    bodies = {body.name: body for body in (*own, *hidden, *figures.assembly.nuts, *top, *stands)}
    return CutOpen(bodies, frozenset({*moving, *(body.name for body in top)} - small), small)


def joint_views(figures: Figures, step: Step, shown: CutOpen, ruler: Ruler) -> list[JointView]:
    """The joints of a step that its picture may look into: those that a tool tightens, else tongues that go in."""
    if len({motion.into for motion in step.motions}) > 1:
        return []
    moves = {mark: n for n, motion in enumerate(step.motions) for mark in motion.marks}
    driven = list(_driven(figures, step, shown, ruler))
    found = [*_screws(figures, shown.bodies, step, ruler), *_told(figures, driven, shown.bodies, ruler)]
    found += _clips(shown, step, few=len({joint.kind for joint in found}) < MOST_BESIDE_CLIPS)
    if len({joint.kind for joint in found}) < MOST_KINDS and not any(joint.driven for joint in found):
        found += _tongues(shown.bodies, moves)
    return found


def _driven(figures: Figures, step: Step, shown: CutOpen, ruler: Ruler) -> Iterator[JointView]:
    """Screws and bolts that no joint of the frame has: placed ones, and those through what only touches."""
    bodies = shown.bodies
    known = list(placed(figures, step, bodies))
    for one, axis, where in known:
        view = _driven_view((one,), axis, where)
        places = _listed(figures, step, one, ruler)
        faces = (pocket_faces(step),) if one.pocket else ()
        yield replace(view, words=(*view.words[:-1], places, *faces, f"{HERE}{where}")) if places else view
    plates = [*from_plates(figures, step, bodies), *into_plates(figures, step, bodies)]
    for one, axis, where in plates:
        view, into = _driven_view((one,), axis, where), _members_of(figures, one)
        yield replace(view, words=(*view.words[:-1], into, where)) if into else view
    known += plates
    for angle, drives, axis in in_brackets(figures, step, bodies):
        yield _driven_view(drives, axis, f"bracket on {angle.owner}")
    taken = {one.fixing.item for one, _, _ in known}
    if step.keys or any(place.item == BRACKET for place in step.places):
        return
    for one, axis, where in into_slots(figures, step, bodies):
        yield _driven_view((one,), axis, where)
    left = [each for each in step.fixings if "screwdriver" in each.tool and each.item not in taken]
    moved = [bodies[mark] for motion in step.motions for mark in motion.marks if mark in bodies]
    there = [bodies[mark] for mark in step.standing if mark in bodies]
    for one, axis, where in through_contact(figures, left, moved, there):
        view = _driven_view((one,), axis, where)
        # of what runs in two halves both are shown
        runs_in = any(bodies[name].kind == FIXED_IN_BAY for name in one.joins)
        yield replace(view, reach=max(view.reach, 2 * RADIUS)) if runs_in else view


def _members_of(figures: Figures, one: PlacedScrew) -> str:
    """`CP1: 2 into B1, 2 into C7` of a bolt through a plate; nothing where all of a plate's go into one member."""
    plate, *members = one.joins
    own = Counter(bolt.member for bolt in figures.stand.facts.bolts if bolt.plate == plate)
    if not members or len(own) < 2:
        return ""
    return f"{plate}: {', '.join(f'{count} into {member}' for member, count in own.items())}"


def _listed(figures: Figures, step: Step, one: PlacedScrew, ruler: Ruler) -> str:
    """`FD1, FD3: 143.5, 347; BD1: 70, 230 from front end` of screws whose places the step lists."""
    (part,) = one.joins
    item = next(row.item for row in step.places if row.part == part)
    along: dict[str, list[PlaceRow]] = {}
    for row in step.places:
        if row.item == item:
            along.setdefault(", ".join(map(ruler.text, row.at)), []).append(row)
    if item == "hole":
        below = [row.part for row in step.places if row.item == FROM_ABOVE]
        places = "; ".join(
            f"{at} from {', '.join(dict.fromkeys(row.part for row in own))}'s front edge, "
            f"{', '.join(ruler.text(row.across) for row in own if row.across)} from the left edge"
            for at, own in along.items()
        )
        return f"{places}, into {', '.join(below)}"
    several = len(along) > 1
    of = {at: ", ".join(row.part for row in own) for at, own in along.items()}
    places = "; ".join(f"{marks}: {at}" if several else at for at, marks in of.items())
    edge = "each wall's" if several else f"{next(iter(of.values()))}'s"
    return f"{places} from {edge} front edge"


def _told(
    figures: Figures, views: Sequence[JointView], bodies: Mapping[str, Body], ruler: Ruler
) -> Iterator[JointView]:
    """Each says where it is and how its like are spread, and at which other pieces one of its kind is too."""
    for view in views:
        own = {each.on[0] for each in views if each.kind == view.kind}
        spread = spread_words(figures, view.driven[0].fixing.item, own, ruler)
        if spread and len(view.driven) == 1:
            view = replace(view, words=(*view.words[:-1], spread, view.words[-1]))
        others = dict.fromkeys(each.on[0] for each in views if each.kind == view.kind and each.on != view.on)
        others.pop(view.on[0], None)
        view = _shared(view, [each for each in views if each.kind == view.kind], bodies)
        view = replace(view, words=tuple(word for word in view.words if word))
        if others and not view.words[-1].startswith(HERE):
            *words, where = view.words
            # marks are short; of many, or of bought things with long names, how many says enough
            named = len(others) <= MOST_NAMED and not any(" " in name for name in others)
            rest = runs(list(others)) if named else f"{len(others)} more"
            view = replace(view, words=(*words, f"{HERE}{where}; the same at {rest}"))
        yield view


def _shared(view: JointView, alike: Sequence[JointView], bodies: Mapping[str, Body]) -> JointView:
    """How many of its screws are in each piece, where that is the same for all.

    It is known where every screw has its place, or where all pieces are of one size: a longer one takes more screws.
    """
    count, by_piece = view.driven[0].fixing.count, Counter(each.on[0] for each in alike)
    pieces = len(by_piece)
    if pieces < 2 or len(view.driven) > 1 or count % pieces or count == pieces:
        return view
    if len(alike) == count:
        same = len(set(by_piece.values())) == 1
    else:
        same = len({_sizes(bodies[name]) if name in bodies else name for name in by_piece}) == 1
    if not same:
        return view
    return replace(
        view, words=(view.words[0], f"{view.words[1]}, {count // pieces} in each", *view.words[2:])
    )


def _sizes(body: Body) -> tuple[float, ...]:
    """Its three sizes (mm), the least first, however it is turned."""
    return tuple(sorted(round(body.bounds[i + 3] - body.bounds[i], 2) for i in range(3)))


def _driven_view(drives: tuple[PlacedScrew, ...], axis: int, where: str) -> JointView:
    first = drives[0]
    middle = tuple((a + b) / 2 for a, b in zip(first.head, first.point, strict=True))
    reach, way = max(each.length / 2 + HEAD * each.shank + ABOUT_HEAD for each in drives), first.way
    if len(drives) > 1:
        middle = tuple((a + b) / 2 for a, b in zip(first.head, drives[1].head, strict=True))
        reach, way = 2 * RADIUS, JointView.way
    items = [_item(each) for each in drives]
    tools = [f", {each.fixing.tool}" if each.fixing.tool != first.fixing.tool else "" for each in drives]
    words = (first.fixing.tool, *(item + tool for item, tool in zip(items, tools, strict=True)), where)
    return JointView(middle, axis, reach, words, driven=drives, on=first.joins, kind=words[1], way=way)


def _item(screw: PlacedScrew) -> str:
    """`12 × strip screw 4 × 25`."""
    count = f"{screw.fixing.count} × " if screw.fixing.count else ""
    return f"{count}{screw.fixing.item} {screw.sold}".rstrip()


def _screws(figures: Figures, bodies: Mapping[str, Body], step: Step, ruler: Ruler) -> Iterator[JointView]:
    """Screws of the frame's joints; alike are those that one key turns through one kind of bar along one axis."""
    groups = {mark: row.group for row in figures.parts for mark in row.marks}
    alike: dict[tuple[str, str, int], list[KeyPlace]] = {}
    for place in step.keys:
        if place.screw in bodies and place.bar in bodies:
            tool = next((each.tool for each in step.fixings if place.screw in each.joints), "") or "key"
            its_kind = tool, groups.get(place.bar, place.bar), LOOKS[place.face][0]
            alike.setdefault(its_kind, []).append(place)
    for kind, places in alike.items():
        all_of_them = f"{len(places)} ×, through {_bars_and_faces(places)}"
        end = f"{FIRST_END[long_axis(bodies[places[0].bar])]} end"
        heights = _heights(places, ruler)
        for place in places:
            which = f"here {place.bar}, " if len(places) > 1 else ""
            here = f"{which}{ruler.text(place.at)}"
            lines = (f"{heights} from {end}", here) if heights else (f"{here} from its {end}",)
            bar = bodies[place.bar]
            yield _screw(bodies[place.screw], bar, place, (kind[0], all_of_them, *lines), str(kind))


def _bars_and_faces(places: Sequence[KeyPlace]) -> str:
    """`A1, A3: left face; A2: right face`: every bar, by the face that the key goes through."""
    faces: dict[str, dict[str, None]] = {}
    for place in places:
        faces.setdefault(place.face, {})[place.bar] = None
    return "; ".join(f"{', '.join(bars)}: {face} face" for face, bars in faces.items())


def _heights(places: Sequence[KeyPlace], ruler: Ruler) -> str:
    """`at 20, 545`, or `A1: 20, 545; A2: 20` of bars that differ; nothing where all have one place, and the same."""
    along: dict[str, set[Fraction]] = {}
    for place in places:
        along.setdefault(place.bar, set()).add(place.at)
    alike: dict[str, list[str]] = {}
    for bar, at in along.items():
        alike.setdefault(", ".join(map(ruler.text, sorted(at))), []).append(bar)
    if len(alike) > 1:
        return "; ".join(f"{', '.join(bars)}: {at}" for at, bars in alike.items())
    several = any(len(at) > 1 for at in along.values())
    return f"at {next(iter(alike))}" if several else ""


def _screw(screw: Body, bar: Body, place: KeyPlace, words: tuple[str, ...], kind: str) -> JointView:
    axis = long_axis(bar)
    middle = [(screw.bounds[i] + screw.bounds[i + 3]) / 2 for i in range(3)]
    middle[axis] = bar.bounds[axis] + float(place.at)
    inward = LOOKS[place.face][0]
    # half of the way to the bar's middle, so that the key shows too
    middle[inward] += ((bar.bounds[inward] + bar.bounds[inward + 3]) / 2 - middle[inward]) / 2
    reach, on = ABOUT_SCREW * width_of(bar, axis), (bar.name, screw.owner)
    return JointView(tuple(middle), axis, reach, words, place, screw, on=on, kind=kind)


def _clips(shown: CutOpen, step: Step, *, few: bool) -> Iterator[JointView]:
    """Clips that a step screws into the ends of bars, each cut along its bar and its long side.

    Those that come in the ends of their bars only with `few` other windows: words say it else.
    """
    bodies = shown.bodies
    own = [bodies[motion.name] for motion in step.motions if {motion.name} <= shown.small & set(bodies)]
    if not own and few:
        # those that come in the ends of their bars: these are put in first
        fitted = (m.marks for m in step.motions if m.name in m.marks)
        own = [bodies[mark] for marks in fitted for mark in marks if mark in shown.small & set(bodies)]
    clips = [clip for clip in own if clip.owner in bodies]
    bars = dict.fromkeys(clip.owner for clip in clips)
    both = ", both ends" if len(clips) == 2 * len(bars) else ""
    for clip in clips:
        bar = bodies[clip.owner]
        along = long_axis(bar)
        size = [clip.bounds[i + 3] - clip.bounds[i] for i in range(3)]
        short, long = sorted((i for i in range(3) if i != along), key=lambda i: size[i])
        middle = [(clip.bounds[i] + clip.bounds[i + 3]) / 2 for i in range(3)]
        first = middle[along] < (bar.bounds[along] + bar.bounds[along + 3]) / 2
        middle[along] = bar.bounds[along if first else along + 3]
        end = (FIRST_END if first else LAST_END)[along]
        way = f"its long side {RUNS[long]}"
        count = f"{len(clips)} × in {', '.join(bars)}{both}"
        words = ("clip", f"{count}: {TURNS} into the end", f"here {bar.name}, {end} end", way)
        reach = size[long] / 2 + ABOUT_HEAD
        out = [0.0, 0.0, 0.0]
        out[along] = clip.bounds[along] - middle[along] if first else clip.bounds[along + 3] - middle[along]
        yield JointView(
            tuple(middle),
            short,
            reach,
            words,
            on=(bar.name,),
            kind="clip",
            turned=tuple(out),
            alone=(bar.name, clip.name),
        )


def _tongues(bodies: Mapping[str, Body], moves: Mapping[str, int]) -> Iterator[JointView]:
    """Where a board is within the outline of a bar, one of the two being new: in the middle of that."""
    bars = [body for body in bodies.values() if body.kind == "bar"]
    boards = [body for body in bodies.values() if body.kind == "board"]
    for board in sorted(boards, key=lambda body: body.name not in moves):
        for bar in bars:
            if moves.get(board.name) == moves.get(bar.name):
                # both were there before, or come as one
                continue
            axis = long_axis(bar)
            low = [max(board.bounds[i], bar.bounds[i]) for i in range(3)]
            high = [min(board.bounds[i + 3], bar.bounds[i + 3]) for i in range(3)]
            sizes = [b - a for a, b in zip(low, high, strict=True)]
            thin, deep = sorted((sizes[i], i) for i in range(3) if i != axis)
            if thin[0] < SHALLOWEST or sizes[axis] < width_of(bar, axis) or deep[0] > DEEPEST:
                continue
            middle = tuple((a + b) / 2 for a, b in zip(low, high, strict=True))
            words = (f"tongue of {board.name}", f"in the slot of {bar.name}")
            reach, on = ABOUT_TONGUE * width_of(bar, axis), (board.name, bar.name)
            yield JointView(middle, axis, reach, words, on=on)


def long_axis(bar: Body) -> int:
    """The axis along which a bar is longest."""
    return max(range(3), key=lambda i: bar.bounds[i + 3] - bar.bounds[i])


def width_of(bar: Body, axis: int) -> float:
    """How wide (mm) a bar is across an axis."""
    return max(bar.bounds[i + 3] - bar.bounds[i] for i in range(3) if i != axis)
