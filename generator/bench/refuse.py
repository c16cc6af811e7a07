"""Benches that a spec can describe and nobody can build. Each is refused with its reason."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.fillings.panel_brackets import without_wall
from generator.bench.frames import frame_kind
from generator.bench.frames.panels import wall_names
from generator.bench.layout import bay_names
from generator.bench.model import Part
from generator.bench.stands import stand_kind
from generator.bench.tops import top_kind
from generator.calculators.spacing import Share
from generator.codes import Code
from generator.findings import Finding, Severity, Steps, one_of
from generator.spec.load import LoadedSpec
from generator.spec.material import Stock


def refusals(loaded: LoadedSpec) -> Iterator[Finding]:
    """Faults that can be found from the spec alone."""
    yield from _walls(loaded)
    yield from _as_thick(loaded)
    yield from without_wall(loaded)
    yield from frame_kind(loaded.spec).refusals(loaded)
    yield from stand_kind(loaded.spec).refusals(loaded)
    yield from _bay_names(loaded)
    yield from _remainder(loaded)
    yield from top_kind(loaded.spec).refusals(loaded)
    yield from _stock_widths(loaded)


def _walls(loaded: LoadedSpec) -> Iterator[Finding]:
    walls, zones = wall_names(loaded.spec), len(loaded.spec.zones)
    if "spine" in walls and zones == 1:
        yield loaded.fault(
            Code.WALL_WITHOUT_PLACE,
            "a spine is the wall between two zones, and this bench has only one zone",
            "panels",
            "walls",
            found="spine",
            allowed="any of dividers, ends, back",
        )
    if "back" in walls and zones > 1:
        yield loaded.fault(
            Code.WALL_WITHOUT_PLACE,
            "the wall `back` closes a bench of one zone; here the last zone opens to the rear",
            "panels",
            "walls",
            found="back",
            allowed="any of dividers, ends, spine",
        )


def _as_thick(loaded: LoadedSpec) -> Iterator[Finding]:
    """Walls of another material have the thickness of the others, because strips and slides begin at their faces."""
    panels, goods = loaded.spec.panels, loaded.goods
    for wall, name in panels.boards.items():
        if wall not in wall_names(loaded.spec):
            yield loaded.fault(
                Code.WALL_WITHOUT_PLACE,
                "this bench does not have this wall",
                "panels", "boards", wall,
                found=wall,
                allowed=one_of(wall_names(loaded.spec)),
            )  # fmt: skip
        elif goods.sheets[name].thickness != goods.wall.thickness:
            yield loaded.fault(
                Code.NO_SIZE,
                "all walls are equally thick, so that slides and strips on them are in line",
                "panels", "boards", wall,
                found=f"{name}, {loaded.say(goods.sheets[name].thickness)}",
                allowed=f"boards of {loaded.say(goods.wall.thickness)}, as `panels.material` measures",
            )  # fmt: skip


def _bay_names(loaded: LoadedSpec) -> Iterator[Finding]:
    """Names that were left out must not meet names that were given."""
    seen: set[str] = set()
    for zone, names in enumerate(bay_names(loaded.spec)):
        for bay, name in enumerate(names):
            if name in seen:
                yield loaded.fault(
                    Code.NAME_TWICE,
                    "two bays have the same name",
                    "zones",
                    zone,
                    "bays",
                    bay,
                    found=name,
                    allowed="a name that no other bay has",
                )
            seen.add(name)


def _remainder(loaded: LoadedSpec) -> Iterator[Finding]:
    """The remainder of rounded shares falls in a bay that is a share."""
    rule = loaded.spec.bench.round_shares
    if rule is None:
        return
    named = bay_names(loaded.spec)
    shares = [
        named[zone][bay]
        for zone, each in enumerate(loaded.spec.zones)
        for bay, one in enumerate(each.bays)
        if isinstance(one.width, Share)
    ]
    if rule.remainder not in shares:
        yield loaded.fault(
            Code.NO_REMAINDER_BAY,
            "the width of the bay that takes the remainder is not a share",
            "bench",
            "round_shares",
            "remainder",
            found=rule.remainder,
            allowed=one_of(shares) if shares else "a bay whose width is a `share`",
        )


def _stock_widths(loaded: LoadedSpec) -> Iterator[Finding]:
    for name, material in loaded.spec.materials.items():
        for index, stock in enumerate(material.stock):
            if material.kind == "sheet" and stock.width is None:
                yield loaded.fault(
                    Code.MISSING_KEY,
                    "this sheet has no width",
                    "materials",
                    name,
                    "stock",
                    index,
                    advice="Write `length` and `width`.",
                )
            if stock.defects and (material.kind != "sheet" or stock.count is not None):
                yield loaded.fault(
                    Code.NOT_FOR_BARS if material.kind != "sheet" else Code.TOO_MANY,
                    "only boards can be cut around their defects"
                    if material.kind != "sheet"
                    else "each board has its own defects",
                    "materials", name, "stock", index, "defects" if material.kind != "sheet" else "count",
                    found="" if material.kind != "sheet" else str(stock.count),
                    allowed="no `defects`" if material.kind != "sheet" else "one entry a board, without `count`",
                )  # fmt: skip
            yield from _off_the_board(loaded, stock, ("materials", name, "stock", index))


def _off_the_board(loaded: LoadedSpec, board: Stock, path: Steps) -> Iterator[Finding]:
    """Defects that begin beyond their board: nothing would be cut around them."""
    for index, defect in enumerate(board.defects):
        if board.width is not None and (defect.at[0] >= board.length or defect.at[1] >= board.width):
            yield loaded.fault(
                Code.OUT_OF_RANGE, "this defect is not on its board", *path, "defects", index, "at",
                found=", ".join(map(loaded.say, defect.at)),
                allowed=f"less than {loaded.say(board.length)}, {loaded.say(board.width)}",
            )  # fmt: skip


def unjoined(loaded: LoadedSpec, loose: Sequence[tuple[Part, str]]) -> Iterator[Finding]:
    """Ends of extra members that meet nothing; those of the frame itself always do."""
    for part, end in loose:
        yield Finding(
            Code.END_IN_THE_AIR,
            Severity.WARNING,
            f"the {end} end of {part.mark} ({part.name}) meets no bar",
            loaded.where("extra", "members", int(part.mark[1:]) - 1),
            advice="Move the bar, or add a bar for it to end on.",
        )
