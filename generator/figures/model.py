"""Everything that a manual prints, as plain frozen values: lengths in exact millimetres, masses in kilograms.

The field names are the keys of figures.json, so they are a contract: add, do not rename.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.figures.fits_model import FitRow, Seasons
from generator.figures.record_model import BuildRecord
from generator.figures.shop_model import Shop
from generator.figures.strength_model import Balance, Handling, Sag, Stability, WorkHeight

Length = Fraction


@dataclass(frozen=True)
class PastIssue:
    """An earlier revision of the spec; sheets with its `checksum` are superseded."""

    revision: str
    date: str = ""
    reason: str = ""
    checksum: str = ""


@dataclass(frozen=True)
class SpecFacts:
    """What identifies the spec. `checksum` is the first twelve hex digits of the SHA-256 of its bytes."""

    title: str
    revision: str
    checksum: str
    units: str
    designer: str = ""
    date: str = ""
    reason: str = ""
    licence: str = ""
    inch_fraction: int = 32
    history: tuple[PastIssue, ...] = ()
    currency: str = ""


@dataclass(frozen=True)
class Zone:
    """A row of bays. `depth` is clear between the posts; `front_edge` its front end, from the frame's front."""

    name: str
    depth: Length
    front_edge: Length


@dataclass(frozen=True)
class Bay:
    """A clear space between two posts, from the frame's left end; `bottom` and `height` bound its opening.

    `opens` is the face one reaches in from: front, rear, or empty for a zone between two others.
    """

    name: str
    zone: str
    left: Length
    width: Length
    bottom: Length
    height: Length
    opens: str = "front"
    measured: Length | None = None
    """Clear width on the standing frame, where it was measured."""

    @property
    def clear(self) -> Length:
        """As measured, else as planned: by this is cut what fills the bay."""
        return self.width if self.measured is None else self.measured


@dataclass(frozen=True)
class Layout:
    """The bench at a glance: heights from the frame's underside, left edges from its left end.

    `post_edges` holds the posts' left faces by the name of their zone; `clamp_gap` is from tray to top rail.
    """

    frame_height: Length
    zones: tuple[Zone, ...]
    bays: tuple[Bay, ...]
    post_edges: Mapping[str, tuple[Length, ...]]
    clamp_gap: Length
    length: Length = Fraction(0)
    depth: Length = Fraction(0)
    height: Length = Fraction(0)
    section: Length = Fraction(0)
    floor_to_frame: Length = Fraction(0)
    lines: tuple[Length, ...] = ()
    """Left edges of the inner posts' lines, of all zones together."""


@dataclass(frozen=True)
class Notch:
    """A rectangle out of a corner. `along` runs with the part's first size, `across` with its second."""

    corner: str
    along: Length
    across: Length
    reason: str = ""


@dataclass(frozen=True)
class Operation:
    """One act of machining.

    `at` is measured on the named face: along the part from its datum end (left, front or bottom), then across
    from the lower edge. `size` is a diameter, or (along, across) of a rectangle. `depth` None means through.
    """

    op: str
    face: str
    at: tuple[Length, Length]
    size: Length | tuple[Length, Length]
    depth: Length | None
    purpose: str

    @property
    def thread(self) -> str:
        """The thread that is tapped; empty for any other act."""
        return self.purpose.split(" for ")[0] if self.op.startswith("tap") else ""


@dataclass(frozen=True)
class Placed:
    """Where one piece of a part lies in the frame: low corner and size along X, Y, Z."""

    mark: str
    corner: tuple[Length, Length, Length]
    size: tuple[Length, Length, Length]
    where: str = ""


@dataclass(frozen=True)
class PartRow:
    """One distinct part: pieces that are cut and machined alike. `length` and `width` as on the cut list."""

    mark: str
    marks: tuple[str, ...]
    name: str
    group: str
    material: str
    kind: str
    count: int
    length: Length
    width: Length
    thickness: Length
    mass: float
    tongues: Mapping[str, Length] = field(default_factory=dict)
    notches: tuple[Notch, ...] = ()
    operations: tuple[Operation, ...] = ()
    along: str = "x"
    """Axis of the frame along which `length` lies."""
    across: str = "y"
    """Axis of the frame along which `width` lies."""
    tongue_thickness: Length | None = None
    rabbet_depth: Length | None = None
    rabbet_length: Length | None = None
    grain: str = ""
    pieces: tuple[Placed, ...] = ()
    other_hand: str = ""
    """Mark of the part that is this one's mirror image."""


