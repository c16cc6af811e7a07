"""Laws of the drawers: boxes, slides and the packing behind them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from generator.bench.fillings.drawer_boards import PlacedDrawer
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.on_slides import OnSlides, packing_material, packing_of, slide_of
from generator.bench.fillings.walls import PLANING, PLAY
from generator.bench.frames.panels import wall_names
from generator.bench.law import (
    MEASURE,
    Case,
    Law,
    Verdict,
    at_least,
    at_most,
    bay_path,
    by_the_check,
    said,
    to_limit,
    to_write,
)
from generator.bench.layout import bay_of
from generator.bench.remedies import deeper_zone, more_walls, thicker, wider_bay
from generator.calculators.drawers import OVER_SLIDE, strip_span
from generator.codes import Code
from generator.findings import Change, Steps, dotted
from generator.provenance import constant, inexact
from generator.spec.load import LoadedSpec
from generator.units.format import format_mm
from generator.units.sizes import INCH

#: Width over depth from which a drawer racks, and beyond which it needs synchronised slides. Common practice.
RACKS = constant("3/2", "width to depth from which a drawer racks", unit="")
NEVER = constant(2, "width to depth that needs synchronised slides", unit="")
#: Room behind a slide, width of a strip that takes screws (mm). Common practice, no source.
BEHIND_SLIDE = constant(10, "space behind a slide")
#: How deep a groove may be cut into a box. Common practice, no source.
MOST_GROOVE = constant("2/3", "deepest groove of a drawer box, in its thickness", unit="")
STRIP_FOR_SCREWS = constant(40, "width of a strip that takes screws")
#: By so much a strip may be too thin (mm). Common practice, no source.
HOLE_OFF_EDGE = constant(10, "wood between a slide's hole and the edge of its strip")
AS_PLANED = constant("1/20", "how near a plane comes to a thickness")
LITTLE = constant("1/2", "by how much a packing strip may be too thin")
#: A slide that is less proud than this catches on a post that is not quite plumb (mm). Common practice.
LEAST_PROUD = constant("1/2", "least by which a slide is in front of the bars")
#: Step of slides on the shelf (mm).
SLIDE_STEP = Fraction(50)


def _box_higher(case: Case) -> tuple[Change, ...]:
    return case.length(("drawers", "above"), case.spec.drawers.above - case.off, down=True)


def _strip(case: Case, key: str, needed: Fraction) -> tuple[Change, ...]:
    return case.length(("materials", case.spec.drawers.packing, key), needed)


def _thicker_strip(case: Case) -> tuple[Change, ...]:
    return _strip(case, "thickness", case.limit + PLANING)


def _planed_strip(case: Case) -> tuple[Change, ...]:
    """The strip as it is planed, finer than a ruler shows: a thousandth of an inch, or a hundredth of a millimetre."""
    inches = case.spec.units == "in"
    step = INCH / 1000 if inches else Fraction(1, 100)
    planed = ceil(case.value / step) * step
    text = f"{format_mm(planed / INCH, 3)} in" if inches else f"{format_mm(planed)} mm"
    return (Change(f"materials.{case.spec.drawers.packing}.thickness", text),)


def _prouder(case: Case) -> tuple[Change, ...]:
    return case.length(("drawers", "proud"), LEAST_PROUD)


def _wider_strip(case: Case) -> tuple[Change, ...]:
    return _strip(case, "width", case.limit)


SLIDE_RATING = Law(
    Code.SLIDE_RATING, "error", "The slides carry the heaviest drawer with its load",
    "The slides are not rated for the heaviest drawer with its load", "Take slides of a higher rating.",
    "Overloaded slides bend and jam, and an open drawer can fall.", by_the_check,
    quantity="drawer with its load",
)  # fmt: skip
SLIDE_HOLE = Law(
    Code.SLIDE_HOLE, "error", "All holes are on the slide", "A hole is beyond the slide's end",
    "Measure `holes` from the slide's front end again.", "The screw would miss the slide.", MEASURE,
    quantity="furthest hole, from the slide's front end",
)  # fmt: skip
SLIDE_SPACE = Law(
    Code.SLIDE_SPACE, "error", "The slide fits its space", "The slide is thicker than the space beside the box",
    "Write the `side_space` that the maker asks for.", "The drawer does not go in.", to_limit,
    quantity="side space for the slide",
)  # fmt: skip
SLIDE_AXIS = Law(
    Code.SLIDE_AXIS, "error", "The slide is above the box's lower edge", "The slide reaches below the box",
    "Write a larger `slide_axis`.", "Its lower screws meet no wood, and it rubs on the part below.", to_limit,
    quantity="slide's centre, from the box's lower edge",
)  # fmt: skip
GROOVE_DEPTH = Law(
    Code.GROOVE_DEPTH, "warning", "The groove leaves enough of the box's sides",
    "The groove leaves too little of the box's sides", "Write a smaller `groove`.",
    "The sides break along the groove when the drawer is full.", to_limit,
    quantity="depth of the groove in the side",
)  # fmt: skip
GROOVE_PLACE = Law(
    Code.GROOVE_PLACE, "error", "The groove for the bottom is within the box",
    "The groove for the bottom is above the box", "Write a smaller `groove_up`, or make the lowest front higher.",
    "Nothing would hold the bottom.", "the groove's height and the lowest front share in it, drawer by drawer",
    quantity="top of the groove, from the box's lower edge",
)  # fmt: skip
WIDE_DRAWER = Law(
    Code.WIDE_DRAWER, "error", "The drawer is narrow enough not to jam",
    "The drawer is too wide for its depth: it jams",
    "Make it narrower or deeper, or use synchronised slides.",
    "A push at one end jams it and wears out the slides.", by_the_check,
    quantity="width divided by depth",
)  # fmt: skip
BOX_HEIGHT = Law(
    Code.BOX_HEIGHT, "error", "The drawer's box is higher than its slide", "The drawer's box is too low for its slide",
    "Give it a higher front.", "There is no wood for the slide's screws.", _box_higher,
    quantity="height of the box",
)  # fmt: skip
BOX_WIDTH = Law(
    Code.BOX_WIDTH, "error", "The box has space for its bottom", "The box has no space for its bottom",
    "Widen the bay.", "The drawer would have no bottom.", wider_bay,
    quantity="inside width of the box",
)  # fmt: skip
SLIDE_DEPTH = Law(
    Code.SLIDE_DEPTH, "error", "The slide ends before the zone does",
    "There is too little space in the zone behind the slide",
    "Make the zone deeper, or use a shorter slide, such as `slide: {use: slide 400}` under `hardware`.",
    "The slide would hit the spine before the drawer is closed.", deeper_zone,
    quantity="slide's rear end to the end of the zone",
)  # fmt: skip
SLIDE_WITHOUT_WALL = Law(
    Code.SLIDE_WITHOUT_WALL, "error", "The slides have walls", "The slides have no wall",
    "Add `ends` or `dividers` to panels.walls.", "Slides are screwed to a wall, and this bay has none.",
    more_walls,
)  # fmt: skip
PACKING_THIN = Law(
    Code.PACKING_THIN, "error", "The packing strip is as thick as the slide needs", "The packing strip is too thin",
    "Take a thicker strip.", "The slide would be behind the posts' faces, and the drawer could not pass them.",
    _thicker_strip,
    quantity="thickness of the strip",
)  # fmt: skip
PACKING_PLANED = Law(
    Code.PACKING_PLANED, "note", "The packing strips are used as they come",
    "The packing strips must be planed to this thickness", "Plane all of them at one setting.",
    "If the strips differ in thickness, the slides of a drawer are not parallel.", _planed_strip,
    quantity="thickness needed, against the strip",
)  # fmt: skip
PACKING_NARROW = Law(
    Code.PACKING_NARROW, "warning", "The packing strip is wide enough for its screws",
    "The packing strip is too narrow for its screws", "Take a wider strip.", "A screw near an edge splits the strip.",
    _wider_strip,
    quantity="width of the strip",
)  # fmt: skip
PACKING_EDGE = Law(
    Code.PACKING_EDGE, "warning", "The slide's holes are clear of the packing strips' edges",
    "A slide's hole is too near the edge of its packing strip", "Set the slides further to the rear.",
    "The strip splits along the screw, and the slide comes loose.", by_the_check,
    quantity="hole centre to the nearest edge of its strip",
)  # fmt: skip
SAG_DRAWER_BOTTOM = Law(
    Code.SAG_DRAWER_BOTTOM, "warning", "The drawers' bottoms are stiff enough", "The drawer's bottom sags too far",
    "Take a thicker bottom.", "A sagging bottom slips out of its groove or drags on the drawer below.",
    thicker(lambda spec: spec.drawers.bottom),
    quantity="sag in the middle, loaded",
)  # fmt: skip
SLIDE_PLANE = Law(
    Code.SLIDE_PLANE, "warning", "The slides clear the posts", "The slides catch on the posts",
    "Write a `proud` of {} to {}.", "The drawer catches on a post when you pull it.", _prouder,
    lengths=(LEAST_PROUD, Fraction(1)),
    quantity="packing in front of the post, in thickness",
)  # fmt: skip
LAWS = (
    SAG_DRAWER_BOTTOM, SLIDE_PLANE, SLIDE_RATING, SLIDE_HOLE, SLIDE_SPACE, SLIDE_AXIS, GROOVE_DEPTH, GROOVE_PLACE,
    WIDE_DRAWER, BOX_HEIGHT, BOX_WIDTH, SLIDE_DEPTH, SLIDE_WITHOUT_WALL, PACKING_THIN, PACKING_PLANED, PACKING_NARROW,
    PACKING_EDGE,
)  # fmt: skip


def drawer_verdicts(bench: Solved) -> Iterator[Verdict]:
    """Boxes against their slides and bays."""
    spec, drawers = bench.spec, bench.storage.of(PlacedDrawer)
    if not bench.storage.of(OnSlides):
        return
    yield from _slide_card(bench.loaded)
    if drawers:
        yield from _bottom_groove(bench)
    for drawer in drawers:
        bay = bay_of(bench.layout, drawer.bay)[1]
        where, path = f"bay {drawer.bay}, drawer {drawer.number}", (*bay_path(bay), "stack")
        ratio = drawer.sizes.width_to_depth
        limit, severity = (NEVER, "error") if ratio > NEVER else (RACKS, "warning")
        yield Verdict(
            WIDE_DRAWER, ratio <= RACKS, where, path, inexact(ratio), inexact(limit), unit="",
            severity=severity, remedy=_longer_slide(bench, drawer.bay),
        )  # fmt: skip
        needed = slide_of(bench.loaded).height + OVER_SLIDE
        yield at_least(BOX_HEIGHT, drawer.sizes.box_height, needed, where, path)
        bottom = bench.goods.sheets[spec.drawers.bottom].thickness
        yield at_least(BOX_WIDTH, drawer.sizes.ends_length, bottom * 4, where, path)
    yield from _slides(bench)
    yield from _packing(bench)
    yield at_least(SLIDE_PLANE, spec.drawers.proud, LEAST_PROUD, "all drawers", ("drawers", "proud"))


def _longer_slide(bench: Solved, bay: str) -> tuple[Change, ...]:
    """Drawers so deep that the widest box of the bay no longer racks, by whole steps of slides."""
    wide = max(each.sizes.box_width for each in bench.storage.of(PlacedDrawer) if each.bay == bay)
    length = ceil(wide / RACKS / SLIDE_STEP) * SLIDE_STEP
    return to_write(bench.spec, ("hardware", bench.spec.drawers.slide, "length"), length)


def _slide_card(loaded: LoadedSpec) -> Iterator[Verdict]:
    """Where its holes are, the space it works in."""
    name, card, path = loaded.spec.drawers.slide, slide_of(loaded), ("hardware", loaded.spec.drawers.slide)
    yield at_most(SLIDE_HOLE, max(card.holes), card.length, name, (*path, "holes"))
    yield at_least(SLIDE_SPACE, card.side_space, card.thickness, name, (*path, "side_space"))


def _bottom_groove(bench: Solved) -> Iterator[Verdict]:
    """Where the slide sits on the box; the groove for the bottom leaves wood behind it and above it."""
    spec = bench.spec
    rules, box = spec.drawers, bench.goods.sheets[spec.drawers.box].thickness
    lower = slide_of(bench.loaded).height / 2
    yield at_least(
        SLIDE_AXIS, rules.slide_axis, lower, f"lower edge of {rules.slide}", ("drawers", "slide_axis")
    )
    severity = "error" if rules.groove >= box else "warning"
    yield at_most(
        GROOVE_DEPTH, rules.groove, box * MOST_GROOVE, rules.box, ("drawers", "groove"), severity=severity
    )
    lowest = min(drawer.sizes.box_height for drawer in bench.storage.of(PlacedDrawer))
    top = rules.groove_up + bench.goods.sheets[rules.bottom].thickness
    yield at_most(GROOVE_PLACE, top, lowest, "the lowest box", ("drawers", "groove_up"))


def _slides(bench: Solved) -> Iterator[Verdict]:
    spec = bench.spec
    plan, walls = bench.layout, wall_names(spec)
    for bay_name, front in {each.bay: each.slide_front for each in bench.storage.of(OnSlides)}.items():
        behind = front + slide_of(bench.loaded).length
        zone, bay = bay_of(bench.layout, bay_name)
        room = plan.section + zone.y.size - behind
        severity = "error" if room < 0 else "warning"
        path = ("zones", zone.index, "depth")
        yield at_least(SLIDE_DEPTH, room, BEHIND_SLIDE, f"bay {bay_name}", path, severity=severity)
        needed = {"ends"} if bay.index in (0, len(zone.bays) - 1) else set()
        needed |= {"dividers"} if len(zone.bays) > 1 else set()
        yield Verdict(SLIDE_WITHOUT_WALL, needed <= set(walls), f"bay {bay_name}", ("panels", "walls"))


def _packing(bench: Solved) -> Iterator[Verdict]:
    spec = bench.spec
    name, card, needed = (
        spec.drawers.packing,
        bench.goods.strips[spec.drawers.packing],
        packing_of(bench.loaded),
    )
    path = ("drawers", "packing")
    yield _thick_enough(bench.loaded, needed)
    yield from _past_doors(bench)
    if card.thickness > needed + AS_PLANED:
        yield Verdict(PACKING_PLANED, False, name, path, needed, card.thickness)
    yield at_least(PACKING_NARROW, card.width, STRIP_FOR_SCREWS, name, path)
    yield from _holes_off_edges(bench)


def _past_doors(bench: Solved) -> Iterator[Verdict]:
    """The strips at the hinges of doors, which bring the slides past the open door."""
    taken = max((max(d.cover.left, d.cover.right) for d in bench.storage.of(OnSlides) if d.cover), default=0)
    if taken:
        name, needed = packing_material(bench.spec, Fraction(taken)), packing_of(bench.loaded) + taken
        buy = said(bench.spec, needed + PLANING)
        yield at_least(
            PACKING_THIN, bench.goods.strips[name].thickness, needed, f"{name}, at the hinges", ("doors", "packing"),
            advice=f"Name a strip of {buy} or more in `doors.packing`, or glue one up.",
            remedy=(Change(f"materials.{name}.thickness", buy),),
        )  # fmt: skip


def _holes_off_edges(bench: Solved) -> Iterator[Verdict]:
    """A strip that had to clear a post is off its hole: behind a post of 47 the hole comes near its edge."""
    spec = bench.spec
    section, width = bench.layout.section, bench.goods.strips[spec.drawers.packing].width
    for zone in bench.layout.zones:
        names = [bay.name for bay in zone.bays]
        own = dict.fromkeys(d.stations for d in bench.storage.of(OnSlides) if d.bay in names)
        if not own:
            continue
        clear = (section, section + zone.y.size)
        spans = [(at, *strip_span(at, width, clear, PLAY)) for stations in own for at in stations]
        front = min(at - low for at, low, _ in spans)
        back = min(high - at for at, _, high in spans)
        setback = said(spec, spec.drawers.slide_setback + HOLE_OFF_EDGE - front)
        deeper = said(spec, zone.y.size + HOLE_OFF_EDGE - back)
        depth: Steps = ("zones", zone.index, "depth")
        for space, path, value, advice in (
            (front, ("drawers", "slide_setback"), setback, ""),
            (back, depth, deeper, "Deepen the zone, or take a shorter slide."),
        ):
            changes = (Change(dotted(path), value),)
            yield Verdict(
                PACKING_EDGE, space >= HOLE_OFF_EDGE, f"zone {zone.name}", path, space, HOLE_OFF_EDGE, "at least",
                changes, advice=advice,
            )  # fmt: skip


def _thick_enough(loaded: LoadedSpec, needed: Fraction) -> Verdict:
    """A strip that is a little too thin is used as it comes: it is still proud enough for the slide to pass."""
    name = loaded.spec.drawers.packing
    thickness, proud = loaded.goods.strips[name].thickness, loaded.spec.drawers.proud
    short = needed - thickness
    little = short <= LITTLE and proud - short >= LEAST_PROUD
    buy = said(loaded.spec, needed + PLANING)
    advice = (
        f"Buy strips of {buy} or more, 2 mm (5/64 in) of it for planing: `materials.{name}.thickness: {buy}`."
    )
    if little:
        advice = f"Use them as they come, with `drawers.proud: {said(loaded.spec, proud - short, down=True)}`. {advice}"
    return Verdict(
        PACKING_THIN, short <= 0, name, ("drawers", "packing"), thickness, needed, "at least",
        severity="note" if little and short > 0 else "", advice=advice,
    )  # fmt: skip
