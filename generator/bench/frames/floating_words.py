"""Panels of solid wood in words: how damp the wood may be, how they are cut, and how they go into their grooves."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.frames.facts import Framed, WorkCard, WorkSetting
from generator.bench.frames.floating import Floating, floating, shop_moistures
from generator.bench.piece import Part
from generator.calculators.floating_panels import MOST_APART, MOST_OFF


def floating_panels(bench: Framed) -> tuple[tuple[Part, Floating], ...]:
    """Every panel that floats, with how it does."""
    found = ((part, floating(bench.loaded, part)) for part in bench.parts)
    return tuple((part, how) for part, how in found if how is not None)


def floating_notes(bench: Framed) -> tuple[str, ...]:
    """How panels of solid wood are cut; nothing where there are none."""
    marks = ", ".join(part.mark for part, _ in floating_panels(bench))
    if not marks:
        return ()
    return (
        f"Panels of solid wood ({marks}) float. Cut them to the cut list, not to the bottoms of their grooves.",
        "Coat them whole before they go in, so that no bare line shows when they shrink.",
    )


def pushed_in(bench: Framed) -> tuple[str, ...]:
    """How panels go into the grooves of an end frame."""
    floats = any(part.place.end for part, how in floating_panels(bench) if how.grooves)
    if not floats:
        return ("Push each panel fully into its grooves. No glue there.",)
    return (
        "Push each panel into its grooves, and centre it with the same space on both sides.",
        "One spot of glue in the middle of each end keeps it there. No glue anywhere else.",
    )


def moisture_card(bench: Framed) -> WorkCard:
    """What is measured before anything is cut."""
    air = shop_moistures(bench.loaded.spec)
    solid = [part for part in bench.parts if part.is_bar] + [part for part, _ in floating_panels(bench)]
    low, high = (float(air.middle + off) for off in (-MOST_OFF, MOST_OFF))
    return WorkCard(
        "moisture",
        "Moisture, before anything is cut",
        "moisture meter with pins, set to the kind of wood",
        (
            WorkSetting("Boards of each delivery, places in each", text="3, 3"),
            WorkSetting("Place", text="a hand from the ends and in the middle, on a fresh face"),
            WorkSetting("Mean of all readings", text=f"{low:.1f} to {high:.1f} %"),
            WorkSetting("Largest less smallest reading", text=f"{float(MOST_APART):g} % or less"),
        ),
        (
            "Push the pins in along the grain, where no finish or water is.",
            "Write down all readings and the day.",
            "Lay wood that is too damp on sticks in the shop for one to three weeks. Then measure again.",
        ),
        "Mean and spread are within these limits. Only then cut to length.",
        tuple(dict.fromkeys(part.mark for part in solid)),
        (),
        first=True,
    )


def floating_cards(bench: Framed) -> Iterator[WorkCard]:
    """One card for all panels that float: their size across the grain, and the space that they leave."""
    found = [(part, how) for part, how in floating_panels(bench) if how.grooves]
    if not found:
        return
    depth = bench.loaded.goods.members.groove
    rows: dict[tuple[Fraction, Fraction], list[str]] = {}
    for part, how in found:
        size = part.box.span(how.axis).size
        rows.setdefault((size, depth - part.tongues[how.grooves[0]]), []).append(part.mark)
    yield WorkCard(
        "floating",
        "Panels that float",
        "saw with a fence; feeler or a strip of scrap as thick as the space",
        tuple(
            setting
            for (size, space), marks in rows.items()
            for setting in (
                WorkSetting(f"Across the grain: {', '.join(marks)}", (size,)),
                WorkSetting(f"Space at the bottom of each groove: {', '.join(marks)}", (space,), fine=True),
            )
        ),
        (
            "Measure the moisture again on the day of the last cut.",
            "Lay the panel into the dry frame, and hold it in the middle of its grooves.",
            "Measure the space at the bottom of each groove across the grain.",
        ),
        "The space is there on both sides, and the panel moves by hand.",
        tuple(part.mark for part, _ in found),
        ("kickback", "dust"),
    )
