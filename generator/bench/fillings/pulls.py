"""What opens a drawer: a bow pull screwed through face and box, or a grip cut out of the face's upper edge."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.fillings.facts import FillingGoods, Need, PlacedPull, Point, Seen, Solved, Thing
from generator.bench.law import Case, Law, Verdict, at_least, at_most, by_the_check, to_limit
from generator.bench.layout import BayPlace, bay_of
from generator.bench.piece import Operation, Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.fasteners import THREADS, stock_lengths
from generator.codes import Code
from generator.findings import Change, Finding
from generator.geometry import Span
from generator.provenance import constant
from generator.spec.fillings.pulls import EdgeGrip, Pull
from generator.spec.load import LoadedSpec
from generator.units.format import format_inch, format_mm

PULL, SCREW = "pull", "pull screw"
PER_PULL = 2
#: Least thread of a screw in a pull (mm). Common practice, no source.
IN_PULL = constant(6, "least thread of a screw in a pull")
#: Face that a pull and a grip need on either side (mm), and below a grip. Common practice, no source.
BESIDE_HOLE, BESIDE_GRIP, BELOW_GRIP = Fraction(15), Fraction(30), Fraction(40)
#: Space for fingers behind a pull, and how far it may be before its face (mm). Common practice, no source.
FINGERS, FURTHEST = (
    constant(20, "space for fingers behind a pull"),
    constant(60, "how far a pull may project"),
)
#: Height of a bow as it is drawn (mm).
DRAWN = Fraction(10)
#: A hole that meets an edge of the box splits it: its middle keeps this many diameters off. Common practice, no source.
CLEAR = Fraction(3, 2)
EACH, LIST = "one a drawer", f"{PULL} to face and box"


def _usual(_: Case) -> tuple[Change, ...]:
    return (Change("hardware.pull.use", "pull 128"), Change("drawers.pull", "pull"))


MISSING = Law(
    Code.PULL_MISSING, "note", "Every drawer has a pull or a grip", "Nothing opens these drawers",
    "Choose a pull or an edge grip.", "A closed face leaves no edge to hold.", _usual,
)  # fmt: skip
FITS = Law(
    Code.PULL_FITS, "error", "The pull or grip fits on its face", "The pull or grip is too large for its face",
    "Use a smaller one, or make the face larger.", "There is not enough wood around its holes or below its cut-out.",
    "which pull is a choice among cards, and the face follows from its bay",
    quantity="space on the face",
)  # fmt: skip
ON_EDGE = Law(
    Code.PULL_ON_EDGE, "error", "The pull's screws pass through the box or clear of it",
    "A screw of the pull meets the edge of the box behind its face", "Move the pull up or down.",
    "The hole breaks out of the edge, and the screw pulls through.", by_the_check,
    quantity="screw to the nearest edge of the box",
)  # fmt: skip
SCREW_LENGTH = Law(
    Code.PULL_SCREW, "note", "The pull's screws are as long as face and box need",
    "The pull comes with screws of another length than face and box need",
    "Buy the length on the hardware list.", "A short screw does not reach the pull, a long one does not pull it tight.",
    by_the_check,
    quantity="length of the screw",
)  # fmt: skip
PROJECTION = Law(
    Code.PULL_PROJECTION, "warning", "The pull leaves space for fingers and catches on nobody",
    "The pull leaves no space for fingers, or catches on who passes", "Use a pull of another projection.",
    "Fingers need space behind a pull. One that is far before its face tears pockets and bruises hips.", to_limit,
    quantity="height of the pull above the face",
)  # fmt: skip
LAWS = (MISSING, FITS, ON_EDGE, SCREW_LENGTH, PROJECTION)
TERMS = (
    TermWords("bow pull", "A handle on two screws that opens a drawer.", ("bow pulls",)),
    TermWords("edge grip", "A cut-out in the upper edge of a face, for a hand.", ("edge grips",)),
)
BOUGHT = (
    FillingGoods(PULL, "drawers", mass="0.07"),
    FillingGoods(SCREW, "drawers", "screwdriver", mass="0.004"),
)


def place_on(loaded: LoadedSpec, width: Fraction, height: Fraction) -> tuple[Point, tuple[Point, ...]] | None:
    """Middle and holes on a face of a size (mm); None where the spec wants no pull. A grip has no holes."""
    card = loaded.goods.pull
    if card is None:
        return None
    if isinstance(card, EdgeGrip):
        return (width / 2, height), ()
    right, up = loaded.spec.drawers.pull_at
    at = (width * right, height * up)
    return at, ((at[0] - card.holes / 2, at[1]), (at[0] + card.holes / 2, at[1]))


def worked(loaded: LoadedSpec, face: Part, behind: Part) -> tuple[Part, Part]:
    """A face and the box's front behind it, with the holes or the cut-out of their pull."""
    card, placed = loaded.goods.pull, place_on(loaded, face.length, face.width)
    if card is None or placed is None:
        return face, behind
    acts = _grip(card, face) if isinstance(card, EdgeGrip) else _holes(card, placed[1])
    box = behind.box
    moved = [_seen_from(act, face, behind) for act in acts]
    through = [act for act in moved if _meets(act, box.x.size, box.z.size)]
    return (
        replace(face, operations=(*face.operations, *acts)),
        replace(behind, operations=(*behind.operations, *through)),
    )


