"""The documents of a manual that are made for paper, in the order of the work."""

from generator.prints import labels, part_sheets, setup_cards, sticks, templates
from generator.prints.print import Print

PRINTS: tuple[Print, ...] = (
    setup_cards.PRINT,
    part_sheets.PRINT,
    labels.PRINT,
    sticks.PRINT,
    templates.PRINT,
)