@dataclass(frozen=True)
class Joints:
    """How often each kind of joint and of machining occurs on the whole bench."""

    end_clips: int
    through_screws: int
    tapped_ends: int
    access_holes: int
    reliefs: int


@dataclass(frozen=True)
class JointRow:
    """One butt joint: the end of `member` against `crossing`, its fastener and where the key enters."""

    member: str
    end: str
    crossing: str
    kind: str
    screw: str
    hole_at: Length
    hole_face: str


@dataclass(frozen=True)
class Fit:
    """A panel's tongue in its groove. Clearances are totals over the thickness."""

    where: str
    groove: Length
    thickness: Length
    tongue_thickness: Length
    rabbet_depth: Length
    tongue: Length
    clearance_min: Length
    clearance_max: Length
    offset: Length
    rabbet_length: Length = Fraction(0)
    bottom_clearance: Length = Fraction(0)
    packing: Length = Fraction(0)


@dataclass(frozen=True)
class Opening:
    """The clear space of one item of a stack; heights from the frame's underside."""

    bay: str
    item: str
    width: Length
    height: Length
    bottom: Length
    top: Length


@dataclass(frozen=True)
class Unmeasured:
    """A typical value that stands in for a measurement: its key path, its name in words, value and unit."""

    path: str
    name: str
    value: Length
    unit: str


@dataclass(frozen=True)
class Drawer:
    """Heights from the frame's underside. `spacer` lies under the slide: the first from the base rail's top."""

    bay: str
    number: int
    front_width: Length
    front_height: Length
    front_bottom: Length
    box_width: Length
    box_depth: Length
    box_height: Length
    box_bottom: Length
    slide_axis: Length
    slide_lower_edge: Length
    spacer: Length
    bottom_panel: tuple[Length, Length]
    slide_front: Length = Fraction(0)
    hole_stations: tuple[Length, ...] = ()
    unmeasured: tuple[Unmeasured, ...] = ()
    """What its box and face rest on and nobody has measured: do not cut before."""


@dataclass(frozen=True)
class StripPlace:
    """One packing strip of a bay's wall: edges behind the front face, ends above the frame's underside (mm).

    `below_rail` is how far the wall's own lower edge lies below the base rail's top, `from_edge` how far the strip
    lies from the edge of the wall that looks to the open face.
    """

    bay: str
    near: Length
    far: Length
    bottom: Length
    top: Length
    below_rail: Length
    from_edge: Length = Fraction(0)


@dataclass(frozen=True)
class Tote:
    """A tote on its runners; heights from the frame's underside. `number` counts from below, over the whole bay.

    `kind` names the spec's tote, `runner_width` is from the wall's face to the gap, `runner_from_edge` from the edge of
    the wall that looks to the open face to the runner's end.
    """

    bay: str
    number: int
    bottom: Length
    top: Length
    runner_top: Length
    runner_width: Length
    kind: str = ""
    runner_from_edge: Length = Fraction(0)


@dataclass(frozen=True)
class Shelf:
    """A shelf on its cleats: heights of both upper faces from the frame's underside, `number` from below.

    `cleat_from_edge` is from the edge of the wall that looks to the open face to the cleat's end.
    """

    bay: str
    number: int
    top: Length
    length: Length
    depth: Length
    cleat_top: Length = Fraction(0)
    cleat_from_edge: Length = Fraction(0)


@dataclass(frozen=True)
class Mark:
    """One mark on a story stick, `at` from its datum end; `kind` is edge or centre."""

    at: Length
    label: str
    kind: str


