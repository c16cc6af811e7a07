"""Every check by its code: how much it matters, what it says when it holds and when it fails, what to do then."""

from __future__ import annotations

from generator.bench.stands import STANDS
from generator.figures.checks.goods_rules import GOODS_RULES
from generator.figures.checks.rule import Rule

RULES: dict[str, Rule] = {
    # the layout
    "bay-width": Rule(
        "error", "The bay is wide enough to reach into", "The bay is too narrow to reach into",
        "Take a bay out, or give it a larger share.",
    ),
    "uneven-share": Rule(
        "note", "The share is a whole tenth", "The share is no whole tenth of a millimetre or 64th of an inch",
        "Set out from the absolute marks, or use bench.round_shares.",
    ),
    "clamp-gap": Rule(
        "warning", "A clamp and a hand pass between tray and top rail",
        "The gap between tray and top rail is too low for a clamp and a hand", "Lower the tray's end rail.",
    ),
    "narrow-gap": Rule(
        "warning", "Two posts' lines leave room for a panel and a hand",
        "Two posts' lines leave no room for a panel and a hand", "Let the two lines coincide.",
    ),
    # joints
    "clip-stack": Rule(
        "error", "Lip, clip and screw head fit the slot's depth", "Lip, clip and screw head are deeper than the slot",
        "Take a lower head or a thinner clip.",
    ),
    "clip-thread": Rule(
        "error", "The clip's screw has thread enough in the bore", "The clip's screw has too little thread in the bore",
        "Take a longer screw.",
    ),
    "through-thread": Rule(
        "error", "The through-screw has thread enough in the bore",
        "The through-screw has too little thread in the bore", "Take a longer screw.",
    ),
    "counterbore": Rule(
        "error", "The counterbore reaches the slot's floor", "The counterbore ends above the slot's floor",
        "Bore deeper than the slot.",
    ),
    "key-crosses-screw": Rule(
        "note", "No screw crosses a key's way", "A screw crosses these keys' way: tighten the end clips first",
        "They cannot be tightened again once the screw is in.",
    ),
    **GOODS_RULES,
    # captured panels and the tray
    "tongue-bottoms": Rule(
        "error", "The tongue does not bottom in its slot", "The tongue bottoms in its slot", "Shorten the tongue.",
    ),
    "tongue-short": Rule(
        "warning", "The tongue is long enough to hold", "The tongue is too short to hold well",
        "Take a deeper slot or a longer tongue.",
    ),
    "loose-sheet": Rule(
        "warning", "The sheet fills its groove", "The sheet rattles in its groove",
        "This sheet is thinner than the groove: take a thicker one.",
    ),
    "tight-sheet": Rule(
        "warning", "The tongue goes into its slot however the rabbets turn out",
        "The tongue may be thicker than its slot when both rabbets turn out shallow",
        "Write a larger `groove_clearance`; 0.2 mm is usual.",
    ),
    "not-measured": Rule(
        "note", "The goods are measured", "This was not measured",
        "Measure it before you cut a rabbet or a tongue, and write the date as `measured`.",
    ),
    "tray-span": Rule(
        "warning", "The tray is supported often enough", "The tray spans too far between its supports",
        "Set walls under it: dividers, and where they stand already two bays for one under `zones`. 600 mm is the "
        "usual limit for 12 mm sheet.",
    ),
    # drawers
    "wide-drawer": Rule(
        "error", "The drawer is not so wide that it racks", "The drawer is so wide for its depth that it racks",
        "Make it narrower or deeper, or take slides that are synchronised.",
    ),
    "box-height": Rule(
        "error", "The drawer's box is higher than its slide", "The drawer's box is too low for its slide",
        "Give it a higher front.",
    ),
    "box-width": Rule(
        "error", "The box leaves room for its bottom", "The box leaves no room for its bottom", "Widen the bay.",
    ),
    "slide-depth": Rule(
        "error", "The slide ends before the zone does", "Too little room is left in the zone behind the slide",
        "Deepen the zone, or take a shorter slide, such as `slide: {use: slide 400}` under `hardware`.",
    ),
    "closed-zone": Rule(
        "error", "What fills the bay can be reached", "What fills the bay cannot be reached",
        "A zone between two others opens to no face: use the first or last zone.",
    ),
    "slide-without-wall": Rule(
        "error", "The slides have walls to stand on", "The slides have no wall to stand on",
        "Add `ends` or `dividers` to panels.walls.",
    ),
    "packing-thin": Rule(
        "error", "The packing strip is as thick as the slide needs", "The packing strip is too thin",
        "Take a thicker strip.",
    ),
    "packing-planed": Rule(
        "note", "The packing strips are used as they come", "The packing strips must be planed to this thickness",
        "Plane all of them in one go.",
    ),
    "packing-narrow": Rule(
        "warning", "The packing strip is wide enough for its screws",
        "The packing strip is too narrow for its screws", "Take a wider strip.",
    ),
    "strip-narrow": Rule(
        "error", "Runners and cleats can be cut from their strip", "The strip is narrower than the part cut from it",
        "Take a wider strip, or a narrower bay for the totes.",
    ),
    # totes and shelves
    "tote-bearing": Rule(
        "error", "The rim bears on a runner even when pushed aside", "The rim slips off a runner when pushed aside",
        "Choose a smaller runner gap.",
    ),
    "tote-rim": Rule(
        "error", "The rim passes between the posts", "The rim does not pass between the posts", "Widen the bay.",
    ),
    "tote-gap-low": Rule(
        "error", "The body passes between the runners", "The body does not pass between the runners",
        "Choose a larger runner gap.",
    ),
    "tote-gap-high": Rule(
        "error", "The runners carry the rim", "The runners lie too far apart to carry the rim",
        "Choose a smaller runner gap.",
    ),
    "tote-depth": Rule(
        "error", "The tote fits the zone's depth", "No room is left in the zone behind the tote", "Deepen the zone.",
    ),
    "shelf-height": Rule(
        "error", "The shelf lies below the tray", "The shelf lies above the opening", "Lower the shelf.",
    ),
    "shelf-meets": Rule(
        "error", "The shelf meets nothing else in its bay", "The shelf meets another item of its bay",
        "Move one of the two.",
    ),
    "shelf-low": Rule(
        "error", "The shelf's cleats stand above the base rail", "The shelf's cleats reach below the base rail's top",
        "Raise the shelf.",
    ),
    "shelf-tilt": Rule(
        "warning", "The shelf can be tilted in through its opening", "The shelf cannot be tilted in",
        "Put the shelf in before the frame closes.",
    ),
    "shelf-lands": Rule(
        "warning", "The tilted shelf comes down past the cleats", "Cleats or the shelf below bar the tilted shelf",
        "Set the shelves farther apart, or put the shelf in as early as the steps say.",
    ),
    # machining, hardware, stock
    "relief-clear": Rule(
        "error", "The clamp relief is clear of all holes and ends", "The clamp relief meets a hole or an end",
        "Move it by frame.clamp_access.from_end.",
    ),
    "bolt-window": Rule(
        "error", "A stock bolt is long enough for its nut and clear of the slot's floor",
        "No bolt is sold between the shortest that fills its nut and the longest that clears the slot's floor",
        "Change the thickness of what it clamps.",
    ),
    "longer-than-stock": Rule(
        "error", "Every part can be cut from what is sold", "A part is larger than anything that is sold",
        "Name a longer stock size, or divide the part.",
    ),
    # strength and handling
    "tips-by-pull": Rule(
        "error", "A pull at the top edge does not tip the empty bench", "A pull at the top edge tips the empty bench",
        "Make it wider, set the casters further out, or fix it to floor or wall.",
    ),
    "drawer-tips": Rule(
        "error", "One full drawer may be open", "One full drawer tips the bench by its weight alone",
        "Make the bench deeper, the drawers' travel shorter or their load smaller, or put ballast at the far side.",
    ),
    "drawers-open": Rule(
        "note", "All drawers may be open at once",
        "With more full drawers open than this, a pull at the top edge tips the bench",
        "Write the number on the bench; catches that let one drawer open at a time make it sure.",
    ),
    "sag-top-bar": Rule(
        "warning", "The top's bars are stiff enough", "A bar of the top sags too far under the load in its middle",
        "Add an inner post under it, or take a stiffer bar.",
    ),
    "sag-top-board": Rule(
        "note", "The top board is stiff enough between its bars", "The top board sags too far between its bars",
        "Take a thicker board, or set the bars closer. The sum takes the board as cut at its bars, so it is on the "
        "safe side.",
    ),
    "sag-base": Rule(
        "note", "The base rails are stiff enough between the casters", "A base rail sags too far between its casters",
        "Posts, top rail and panels help, and this sum leaves them out. Otherwise set it on more casters or on stiffer "
        "bars.",
    ),
    "sag-shelf": Rule(
        "warning", "The shelves are stiff enough", "The shelf sags too far",
        "Take a thicker board, a narrower bay, or a lighter load.",
    ),
    "sag-drawer-bottom": Rule(
        "warning", "The drawers' bottoms are stiff enough", "The drawer's bottom sags too far",
        "Take a thicker bottom.",
    ),
    "lift-weight": Rule(
        "note", "Two persons lift each part of the work", "This is too heavy for two persons",
        "Use blocks and a jack, or a hoist; or lift it in smaller parts.",
    ),
    "door-parts": Rule(
        "warning", "Every part goes through the door and into the van",
        "This does not go through the door or into the van", "Put it together on the other side of the door.",
    ),
    "door-bench": Rule(
        "note", "The finished bench goes through the door", "The finished bench does not go through the door",
        "Plan to take off the top and the casters and to turn the frame on its side, or measure the door again.",
    ),
    "work-height": Rule(
        "note", "The height suits its user and the work", "The height does not suit its user and the work",
        "100 to 150 mm below the elbow for assembly, 200 to 250 for planing, just below the saw's table for outfeed.",
    ),
    "too-little-stock": Rule(
        "error", "The stock on hand and to buy holds every part", "The stock does not hold every part",
        "Name more stock, or stock without a count; the cutting plan says how much would do.",
    ),
    # solids, order, access
    "overlap": Rule(
        "error", "No two parts are in one place", "Two parts are in one place", "Move or shorten one of the two.",
    ),
    "notch-missing": Rule(
        "error", "Every corner that something stands in is notched", "Something stands where this corner goes",
        "Notch this corner.",
    ),
    "screws-meet": Rule(
        "error", "No two screws meet in a bar", "Two screws meet in one bar",
        "Join one of the two members by an end clip.",
    ),
    "nut-clash": Rule(
        "error", "Every nut has room in its slot", "A nut has no room in its slot",
        "Move its bolt, or the joint that is in its place.",
    ),
    "order-blocked": Rule(
        "error", "The bench can be put together, each motion proved backwards", "The bench cannot be put together",
        "Choose joints that close in the direction in which the tongues go in.",
    ),
    "key-line-blocked": Rule(
        "error", "A key reaches every screw at its step", "No key reaches this screw at its step",
        "Tighten this joint before what bars the key goes in.",
    ),
    "access-missing": Rule(
        "error", "Every joint has the holes that it needs", "A hole is missing, or in the wrong place or face",
        "Drill it at the joint's place, in the face that its key enters.",
    ),
    "clips-back-to-back": Rule(
        "error", "No two end clips face each other", "Two end clips face each other: neither key gets in",
        "Join one of the two members by a through-screw.",
    ),
    "plate-over-access": Rule(
        "warning", "No plate covers an access hole", "A plate covers an access hole",
        "Drill a port in the plate, or the joint cannot be tightened again.",
    ),
    "nuts-preload": Rule(
        "note", "No slot closes over nuts that are still to come", "Nuts must be in these slots before they close",
        "The steps say how many, and when it is the last chance.",
    ),
    # nothing forgotten
    "tongue-without-groove": Rule(
        "error", "Every tongue has its groove", "A tongue has no groove to go into",
        "Add the bar that it goes into, or leave the tongue off.",
    ),
    "edge-without-tongue": Rule(
        "error", "Every edge in a slot has its tongue", "An edge lies in a slot and has no tongue",
        "Give it a tongue.",
    ),
    "tongue-off-groove": Rule(
        "error", "Every tongue lies in the middle of its groove", "A tongue's middle misses its groove's by this much",
        "Move the bar or the board; cut the tongue from both faces alike.",
    ),
    "tongue-shallow": Rule(
        "error", "Every tongue reaches deep enough into its groove", "A tongue holds too little in its groove",
        "6 mm is the least.",
    ),
    "groove-too-short": Rule(
        "error", "Every groove is as long as its edge", "A groove ends before the edge does",
        "Add a bar, or support the edge.",
    ),
    "edge-unsupported": Rule(
        "error", "Every edge has its groove, its support or its reason", "Nothing holds this edge over this length",
        "Add a groove or a support.",
    ),
    "support-missing": Rule(
        "error", "Every slide has its packing, every tote its runners, the tray its walls",
        "What should carry this is not there", "Add the part that is missing under it.",
    ),
    "end-in-the-air": Rule(
        "error", "Every bar ends on a bar", "The end of a bar meets no bar",
        "Move it, or add the bar that it should end on.",
    ),
    "joint-without-fastener": Rule(
        "error", "Every joint has its fastener", "A joint has no fastener", "Join it.",
    ),
    "end-not-tapped": Rule(
        "error", "Every end that takes a screw is tapped", "An end that takes a screw is not tapped", "Tap it.",
    ),
    "slide-plane": Rule(
        "warning", "The slides stand before the posts' faces", "The slides catch on the posts",
        "Let the packing stand 0.5 to 1 mm proud.",
    ),
    "screw-length": Rule(
        "warning", "The screw stays inside the wood", "The screw is too long for what it goes into",
        "Take a shorter screw there.",
    ),
    "top-brackets": Rule(
        "note", "Brackets hold the top near its corners and in between",
        "The top is held too far from a corner, or too rarely", "Set the brackets closer: move the holes above them.",
    ),
    "bracket-gap": Rule(
        "warning", "Each bracket has space between the bars", "A bracket has no space between the bars",
        "Name a bracket in `top.bracket`: it keeps clear of the bars.",
    ),
    "packing-edge": Rule(
        "warning", "The slide's holes keep off the packing strips' edges",
        "A slide's hole lies too near to the edge of its packing strip", "Set the slides further back.",
    ),
    "screw-thread": Rule(
        "warning", "The screw has thread enough in what it holds on to",
        "The screw has too little thread in what it holds on to", "Take a longer screw there.",
    ),
    "screw-splits": Rule(
        "warning", "The edge is thick enough for its screws", "The edge is too thin for its screws: it splits",
        "Take a thinner screw there.",
    ),
    "pocket-footprint": Rule(
        "note", "Pockets have room above runners and cleats", "Pockets have no room above runners and cleats",
        "Screw the tray to this divider from above.",
    ),
}  # fmt: skip

#: What each kind of stand asks for stands in its own module.
RULES |= {
    law.code: Rule(law.severity, law.holds, law.fails, law.advice, law.why, law.caution)
    for kind in STANDS
    for law in kind.laws
}
