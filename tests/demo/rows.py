"""The figures of the worked bench as a reader of figures.json has them."""

from __future__ import annotations

from typing import Any

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