@dataclass(frozen=True)
class Stick:
    """A story stick: marks from the datum end of the member on which it lies."""

    name: str
    along: str
    datum: str
    length: Length
    marks: tuple[Mark, ...]
    lies_on: str = ""


@dataclass(frozen=True)
class Spacer:
    """A block or stick to cut, that sets slides or posts apart; `label` says for which, after its kind."""

    length: Length
    count: int
    label: str


@dataclass(frozen=True)
class TopGrid:
    """Counts before omission; margins and omitted columns (rows) from the top's own left (front) edge."""

    holes: int
    columns: int
    rows: int
    margin_x: Length
    margin_y: Length
    omitted_columns: tuple[Length, ...]
    omitted_rows: tuple[Length, ...] = ()
    diameter: Length = Fraction(0)
    pitch: Length = Fraction(0)
    length: Length = Fraction(0)
    width: Length = Fraction(0)
    thickness: Length = Fraction(0)


@dataclass(frozen=True)
class HardwareRow:
    """Bought hardware of one kind. `count` is what the bench needs, `spare` comes on top; `for_` says what for."""

    item: str
    count: int
    spare: int
    for_: str
    size: str = ""


@dataclass(frozen=True)
class PlateBolt:
    """A bolt of a caster plate into the bottom slot of `member`, at X, Y of the frame; no member, no bar above."""

    plate: str
    member: str
    at: tuple[Length, Length]


@dataclass(frozen=True)
class Casters:
    """Loads in kg: each with a wheel or two in the air, and that with the rolling factor, as `required`.

    `rating` is what the card allows; `positions` are the swivels' X, Y in the frame. `one_in_the_air` is the most that
    one caster carries when any other carries nothing and the frame stays stiff.
    """

    load_each: float
    required: float
    count: int = 0
    rating: float | None = None
    positions: tuple[tuple[Length, Length], ...] = ()
    bolts: tuple[PlateBolt, ...] = ()
    one_in_the_air: float = 0.0


@dataclass(frozen=True)
class Mass:
    """Masses in kg; `loaded` adds all that the spec's loads and totes put on the bench."""

    empty: float
    loaded: float
    by_group: Mapping[str, float]


@dataclass(frozen=True)
class Diagonal:
    """A rectangle to square by: `value` is its diagonal in mm, to be met both ways; `sides` its two sizes."""

    name: str
    value: float
    sides: tuple[Length, Length] = (Fraction(0), Fraction(0))


@dataclass(frozen=True)
class Square:
    """Both diagonals of a rectangle, and how much they may differ (mm)."""

    name: str
    value: float
    tolerance: Length


@dataclass(frozen=True)
class Fixing:
    """Fasteners that a step uses: `count` of the hardware `item`, the `tool` that drives it, the joints it is for."""

    item: str
    count: int
    tool: str = ""
    joints: tuple[str, ...] = ()


@dataclass(frozen=True)
class Place:
    """Where something is fixed or cut: in `face` of `part`, `at` (mm) from its left or front end.

    `across` (mm) is how far the row lies from the part's left end, where that is not its middle.
    """

    item: str
    part: str
    face: str
    at: tuple[Length, ...]
    across: Length | None = None


@dataclass(frozen=True)
class KeyPlace:
    """A screw and its key (mm across flats): through `face` of `bar`, `at` (mm) from the bar's datum end."""

    screw: str
    bar: str
    face: str
    at: Length
    key: Length


@dataclass(frozen=True)
class Preload:
    """Nuts that must lie in a slot before `closed_by` is placed: the slot of `bar` that opens to `face`."""

    bar: str
    face: str
    count: int
    purpose: str
    closed_by: str


@dataclass(frozen=True)
class Motion:
    """What moves as one in a step, by marks, its way in (`+x` … `-z`, empty: no straight way), and what it joins."""

    name: str
    marks: tuple[str, ...]
    way: str
    into: str


@dataclass(frozen=True)
class Shape:
    """A piece as the pictures show it, in blocks of low and high corner (mm).

    `seated` is what shows of it in its place, `whole` the piece by itself.
    """

    mark: str
    kind: str
    seated: tuple[tuple[float, ...], ...]
    whole: tuple[tuple[float, ...], ...]


