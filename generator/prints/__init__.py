"""The documents of a manual that are made for paper, in the order of the work."""

from generator.prints import part_sheets, sticks, templates
from generator.prints.print import Print

PRINTS: tuple[Print, ...] = (sticks.PRINT, templates.PRINT, part_sheets.PRINT)
