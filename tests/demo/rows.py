"""The figures of the worked bench as a reader of figures.json has them."""

from __future__ import annotations

from typing import Any

from generator.figures.model import Figures
from generator.figures.rows.strength import Sag, Stability

Data = dict[str, Any]

#: Group of bars -> their marks.
MARKS = {
    "corner post": ["A1", "A2", "A3", "A4"],
    "long rail": ["B1", "B2", "B3", "B4"],
    "base cross-member": ["C1", "C2", "C3"],
    "top cross-member": ["C4", "C5", "C6"],
    "base end member": ["C7", "C8"],
    "tray end rail": ["C9", "C10"],
    "top end member": ["C11", "C12"],
    "inner post": ["D1", "D2", "D3", "D4", "D5", "D6", "D7"],
    "end spine post": ["E1", "E2"],
}


def rows(data: Data, *groups: str) -> list[Data]:
    return [part for part in data["parts"] if part["group"] in groups]


def sag(figures: Figures, kind: str, where: str | None = None, spread: bool | None = None) -> Sag:
    """The first row of a kind; of one place or one way of loading where these are named."""
    return next(
        row
        for row in figures.sags
        if row.kind == kind and where in (None, row.where) and spread in (None, row.spread)
    )


def face(figures: Figures, name: str) -> Stability:
    return next(row for row in figures.stability if row.face == name)
