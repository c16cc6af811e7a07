"""Working: how each figure came about, in formulas that lead from one to the next and end at the spec."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from generator.figures.workings import Working, Workings
from generator.pages.page import Page

#: Headings by the section of the figures that a working's path begins with; the rest are steps between.
_TITLES: Mapping[str, str] = {
    "layout": "Layout",
    "fits": "Fits",
    "openings": "Openings",
    "drawers": "Drawers",
    "totes": "Totes",
    "shelves": "Shelves",
    "strips": "Packing strips",
    "top": "Top",
    "relief": "Reliefs",
    "parts": "Parts",
    "joint_rows": "Joints",
    "sticks": "Story sticks and spacers",
    "spacers": "Story sticks and spacers",
    "height_rod": "Story sticks and spacers",
    "cutting": "Cutting plans",
    "cut_sections": "Cutting plans",
    "purchases": "Cutting plans",
    "fit_ranges": "Fits",
    "seasons": "Through the year",
    "sags": "Strength and stability",
    "stability": "Strength and stability",
    "balance": "Strength and stability",
    "handling": "Strength and stability",
    "loads": "Strength and stability",
    "work_height": "Strength and stability",
    "shop": "At the machine",
    "mass": "Masses and loads",
    "casters": "Masses and loads",
    "diagonals": "Diagonals",
    "checks": "Checks",
    "setups": "Set-ups",
    "assembly": "Assembly",
}
STEPS = "Steps between"
#: What a source says that nobody has read.
MEMORY = "from memory"


def by_section(workings: Workings) -> Sequence[tuple[str, Sequence[Working]]]:
    """What is calculated, by section of the manual."""
    calculated: dict[str, list[Working]] = {}
    for line in workings.by_key.values():
        if not line.given:
            calculated.setdefault(_title(line.key), []).append(line)
    order = [*dict.fromkeys(_TITLES.values()), STEPS]
    return [(title, calculated[title]) for title in order if title in calculated]


def by_origin(workings: Workings) -> Mapping[str, Sequence[Working]]:
    """What is given, by where it comes from."""
    found: dict[str, list[Working]] = {}
    for line in workings.by_key.values():
        if line.given:
            found.setdefault(line.given.origin, []).append(line)
    return found


def from_memory(workings: Workings) -> Sequence[Working]:
    """What no source was read for: each constant, and one figure of each rule, in the order of the figures."""
    found: dict[str, Working] = {}
    for line in workings.by_key.values():
        if line.given and line.given.origin == "constant":
            if MEMORY in line.given.why:
                found.setdefault(line.key, line)
        elif MEMORY in line.source:
            found.setdefault(line.rule, line)
    return tuple(found.values())


def _title(key: str) -> str:
    return _TITLES.get(re.split(r"[.\[]", key, maxsplit=1)[0], STEPS)


PAGE = Page("working", "Working", "how each figure came about: formula, inputs, rule, source")
