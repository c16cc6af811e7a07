"""Cautions, each printed where the act is. Levels after ANSI Z535 (signal words); wording our own."""

from __future__ import annotations

from dataclasses import dataclass

from generator.bench.fillings import FILLINGS
from generator.bench.frames import FRAMES
from generator.bench.stands.facts import Stand
from generator.figures.rows.parts import PartRow


@dataclass(frozen=True)
class Caution:
    """`level` is caution, warning or danger: what happens if it is ignored, from a bruise to a maiming."""

    level: str
    title: str
    text: str


CAUTIONS: dict[str, Caution] = {
    "saw": Caution(
        "warning",
        "Aluminium on a saw",
        "Use a blade for aluminium, with wax. Clamp the bar on both sides of the cut. Hands stay 150 mm (6 in) away; "
        "wear no gloves at a turning blade. Wait until the blade has stopped before you lift the piece.",
    ),
    "chips": Caution(
        "caution",
        "Chips and burrs",
        "Wear eye protection (EN ISO 16321-1, ANSI Z87.1 or the equivalent where you live). Deburr before you handle "
        "a bar. Keep aluminium chips and wood dust in separate collectors: together they can burn.",
    ),
    "kickback": Caution(
        "danger",
        "Narrow cuts and tongues can kick back",
        "Use riving knife, guard, feather boards and push sticks as your machine's manual says. Keep out of the line "
        "of the blade. Hold the work down and against the fence over the whole length of a rabbet.",
    ),
    "track-saw": Caution(
        "warning",
        "A whole sheet under a track saw",
        "Lift a sheet with two people. Lay it on foam or battens that carry both sides of the cut to its end. Clamp "
        "the track and set the depth just through the sheet. Keep your hands and the cord behind the saw. Wait until "
        "the blade has stopped before you lift the saw.",
    ),
    "router": Caution(
        "warning",
        "Router in aluminium",
        "Clamp the bar and the template. Cut at most a third of the cutter's diameter in one pass, with wax or "
        "spirit. Stop when chips turn to dust or smear. Never rout with a loose template.",
    ),
    "dust": Caution(
        "caution",
        "Dust",
        "Extract at the machine and wear a fine-dust mask: some wood dusts cause cancer. MDF makes the finest dust.",
    ),
    "drill": Caution(
        "caution",
        "Drilling and tapping",
        "Wear no gloves and no loose sleeves at a turning spindle. "
        "Clamp the work: if the drill catches a loose bar, it breaks fingers.",
    ),
    "lift": Caution(
        "caution",
        "Heavy or long: get help",
        "Over 12 kg (26 lb): at least two people. Over 49 kg (108 lb): a jack or a hoist. "
        "Clear the way first. Lift by the frame, never by a drawer or the tray.",
    ),
    "pinch": Caution(
        "caution",
        "Fingers between closing parts",
        "Tongues and rail ends close at the same moment. Say “closing” before you push. Push on outside faces only.",
    ),
    "tip": Caution(
        "warning",
        "A bench can tip",
        "Open one drawer at a time until the tip test is done, and write the limit on the bench. Never climb on it.",
    ),
    "finish": Caution(
        "caution",
        "Finishes",
        "Ventilate the room. Rags with drying oil can catch fire by themselves: spread them out or keep "
        "them under water.",
    ),
    "iron": Caution(
        "caution",
        "A hot iron",
        "Sole and band burn the skin. Stand the iron on its heel between two bands. Pull its plug at the end.",
    ),
    **{key: Caution(*words) for kind in FILLINGS for key, words in kind.cautions.items()},
    **{key: Caution(*words) for kind in FRAMES for key, words in kind.cautions.items()},
}


def cautions_for(stand: Stand) -> dict[str, Caution]:
    """All cautions of a bench, with those of what it stands on."""
    return CAUTIONS | {key: Caution(*words) for key, words in stand.cautions.items()}


MANY_HANDS = 25.0
"""One person does not lift a part that is heavier than this (kg): common practice."""


def cautions_of(row: PartRow) -> tuple[str, ...]:
    """Keys of the cautions for making one part, the worst first."""
    acts = {operation.op for operation in row.operations}
    is_metal = row.metal
    found = {
        "kickback": not is_metal,
        "saw": is_metal,
        "router": is_metal and "relief" in acts,
        "lift": row.mass > MANY_HANDS,
        "drill": bool(acts - {"relief", "groove", "cut-out", "recess", "slot", "half lap"}),
        "dust": not is_metal,
        "chips": is_metal,
    }
    return tuple(key for key, holds in found.items() if holds)


#: What every manual says first. It replaces nobody's judgement on the spot.
LIMITS = (
    "This manual gives sizes and an order of work. It does not replace training at the machines, the manuals of your "
    "machines, or the rules that apply where you live and work. Where local codes or licensed practice decide "
    "(electrical outlets, dust extraction, a school or a workplace), they come first. Nobody has tested your bench: "
    "test it before you trust it."
)