@dataclass(frozen=True)
class Step:
    """One step of the assembly. `parts` are marks of the pieces that it adds, `direction` the way they move.

    `hold` are points to stop and check at, `cautions` keys of the cautions on the pages. `kg` is the heaviest thing
    that is moved at once, `persons` how many should move it. `nuts` have their last chance before this step's end;
    `final` tells what cannot be undone or reached after it. `standing` are the marks that stand there before, in
    the bench or in the sub-assembly `assembly` that the step works on.
    """

    n: int
    title: str
    parts: tuple[str, ...]
    direction: str
    notes: tuple[str, ...]
    hold: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    stage: str = ""
    key: str = ""
    """Stable name for the checklist, never a position."""
    squares: tuple[Square, ...] = ()
    fixings: tuple[Fixing, ...] = ()
    tools: tuple[str, ...] = ()
    persons: int = 1
    kg: float = 0.0
    keys: tuple[KeyPlace, ...] = ()
    nuts: tuple[Preload, ...] = ()
    final: tuple[str, ...] = ()
    motions: tuple[Motion, ...] = ()
    assembly: str = ""
    standing: tuple[str, ...] = ()
    places: tuple[Place, ...] = ()
    """Where pockets, tray screws and brackets go."""
    standing_kg: float = 0.0
    """Mass of the whole bench so far, when it is lifted in this step."""


@dataclass(frozen=True)
class Assembly:
    """Steps in order. `proved` when a way was found for every piece by geometry; `blocked` names those without one."""

    proved: bool
    steps: tuple[Step, ...]
    blocked: tuple[str, ...] = ()
    shapes: tuple[Shape, ...] = ()


@dataclass(frozen=True)
class Check:
    """A value against its limit, in `unit` (mm, kg or none). `severity` is how much it matters when not `ok`.

    `value` or `limit` None: a check by yes or no. `advice` is what to do. `sense` tells on which side of the
    limit the value must lie: `at least`, `at most`, or empty. `caution` is the key of the caution that belongs to
    a check by which someone can be hurt.
    """

    code: str
    severity: str
    title: str
    value: float | Length | None
    limit: float | Length | None
    unit: str
    ok: bool
    where: str
    advice: str
    sense: str = ""
    caution: str = ""


@dataclass(frozen=True)
class Assumption:
    """A value that the spec does not state, by its key path, and why it was taken. Quantities in base units."""

    path: str
    value: str | Length | float | tuple[Length, ...]
    reason: str


@dataclass(frozen=True)
class Bought:
    """So many bars, sheets, packs or pieces to buy, with the price of one; `length` and `width` of stock in mm."""

    count: int
    price: float | None
    length: Length | None = None
    width: Length | None = None
    pack: int | None = None
    """Pieces in a pack."""


@dataclass(frozen=True)
class Purchase:
    """One line of the shopping list. `quantity` is in `unit` (m, m², pieces); `cost` is None without prices."""

    section: str
    item: str
    quantity: float
    unit: str
    detail: str
    buy: tuple[Bought, ...] = ()
    cost: float | None = None


@dataclass(frozen=True)
class PurchaseTotal:
    """What all purchases with a price come to, and the items that have none."""

    cost: float
    unpriced: tuple[str, ...]


@dataclass(frozen=True)
class BarRow:
    """One bar of the plan: marks and lengths of its pieces, longest first.

    `running` are the pieces' far ends from the trimmed datum end, `trim` what comes off each end before (mm).
    """

    material: str
    stock_length: Length
    pieces: tuple[str, ...]
    offcut: Length
    lengths: tuple[Length, ...] = ()
    running: tuple[Length, ...] = ()
    trim: Length = Fraction(0)
    kerf: Length = Fraction(0)
    on_hand: bool = False
    lot: str = ""


@dataclass(frozen=True)
class Bound:
    """No plan costs less (None without prices) and none takes fewer bars or sheets."""

    cost: float | None
    count: int


