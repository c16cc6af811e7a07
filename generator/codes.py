"""Every stable code, once: tests, documents and users name a finding by it.

A fault of the text, of its sums or of a file has here the sentence why it matters in the shop. A
check says so in its `Law`, beside its subject; here is its code with the harm that it guards against, by which its
severity is judged.
"""

from __future__ import annotations

from enum import StrEnum

from generator.harms import Harm


class Code(StrEnum):
    """A code, and why a fault of this code matters; empty for a check, whose law says it. A check has its harm."""

    why: str
    harm: Harm | None

    def __new__(cls, code: str, why: str = "", harm: Harm | None = None) -> Code:
        """A text that knows its reason."""
        self = str.__new__(cls, code)
        self._value_, self.why, self.harm = code, why, harm
        return self

    # fmt: off
    # what cannot be read
    UNKNOWN_KEY = "unknown-key", "The program does not know this key: it changes nothing of what you planned."
    MISSING_KEY = "missing-key", "The program does not guess, because a wrong guess would be cut into wood."
    UNKNOWN_NAME = "unknown-name", "This name decides what is cut and how it is joined."
    UNKNOWN_CARD = "unknown-card", "Tongues, rabbets and spacers are calculated from the sizes on the card."
    NAME_TWICE = "name-twice", "You could not tell two things with the same name from each other on a label."
    BAD_LENGTH = "bad-length", "Pieces are cut to this length, so it must be clear and possible."
    OUT_OF_RANGE = "out-of-range", "With such a value, most often the unit or a digit is wrong."
    NOT_A_CHOICE = "not-a-choice", "Sizes, holes and steps are worked out for these choices only."
    WRONG_KIND = "wrong-kind", "This key takes exactly one value."
    NOT_A_MAPPING = "not-a-mapping", "Only the key says what a value is for."
    NOT_A_LIST = "not-a-list", "The order of the list is the order in the bench."
    TOO_FEW = "too-few", "Something that the plan needs is missing."
    TOO_MANY = "too-many", "It is not clear which of these values to use."
    STACK_ITEM = "stack-item", "Items fill a bay from the bottom up, each with its own height."
    CUTOUT_SHAPE = "cutout-shape", "Whether you saw along a line or bore a circle decides the tool and the template."
    HINGE_KIND = "hinge-kind", "Leaves and cups are fixed in different places, with different holes."
    MISSING_KIND = "missing-kind", "The kind decides on which machine it is cut and what it is joined with."
    UNKNOWN_KIND = "unknown-kind", "The kind decides on which machine it is cut and what it is joined with."
    DUPLICATE_KEY = "duplicate-key", "Only one of the two values can be used, and you could not see which."
    BAD_NUMBER = "bad-number", "You buy or cut by this number, so it must be clear and possible."
    BAD_COUNT = "bad-count", "Pieces are cut and bought whole."
    BAD_FLAG = "bad-flag", "The program must know whether you mean yes or no."
    BAD_SHARE = "bad-share", "Shares divide the space that is left, so they decide the sizes."
    BAD_QUANTITY = "bad-quantity", "20 kg and 20 lb need different parts to carry them."
    BAD_SCREW = "bad-screw", "Thread and length decide what you drill and tap."
    BAD_THREAD = "bad-thread", "Taps, drills and nuts are chosen by the thread."
    BAD_FRACTION = "bad-fraction", "You read lengths off a rule, and a rule divides each inch by halves."
    BAD_KEY = "bad-key", "Names are written on pieces and labels, so each must be text in one line."
    BAD_DATE = "bad-date", "You cut to the newest value, so its date must be clear."
    BAD_ADDRESS = "bad-address", "Readers and machines come by this address, so it must lead to the manual."
    TOO_LONG = "too-long", "The text must fit on a label and in the head of a page."
    TOO_LARGE_A_PROBLEM = "too-large-a-problem", "A plan for this many pieces would take too long to work out."
    TOO_LARGE = "too-large", "A bench does not need this many values, so this is probably another file."
    CONTROL_CHARACTER = "control-character", "You cannot see it in an editor, but it would be on every page."
    MISSING_LETTER = "missing-letter", "Full-scale sheets, labels and set-up cards are printed from the PDFs."
    SHAPED_LETTER = "shaped-letter", "Full-scale sheets, labels and set-up cards are printed from the PDFs."
    CUSTOM_TAG = "custom-tag", "Tags have a meaning in other programs only."
    MERGE_KEY = "merge-key", "A merged value has no line in the spec, so no fault of it could be shown."
    SEVERAL_DOCUMENTS = "several-documents", "The second bench would be left out without notice."
    NOT_READABLE = "not-readable", "Without this file there is nothing to build from."
    IS_A_FOLDER = "is-a-folder", "The folder can hold several specs, and only you know which one you mean."
    UNKNOWN_MARK = "unknown-mark", "A piece that is not on the cut list belongs to another bench."
    UNKNOWN_BOARD = "unknown-board", "The board that you mean would keep its usual grain."
    NOT_AN_EDGE = "not-an-edge", "The board would be cut too small at an edge that it does not have."
    UNKNOWN_BAY = "unknown-bay", "A size that was measured in one bay must not be cut for another."
    NOT_MEASURABLE = "not-measurable", "A measured value replaces a planned one, so the plan must have one to replace."
    WRONG_SIZES = "wrong-sizes", "A board is cut to a length and a width, a bar to a length only."
    YAML_SYNTAX = "yaml-syntax", "From here on the program cannot know which key a value belongs to."
    NO_FILE = "no-file", "Everything in this file would be missing."
    # sums that do not come out
    LENGTH_SUM = "length-sum", "The bays and posts must fill the bench exactly, or the last bay takes all the error."
    DEPTH_SUM = "depth-sum", "The zones and bars must fill the depth exactly, or the spine misses its bars."
    HEIGHT_SUM = "height-sum", "The height of the frame decides the length of every post."
    STACK_SUM = "stack-sum", "What fills a bay must fit its opening exactly. An error shows as a crooked gap."
    NO_SIZE = "no-size", "This piece cannot be cut, and parts that are measured from it would be wrong."
    LINES_TOO_CLOSE = "lines-too-close", "Two posts cannot be in the same place."
    ORDER_BLOCKED = "order-blocked", "You would notice this only with the last parts in your hands.", Harm.NO_FIT
    ORDER_CONTRADICTION = "order-contradiction", "No order can put each of these before the other."
    SLOT_TOO_LARGE = "slot-too-large", "No metal would be left between the slots of the bar."
    KNEE_PLACE = "knee-place", "Legs need an open face, and no bar or board between the two posts."
    PANEL_TOO_THICK = "panel-too-thick", "The panel would reach out of its bars, and no space would be left beside it."
    TONGUE_TOO_LONG = "tongue-too-long", "The tongue would touch the bottom of the slot and hold the frame open."
    CLEARANCE_TOO_WIDE = "clearance-too-wide", "No wood would be left to go into the slot."
    WALL_WITHOUT_PLACE = "wall-without-place", "A panel needs posts with slots at both edges."
    TRAY_KEYS = "tray-keys", "Each of the two keys asks for another tray."
    TRAY_JOINT = "tray-joint", "A joint without a divider under it bends at every clamp that is laid on it."
    FOOT_RANGE = "foot-range", "The frame's height is worked out from the middle of the range."
    STAND_LIFT = "stand-lift", "How high the wheels hang while the bench works decides the frame's height."
    STAND_TWO = "stand-two", "The bench can stand on one of them only, and each gives the frame another height."
    CLOSING_JOINTS = "closing-joints", "Tongues and joints close in one direction, or the last end frame does not go."
    NO_REMAINDER_BAY = "no-remainder-bay", "One bay takes what rounding leaves, or the widths miss the length."
    TOO_MANY_HOLES = "too-many-holes", "This many holes weaken the top and take days to drill."
    TOP_SUM = "top-sum", "The boards must fill the top exactly, or the last one takes all the error."
    FEATURE_SIZE = "feature-size", "Wood must be left around and below what is let into the top."
    CLIMATE = "climate", "Wood moves between the two values, so the lower one must be the first."
    # machining, hardware, stand, stock
    TOO_LITTLE_STOCK = "too-little-stock", "You would run out of stock in the middle of the work.", Harm.NO_FIT
    UNUSED_NAME = "unused-name", "The bench would be cut for other goods than the ones that you measured."
    UNKNOWN_HARDWARE = "unknown-hardware", "Its pack and price would be missing from the shopping list."
    # nothing forgotten
    END_IN_THE_AIR = "end-in-the-air", "A bar that is held at one end only cannot carry a load.", Harm.FAILS
    # further faults of a spec, of its record and photos
    NOT_UTF8 = "not-utf8", "If a letter is read wrongly, a wrong name goes onto a label."
    NO_SUCH_PLACE = "no-such-place", "The new value would change nothing."
    BAY_FAR_OFF = "bay-far-off", "When a bay is this far off, most often the tape was misread."
    NOTHING_DONE = "nothing-done", "An entry that does not say what was done records nothing."
    NOT_A_PHOTO = "not-a-photo", "The page would show an empty frame instead of the photo."
    BROKEN_PHOTO = "broken-photo", "The page would show an empty frame instead of the photo."
    OUTSIDE_THE_FOLDER = "outside-the-folder", "When you copy the folder, a file outside it is left behind."
    JOIN_TWICE = "join-twice", "Two benches cannot stand in one place."
    CUT_OFF_SIZE = "cut-off-size", "Everything that is built on this piece is off by the same amount."
    NOT_APPENDABLE = "not-appendable", "A new entry must never damage what you wrote before."
    # cutting problems by themselves, and letters
    NO_FONT = "no-font", "Without letters from this font the paper sheets cannot be printed."
    NOT_AN_ENTRY = "not-an-entry", "A row that is not understood would be missing at the saw."
    NOT_FOR_BARS = "not-for-bars", "It would change nothing in the plan of the bars."
    NOT_PLANNED = "not-planned", "These pieces are in no cutting plan and on no shopping list."
    PLANNED_APART = "planned-apart", "Pieces of one stock at one saw can share bars, sheets and off-cuts."
    OFFCUT_NOT_USED = "offcut-not-used", "An off-cut of another size does not fit."
    PIECE_TOO_LARGE = "piece-too-large", "You would notice this only at the saw, with the sheet already on it."
    PIECE_TOO_LONG = "piece-too-long", "You would notice this only at the saw, with the bar already on it."
    TWO_KINDS = "two-kinds", "Bars and sheets are cut on different saws, each by its own plan."
    # checks of the layout, the joints and the bars
    BAY_WIDTH = "bay-width", "", Harm.NO_FIT
    OPENING_EDGE = "opening-edge", "", Harm.FAILS
    OPENING_CUT = "opening-cut", "", Harm.FAILS
    OPENING_BLOCKED = "opening-blocked", "", Harm.NO_FIT
    BAND_CAPTURED = "band-captured", "", Harm.NO_FIT
    BAND_NARROW = "band-narrow", "", Harm.NO_FIT
    BAND_ROLL = "band-roll", "", Harm.NO_FIT
    BAND_IRON = "band-iron", "", Harm.SPOILS
    UNEVEN_SHARE = "uneven-share", "", Harm.ANNOYS
    CLAMP_GAP = "clamp-gap", "", Harm.SPOILS
    NARROW_GAP = "narrow-gap", "", Harm.SPOILS
    CLIP_STACK = "clip-stack", "", Harm.NO_FIT
    CLIP_THREAD = "clip-thread", "", Harm.FAILS
    THROUGH_THREAD = "through-thread", "", Harm.FAILS
    COUNTERBORE = "counterbore", "", Harm.FAILS
    TENON_CHEEK = "tenon-cheek", "", Harm.FAILS
    TENON_SHOULDER = "tenon-shoulder", "", Harm.FAILS
    TENON_SHORT = "tenon-short", "", Harm.FAILS
    BARREL_BOLT_SHORT = "barrel-bolt-short", "", Harm.FAILS
    BARREL_BOLT_LONG = "barrel-bolt-long", "", Harm.FAILS
    BARREL_NEAR_END = "barrel-near-end", "", Harm.FAILS
    WASHER_ON_WOOD = "washer-on-wood", "", Harm.FAILS
    WASHER_RECESS = "washer-recess", "", Harm.NO_FIT
    SCREW_IN_END = "screw-in-end", "", Harm.FAILS
    SCREWS_APART = "screws-apart", "", Harm.FAILS
    SCREW_HEAD_RECESS = "screw-head-recess", "", Harm.NO_FIT
    SCREW_HEAD_SUNK = "screw-head-sunk", "", Harm.NO_FIT
    SCREW_SHANK_HOLE = "screw-shank-hole", "", Harm.FAILS
    SCREW_PILOT = "screw-pilot", "", Harm.FAILS
    LAP_MOMENT = "lap-moment", "", Harm.FAILS
    LAPS_LEFT = "laps-left", "", Harm.FAILS
    BRIDLE_CHEEK = "bridle-cheek", "", Harm.FAILS
    BRIDLE_TENON = "bridle-tenon", "", Harm.FAILS
    POCKET_SETTING = "pocket-setting", "", Harm.NO_FIT
    POCKET_HEAD = "pocket-head", "", Harm.NO_FIT
    POCKET_POINT = "pocket-point", "", Harm.NO_FIT
    POCKET_HOLD = "pocket-hold", "", Harm.FAILS
    POCKET_EDGE = "pocket-edge", "", Harm.FAILS
    POCKET_APART = "pocket-apart", "", Harm.FAILS
    POCKETS_ALONE = "pockets-alone", "", Harm.FAILS
    BOLT_EDGE = "bolt-edge", "", Harm.FAILS
    FASTENERS_MEET = "fasteners-meet", "", Harm.FAILS
    BOLT_THROUGH = "bolt-through", "", Harm.FAILS
    GLUE_TIME = "glue-time", "", Harm.SPOILS
    GLUE_SPLIT = "glue-split", "", Harm.FAILS
    GLUED_DOOR = "glued-door", "", Harm.SPOILS
    KEY_CROSSES_SCREW = "key-crosses-screw", "", Harm.ANNOYS
    BUSH_CUTTER = "bush-cutter", "", Harm.NO_FIT
    CUTTER_OPENING = "cutter-opening", "", Harm.NO_FIT
    RELIEF_WIDE = "relief-wide", "", Harm.FAILS
    RELIEF_CLEAR = "relief-clear", "", Harm.FAILS
    BOLT_WINDOW = "bolt-window", "", Harm.NO_FIT
    # checks of captured panels, the tray and stock
    TONGUE_BOTTOMS = "tongue-bottoms", "", Harm.NO_FIT
    TONGUE_SHORT = "tongue-short", "", Harm.FAILS
    LOOSE_SHEET = "loose-sheet", "", Harm.FAILS
    TIGHT_SHEET = "tight-sheet", "", Harm.FAILS
    NOT_MEASURED = "not-measured", "", Harm.ANNOYS
    TRAY_SPAN = "tray-span", "", Harm.FAILS
    LONGER_THAN_STOCK = "longer-than-stock", "", Harm.NO_FIT
    # checks of fasteners and their bar
    BORE_THREAD = "bore-thread", "", Harm.FAILS
    CLIP_MOUTH = "clip-mouth", "", Harm.FAILS
    CLIP_UNDERCUT = "clip-undercut", "", Harm.NO_FIT
    BOLT_MOUTH = "bolt-mouth", "", Harm.NO_FIT
    ACCESS_KEY = "access-key", "", Harm.NO_FIT
    HEAD_COUNTERBORE = "head-counterbore", "", Harm.NO_FIT
    HEAD_PROUD = "head-proud", "", Harm.NO_FIT
    COUNTERBORE_THROUGH = "counterbore-through", "", Harm.FAILS
    SCREW_HOLE = "screw-hole", "", Harm.NO_FIT
    SCREW_HOLE_WIDE = "screw-hole-wide", "", Harm.FAILS
    THREAD_DEEP = "thread-deep", "", Harm.FAILS
    THREADS_MEET = "threads-meet", "", Harm.NO_FIT
    # checks of the sheet plan
    SAW_RULES = "saw-rules", "", Harm.INJURES
    # checks of drawers
    SLIDE_RATING = "slide-rating", "", Harm.FALLS
    SLIDE_HOLE = "slide-hole", "", Harm.NO_FIT
    SLIDE_SPACE = "slide-space", "", Harm.NO_FIT
    SLIDE_AXIS = "slide-axis", "", Harm.NO_FIT
    GROOVE_DEPTH = "groove-depth", "", Harm.FAILS
    GROOVE_PLACE = "groove-place", "", Harm.NO_FIT
    WIDE_DRAWER = "wide-drawer", "", Harm.FAILS
    BOX_HEIGHT = "box-height", "", Harm.NO_FIT
    BOX_WIDTH = "box-width", "", Harm.NO_FIT
    SLIDE_DEPTH = "slide-depth", "", Harm.NO_FIT
    SLIDE_WITHOUT_WALL = "slide-without-wall", "", Harm.NO_FIT
    PACKING_THIN = "packing-thin", "", Harm.NO_FIT
    PACKING_PLANED = "packing-planed", "", Harm.ANNOYS
    PACKING_NARROW = "packing-narrow", "", Harm.FAILS
    PACKING_EDGE = "packing-edge", "", Harm.FAILS
    # checks of totes
    TOTE_BODY = "tote-body", "", Harm.NO_FIT
    TOTE_RIM_HEIGHT = "tote-rim-height", "", Harm.NO_FIT
    TOTE_BEARING = "tote-bearing", "", Harm.FALLS
    TOTE_RIM = "tote-rim", "", Harm.NO_FIT
    TOTE_GAP_LOW = "tote-gap-low", "", Harm.NO_FIT
    TOTE_GAP_HIGH = "tote-gap-high", "", Harm.FALLS
    TOTE_DEPTH = "tote-depth", "", Harm.NO_FIT
    # checks of shelves and strips
    SHELF_HEIGHT = "shelf-height", "", Harm.NO_FIT
    SHELF_MEETS = "shelf-meets", "", Harm.NO_FIT
    SHELF_LOW = "shelf-low", "", Harm.NO_FIT
    SHELF_TILT = "shelf-tilt", "", Harm.SPOILS
    SHELF_LANDS = "shelf-lands", "", Harm.SPOILS
    CLOSED_ZONE = "closed-zone", "", Harm.NO_FIT
    STRIP_NARROW = "strip-narrow", "", Harm.NO_FIT
    # checks of the stand as bought
    WHEEL_HEIGHT = "wheel-height", "", Harm.NO_FIT
    CASTER_HOLES = "caster-holes", "", Harm.NO_FIT
    CASTER_ON_PLATE = "caster-on-plate", "", Harm.FAILS
    PLATE_THREAD = "plate-thread", "", Harm.FAILS
    # checks of the top
    TOP_BRACKETS = "top-brackets", "", Harm.ANNOYS
    BRACKET_GAP = "bracket-gap", "", Harm.FAILS
    NO_HOLES = "no-holes", "", Harm.SPOILS
    HOLES_MEET = "holes-meet", "", Harm.FAILS
    HOLE_EDGE = "hole-edge", "", Harm.FAILS
    JOINT_OFF_BAR = "joint-off-bar", "", Harm.FAILS
    BOARDS_SAG = "boards-sag", "", Harm.FAILS
    BOARD_HELD = "board-held", "", Harm.FAILS
    EDGING_CORNERS = "edging-corners", "", Harm.ANNOYS
    EDGING_NARROW = "edging-narrow", "", Harm.NO_FIT
    CUT_OVER_BAR = "cut-over-bar", "", Harm.NO_FIT
    FEATURES_MEET = "features-meet", "", Harm.FAILS
    FEATURE_EDGE = "feature-edge", "", Harm.FAILS
    FEATURE_REST = "feature-rest", "", Harm.FAILS
    FEATURE_BRACKET = "feature-bracket", "", Harm.FAILS
    VISE_VOLUME = "vise-volume", "", Harm.NO_FIT
    VISE_DROP = "vise-drop", "", Harm.NO_FIT
    VISE_BOLTS = "vise-bolts", "", Harm.FAILS
    VISE_TIPS = "vise-tips", "", Harm.FALLS
    SAG_OVERHANG = "sag-overhang", "", Harm.SPOILS
    # checks of strength and handling
    TIPS_BY_PULL = "tips-by-pull", "", Harm.FALLS
    TIPS_UNDER_LOAD = "tips-under-load", "", Harm.FALLS
    SLIPS_AWAY = "slips-away", "", Harm.INJURES
    DRAWER_TIPS = "drawer-tips", "", Harm.FALLS
    DRAWERS_OPEN = "drawers-open", "", Harm.FALLS
    SWAY = "sway", "", Harm.ANNOYS
    SAG_TOP_BAR = "sag-top-bar", "", Harm.SPOILS
    SAG_TOP_BOARD = "sag-top-board", "", Harm.ANNOYS
    SAG_BASE = "sag-base", "", Harm.ANNOYS
    SAG_SHELF = "sag-shelf", "", Harm.FALLS
    SAG_DRAWER_BOTTOM = "sag-drawer-bottom", "", Harm.FAILS
    LIFT_WEIGHT = "lift-weight", "", Harm.INJURES
    DOOR_PARTS = "door-parts", "", Harm.SPOILS
    DOOR_BENCH = "door-bench", "", Harm.ANNOYS
    WORK_HEIGHT = "work-height", "", Harm.ANNOYS
    # checks of bodies, order and access
    OVERLAP = "overlap", "", Harm.NO_FIT
    NOTCH_MISSING = "notch-missing", "", Harm.NO_FIT
    SCREWS_MEET = "screws-meet", "", Harm.NO_FIT
    NUT_CLASH = "nut-clash", "", Harm.NO_FIT
    KEY_LINE_BLOCKED = "key-line-blocked", "", Harm.NO_FIT
    ACCESS_MISSING = "access-missing", "", Harm.NO_FIT
    CLIPS_BACK_TO_BACK = "clips-back-to-back", "", Harm.NO_FIT
    PLATE_OVER_ACCESS = "plate-over-access", "", Harm.FAILS
    NUTS_PRELOAD = "nuts-preload", "", Harm.ANNOYS
    # checks of nothing forgotten
    TONGUE_WITHOUT_GROOVE = "tongue-without-groove", "", Harm.NO_FIT
    EDGE_WITHOUT_TONGUE = "edge-without-tongue", "", Harm.NO_FIT
    TONGUE_OFF_GROOVE = "tongue-off-groove", "", Harm.NO_FIT
    TONGUE_SHALLOW = "tongue-shallow", "", Harm.FAILS
    GROOVE_TOO_SHORT = "groove-too-short", "", Harm.NO_FIT
    EDGE_UNSUPPORTED = "edge-unsupported", "", Harm.FAILS
    SUPPORT_MISSING = "support-missing", "", Harm.FALLS
    SLIDE_PLANE = "slide-plane", "", Harm.FAILS
    POCKET_FOOTPRINT = "pocket-footprint", "", Harm.ANNOYS
    JOINT_WITHOUT_FASTENER = "joint-without-fastener", "", Harm.FAILS
    END_NOT_TAPPED = "end-not-tapped", "", Harm.NO_FIT
    # checks of wood screws
    SCREW_LENGTH = "screw-length", "", Harm.INJURES
    SCREW_THREAD = "screw-thread", "", Harm.FALLS
    SCREW_ACROSS = "screw-across", "", Harm.FALLS
    SCREW_SPLITS = "screw-splits", "", Harm.FAILS
    # checks of what the bench stands on
    CASTER_RATING = "caster-rating", "", Harm.FALLS
    SAG_PULL_OUT = "sag-pull-out", "", Harm.FAILS
    PULL_OUT_RATING = "pull-out-rating", "", Harm.FALLS
    PULL_OUT_HEIGHT = "pull-out-height", "", Harm.NO_FIT
    PULL_OUT_MEETS = "pull-out-meets", "", Harm.NO_FIT
    WIDE_PULL_OUT = "wide-pull-out", "", Harm.FAILS
    SAG_RACK = "sag-rack", "", Harm.FAILS
    RACK_SLOT = "rack-slot", "", Harm.SPOILS
    RACK_BOARD = "rack-board", "", Harm.FAILS
    RACK_CLEATS = "rack-cleats", "", Harm.FALLS
    HINGE_RATING = "hinge-rating", "", Harm.FALLS
    DOOR_WIDTH = "door-width", "", Harm.FAILS
    DOOR_SHAPE = "door-shape", "", Harm.ANNOYS
    HINGE_LEAF = "hinge-leaf", "", Harm.NO_FIT
    DOOR_GAP = "door-gap", "", Harm.NO_FIT
    HINGE_PLATE = "hinge-plate", "", Harm.NO_FIT
    HINGE_CUP = "hinge-cup", "", Harm.NO_FIT
    HINGE_EDGE = "hinge-edge", "", Harm.FAILS
    HINGE_OVERLAY = "hinge-overlay", "", Harm.NO_FIT
    HINGE_NUT = "hinge-nut", "", Harm.NO_FIT
    DOOR_BEHIND = "door-behind", "", Harm.NO_FIT
    DOOR_CATCH = "door-catch", "", Harm.ANNOYS
    DOOR_PULL = "door-pull", "", Harm.ANNOYS
    TOP_MOVES = "top-moves", "", Harm.FAILS
    GRAIN_ACROSS = "grain-across", "", Harm.FAILS
    PLANING_LITTLE = "planing-little", "", Harm.SPOILS
    SOLID_PANEL = "solid-panel", "", Harm.FAILS
    PANEL_LEAVES = "panel-leaves", "", Harm.NO_FIT
    PANEL_HOLD = "panel-hold", "", Harm.FAILS
    STRIPS_ACROSS = "strips-across", "", Harm.FAILS
    PANEL_MOISTURE = "panel-moisture", "", Harm.SPOILS
    SCREW_END_GRAIN = "screw-end-grain", "", Harm.FAILS
    MOISTURE_MIXED = "moisture-mixed", "", Harm.SPOILS
    MOISTURE_OPEN = "moisture-open", "", Harm.ANNOYS
    EDGING_GRAIN = "edging-grain", "", Harm.FAILS
    ROOM_FLOOR = "room-floor", "", Harm.SPOILS
    BUDGET = "budget", "", Harm.SPOILS
    FINISH_LATE = "finish-late", "", Harm.SPOILS
    FINISH_COVERAGE = "finish-coverage", "", Harm.ANNOYS
    KNEE_WIDTH = "knee-width", "", Harm.SPOILS
    KNEE_HEIGHT = "knee-height", "", Harm.SPOILS
    KNEE_DEPTH = "knee-depth", "", Harm.SPOILS
    KNEE_FEET = "knee-feet", "", Harm.ANNOYS
    KNEE_STANDS = "knee-stands", "", Harm.ANNOYS
    KNEE_CROSSED = "knee-crossed", "", Harm.NO_FIT
    MAINS = "mains", "", Harm.INJURES
    SERVICE_ROOM = "service-room", "", Harm.NO_FIT
    JOIN_BOLTS = "join-bolts", "", Harm.NO_FIT
    JOIN_SPREAD = "join-spread", "", Harm.FAILS
    JOIN_LENGTH = "join-length", "", Harm.NO_FIT
    JOIN_AGREES = "join-agrees", "", Harm.NO_FIT
    JOIN_HEIGHT = "join-height", "", Harm.SPOILS
    JOIN_ROLLS = "join-rolls", "", Harm.INJURES
    JOIN_OPENS = "join-opens", "", Harm.FAILS
    JOIN_CORNER = "join-corner", "", Harm.ANNOYS
    JOIN_SWIVEL = "join-swivel", "", Harm.ANNOYS
    JOIN_DRAG = "join-drag", "", Harm.FAILS
    JOIN_FLOOR = "join-floor", "", Harm.SPOILS
    GUSSET_ROOM = "gusset-room", "", Harm.NO_FIT
    GUSSET_WIDTH = "gusset-width", "", Harm.NO_FIT
    DOOR_SWING = "door-swing", "", Harm.FAILS
    DOORS_MEET = "doors-meet", "", Harm.ANNOYS
    PULL_MISSING = "pull-missing", "", Harm.ANNOYS
    PULL_FITS = "pull-fits", "", Harm.NO_FIT
    PULL_ON_EDGE = "pull-on-edge", "", Harm.FAILS
    PULL_SCREW = "pull-screw", "", Harm.ANNOYS
    PULL_PROJECTION = "pull-projection", "", Harm.INJURES
    FOOT_RATING = "foot-rating", "", Harm.FALLS
    FOOT_IN_THE_AIR = "foot-in-the-air", "", Harm.FALLS
    FOOT_HOLD = "foot-hold", "", Harm.FALLS
    FOOT_STEM_TOP = "foot-stem-top", "", Harm.FAILS
    FOOT_SLEEVE = "foot-sleeve", "", Harm.NO_FIT
    FOOT_REACH = "foot-reach", "", Harm.SPOILS
    FOOT_PAD = "foot-pad", "", Harm.INJURES
    FOOT_PLATES_MEET = "foot-plates-meet", "", Harm.NO_FIT
    FOOT_PLATE_EDGE = "foot-plate-edge", "", Harm.FAILS
    PLINTH_BEARS = "plinth-bears", "", Harm.FALLS
    PLINTH_HOLLOW = "plinth-hollow", "", Harm.FALLS
    PLINTH_SETBACK = "plinth-setback", "", Harm.NO_FIT
    LIFT_RANGE = "lift-range", "", Harm.NO_FIT
    LIFT_PLATE = "lift-plate", "", Harm.NO_FIT
    CASTER_IN_THE_AIR = "caster-in-the-air", "", Harm.FALLS
    WHEEL_SWEEP = "wheel-sweep", "", Harm.INJURES
    PLATES_MEET = "plates-meet", "", Harm.NO_FIT
    PLATE_EDGE = "plate-edge", "", Harm.FAILS
