"""The working of a figure as text for the terminal, down to the lines of the spec."""

from __future__ import annotations

from collections.abc import Iterable

from generator.figures.workings import FormulaTerm, Working, Workings, spelled
from generator.provenance import GivenValue
from generator.units.format import format_worked

__all__ = ["paths_under", "working_text"]


def paths_under(book: Workings, path: str) -> tuple[str, ...]:
    """The key that a path names, as figures.json or the spec has it; else all keys that begin with it.

    `drawers.0.box_width` means `drawers[0].box_width`. None when nothing has such a path.
    """
    steps = path.replace("[", ".").replace("]", "").split(".")
    known = {**{key: key for key in book.by_key}, **book.paths}
    found = {tuple(_steps(each)): key for each, key in known.items()}
    if tuple(steps) in found:
        return (found[tuple(steps)],)
    return tuple(dict.fromkeys(key for each, key in found.items() if list(each[: len(steps)]) == steps))


def _steps(path: str) -> list[str]:
    return path.replace("[", ".").replace("]", "").split(".")


def working_text(book: Workings, keys: Iterable[str], units: str) -> str:
    """Each figure with its formula, in names and in numbers, then all that it leads to, each once."""
    lines: dict[str, Working] = {}
    for key in keys:
        for line in book.tree(key):
            lines.setdefault(line.key, line)
    return "\n".join(_entry(line, units) for line in lines.values()) + "\n"


def _entry(line: Working, units: str) -> str:
    if any(term.unit not in ("", "mm") for term in line.terms) or line.unit not in ("", "mm"):
        units = "mm"  # areas, masses and forces are worked out in mm
    value = f"{format_worked(line.value, line.unit, units)} {_unit(line.unit, units)}".strip()
    text = f"{line.name} = {value}\n"
    if line.given:
        return text + f"    {_origin(line.given)}\n"
    text += f"    = {spelled(line.terms, lambda term: _name(term, units))}\n"
    numbers = spelled(line.terms, lambda term: _number(term, units))
    text += f"    = {numbers}\n"
    if line.rule:
        text += f"    {line.rule} Source: {line.source}.\n"
    return text


def _name(term: FormulaTerm, units: str) -> str:
    return term.text or _number(term, units)


def _number(term: FormulaTerm, units: str) -> str:
    return term.text if term.value is None else format_worked(term.value, term.unit, units)


def _unit(unit: str, units: str) -> str:
    return units if unit == "mm" else unit


def _origin(given: GivenValue) -> str:
    if given.in_words:
        return f"{given.origin}; {given.why}"
    place = f"{given.file}:{given.line}: {given.name}: {given.text}"
    words = {
        "spec": place,
        "measured": f"{place if given.line else given.name}, measured {given.detail}",
        "record": f"{place}, measured {given.detail}",
        "card": f"{given.name}, from the typical card “{given.detail}”: measure yours",
        "default": f"{given.name}, default of the spec language",
    }
    return f"{words.get(given.origin, place)}{'. ' + given.why if given.why else ''}"
