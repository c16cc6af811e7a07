"""The rules of goods that must suit each other: bar and thread, clip and slot, slide and drawer, caster and plate."""

from __future__ import annotations

from generator.figures.checks.rule import Rule

GOODS_RULES: dict[str, Rule] = {
    # goods that do not suit each other
    "bore-thread": Rule(
        "error", "The bar's bore suits the thread that is tapped into it",
        "The bar's bore does not suit the thread that is tapped into it",
        "Take fasteners with the thread that the bore is made for.",
    ),
    "clip-mouth": Rule(
        "error", "The clip is wider than the slot's mouth", "The clip is too narrow to bear on the slot's lips",
        "Take a wider clip: the second number of `clip`.",
    ),
    "clip-undercut": Rule(
        "error", "The clip fits the hollow of the slot", "The clip is wider than the hollow of the slot",
        "Take a narrower clip: the second number of `clip`.",
    ),
    "bolt-mouth": Rule(
        "error", "The screw passes the slot's mouth", "The screw is thicker than the slot's mouth",
        "Take a smaller thread here, or a bar with a wider `slot: {opening}`.",
    ),
    "access-key": Rule(
        "error", "The key passes the access hole", "The key does not pass the access hole over its corners",
        "Drill a larger `access_hole`.",
    ),
    "head-counterbore": Rule(
        "error", "The screw's head goes into its counterbore", "The screw's head does not go into its counterbore",
        "Bore wider: write a larger `diameter`; 1 mm more than the head is usual.",
    ),
    "head-proud": Rule(
        "error", "The screw's head lies within its counterbore", "The screw's head stands out of its counterbore",
        "Bore deeper: write a larger `depth`.",
    ),
    "counterbore-through": Rule(
        "error", "Metal is left under the counterbore", "The counterbore comes out in the slot on the other side",
        "Bore less deep: write a smaller `depth`.",
    ),
    "screw-hole": Rule(
        "error", "The screw passes its hole", "The screw does not pass its hole", "Drill a larger `hole`.",
    ),
    "screw-hole-wide": Rule(
        "error", "The screw's head bears around its hole", "The hole leaves the screw's head too little to bear on",
        "Drill a smaller `hole`.",
    ),
    "thread-deep": Rule(
        "warning", "The threads can be tapped in one go", "The thread is deeper than a tap cuts in one go",
        "Take a shorter screw.",
    ),
    "threads-meet": Rule(
        "error", "Threads from both ends of a bar keep apart", "The threads from both ends of this bar meet",
        "Take shorter screws, or make the bar longer.",
    ),
    "bush-cutter": Rule(
        "error", "The cutter turns freely in the guide bush", "The cutter does not turn freely in the guide bush",
        "Take a larger `guide_bush` or a smaller `cutter`.",
    ),
    "cutter-opening": Rule(
        "error", "The cutter is no wider than the relief", "The cutter is wider than the relief that it cuts",
        "Take a smaller `cutter`.",
    ),
    "relief-wide": Rule(
        "error", "The relief is no wider than its bar", "The relief is wider than its bar",
        "Write a smaller first number in `opening`.",
    ),
    "slide-rating": Rule(
        "error", "The slides carry the heaviest drawer with its load",
        "The slides are not rated for the heaviest drawer with its load", "Take slides of a higher rating.",
    ),
    "slide-hole": Rule(
        "error", "All holes lie on the slide", "A hole lies beyond the slide's end",
        "Measure `holes` from the slide's front end again.",
    ),
    "slide-space": Rule(
        "error", "The slide fits its space", "The slide is thicker than the space beside the box",
        "Write a larger `side_space`, as the maker asks for it.",
    ),
    "slide-axis": Rule(
        "error", "The slide lies above the box's lower edge", "The slide reaches below the box",
        "Write a larger `slide_axis`.",
    ),
    "groove-depth": Rule(
        "warning", "The groove leaves enough of the box's sides", "The groove leaves too little of the box's sides",
        "Write a smaller `groove`.",
    ),
    "groove-place": Rule(
        "error", "The groove for the bottom lies within the box", "The groove for the bottom lies above the box",
        "Write a smaller `groove_up`, or make the lowest front higher.",
    ),
    "tote-body": Rule(
        "error", "The tote's rim is wider than its body", "The tote's body is wider than its rim",
        "Measure the tote again: `body_width` is measured just below the rim.",
    ),
    "tote-rim-height": Rule(
        "error", "The tote's rim is the upper part of the tote", "The tote's rim is higher than half the tote",
        "Measure again: `rim_height` is from the top of the rim to its underside.",
    ),
    "wheel-height": Rule(
        "error", "The wheel turns below its plate", "The wheel touches its own plate",
        "Measure the caster again: `height` is from the floor to the top of its plate, `wheel` a diameter.",
    ),
    "caster-holes": Rule(
        "error", "The caster's holes lie on its plate", "The caster's holes lie beyond its own plate",
        "Measure `holes` from centre to centre.",
    ),
    "caster-on-plate": Rule(
        "error", "The caster's plate lies on the bench's plate", "The caster's plate stands beyond the bench's plate",
        "Write a larger `size`, or take a smaller caster.",
    ),
    "plate-thread": Rule(
        "warning", "The caster plate is thick enough for its threads",
        "The caster plate is too thin for the threads of the caster's screws", "Take a thicker plate.",
    ),
    "holes-meet": Rule(
        "error", "Wood is left between the dog holes", "Too little wood is left between the dog holes",
        "Write a larger `pitch`.",
    ),
    "no-holes": Rule(
        "warning", "The grid has holes", "The grid leaves no hole in the top",
        "Write a smaller `edge`, `pitch` or `keep_clear`, or leave `holes` out for a plain top.",
    ),
    "hole-edge": Rule(
        "warning", "Wood is left beside the dog holes", "Too little wood is left between a dog hole and the edge",
        "Write a larger `edge`.",
    ),
}  # fmt: skip
