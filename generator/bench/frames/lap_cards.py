"""Set-ups of half laps: notches, and the ends that lie in them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.frames.facts import WorkCard, WorkSetting
from generator.bench.piece import MORTISES, TENONS, Operation, Part
from generator.geometry import FACES

_Place = tuple[Part, Operation]
_LAP, _NOTCH = TENONS[1], MORTISES[1]


def lap_cards(timbers: Sequence[Part]) -> Iterator[WorkCard]:
    """Notches first, then the laps to fit them: one card for each depth and length."""
    for number, (length, half, places, many) in enumerate(_alike(timbers, _NOTCH), 1):
        yield WorkCard(
            f"lap-notch-{number}",
            f"Notches for laps {number}" if many else "Notches for laps",
            "router with fence and stops, or saw with a depth stop and a wide chisel",
            (
                WorkSetting("Notch, depth: half of the planed timber", (half,), fine=True, shows="across"),
                WorkSetting("Stop: how far in from the face that the member meets", (length,), shows="along"),
                *(
                    WorkSetting(f"From, to, from the datum end: {part.mark} {act.face}", _span(act))
                    for part, act in places
                ),
            ),
            (
                "Cut one notch in an off-cut of the same planing.",
                "Mark the notch with a knife, from the member that goes into it.",
                "Cut both sides first, then clear what is between them.",
            ),
            "An off-cut of the member goes in by hand and does not rattle.",
            tuple(dict.fromkeys(part.mark for part, _ in places)),
            ("mortiser", "dust"),
            picture="notch",
        )
    for number, (length, half, places, many) in enumerate(_alike(timbers, _LAP), 1):
        sides = [f"{part.mark} {act.face}: {_kept(part, act)} half stays" for part, act in places]
        yield WorkCard(
            f"lap-{number}",
            f"Laps {number}" if many else "Laps",
            "saw with a stop, or router table with fence and push block",
            (
                WorkSetting("Stop: from the end to the shoulder line", (length,), shows="shoulder"),
                WorkSetting("Lap, thickness that stays", (half,), fine=True, shows="stays"),
                WorkSetting("Which half stays", text="; ".join(sides)),
            ),
            (
                "Cut an off-cut of the same planing and try it in a notch.",
                "Cut all shoulders at one stop. They agree with each other to 0.2 mm.",
            ),
            "Both faces are flush, and no light shows at the shoulder.",
            tuple(dict.fromkeys(part.mark for part, _ in places)),
            ("kickback", "dust"),
            picture="tenon",
        )


def _alike(timbers: Sequence[Part], op: str) -> Iterator[tuple[Fraction, Fraction, list[_Place], bool]]:
    """Length and thickness of laps or notches, with all that are so; whether there are several sorts."""
    found: dict[tuple[Fraction, Fraction], list[_Place]] = {}
    for part in timbers:
        for act in part.operations:
            if act.op == op and isinstance(act.size, tuple) and act.depth is not None:
                found.setdefault((act.depth, _thin(part, act)), []).append((part, act))
    for (length, half), places in sorted(found.items(), key=lambda each: each[0]):
        yield length, half, places, len(found) > 1


def _thin(part: Part, act: Operation) -> Fraction:
    """The size of a lap or notch across the joint: half of the timber."""
    assert isinstance(act.size, tuple)
    if act.op == _NOTCH:
        return act.size[1]
    return act.size[1 - _wide(part, act)]


def _wide(part: Part, act: Operation) -> int:
    """Which of a lap's sizes is that of the whole timber."""
    assert isinstance(act.size, tuple)
    whole = [part.box.span(axis).size for axis in "xyz" if axis != part.along]
    return 0 if act.size[0] == whole[0] else 1


def _span(act: Operation) -> tuple[Fraction, Fraction]:
    assert isinstance(act.size, tuple)
    return act.at[0] - act.size[0] / 2, act.at[0] + act.size[0] / 2


def _kept(part: Part, act: Operation) -> str:
    """The side of a timber whose half is the lap."""
    axes = [axis for axis in "xyz" if axis != part.along]
    thin = axes[1 - _wide(part, act)]
    off = act.at[1] - part.width / 2 if thin == part.across else act.aside
    return FACES[thin][off > 0]
