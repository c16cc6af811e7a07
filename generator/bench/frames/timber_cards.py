"""Set-ups for timbers: mortises, tenons and grooves, one card a setting, each with its test piece."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.frames.bridle_cards import bridle_cards
from generator.bench.frames.facts import Framed, WorkCard, WorkSetting
from generator.bench.frames.floating_words import floating_cards, moisture_card
from generator.bench.frames.lap_cards import lap_cards
from generator.bench.frames.timber_pockets import pocket_cards
from generator.bench.piece import Operation, Part

_Place = tuple[Part, Operation]


def timber_cards(bench: Framed) -> Iterator[WorkCard]:
    """In the order of the work: moisture, mortises, tenons to fit them, grooves, panels that float in them."""
    timbers = [part for part in bench.parts if part.is_bar]
    yield moisture_card(bench)
    yield from _mortises(timbers)
    yield from _tenons(timbers)
    yield from lap_cards(timbers)
    yield from bridle_cards(timbers)
    yield from pocket_cards(bench)
    yield from _grooves(timbers)
    yield from floating_cards(bench)


def _places(timbers: list[Part], op: str) -> list[_Place]:
    return [(part, each) for part in timbers for each in part.operations if each.op == op]


def _marks(places: list[_Place]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(part.mark for part, _ in places))


def _sizes(operation: Operation) -> tuple[Fraction, Fraction]:
    assert isinstance(operation.size, tuple)
    return operation.size


def _width(part: Part, operation: Operation) -> tuple[Fraction, Fraction]:
    """(thickness, width) of a tenon or mortise, whichever way it is turned."""
    one, other = sorted(_sizes(operation))
    return one, other


def _mortises(timbers: list[Part]) -> Iterator[WorkCard]:
    """One card a width and depth, with both ends of every mortise from the datum end."""
    found: dict[tuple[Fraction, Fraction], list[_Place]] = {}
    for part, each in _places(timbers, "mortise"):
        assert each.depth is not None
        found.setdefault((_width(part, each)[0], each.depth), []).append((part, each))
    for number, ((width, depth), places) in enumerate(sorted(found.items()), 1):
        yield WorkCard(
            f"mortise-{number}",
            f"Mortises {number}" if len(found) > 1 else "Mortises",
            "mortiser with depth stop, or router with fence and stops",
            (
                WorkSetting("Chisel or cutter, width", (width,), shows="width"),
                WorkSetting("Depth stop", (depth,), shows="depth"),
                *_stretches(places),
            ),
            (
                "Cut one mortise in an off-cut of the same planing.",
                "Keep the same face of every timber on the fence.",
                "Cut both ends of a mortise first, then what is between them.",
            ),
            "The tenon goes in by hand to its shoulders and does not fall out.",
            _marks(places),
            ("mortiser", "dust"),
            picture="slot",
        )


def _stretches(places: list[_Place]) -> Iterator[WorkSetting]:
    """From where to where, face by face; faces with the same places share a line."""
    found: dict[tuple[tuple[Fraction, Fraction], ...], list[str]] = {}
    faces: dict[tuple[str, str], list[tuple[Fraction, Fraction]]] = {}
    for part, each in places:
        along = _sizes(each)[0]
        faces.setdefault((part.mark, each.face), []).append((each.at[0] - along / 2, each.at[0] + along / 2))
    for (mark, face), own in faces.items():
        found.setdefault(tuple(sorted(set(own))), []).append(f"{mark} {face}")
    for spans, names in found.items():
        for span in spans:
            yield WorkSetting(f"From, to, from the datum end: {', '.join(names)}", span)


def _tenons(timbers: list[Part]) -> Iterator[WorkCard]:
    """One card a thickness, width and length."""
    found: dict[tuple[Fraction, Fraction, Fraction], list[_Place]] = {}
    for part, each in _places(timbers, "tenon"):
        assert each.depth is not None
        thick, wide = _width(part, each)
        found.setdefault((each.depth, thick, wide), []).append((part, each))
    for number, ((length, thick, wide), places) in enumerate(sorted(found.items()), 1):
        cheek = (places[0][0].thickness - thick) / 2
        yield WorkCard(
            f"tenon-{number}",
            f"Tenons {number}" if len(found) > 1 else "Tenons",
            "saw with a stop, or router table with fence and push block",
            (
                WorkSetting("Stop: from the end to the shoulder line", (length,), shows="shoulder"),
                WorkSetting(
                    "Depth of each cheek, on the planed thickness", (cheek,), fine=True, shows="cheek"
                ),
                WorkSetting("Tenon, thickness", (thick,), fine=True, shows="stays"),
                WorkSetting("Tenon, width", (wide,)),
                *_edges(places),
            ),
            (
                "Cut both cheeks of an off-cut of the same planing and try it in a mortise.",
                "Change the depth by half of what is wrong: both cheeks are cut.",
                "Cut all shoulders at one stop. They agree with each other to 0.2 mm.",
            ),
            "It goes in by hand. The shoulders close all round, and a square shows no lean.",
            _marks(places),
            ("kickback", "dust"),
            picture="tenon",
        )


def _edges(places: list[_Place]) -> Iterator[WorkSetting]:
    """From where to where across the timber the tenon is."""
    found: dict[tuple[Fraction, Fraction], list[str]] = {}
    for part, each in places:
        wide = _across(part, each)
        span = (each.at[1] - wide / 2, each.at[1] + wide / 2)
        found.setdefault(span, []).append(f"{part.mark} {each.face}")
    for span, names in found.items():
        yield WorkSetting(f"From, to, from the lower or left edge: {', '.join(names)}", span)


def _across(part: Part, operation: Operation) -> Fraction:
    """How much of the timber's width a tenon takes."""
    axes = [axis for axis in "xyz" if axis != part.along]
    return _sizes(operation)[axes.index(part.across)]


def _grooves(timbers: list[Part]) -> Iterator[WorkCard]:
    """One card a width and depth of groove, with where each is stopped."""
    found: dict[tuple[Fraction, Fraction], list[_Place]] = {}
    for part, each in _places(timbers, "panel groove"):
        assert each.depth is not None
        found.setdefault((_sizes(each)[1], each.depth), []).append((part, each))
    for number, ((width, depth), places) in enumerate(sorted(found.items()), 1):
        yield WorkCard(
            f"panel-groove-{number}",
            f"Grooves for panels {number}" if len(found) > 1 else "Grooves for panels",
            "router with fence and stops, or router table",
            (
                WorkSetting(
                    "Groove, width: the measured sheet and its play", (width,), fine=True, shows="width"
                ),
                WorkSetting("Groove, depth", (depth,), fine=True, shows="depth"),
                WorkSetting("Groove, from the edge of the timber to its middle", _middles(places)),
                *_stretches(places),
            ),
            (
                "Cut a groove in an off-cut and push a piece of the sheet in.",
                "Cut in passes of a few millimetres.",
                "Turn the timber end for end and cut again: then the groove is in the middle.",
            ),
            "The sheet goes in by hand and does not rattle.",
            _marks(places),
            ("mortiser", "dust"),
            picture="slot",
        )


def _middles(places: list[_Place]) -> tuple[Fraction, ...]:
    return tuple(sorted({each.at[1] for _, each in places}))