def _holes(card: Pull, holes: Sequence[Point]) -> list[Operation]:
    thread = THREADS[card.screw.thread]
    return [
        Operation("through hole", "front", at, thread.clearance, None, f"{thread.name} for the pull")
        for at in holes
    ]


def _grip(card: EdgeGrip, face: Part) -> list[Operation]:
    """Open at the upper edge."""
    wide, deep = card.size
    at = (face.length / 2, face.width - deep / 2)
    return [Operation("cut-out", "front", at, (wide, deep), None, "edge grip")]


def _seen_from(act: Operation, face: Part, behind: Part) -> Operation:
    """An act of the face in the coordinates of the box's front; a cut-out only as deep as it reaches below its edge."""
    x = act.at[0] + face.box.x.low - behind.box.x.low
    z = act.at[1] + face.box.z.low - behind.box.z.low
    if isinstance(act.size, tuple):
        depth = behind.width - (z - act.size[1] / 2)
        return replace(act, at=(x, behind.width - depth / 2), size=(act.size[0], depth))
    return replace(act, at=(x, z))


def _meets(act: Operation, length: Fraction, height: Fraction) -> bool:
    if isinstance(act.size, tuple):
        return act.size[1] > 0
    return 0 < act.at[0] < length and 0 < act.at[1] < height


def pulls(bench: Solved) -> Iterator[PlacedPull]:
    """Every pull, in the order of the faces."""
    for face in bench.of(Role.DRAWER_FACE):
        placed = place_on(bench.loaded, face.length, face.width)
        if placed is not None:
            yield PlacedPull(face.mark, *placed)


def needs(bench: Solved) -> Iterator[Need]:
    """Pulls and their screws, by the lengths that face and box ask for."""
    card, faces = bench.goods.pull, bench.of(Role.DRAWER_FACE)
    if isinstance(card, Pull) and faces:
        yield from goods_of(card, str(bench.spec.drawers.pull), tuple(_grips(bench).values()), EACH, LIST)


def goods_of(card: Pull, name: str, grips: Sequence[Fraction], each: str, screws: str) -> Iterator[Need]:
    """A pull for each thickness that its screws clamp (mm), and these screws by the lengths that they need."""
    yield Need(PULL, name, len(grips), each, "{}, hole to hole", (card.holes,))
    thread = card.screw.thread
    lengths = [length for grip in grips if (length := _screw(thread, grip))]
    for length in dict.fromkeys(lengths):
        count = lengths.count(length) * PER_PULL
        yield Need(SCREW, SCREW, count, screws, screw_name(thread, length))