@dataclass(frozen=True)
class BarSummary:
    """What a material's plan comes to; `gap` is how much dearer than the cheapest it may be (0 when proved)."""

    material: str
    bars: int
    to_buy: int
    cost: float | None
    proved: bool
    gap: float
    longest_offcut: Length
    offcut_is_longest: bool
    patterns: int
    patterns_are_fewest: bool
    used: float


@dataclass(frozen=True)
class StopSetting:
    """One setting of the saw's stop and the pieces that are cut at it."""

    material: str
    length: Length
    count: int
    marks: tuple[str, ...]


@dataclass(frozen=True)
class SheetPieceRow:
    """A piece on a sheet: low corner from the sheet's own corner, sizes as it lies (mm)."""

    mark: str
    x: Length
    y: Length
    l: Length  # noqa: E741 - the contract's key
    w: Length
    turned: bool = False


@dataclass(frozen=True)
class SheetCutRow:
    """One cut from edge to edge through the area at (x, y) of l by w, in the order of the saw.

    `across` cuts run over the sheet's width, at `at` from the sheet's left edge; the others over its length, at `at`
    from its front edge. `setting` is the size between fence and blade, exact where parts get their size by it. The cut
    divides the near or the far part of the cut `parent`; 0 is the whole sheet. `marks` get their size by this cut.
    """

    n: int
    across: bool
    at: Length
    setting: Length
    stage: int
    x: Length
    y: Length
    l: Length  # noqa: E741 - as in the pieces
    w: Length
    parent: int = 0
    near: bool = True
    marks: tuple[str, ...] = ()
    by_track: bool = False
    """Breaks the sheet down by track saw, before the fence; `setting` then has the allowance on it."""


@dataclass(frozen=True)
class SheetRow:
    """One sheet of the plan. `offcuts` are (x, y, l, w), the largest first."""

    material: str
    stock: tuple[Length, Length]
    pieces: tuple[SheetPieceRow, ...]
    cuts: tuple[SheetCutRow, ...]
    offcuts: tuple[tuple[Length, Length, Length, Length], ...] = ()
    trim: Length = Fraction(0)
    kerf: Length = Fraction(0)
    on_hand: bool = False
    grain: str = ""
    n: int = 1
    """Number among the sheets of its material."""


@dataclass(frozen=True)
class SheetSummary:
    """What a material's sheet plan comes to; `gap` is how much dearer than the cheapest it may be.

    The fence is set `setups` times for all sheets together, `setups_sheet_by_sheet` times one sheet after the other;
    there are so many different `settings`, so it is never set fewer times.
    """

    material: str
    sheets: int
    to_buy: int
    cost: float | None
    proved: bool
    gap: float
    used: float
    setups: int = 0
    setups_sheet_by_sheet: int = 0
    settings: int = 0
    track_cuts: int = 0
    """Cuts by track saw that break sheets down, before the fence."""
    stages: int = 0
    """Runs of cuts in one direction, the most of any sheet."""


@dataclass(frozen=True)
class FenceSetting:
    """One setting of the fence for all sheets of a material: (sheet, cut) in order, and the parts that get a size."""

    material: str
    n: int
    setting: Length
    cuts: tuple[tuple[int, int], ...]
    marks: tuple[str, ...]


@dataclass(frozen=True)
class Shortage:
    """Why a material has no plan: `count` parts like `mark` that no stock holds.

    With `more` bars or sheets of size `needs` all would be held; with 0 the part itself is `short_by` too large, and
    stock of at least `needs` would do (mm).
    """

    material: str
    mark: str
    count: int
    short_by: Length
    needs: tuple[Length, ...]
    more: int


@dataclass(frozen=True)
class Offcut:
    """What remains of `count` bars or sheets and is worth keeping, `width` for sheets (mm); grain along the length."""

    material: str
    length: Length
    width: Length | None
    count: int
    lot: str


