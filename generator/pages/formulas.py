"""How a working is written on its page: a formula in names that lead on, the same in numbers, and their origin."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from markupsafe import Markup

from generator.drawings.dimensions import Ruler
from generator.figures.workings import FormulaTerm, Working, Workings, spelled
from generator.pages.literal import NBSP, literal
from generator.pages.page import working_anchor
from generator.pages.working import by_origin, by_section, from_memory
from generator.provenance import GivenValue
from generator.units.format import format_worked


class FormulaPrinter:
    """The filters of the page of workings."""

    def __init__(self, ruler: Ruler, workings: Workings) -> None:
        self._ruler, self._workings = ruler, workings

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "working_anchor": partial(working_anchor, self._workings),
            "worked": self.worked,
            "in_names": self.in_names,
            "in_numbers": self.in_numbers,
            "origin": self.origin,
            "by_section": by_section,
            "by_origin": by_origin,
            "from_memory": from_memory,
        }

    def worked(self, line: Working) -> str:
        """The value with its unit."""
        unit = self._ruler.either("mm", "in") if _only_lengths(line) and line.unit else _unit(line.unit)
        return f"{self._number(line.value, line.unit, line)}{NBSP}{unit}".strip()

    def in_names(self, line: Working) -> Markup:
        """The formula; each name leads to its own working."""

        def say(term: FormulaTerm) -> str:
            if term.of:
                return f'<a href="#{working_anchor(self._workings, term.of)}">{literal(term.text)}</a>'
            return str(literal(term.text or self._number(term.value, term.unit, line)))

        return Markup(spelled(line.terms, say))

    def in_numbers(self, line: Working) -> str:
        """The formula with the numbers in it."""
        return spelled(
            line.terms,
            lambda term: term.text if term.value is None else self._number(term.value, term.unit, line),
        )

    def origin(self, given: GivenValue) -> str:
        """Where a value comes from: what the spec says and where, or what is used instead of it."""
        line = f"line{NBSP}{given.line}" if given.line else ""
        words = {
            "spec": f"{line}: {given.text}",
            "measured": f"{f'{line}: {given.text}' if line else 'typical value'}, measured {given.detail}",
            "record": f"record, {line}: {given.text}, measured {given.detail}",
            "card": f"typical card “{given.detail}”: measure yours",
            "default": "default of the spec language",
            "constant": given.why,
            "plan": given.why,
        }
        return words.get(given.origin, f"{given.detail} {line}")

    def _number(self, value: Any, unit: str, line: Working) -> str:
        metric = format_worked(value, unit, "mm")
        if unit != "mm" or not _only_lengths(line):
            return metric
        return self._ruler.either(metric, format_worked(value, unit, "in"))


def _only_lengths(line: Working) -> bool:
    """True when a formula holds in any unit of length; areas, masses and forces are worked out in mm."""
    return line.unit in ("", "mm") and all(term.unit in ("", "mm") for term in line.terms)


def _unit(unit: str) -> str:
    return unit.replace("^2", "²").replace("^3", "³").replace("^4", "⁴")
