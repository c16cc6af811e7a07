"""Set-ups of bridles: open mortises and their tenons at the ends of posts, prongs and what they stand astride."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from generator.bench.frames.facts import WorkCard, WorkSetting
from generator.bench.piece import MORTISES, TENONS, Operation, Part

_Place = tuple[Part, Operation]
_Sizes = tuple[Fraction, Fraction, Fraction]
_TENON, _PRONG = TENONS[2:]
_MORTISE, _NOTCH = MORTISES[2:]


def bridle_cards(timbers: Sequence[Part]) -> Iterator[WorkCard]:
    """What is open first, then what goes into it: one card for each length, thickness and width."""
    yield from _open(
        timbers,
        _MORTISE,
        "Open mortises",
        "saw with a stop and a wide chisel, or mortiser",
        (
            "Cut one in the end of an off-cut of the same planing.",
            "Saw both cheeks down to the line, then clear the middle from both faces.",
        ),
    )
    yield from _open(
        timbers,
        _NOTCH,
        "Notches for prongs",
        "router with fence and stops, or saw with a depth stop and a wide chisel",
        (
            "Cut one on both sides of an off-cut of the same planing.",
            "Cut both sides first, then clear what is between them.",
        ),
    )
    yield from _ends(timbers, _TENON, "Bridle tenons", "Tenon, thickness in the middle")
    yield from _ends(timbers, _PRONG, "Bridle prongs", "Prong, thickness on each outer side")


def _open(
    timbers: Sequence[Part], op: str, title: str, tool: str, act: tuple[str, ...]
) -> Iterator[WorkCard]:
    sorts = _alike(timbers, op)
    for number, ((deep, thin, wide), places) in enumerate(sorts.items(), 1):
        yield WorkCard(
            f"{op.replace(' ', '-')}-{number}",
            f"{title} {number}" if len(sorts) > 1 else title,
            tool,
            (
                WorkSetting("Thickness that is taken out, on the planed timber", (thin,), fine=True),
                WorkSetting("Length along the timber", (wide,)),
                WorkSetting("Stop: how far in from the face that the member meets", (deep,)),
                *_stretches(places),
            ),
            (*act, "Mark it with a knife, from the member that goes into it."),
            "An off-cut of the member goes in by hand and does not rattle.",
            tuple(dict.fromkeys(part.mark for part, _ in places)),
            ("mortiser", "dust"),
        )


def _ends(timbers: Sequence[Part], op: str, title: str, thickness: str) -> Iterator[WorkCard]:
    sorts = _alike(timbers, op)
    for number, ((length, thin, wide), places) in enumerate(sorts.items(), 1):
        yield WorkCard(
            f"{op.replace(' ', '-')}-{number}",
            f"{title} {number}" if len(sorts) > 1 else title,
            "saw with a stop, or router table with fence and push block",
            (
                WorkSetting("Stop: from the end to the shoulder line", (length,)),
                WorkSetting(thickness, (thin,), fine=True),
                WorkSetting("Each glued face, length and width", (length, wide)),
            ),
            (
                "Cut an off-cut of the same planing and try it.",
                "Change the depth by half of what is wrong: both sides are cut.",
                "Cut all shoulders at one stop. They agree with each other to 0.2 mm.",
            ),
            "It goes in by hand. The shoulders close all round, and both timbers are flush.",
            tuple(dict.fromkeys(part.mark for part, _ in places)),
            ("kickback", "dust"),
        )


def _alike(timbers: Sequence[Part], op: str) -> Mapping[_Sizes, list[_Place]]:
    """Depth, thickness and width -> all that are so."""
    found: dict[_Sizes, list[_Place]] = {}
    for part in timbers:
        for act in part.operations:
            if act.op == op and isinstance(act.size, tuple) and act.depth is not None:
                thin, wide = sorted(act.size)
                found.setdefault((act.depth, thin, wide), []).append((part, act))
    return dict(sorted(found.items(), key=lambda each: each[0]))


def _stretches(places: Sequence[_Place]) -> Iterator[WorkSetting]:
    """From where to where along each timber; both sides of one are cut at one setting."""
    found: dict[tuple[Fraction, Fraction], list[str]] = {}
    for part, act in places:
        assert isinstance(act.size, tuple)
        span = (act.at[0] - act.size[0] / 2, act.at[0] + act.size[0] / 2)
        names = found.setdefault(span, [])
        if f"{part.mark} {act.face}" not in names:
            names.append(f"{part.mark} {act.face}")
    for span, names in found.items():
        yield WorkSetting(f"From, to, from the datum end: {', '.join(names)}", span)