def _grips(bench: Solved) -> dict[str, Fraction]:
    """Mark of a face -> what its screws clamp: the face, and the box's front where it is behind them (mm)."""
    behind = _fronts(bench)
    return {
        face.mark: face.thickness + (behind[face.place].thickness if _drilled(behind[face.place]) else 0)
        for face in bench.of(Role.DRAWER_FACE)
    }


def _fronts(bench: Solved) -> Mapping[Place, Part]:
    """The box's front behind each face: the end nearest to it."""
    faces = {face.place: face.box.y.middle for face in bench.of(Role.DRAWER_FACE)}
    faced = [end for end in bench.of(Role.DRAWER_END) if end.place in faces]
    ends = sorted(faced, key=lambda end: -abs(end.box.y.middle - faces[end.place]))
    return {end.place: end for end in ends}


def _drilled(end: Part) -> bool:
    return any(act.op == "through hole" for act in end.operations)


def _screw(thread: str, grip: Fraction) -> Fraction | None:
    """The stock length that reaches into the pull (mm)."""
    return next((length for length in stock_lengths(thread) if length >= grip + IN_PULL), None)


def screw_name(thread: str, length: Fraction) -> str:
    """A machine screw as it is sold."""
    return f"{thread}x{format_mm(length)}" if thread.startswith("M") else f"{thread} x {format_inch(length)}"


def seen(loaded: LoadedSpec, width: Fraction, face: Span) -> tuple[Seen, ...]:
    """The pull as one sees it on a closed drawer."""
    card, placed = loaded.goods.pull, place_on(loaded, width, face.size)
    if card is None or placed is None:
        return ()
    (x, z), _ = placed
    if isinstance(card, EdgeGrip):
        return (Seen(card.size[0], Span(face.high - card.size[1], face.high), "hole"),)
    middle = face.low + z
    bow = Span(middle - DRAWN / 2, middle + DRAWN / 2)
    return (Seen(card.holes, bow, "fill-dark", aside=x - width / 2),)


def things(bench: Solved) -> Iterator[Thing]:
    """Bows before their faces, in the elevations."""
    card = bench.goods.pull
    if not isinstance(card, Pull):
        return
    faces = {face.mark: face for face in bench.of(Role.DRAWER_FACE)}
    for pull in pulls(bench):
        face, (x, z) = faces[pull.part], pull.at
        middle, height = face.box.x.low + x, face.box.z.low + z
        to_rear = bay_of(bench.layout, face.place.bay)[0].opens == "rear"
        near, far = face.box.y.low, face.box.y.high
        y = Span(far, far + card.projection) if to_rear else Span(near - card.projection, near)
        half = card.holes / 2
        low = (middle - half, y.low, height - DRAWN / 2)
        yield Thing(low, (middle + half, y.high, height + DRAWN / 2), "fill-dark")


def refusals(
    loaded: LoadedSpec, bay: BayPlace, drawers: Sequence[tuple[int, Fraction, Fraction]]
) -> Iterator[Finding]:
    """A grip that leaves nothing of a face or of the box behind it.

    `drawers` are the bay's: place in the stack, height of the face, depth at which the box's front is cut through (mm).
    """
    card = loaded.goods.pull
    if not isinstance(card, EdgeGrip):
        return
    for number, (index, face, through) in enumerate(drawers, 1):
        most = min(face, through)
        if card.size[1] >= most:
            yield loaded.fault(
                Code.NO_SIZE,
                f"the edge grip would cut through the face or the box of drawer {number} of bay {bay.name}",
                "zones", bay.zone, "bays", bay.index, "stack", index, "drawer",
                found=f"a grip {loaded.say(card.size[1])} deep",
                allowed=f"a grip less than {loaded.say(most)} deep, or a higher drawer",
            )  # fmt: skip


def face_notes(bench: Solved) -> tuple[str, ...]:
    """How a drawer's face and its pull come onto the box."""
    held = "Hold the face with spacers around it, each as thick as the gap."
    return (held, "Screw the face to the box from inside.", *notes(bench))


