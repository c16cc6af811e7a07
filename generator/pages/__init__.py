"""The pages of a manual, in the order of the work."""

from generator.pages import (
    assembly,
    assumed,
    bar_plan,
    before,
    checklist,
    checks,
    cut_list,
    downloads,
    fits,
    hardware,
    openings,
    overview,
    part_sheets,
    replicate,
    setup_cards,
    sheet_plan,
    shopping,
    sticks,
)
from generator.pages.page import Page

PAGES: tuple[Page, ...] = (
    overview.PAGE,
    before.PAGE,
    shopping.PAGE,
    cut_list.PAGE,
    bar_plan.PAGE,
    sheet_plan.PAGE,
    setup_cards.PAGE,
    part_sheets.PAGE,
    fits.PAGE,
    openings.PAGE,
    sticks.PAGE,
    assembly.PAGE,
    hardware.PAGE,
    checks.PAGE,
    assumed.PAGE,
    checklist.PAGE,
    replicate.PAGE,
    downloads.PAGE,
)
