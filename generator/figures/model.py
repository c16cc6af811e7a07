"""Everything that a manual prints, as plain frozen values: lengths in exact millimetres, masses in kilograms.

The field names are the keys of figures.json, so they are a contract: add, do not rename. The rows are in `rows/`.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.bench.stands.facts import Stand
from generator.figures.rows.assembly import Assembly, Diagonal
from generator.figures.rows.buying import Purchase, PurchaseTotal
from generator.figures.rows.checks import Check, Fit
from generator.figures.rows.cutting import Cutting
from generator.figures.rows.edge_bands import BandedRow
from generator.figures.rows.finish import FinishRow
from generator.figures.rows.fits import FitRow, Seasons
from generator.figures.rows.goods import GoodsFacts
from generator.figures.rows.hardware import HardwareRow, JointRow, Joints
from generator.figures.rows.joinery import DayRow, GluedRow, GlueUpRow, JoineryRow
from generator.figures.rows.joins import JoinRow
from generator.figures.rows.layout import LayoutFacts
from generator.figures.rows.loads import WorkingLoads
from generator.figures.rows.masses import Mass, StandFacts, Stands
from generator.figures.rows.parts import CutSection, GluedBoard, PartRow
from generator.figures.rows.pull_outs import PullOut
from generator.figures.rows.record import BuildRecord
from generator.figures.rows.setting_out import Relief, Setup, Spacer, Stick, TopGrid
from generator.figures.rows.shop import Shop
from generator.figures.rows.spec import Assumption, SpecFacts
from generator.figures.rows.storage import Door, Drawer, OpeningRow, PullPlace, Shelf, Shown, StripPlace, Tote
from generator.figures.rows.strength import Balance, Handling, Sag, Stability, Sway, WorkHeight


@dataclass(frozen=True)
class Standing:
    """The facts of the stand, and its loads."""

    facts: Stand
    load: Stands


@dataclass(frozen=True)
class Figures:
    """All that a manual prints, for one spec; the fields are the sections of figures.json, in its order."""

    spec: SpecFacts
    layout: LayoutFacts
    parts: tuple[PartRow, ...]
    joints: Joints
    joint_rows: tuple[JointRow, ...]
    fits: tuple[Fit, ...]
    openings: tuple[OpeningRow, ...]
    drawers: tuple[Drawer, ...]
    strips: tuple[StripPlace, ...]
    totes: tuple[Tote, ...]
    shelves: tuple[Shelf, ...]
    sticks: tuple[Stick, ...]
    spacers: tuple[Spacer, ...]
    top: TopGrid
    relief: Relief | None
    hardware: tuple[HardwareRow, ...]
    assembly: Assembly
    checks: tuple[Check, ...]
    mass: Mass
    casters: Stands | None
    diagonals: tuple[Diagonal, ...]
    purchases: tuple[Purchase, ...]
    cut_sections: tuple[CutSection, ...]
    cutting: Cutting
    goods: GoodsFacts
    assumed: tuple[Assumption, ...]
    stand: Standing = field(metadata={"silent": True})
    """What it stands on and what that carries: facts and words for drawings and pages, no figures of their own."""
    fillings: Shown = field(default=Shown(), metadata={"silent": True})
    """What fills the bays, for drawings and pages."""
    height_rod: Stick | None = None
    """All heights of the standing bench from the floor."""
    setups: tuple[Setup, ...] = ()
    record: BuildRecord | None = None
    sags: tuple[Sag, ...] = ()
    stability: tuple[Stability, ...] = ()
    balance: Balance | None = None
    handling: tuple[Handling, ...] = ()
    work_height: WorkHeight | None = None
    fit_ranges: tuple[FitRow, ...] = ()
    seasons: Seasons | None = None
    shop: Shop | None = None
    pulls: tuple[PullPlace, ...] = ()
    doors: tuple[Door, ...] = ()
    pull_outs: tuple[PullOut, ...] = ()
    joins: tuple[JoinRow, ...] = ()
    stands: StandFacts | None = None
    sway: tuple[Sway, ...] = ()
    loads: WorkingLoads | None = None
    finish: tuple[FinishRow, ...] = ()
    edges: tuple[BandedRow, ...] = ()
    joinery: tuple[JoineryRow, ...] = ()
    glue_ups: tuple[GlueUpRow, ...] = ()
    glued: tuple[GluedRow, ...] = ()
    glued_boards: tuple[GluedBoard, ...] = ()
    days: tuple[DayRow, ...] = ()
    frame_tools: tuple[str, ...] = field(default=(), metadata={"silent": True})
    """What the frame is built with beyond the usual tools, in words."""
    purchase_total: PurchaseTotal = field(default_factory=lambda: PurchaseTotal(0.0, ()))

    @property
    def materials(self) -> dict[str, str]:
        """What each material is, by its name in the spec."""
        return {row.material: row.made_of or row.material for row in self.parts}

    @property
    def has_errors(self) -> bool:
        """True when a check found an error: nothing may be cut by these figures."""
        return any(check.severity == "error" and not check.ok for check in self.checks)
