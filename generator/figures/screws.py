"""Every wood screw of a bench: which, how many, through what, into what. The hardware list and the checks read this."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.driven import EDGE_SIZES, Driven, Path, chosen
from generator.bench.fillings import FILLINGS, strip_paths
from generator.bench.frames import frame_kind
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.fasteners import trim_screws
from generator.calculators.shelves import cleat_count
from generator.calculators.wood_screws import EDGE_THREAD, fitting, into_edge, stock
from generator.figures.tray_screws import tray_screws
from generator.provenance import constant

#: Usual lengths of screws through thin metal (mm): longer ones hold no better. Common practice, no source.
BRACKET_SCREW = constant(16, "usual length of a bracket's screw into the top")
PER_BRACKET = 2
RAIL_SCREW = constant(35, "usual length of a screw from a bracket into timber")
TRIM_SCREW = constant(12, "usual length of a trim's screw")
#: What a pocket screw passes in the divider before it enters the tray (mm). Common practice, no source.
POCKET_PATH = constant(16, "wood before a pocket screw's thread")


def driven(bench: Bench) -> tuple[Driven, ...]:
    """All wood screws of a bench but those of the top's brackets."""
    return (*_of_fillings(bench), *_of_strips(bench), *_of_tray(bench), *bench.stand.screws)


def _of_fillings(bench: Bench) -> Iterator[Driven]:
    for kind in FILLINGS:
        yield from kind.screws(bench)


def _of_strips(bench: Bench) -> Iterator[Driven]:
    spec = bench.spec
    keys = strip_paths()
    wall, screws = bench.goods.wall.thickness, stock("4", spec.units)
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
    goods = bench.goods
    wall, tray, angle = goods.wall.thickness, goods.tray.thickness, goods.trim
    if angle is not None:
        count = sum(trim_screws(part.length) for part in bench.of(Role.TRAY_TRIM))
        screw = fitting(stock("3", spec.units), angle.thickness, tray, TRIM_SCREW)
        yield Driven(
            "trim screw",
            screw,
            count,
            angle.thickness,
            tray,
            "tray trim",
            ("tray", "trim"),
            holds="tray.material",
        )
    pockets, above = (sum(len(row.at) for row in rows) for rows in tray_screws(bench))
    if pockets:
        screw = fitting(stock("4", spec.units), POCKET_PATH, tray)
        place, path = "pockets to the tray", ("tray", "material")
        yield Driven(
            "pocket screw",
            screw,
            pockets,
            POCKET_PATH,
            tray,
            place,
            path,
            holds="tray.material",
            head="pan head",
        )
    if above:
        screw = into_edge(EDGE_SIZES, spec.units, tray, wall)
        deep = EDGE_THREAD * screw.shank + screw.length
        place, path = "tray to dividers", ("panels", "material")
        upright = any(part.grain == "width" for part in bench.of(Role.DIVIDER))
        in_end = upright and goods.wall.species is not None
        yield Driven("tray screw", screw, above, tray, deep, place, path, wall, in_end=in_end)


def rail_screws(bench: Bench) -> Iterator[Driven]:
    """Screws that hold the top's brackets to members without slots."""
    spec, goods = bench.spec, bench.goods
    if frame_kind(spec).in_nuts or not bench.brackets:
        return
    thickness, into = goods.bracket_thickness, goods.members.section
    screw = fitting(stock("5", spec.units), thickness, into, RAIL_SCREW)
    path: Path = ("hardware", str(spec.top.bracket)) if spec.top.bracket else ("top", "bracket_thickness")
    yield Driven(
        "bracket rail screw",
        screw,
        len(bench.brackets) * PER_BRACKET,
        thickness,
        into,
        "top bracket to its timber",
        path,
        usual=screw,
    )


def bracket_screws(bench: Bench) -> Iterator[Driven]:
    """Screws of the top brackets, up into the top."""
    spec, goods = bench.spec, bench.goods
    card, thickness, top = goods.bracket, goods.bracket_thickness, goods.top.thickness
    path: Path = ("top", "material")
    usual = fitting(stock("5", spec.units), thickness, top, BRACKET_SCREW)
    screw = chosen(card.screw if card else None, usual)
    count = len(bench.brackets) * (len(card.holes) if card else PER_BRACKET)
    if card:
        path = ("hardware", str(spec.top.bracket), "screw")
    yield Driven(
        "top bracket wood screw",
        screw,
        count,
        thickness,
        top,
        "top bracket",
        path,
        holds="top.material",
        usual=usual,
    )
