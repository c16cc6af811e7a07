"""Every stable code, once: tests, documents and users name a finding by it.

A fault of the text, of its sums or of a file brings here why it matters in the shop, in the words of a colleague. A
check says so in its `Law`, beside its subject; its code stands here alone.
"""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """A code, and why a fault of this code matters; empty for a check, whose law says it."""

    why: str

    def __new__(cls, code: str, why: str = "") -> Code:
        """A text that knows its reason."""
        self = str.__new__(cls, code)
        self._value_, self.why = code, why
        return self

    # fmt: off
    # what cannot be read
    UNKNOWN_KEY = "unknown-key", (
        "A key that is not read changes nothing: you would get another bench than the one you wrote."
    )
    MISSING_KEY = "missing-key", "No size follows from what is not said, and a guess would be cut into wood."
    UNKNOWN_NAME = "unknown-name", "Parts are cut and joined by what this name stands for, and nothing has the name."
    UNKNOWN_CARD = "unknown-card", "Without the card's sizes no tongue, rabbet or spacer can be worked out."
    NAME_TWICE = "name-twice", "Two things of one name cannot be told apart on a mark or a label."
    BAD_LENGTH = "bad-length", "A length that can be read in two ways is a piece that is cut twice."
    OUT_OF_RANGE = "out-of-range", "No bench holds such a size: more often it is a slip of the unit than a wish."
    NOT_A_CHOICE = "not-a-choice", "Only these were thought through to the last hole."
    WRONG_KIND = "wrong-kind", "One size is cut by one value."
    NOT_A_MAPPING = "not-a-mapping", "A value without its key could be any size of the bench."
    NOT_A_LIST = "not-a-list", "What stands side by side is built side by side, so its order must be plain."
    TOO_FEW = "too-few", "A bench cannot be built from what is not there."
    TOO_MANY = "too-many", "Nobody can tell which of them to cut by."
    STACK_ITEM = "stack-item", "A bay is filled from below, one thing on the other: each must be one thing."
    MISSING_KIND = "missing-kind", "A bar is cut on another saw than a sheet: the kind decides all that follows."
    UNKNOWN_KIND = "unknown-kind", "The kind decides on which machine it is cut and what it is joined with."
    DUPLICATE_KEY = "duplicate-key", "One of the two would be cut by, and you could not tell which."
    BAD_NUMBER = "bad-number", "A number that can be read in two ways is bought or cut twice."
    BAD_COUNT = "bad-count", "Pieces are cut and bought whole."
    BAD_FLAG = "bad-flag", "A maybe cannot be built."
    BAD_SHARE = "bad-share", "What is left is divided by these weights, and every bay's width follows from them."
    BAD_QUANTITY = "bad-quantity", "20 kg and 20 lb make two benches: what carries it is chosen by this."
    BAD_SCREW = "bad-screw", "Thread and length decide what is tapped and drilled."
    BAD_THREAD = "bad-thread", "Taps, drills and nuts follow from the thread."
    BAD_FRACTION = "bad-fraction", "You read it off a rule, and a rule has halves of halves."
    BAD_KEY = "bad-key", "A name that nobody can write on a piece names nothing."
    BAD_DATE = "bad-date", "Which of two values is the newer one decides by which you cut."
    TOO_LONG = "too-long", "It must fit a label and the head of a page."
    TOO_LARGE_A_PROBLEM = "too-large-a-problem", (
        "Nobody cuts so much in one go, and no plan would be ready before the saw is cold."
    )
    TOO_LARGE = "too-large", "No bench has so many values: this is some other file."
    CONTROL_CHARACTER = "control-character", "It cannot be seen in an editor, and it would stand on every page."
    MISSING_LETTER = "missing-letter", "Full-scale sheets, labels and set-up cards are printed from the PDFs."
    SHAPED_LETTER = "shaped-letter", "Full-scale sheets, labels and set-up cards are printed from the PDFs."
    CUSTOM_TAG = "custom-tag", "It means something in other programs, and nothing here."
    MERGE_KEY = "merge-key", "What comes from elsewhere has no line of its own to be mended in."
    SEVERAL_DOCUMENTS = "several-documents", "The second bench would be left out without a word."
    NOT_READABLE = "not-readable", "Nothing can be built from what cannot be read."
    IS_A_FOLDER = "is-a-folder", "Several specs may lie in it, and only you know which one you mean."
    UNKNOWN_MARK = "unknown-mark", "A piece that is not on the cut list was cut for some other bench."
    UNKNOWN_BOARD = "unknown-board", "The grain of some other board would run as you did not want it."
    UNKNOWN_BAY = "unknown-bay", "What is measured in one bay must not be cut for another."
    NOT_MEASURABLE = "not-measurable", "A measured value replaces a planned one, so there must be one to replace."
    WRONG_SIZES = "wrong-sizes", "A board has two sizes, and each fits something else."
    YAML_SYNTAX = "yaml-syntax", "From here on nobody can tell which key a value belongs to."
    NO_FILE = "no-file", "Nothing can be built from a file that is not there."
    # sums that do not come out
    LENGTH_SUM = "length-sum", (
        "The bays and posts of a zone must fill the bench exactly, or the last bay takes all the error."
    )
    DEPTH_SUM = "depth-sum", "The zones and bars must fill the depth exactly, or the spine stands where no bar is."
    HEIGHT_SUM = "height-sum", "What is left for the frame's height decides the length of every post."
    STACK_SUM = "stack-sum", (
        "Fronts and gaps fill an opening exactly: a remainder shows as a crooked gap on every front."
    )
    NO_SIZE = "no-size", "Nobody can cut such a piece, so nothing that is measured from it can be right."
    LINES_TOO_CLOSE = "lines-too-close", "Two posts that overlap cannot both stand."
    ORDER_BLOCKED = "order-blocked", "You would find out with the last rail in your hands."
    ORDER_CONTRADICTION = "order-contradiction", "No order can put each of these before the other."
    SLOT_TOO_LARGE = "slot-too-large", "Nothing would be left of the bar between its slots."
    PANEL_TOO_THICK = "panel-too-thick", (
        "A panel that stands out of its bars has no rabbet to cut and leaves no room beside it."
    )
    TONGUE_TOO_LONG = "tongue-too-long", "It would stand on the bottom of the slot and hold the frame open."
    CLEARANCE_TOO_WIDE = "clearance-too-wide", "There would be nothing left to enter the slot."
    WALL_WITHOUT_PLACE = "wall-without-place", "A panel needs posts with slots at both of its edges."
    FOOT_RANGE = "foot-range", "The frame's height is worked out from the middle of the range."
    CLOSING_JOINTS = "closing-joints", "Tongues and joints must close along one line, or the last end frame stays off."
    NO_REMAINDER_BAY = "no-remainder-bay", (
        "One bay must take what rounding leaves, or the sum is not the bench's length."
    )
    TOO_MANY_HOLES = "too-many-holes", "Nobody drills them, and more hole than wood carries nothing."
    CLIMATE = "climate", "Wood moves between the two ends, so they must be in their order."
    # machining, hardware, stand, stock
    TOO_LITTLE_STOCK = "too-little-stock", "You run out of stock in the middle of the work."
    UNUSED_NAME = "unused-name", "The bench would be cut and bought by other goods than the ones that you measured."
    UNKNOWN_HARDWARE = "unknown-hardware", "Its pack and price would be left out of the shopping list without a word."
    # nothing forgotten
    END_IN_THE_AIR = "end-in-the-air", "A bar held at one end carries nothing."
    # further faults of a spec, of its record and photos
    NOT_UTF8 = "not-utf8", "A letter that is read as another one is a wrong name on a label."
    NO_SUCH_PLACE = "no-such-place", "A new value without its place in the spec would change nothing."
    BAY_FAR_OFF = "bay-far-off", "A bay that is so far off its plan was more often misread on the tape than built so."
    NOTHING_DONE = "nothing-done", "An entry that says nothing hides what you meant to record."
    NOT_A_PHOTO = "not-a-photo", "The page would have an empty frame in place of the photo."
    BROKEN_PHOTO = "broken-photo", "The page would have an empty frame in place of the photo."
    OUTSIDE_THE_FOLDER = "outside-the-folder", "A photo elsewhere is left behind when the folder is copied."
    CUT_OFF_SIZE = "cut-off-size", "What is built on this piece is off by as much."
    NOT_APPENDABLE = "not-appendable", "What was measured before must never be lost by writing more."
    # cutting problems by themselves, and letters
    NO_FONT = "no-font", "Without the font's letters no sheet of paper can be printed."
    NOT_AN_ENTRY = "not-an-entry", "A row that is not understood would be missing at the saw."
    NOT_FOR_BARS = "not-for-bars", "It would change nothing in a plan of bars, and you would count on it."
    PIECE_TOO_LARGE = "piece-too-large", "You would notice at the saw, with the sheet already on it."
    PIECE_TOO_LONG = "piece-too-long", "You would notice at the saw, with the bar already on it."
    TWO_KINDS = "two-kinds", "Bars and sheets are cut on other saws, each by a plan of its own."
    # checks of the layout, the joints and the bars
    BAY_WIDTH = "bay-width"
    UNEVEN_SHARE = "uneven-share"
    CLAMP_GAP = "clamp-gap"
    NARROW_GAP = "narrow-gap"
    CLIP_STACK = "clip-stack"
    CLIP_THREAD = "clip-thread"
    THROUGH_THREAD = "through-thread"
    COUNTERBORE = "counterbore"
    KEY_CROSSES_SCREW = "key-crosses-screw"
    BUSH_CUTTER = "bush-cutter"
    CUTTER_OPENING = "cutter-opening"
    RELIEF_WIDE = "relief-wide"
    RELIEF_CLEAR = "relief-clear"
    BOLT_WINDOW = "bolt-window"
    # checks of captured panels, the tray and stock
    TONGUE_BOTTOMS = "tongue-bottoms"
    TONGUE_SHORT = "tongue-short"
    LOOSE_SHEET = "loose-sheet"
    TIGHT_SHEET = "tight-sheet"
    NOT_MEASURED = "not-measured"
    TRAY_SPAN = "tray-span"
    LONGER_THAN_STOCK = "longer-than-stock"
    # checks of fasteners and their bar
    BORE_THREAD = "bore-thread"
    CLIP_MOUTH = "clip-mouth"
    CLIP_UNDERCUT = "clip-undercut"
    BOLT_MOUTH = "bolt-mouth"
    ACCESS_KEY = "access-key"
    HEAD_COUNTERBORE = "head-counterbore"
    HEAD_PROUD = "head-proud"
    COUNTERBORE_THROUGH = "counterbore-through"
    SCREW_HOLE = "screw-hole"
    SCREW_HOLE_WIDE = "screw-hole-wide"
    THREAD_DEEP = "thread-deep"
    THREADS_MEET = "threads-meet"
    # checks of drawers
    SLIDE_RATING = "slide-rating"
    SLIDE_HOLE = "slide-hole"
    SLIDE_SPACE = "slide-space"
    SLIDE_AXIS = "slide-axis"
    GROOVE_DEPTH = "groove-depth"
    GROOVE_PLACE = "groove-place"
    WIDE_DRAWER = "wide-drawer"
    BOX_HEIGHT = "box-height"
    BOX_WIDTH = "box-width"
    SLIDE_DEPTH = "slide-depth"
    SLIDE_WITHOUT_WALL = "slide-without-wall"
    PACKING_THIN = "packing-thin"
    PACKING_PLANED = "packing-planed"
    PACKING_NARROW = "packing-narrow"
    PACKING_EDGE = "packing-edge"
    # checks of totes
    TOTE_BODY = "tote-body"
    TOTE_RIM_HEIGHT = "tote-rim-height"
    TOTE_BEARING = "tote-bearing"
    TOTE_RIM = "tote-rim"
    TOTE_GAP_LOW = "tote-gap-low"
    TOTE_GAP_HIGH = "tote-gap-high"
    TOTE_DEPTH = "tote-depth"
    # checks of shelves and strips
    SHELF_HEIGHT = "shelf-height"
    SHELF_MEETS = "shelf-meets"
    SHELF_LOW = "shelf-low"
    SHELF_TILT = "shelf-tilt"
    SHELF_LANDS = "shelf-lands"
    CLOSED_ZONE = "closed-zone"
    STRIP_NARROW = "strip-narrow"
    # checks of the stand as bought
    WHEEL_HEIGHT = "wheel-height"
    CASTER_HOLES = "caster-holes"
    CASTER_ON_PLATE = "caster-on-plate"
    PLATE_THREAD = "plate-thread"
    # checks of the top
    TOP_BRACKETS = "top-brackets"
    BRACKET_GAP = "bracket-gap"
    NO_HOLES = "no-holes"
    HOLES_MEET = "holes-meet"
    HOLE_EDGE = "hole-edge"
    # checks of strength and handling
    TIPS_BY_PULL = "tips-by-pull"
    DRAWER_TIPS = "drawer-tips"
    DRAWERS_OPEN = "drawers-open"
    SAG_TOP_BAR = "sag-top-bar"
    SAG_TOP_BOARD = "sag-top-board"
    SAG_BASE = "sag-base"
    SAG_SHELF = "sag-shelf"
    SAG_DRAWER_BOTTOM = "sag-drawer-bottom"
    LIFT_WEIGHT = "lift-weight"
    DOOR_PARTS = "door-parts"
    DOOR_BENCH = "door-bench"
    WORK_HEIGHT = "work-height"
    # checks of bodies, order and access
    OVERLAP = "overlap"
    NOTCH_MISSING = "notch-missing"
    SCREWS_MEET = "screws-meet"
    NUT_CLASH = "nut-clash"
    KEY_LINE_BLOCKED = "key-line-blocked"
    ACCESS_MISSING = "access-missing"
    CLIPS_BACK_TO_BACK = "clips-back-to-back"
    PLATE_OVER_ACCESS = "plate-over-access"
    NUTS_PRELOAD = "nuts-preload"
    # checks of nothing forgotten
    TONGUE_WITHOUT_GROOVE = "tongue-without-groove"
    EDGE_WITHOUT_TONGUE = "edge-without-tongue"
    TONGUE_OFF_GROOVE = "tongue-off-groove"
    TONGUE_SHALLOW = "tongue-shallow"
    GROOVE_TOO_SHORT = "groove-too-short"
    EDGE_UNSUPPORTED = "edge-unsupported"
    SUPPORT_MISSING = "support-missing"
    SLIDE_PLANE = "slide-plane"
    POCKET_FOOTPRINT = "pocket-footprint"
    JOINT_WITHOUT_FASTENER = "joint-without-fastener"
    END_NOT_TAPPED = "end-not-tapped"
    # checks of wood screws
    SCREW_LENGTH = "screw-length"
    SCREW_THREAD = "screw-thread"
    SCREW_SPLITS = "screw-splits"
    # checks of what the bench stands on
    CASTER_RATING = "caster-rating"
    FOOT_RATING = "foot-rating"
    FOOT_IN_THE_AIR = "foot-in-the-air"
    FOOT_HOLD = "foot-hold"
    FOOT_STEM_TOP = "foot-stem-top"
    FOOT_REACH = "foot-reach"
    FOOT_PLATES_MEET = "foot-plates-meet"
    FOOT_PLATE_EDGE = "foot-plate-edge"
    CASTER_IN_THE_AIR = "caster-in-the-air"
    WHEEL_SWEEP = "wheel-sweep"
    PLATES_MEET = "plates-meet"
    PLATE_EDGE = "plate-edge"
