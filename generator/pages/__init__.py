"""The pages of a manual by the part of the work. One that prints figures as they are needs no module."""

from generator.figures.model import Figures
from generator.pages import (
    assembly,
    assumed,
    bar_plan,
    before,
    build_record,
    checklist,
    checks,
    cut_list,
    fits,
    glossary,
    guide,
    hardware,
    measure,
    openings,
    orders,
    overview,
    part_index,
    part_sheets,
    setup_cards,
    sheet_plan,
    shopping,
    spec_reference,
    sticks,
    strength,
    working,
)
from generator.pages.page import Chapter, Page

AT_THE_MACHINE = Page("at-the-machine", "At the machine", "speeds, passes, drills, torque, time and money")
REVISIONS = Page(
    "revisions",
    "Revisions",
    "which issue this is, what changed since an earlier one, which sheets are superseded",
)
REPLICATE = Page("replicate", "Replicate", "how to build this bench from other goods")
DOWNLOADS = Page("downloads", "Downloads", "the spec, the figures, the drawings")

CHAPTERS: tuple[Chapter, ...] = (
    Chapter("Start", (before.PAGE, checks.PAGE)),
    Chapter("Buy", (shopping.PAGE, orders.PAGE, hardware.PAGE), "bars, boards, fasteners"),
    Chapter(
        "Set up", (measure.PAGE, setup_cards.PAGE, AT_THE_MACHINE, fits.PAGE), "measure, test pieces, fits"
    ),
    Chapter(
        "Cut",
        (cut_list.PAGE, bar_plan.PAGE, sheet_plan.PAGE, part_sheets.PAGE, sticks.PAGE),
        "saw, rout, drill",
    ),
    Chapter("Build", (assembly.PAGE, openings.PAGE, checklist.PAGE), "step by step"),
    Chapter("Test and keep", (strength.PAGE, build_record.PAGE, REVISIONS), "load, tip, log"),
    Chapter("Look up", (part_index.PAGE, glossary.PAGE, assumed.PAGE, working.PAGE, DOWNLOADS)),
    Chapter("Your own bench", (REPLICATE, guide.PAGE, spec_reference.PAGE)),
)

#: The overview belongs to none: it is where a reader begins, and where the name of the manual leads.
PAGES: tuple[Page, ...] = (overview.PAGE, *(page for chapter in CHAPTERS for page in chapter.pages))

#: What is printed together, by its name: all of it, what the shop needs, and what is looked up.
SETS: dict[str, tuple[Page, ...]] = {
    "full": PAGES,
    "shop": (
        before.PAGE,
        setup_cards.PAGE,
        cut_list.PAGE,
        bar_plan.PAGE,
        sheet_plan.PAGE,
        part_sheets.PAGE,
        sticks.PAGE,
        assembly.PAGE,
        openings.PAGE,
    ),
}
SETS["reference"] = tuple(page for page in PAGES if page not in SETS["shop"])


def menu_counts(figures: Figures) -> dict[str, str]:
    """What the menu says beside an entry, by the file of its page in the site."""
    open_checks = [check for check in figures.checks if not check.ok]
    return {
        f"{page.slug}.html": str(len(rows))
        for page, rows in (
            (checks.PAGE, open_checks),
            (setup_cards.PAGE, figures.setups),
            (part_sheets.PAGE, figures.parts),
            (assembly.PAGE, figures.assembly.steps),
        )
        if rows
    }
