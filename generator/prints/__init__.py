"""The documents of a manual that are made for paper, in the order of the work."""

from generator.prints import sticks, templates
from generator.prints.print import Print

PRINTS: tuple[Print, ...] = (sticks.PRINT, templates.PRINT)
