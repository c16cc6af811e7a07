"""Set-up cards of the frame's members: the holes of each kind of joint, and what else a frame asks for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.frames import FRAMES, frame_kind
from generator.bench.frames.facts import WorkCard
from generator.bench.joints import JOINTS
from generator.bench.joints.facts import DrillCard
from generator.bench.model import Bench
from generator.figures.rows.parts import OperationRow, PartRow
from generator.figures.rows.setting_out import Setting, Setup, Sketch
from generator.figures.saw_setups import marks_of, names_of


def joint_holes(rows: Sequence[PartRow]) -> Iterator[Setup]:
    """The holes of each kind of joint, one card a size."""
    cards = [card for kind in JOINTS for card in kind.drill_cards]
    cards += [card for kind in FRAMES for card in kind.drill_cards]
    for card in cards:
        for diameter, places in by_size(rows, card.op).items():
            assert isinstance(diameter, Fraction)
            fences = tuple(sorted({op.at[1] for _, _, ops in places for op in ops}))
            depths = {op.depth for _, _, ops in places for op in ops if op.depth is not None}
            yield Setup(
                0,
                f"{card.key}-{plain_key(diameter)}",
                card.title,
                card.tool,
                (
                    Setting(card.size, (diameter,)),
                    *_deeper(card, places),
                    Setting(card.fence, fences),
                    *stops(places),
                ),
                card.act,
                card.passes,
                marks_of(row for row, _, _ in places),
                cautions=("drill", "chips" if places[0][0].metal else "dust"),
                sketch=Sketch(
                    "hole",
                    {
                        "fence": fences,
                        "diameter": (diameter,),
                        "depth": tuple(sorted(depths)) if card.depth else (),
                    },
                    metal=places[0][0].metal,
                ),
            )


def member_cards(bench: Bench, *, first: bool = False) -> Iterator[Setup]:
    """What else a frame asks for on its members, each with its test piece; `first` is what comes before any cut."""
    yield from (_card(each) for each in frame_kind(bench.spec).cards(bench) if each.first is first)


def filling_cards(bench: Bench) -> Iterator[Setup]:
    """What the kinds that fill the bays ask for on their pieces."""
    for kind in FILLINGS:
        yield from map(_card, kind.cards(bench))


def _card(card: WorkCard) -> Setup:
    return Setup(
        0, card.key, card.title, card.tool,
        tuple(Setting(each.name, each.values, each.fine, each.text) for each in card.settings),
        card.act, card.passes, card.marks, cautions=card.cautions, sketch=_sketch(card),
    )  # fmt: skip


def _sketch(card: WorkCard) -> Sketch | None:
    """The picture of what the card's settings show."""
    sizes = {each.shows: each.values for each in card.settings if each.shows}
    fine = frozenset(each.shows for each in card.settings if each.shows and each.fine)
    return Sketch(card.picture, sizes, fine=fine) if card.picture else None


def _deeper(card: DrillCard, places: Sequence[Place]) -> Iterator[Setting]:
    """The depths of a hole that does not go through, and the hole that is drilled before it."""
    if card.depth:
        depths = {op.depth for _, _, ops in places for op in ops if op.depth is not None}
        yield Setting(card.depth, tuple(sorted(depths)))
    if card.first:
        holes = {
            op.size
            for row, face, ops in places
            for op in row.operations
            if op.face == face and op.op == card.first and op.at in {each.at for each in ops}
        }
        yield Setting(card.first_size, tuple(sorted(hole for hole in holes if not isinstance(hole, tuple))))


Place = tuple[PartRow, str, tuple[OperationRow, ...]]
"""A part, one of its faces, and what is done there."""


def by_size(rows: Sequence[PartRow], op: str) -> dict[Fraction | tuple[Fraction, Fraction], list[Place]]:
    """One kind of operation on bars by its size; a relief by its length along and across."""
    found: dict[Fraction | tuple[Fraction, Fraction], list[Place]] = defaultdict(list)
    for row in rows:
        if not row.is_bar:
            continue
        for face in dict.fromkeys(o.face for o in row.operations if o.op == op):
            for size in dict.fromkeys(o.size for o in row.operations if o.op == op and o.face == face):
                here = tuple(o for o in row.operations if (o.op, o.face, o.size) == (op, face, size))
                found[size].append((row, face, here))
    return found


def stops(places: Iterable[Place]) -> Iterator[Setting]:
    """The stop positions from the datum end, face by face; faces with the same stops share a line."""
    found: dict[tuple[Fraction, ...], list[str]] = defaultdict(list)
    for row, face, operations in places:
        found[tuple(sorted(op.at[0] for op in operations))].append(f"{names_of((row,))} {face}")
    for positions, names in found.items():
        yield Setting(f"From the datum end: {', '.join(names)}", positions)


def unique(rows: Iterable[PartRow]) -> list[PartRow]:
    """Each part once, in order."""
    return list({row.mark: row for row in rows}.values())


def plain_key(size: Fraction) -> str:
    """A size as part of a stable name."""
    return f"{float(size):g}".replace(".", "-")