def notes(bench: Solved) -> tuple[str, ...]:
    """What the step of the drawers says of them."""
    card = bench.goods.pull
    if card is None:
        return ()
    if isinstance(card, EdgeGrip):
        return ("Cut the grip out of the face before the face goes on.", "Round the edges of the grip.")
    return (
        "Drill the pull's holes through the face: its part sheet has their places.",
        "With the face on its box, drill on through the box.",
        "Then screw on the pull from inside.",
    )


def verdicts(bench: Solved) -> Iterator[Verdict]:
    """That there is one, that it has room, and that its screws suit."""
    loaded, card, faces = bench.loaded, bench.goods.pull, bench.of(Role.DRAWER_FACE)
    path = ("drawers", "pull")
    if not faces:
        return
    yield Verdict(MISSING, card is not None, "all drawers", path)
    if card is None:
        return
    for face in faces:
        yield from _room(loaded, face, path)
    if not isinstance(card, Pull):
        return
    yield from _edges(bench, card)
    yield from card_verdicts(str(bench.spec.drawers.pull), card, tuple(_grips(bench).values()))


def card_verdicts(name: str, card: Pull, grips: Sequence[Fraction]) -> Iterator[Verdict]:
    """How far the pull projects, and its screws for what they clamp (mm)."""
    at = ("hardware", name, "projection")
    if card.projection < FINGERS:
        yield at_least(PROJECTION, card.projection, FINGERS, name, at)
    else:
        yield at_most(PROJECTION, card.projection, FURTHEST, name, at)
    for grip in dict.fromkeys(grips):
        length = _screw(card.screw.thread, grip)
        if length is not None:
            said = screw_name(card.screw.thread, length)
            remedy = (Change(f"hardware.{name}.screw", said),)
            ok = card.screw.length == length
            at = ("hardware", name, "screw")
            yield Verdict(SCREW_LENGTH, ok, said, at, card.screw.length, length, "at least", remedy)


def _room(loaded: LoadedSpec, face: Part, path: tuple[str, str]) -> Iterator[Verdict]:
    card, placed = loaded.goods.pull, place_on(loaded, face.length, face.width)
    assert placed is not None
    if isinstance(card, EdgeGrip):
        wide, deep = card.size
        yield at_least(FITS, face.length, wide + 2 * BESIDE_GRIP, f"{face.mark}, width", path)
        yield at_least(FITS, face.width, deep + BELOW_GRIP, f"{face.mark}, height", path)
        return
    sizes, places = (face.length, face.width), zip(*placed[1], strict=True)
    for size, way, ats in zip(sizes, ("width", "height"), places, strict=True):
        free = min(min(at, size - at) for at in ats)
        yield at_least(FITS, free, BESIDE_HOLE, f"{face.mark}, {way}", path)


def _edges(bench: Solved, card: Pull) -> Iterator[Verdict]:
    """The distance of a screw from the nearer edge of the box behind it, whichever side of it the screw is."""
    needed = THREADS[card.screw.thread].clearance * CLEAR
    behind = _fronts(bench)
    path = ("drawers", "pull_at")
    for face in bench.of(Role.DRAWER_FACE):
        box = behind[face.place].box.z
        placed = place_on(bench.loaded, face.length, face.width)
        assert placed is not None
        z = face.box.z.low + placed[0][1]
        remedy = _lower(bench, box, face, needed)
        yield at_least(
            ON_EDGE, min(abs(z - box.low), abs(z - box.high)), needed, face.mark, path, remedy=remedy
        )


def _lower(bench: Solved, box: Span, face: Part, needed: Fraction) -> tuple[Change, ...]:
    """To the middle of the box, where that is clear of both its edges."""
    if box.size < 2 * needed:
        return ()
    up = (box.middle - face.box.z.low) / face.width
    right = bench.spec.drawers.pull_at[0]
    return (Change("drawers.pull_at", f"[{_part(right)}, {_part(up)}]"),)


def _part(share: Fraction) -> str:
    """A share as a fraction that the language reads, to the nearest hundredth."""
    near = Fraction(round(share * 100), 100)
    return f"{near.numerator}/{near.denominator}"
