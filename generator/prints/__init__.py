"""The documents of a manual that are made for paper, in the order of the work."""

from generator.drawings.paper import PAPERS
from generator.prints import goods, labels, part_sheets, setup_cards, sticks, templates
from generator.prints.print import Print

PRINTS: tuple[Print, ...] = (
    setup_cards.PRINT,
    part_sheets.PRINT,
    labels.PRINT,
    sticks.PRINT,
    templates.PRINT,
    goods.PRINT,
)


def print_rows() -> list[tuple[Print, list[tuple[str, str]]]]:
    """Each print with (name of the paper, file) for the page of downloads."""
    return [(each, [(size.name, f"downloads/{each.file(size)}") for size in PAPERS]) for each in PRINTS]
