"""Every wood screw of a bench: which, how many, through what, into what. The hardware list and the checks read this."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.fasteners import box_corner_screws, trim_screws
from generator.calculators.shelves import cleat_count
from generator.calculators.wood_screws import EDGE_THREAD, WoodScrew, fitting, into_edge, stock
from generator.figures.storage import packing_of
from generator.figures.tray_screws import tray_screws
from generator.spec.fields import Screw
from generator.spec.lookup import bracket, bracket_thickness, sheet, slide, trim
from generator.spec.schema import Spec
from generator.units import format_inch, format_mm
from generator.working import constant

Path = tuple[str | int, ...]

#: Screws of one drawer front. Common practice, no source.
PER_DRAWER_FRONT = 4
#: Usual lengths of screws through thin metal (mm): longer ones hold no better. Common practice, no source.
SLIDE_SCREW = constant(16, "usual length of a slide's screw")
BRACKET_SCREW = constant(16, "usual length of a bracket's screw into the top")
PER_BRACKET = 2
TRIM_SCREW = constant(12, "usual length of a trim's screw")
#: What a pocket screw passes in the divider before it enters the tray (mm). Common practice, no source.
POCKET_PATH = constant(16, "wood before a pocket screw's thread")
#: Sizes of screws into the edge of a board, thickest first. Common practice, no source.
EDGE_SIZES = ("4", "3.5", "3")


@dataclass(frozen=True)
class Driven:
    """Like screws of one use: `count` of `screw` go `through` (mm) and hold on `into` (mm). `kind` is the trade's name.

    `edge` is the thickness (mm) of the board whose edge they go into, `place` what a finding names, `role` that of the
    strips that they hold and `mark` the first of these, `path` the key that chooses them.
    """

    kind: str
    screw: WoodScrew
    count: int
    through: Fraction
    into: Fraction
    place: str
    path: Path
    edge: Fraction | None = None
    role: Role | None = None
    mark: str = ""

    @property
    def name(self) -> str:
        """As it is sold: `4x25`, `#6 x 1`."""
        return wood_screw_name(self.screw)


def wood_screw_name(screw: WoodScrew) -> str:
    """As it is sold: `4x25`, `#6 x 1`."""
    if screw.size.startswith("#"):
        return f"{screw.size} x {format_inch(screw.length)}"
    return f"{screw.size}x{format_mm(screw.length)}"


def driven(bench: Bench) -> tuple[Driven, ...]:
    """All wood screws of a bench but those of the top's brackets."""
    return (*_of_drawers(bench), *_of_strips(bench), *_of_tray(bench))


def _chosen(screw: Screw | None, default: WoodScrew) -> WoodScrew:
    """What the spec asks for, else what follows from the boards."""
    return default if screw is None else WoodScrew(screw.thread, screw.shank, screw.length)


def default_face_screw(spec: Spec) -> WoodScrew:
    """Through the box's front into the face: as long as it may be without coming out."""
    box, front = (sheet(spec, name).thickness for name in (spec.drawers.box, spec.drawers.front))
    return fitting(stock("4", spec.units), box, front)


def default_box_screw(spec: Spec) -> WoodScrew:
    """Through a side into the end of the box's front or back."""
    box = sheet(spec, spec.drawers.box).thickness
    return into_edge(EDGE_SIZES, spec.units, box, box)


def _of_drawers(bench: Bench) -> Iterator[Driven]:
    spec = bench.spec
    drawers, rules = bench.storage.drawers, spec.drawers
    if not drawers:
        return
    panel, box, front = (
        sheet(spec, name).thickness for name in (spec.panels.material, rules.box, rules.front)
    )
    # each of the two slides of a pair has one screw a hole in its cabinet and in its drawer member
    half = len(drawers) * len(slide(spec).holes) * 2
    none, screws = Fraction(0), stock("4", spec.units)
    wall = packing_of(spec) + panel
    for into, place, key in ((wall, "slide to packing", "packing"), (box, "slide to drawer box", "box")):
        screw = fitting(screws, none, into, SLIDE_SCREW)
        yield Driven("slide screw", screw, half, none, into, place, ("drawers", key))
    corners = sum(4 * box_corner_screws(drawer.sizes.box_height) for drawer in drawers)
    ends = min(drawer.sizes.ends_length for drawer in drawers)
    screw, path = _chosen(rules.box_screw, default_box_screw(spec)), ("drawers", "box_screw")
    yield Driven("drawer box screw", screw, corners, box, ends, "drawer box's corners", path, box)
    screw, path = _chosen(rules.face_screw, default_face_screw(spec)), ("drawers", "face_screw")
    faces = len(drawers) * PER_DRAWER_FRONT
    yield Driven("drawer front screw", screw, faces, box, front, "drawer face", path)


def _of_strips(bench: Bench) -> Iterator[Driven]:
    spec = bench.spec
    keys = {
        Role.PACKING_STRIP: ("drawers", "packing"),
        Role.SHELF_CLEAT: ("shelves", "cleat"),
        Role.TOTE_RUNNER: ("totes",),
    }
    wall, screws = sheet(spec, spec.panels.material).thickness, stock("4", spec.units)
    found: dict[tuple[Role, Fraction], list[Part]] = {}
    for part in bench.of(*keys):
        found.setdefault((part.role, part.box.x.size), []).append(part)
    for (role, through), strips in found.items():
        screw = fitting(screws, through, wall)
        count = sum(cleat_count(part.length) for part in strips)
        place = f"{strips[0].mark}, {strips[0].group}"
        yield Driven(
            "strip screw", screw, count, through, wall, place, keys[role], None, role, strips[0].mark
        )


def _of_tray(bench: Bench) -> Iterator[Driven]:
    spec = bench.spec
    wall, tray = (sheet(spec, name).thickness for name in (spec.panels.material, spec.tray.material))
    angle = trim(spec)
    if angle is not None:
        count = sum(trim_screws(part.length) for part in bench.of(Role.TRAY_TRIM))
        screw = fitting(stock("3", spec.units), angle.thickness, tray, TRIM_SCREW)
        yield Driven("trim screw", screw, count, angle.thickness, tray, "tray trim", ("tray", "trim"))
    pockets, above = (sum(len(row.at) for row in rows) for rows in tray_screws(bench))
    if pockets:
        screw = fitting(stock("4", spec.units), POCKET_PATH, tray)
        yield Driven(
            "pocket screw", screw, pockets, POCKET_PATH, tray, "pockets to the tray", ("tray", "material")
        )
    if above:
        screw = into_edge(EDGE_SIZES, spec.units, tray, wall)
        deep = EDGE_THREAD * screw.shank + screw.length
        place, path = "tray to dividers", ("panels", "material")
        yield Driven("tray screw", screw, above, tray, deep, place, path, wall)


def default_bracket_screw(spec: Spec) -> WoodScrew:
    """Through a bracket into the top."""
    top = sheet(spec, spec.top.material).thickness
    return fitting(stock("5", spec.units), bracket_thickness(spec), top, BRACKET_SCREW)


def bracket_screws(bench: Bench) -> Iterator[Driven]:
    """Screws of the top brackets, up into the top."""
    spec = bench.spec
    card, thickness = bracket(spec), bracket_thickness(spec)
    path: Path = ("top", "material")
    top = sheet(spec, spec.top.material).thickness
    screw = _chosen(card.screw if card else None, default_bracket_screw(spec))
    count = len(bench.brackets) * (len(card.holes) if card else PER_BRACKET)
    if card:
        path = ("hardware", str(spec.top.bracket), "screw")
    yield Driven("top bracket wood screw", screw, count, thickness, top, "top bracket", path)