@dataclass(frozen=True)
class Cutting:
    """The cutting plans; `bar_bound` and `sheet_bound` by material."""

    bars: tuple[BarRow, ...]
    bar_bound: Mapping[str, Bound]
    sheets: tuple[SheetRow, ...]
    sheet_bound: Mapping[str, int]
    summaries: tuple[BarSummary, ...] = ()
    stops: tuple[StopSetting, ...] = ()
    sheet_summaries: tuple[SheetSummary, ...] = ()
    fences: tuple[FenceSetting, ...] = ()
    offcuts: tuple[Offcut, ...] = ()
    shortages: tuple[Shortage, ...] = ()
    """Of the materials that have no plan: too little stock, or too small."""
    longest_part: Length | None = None
    """The longest part that goes to the fence; sheets are broken down to it first, with the `allowance` left on."""
    allowance: Length = Fraction(0)
    least_bar_offcut: Length = Fraction(0)
    least_sheet_offcut: tuple[Length, Length] = (Fraction(0), Fraction(0))


@dataclass(frozen=True)
class CutSection:
    """Distinct parts of one material, by their marks, with totals in mm and mm²."""

    material: str
    kind: str
    marks: tuple[str, ...]
    pieces: int
    total_length: Length
    total_area: Length
    measured: str = ""


@dataclass(frozen=True)
class ToteCard:
    """What a reader measures on a tote: width over the rim, of the body just below it, and height."""

    name: str
    rim_width: Length
    body_width: Length
    height: Length


@dataclass(frozen=True)
class Goods:
    """The bought goods that every size rests on: what a reader measures first. Names are the spec's keys."""

    bar: str
    section: Length
    slot_opening: Length
    slot_depth: Length
    slot_lip: Length
    bore: Length
    panel_sheet: str
    sheets: Mapping[str, Length]
    slide: str
    slide_length: Length | None
    slide_space: Length | None
    totes: tuple[ToteCard, ...]
    caster: str
    caster_height: Length
    caster_wheel: Length
    caster_trail: Length
    caster_plate: tuple[Length, Length]
    drills: tuple[Length, ...]
    taps: tuple[str, ...]


@dataclass(frozen=True)
class Relief:
    """The router template of the clamp-access opening: work, template and guide bush."""

    opening: tuple[Length, Length]
    template: tuple[Length, Length]
    offset: Length
    guide_bush: Length
    cutter: Length
    template_radius: Length
    work_radius: Length


@dataclass(frozen=True)
class Setting:
    """What one set-up is set to: a name, and one or more lengths (mm); `fine` where a twentieth of a mm counts."""

    name: str
    values: tuple[Length, ...] = ()
    fine: bool = False
    text: str = ""
    """Instead of lengths, or behind them."""


@dataclass(frozen=True)
class Setup:
    """One setting of one machine, for all parts that need it. `half_steps` are (still too thick, raise by) in mm.

    `gauge` says when the test piece is good; `cautions` are keys of the cautions on the pages.
    """

    n: int
    key: str
    title: str
    tool: str
    settings: tuple[Setting, ...]
    steps: tuple[str, ...]
    gauge: str
    marks: tuple[str, ...] = ()
    half_steps: tuple[tuple[Length, Length], ...] = ()
    cautions: tuple[str, ...] = ()
    unmeasured: tuple[Unmeasured, ...] = ()
    """What its settings rest on and nobody has measured: the card is released once it is."""


@dataclass(frozen=True)
class Figures:
    """All that a manual prints, for one spec; the fields are the sections of figures.json, in its order."""

    spec: SpecFacts
    layout: Layout
    parts: tuple[PartRow, ...]
    joints: Joints
    joint_rows: tuple[JointRow, ...]
    fits: tuple[Fit, ...]
    openings: tuple[Opening, ...]
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
    casters: Casters
    diagonals: tuple[Diagonal, ...]
    purchases: tuple[Purchase, ...]
    cut_sections: tuple[CutSection, ...]
    cutting: Cutting
    goods: Goods
    assumed: tuple[Assumption, ...]
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
    purchase_total: PurchaseTotal = PurchaseTotal(0.0, ())

    @property
    def has_errors(self) -> bool:
        """True when a check found an error: nothing may be cut by these figures."""
        return any(check.severity == "error" and not check.ok for check in self.checks)
