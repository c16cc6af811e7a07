"""Rows of what the finished bench must stand: forces in N, lengths in mm, moments in N m.

Their field names are keys of figures.json.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class LoadCase:
    """One load over one face or corner: `down` presses `out` beyond the tipping line, `push` is level at the top.

    `holds` and `turns` are moments about that line, `ratio` is one over the other; None: the load is inside the line
    and cannot tip the bench. `further` is how far the supports must move out for the ratio that this load asks for
    (mm); None where it is reached, or nothing is asked.
    """

    name: str
    where: str
    down: float
    out: float
    push: float
    holds: float
    turns: float
    ratio: float | None
    further: float | None = None


@dataclass(frozen=True)
class OnTheFloor:
    """How the empty bench holds on its floor. `push` is what must not move it, `slips` and `rolls` what does (N).

    `grip` is the part of the load on it with which a braked stand holds.
    `rolls` is None where it does not roll. A dip of `lifts` [stiffest, softest] under one corner leaves that one in the
    air (mm). `sill_push` lifts its front end over a sill, None where it does not roll or the sill is too high.
    """

    push: float
    slips: float
    grip: float
    rolls: float | None
    lifts: tuple[float, float]
    sill: float
    sill_push: float | None


@dataclass(frozen=True)
class TopPull:
    """What tears at each of `count` screws or nuts, as when a bench is lifted by its top, and what it may bear (N)."""

    name: str
    count: int
    load: float
    bears: float


@dataclass(frozen=True)
class WorkingLoads:
    """All loads that the finished bench must stand."""

    cases: tuple[LoadCase, ...]
    floor: OnTheFloor
    lifted_by_top: tuple[TopPull, ...] = ()
    corner_plates: TopPull | None = None
    """The bolts of a plate that is below one bar alone, when a third of the loaded bench stands on it; the worst."""
