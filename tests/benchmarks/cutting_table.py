"""The rows of the benchmark of cutting plans as one table in Markdown, with the goal of each set.

A row is what one problem came to with one budget: `cost`, `bound`, `proved` and `seconds` of our plan, `bar` (the
dearest bar or sheet), `free` (our plan of any stages, where ours has three), and the price of each rival or None.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

Row = dict[str, Any]

#: A plan counts as proved soon when it is within so many seconds.
SOON = 5

#: Key of a rival in a row, and its name.
RIVALS = {
    "first_fit": "first fit",
    "packer": "rectangle packer",
    "three_staged_packer": "its plans of three stages",
    "model": "CP-SAT of as long",
    "long_model": "CP-SAT of {long:g} s",
}

HEAD = ("set", "budget", "proved", "of them in 5 s", "mean gap", "above the free plan")


@dataclass(frozen=True)
class Goal:
    """What a set must show. `soon`: share that is proved in 5 s, `proved`: at all; `gap` and `free`: mean shares.

    `bars`: no plan is more than so many bars above its bound; `never`: rivals that no plan may be dearer than.
    """

    soon: float | None = None
    proved: float | None = None
    gap: float | None = None
    free: float | None = None
    bars: int | None = None
    never: tuple[str, ...] = ()


def share_soon(rows: Sequence[Row]) -> float:
    return sum(row["proved"] and row["seconds"] < SOON for row in rows) / len(rows)


def share_proved(rows: Sequence[Row]) -> float:
    return sum(row["proved"] for row in rows) / len(rows)


def gap(rows: Sequence[Row]) -> float:
    return sum(row["cost"] / row["bound"] - 1 for row in rows) / len(rows)


def above_free(rows: Sequence[Row]) -> float:
    return sum(row["cost"] / row["free"] - 1 for row in rows) / len(rows)


def dearer(rows: Sequence[Row], rival: str) -> list[str]:
    return [row["name"] for row in rows if row[rival] is not None and row["cost"] > row[rival]]


def missed(goal: Goal, rows: Sequence[Row]) -> list[str]:
    """What of the goal these rows do not show."""
    wants: list[tuple[str, float | None, Callable[[Sequence[Row]], float], int]] = [
        ("proved in 5 s", goal.soon, share_soon, 1),
        ("proved", goal.proved, share_proved, 1),
        ("gap", goal.gap, gap, -1),
        ("above the free plan", goal.free, above_free, -1),
    ]
    found = [
        f"{what} {100 * of(rows):.2f} %"
        for what, limit, of, sign in wants
        if limit is not None and sign * of(rows) < sign * limit
    ]
    if goal.bars is not None:
        found += [
            f"{row['name']} is over {goal.bars} bar above"
            for row in rows
            if row["cost"] > row["bound"] + goal.bars * row["bar"]
        ]
    return found + [f"{name} dearer" for rival in goal.never for name in dearer(rows, rival)]


def beside(rows: Sequence[Row], rival: str) -> str:
    """Our prices and the rival's where it has a plan, and where ours is dearer."""
    met = [row for row in rows if row[rival] is not None]
    if not met:
        return "–"
    ours, theirs = sum(row["cost"] for row in met), sum(row[rival] for row in met)
    lost = "".join(f", dearer: {name}" for name in dearer(rows, rival))
    return f"{len(met)}: {ours:g} to {theirs:g} ({100 * ours / theirs - 100:+.1f} %){lost}"


def line(title: str, goal: Goal, rows: Sequence[Row]) -> str:
    """One row of the table: a set with one budget."""
    number = len(rows)
    proved = sum(row["proved"] for row in rows)
    soon = round(share_soon(rows) * number)
    free = [row for row in rows if row["free"] is not None]
    lost = missed(goal, rows)
    cells = [
        title,
        f"{rows[0]['budget']:g} s",
        f"{proved} of {number}",
        f"{soon} ({100 * soon / number:.0f} %)",
        f"{100 * gap(rows):.2f} %",
        f"{100 * above_free(free):.2f} %" if free else "–",
        *(beside(rows, rival) for rival in RIVALS),
        "none" if goal == Goal() else "held" if not lost else "missed: " + "; ".join(lost),
    ]
    return "| " + " | ".join(cells) + " |"


def head(long: float) -> str:
    names = [*HEAD, *(name.format(long=long) for name in RIVALS.values()), "goal"]
    return "| " + " | ".join(names) + " |\n|" + "---|" * len(names)
