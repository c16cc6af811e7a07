"""Why a finding matters in the shop: one sentence for each code, in the words of a colleague."""

from __future__ import annotations

from collections.abc import Mapping

REASONS: Mapping[str, str] = {
    # what cannot be read
    "unknown-key": "A key that is not read changes nothing: you would get another bench than the one you wrote.",
    "missing-key": "No size follows from what is not said, and a guess would be cut into wood.",
    "unknown-name": "Parts are cut and joined by what this name stands for, and nothing has the name.",
    "unknown-card": "Without the card's sizes no tongue, rabbet or spacer can be worked out.",
    "name-twice": "Two things of one name cannot be told apart on a mark or a label.",
    "bad-length": "A length that can be read in two ways is a piece that is cut twice.",
    "out-of-range": "No bench holds such a size: more often it is a slip of the unit than a wish.",
    "not-a-choice": "Only these were thought through to the last hole.",
    "yaml-syntax": "From here on nobody can tell which key a value belongs to.",
    "no-file": "Nothing can be built from a file that is not there.",
    # sums that do not come out
    "length-sum": "The bays and posts of a zone must fill the bench exactly, or the last bay takes all the error.",
    "depth-sum": "The zones and bars must fill the depth exactly, or the spine stands where no bar is.",
    "height-sum": "What is left for the frame's height decides the length of every post.",
    "stack-sum": "Fronts and gaps fill an opening exactly: a remainder shows as a crooked gap on every front.",
    "no-room": "There is no wood between these two.",
    "lines-too-close": "Two posts that overlap cannot both stand.",
    "order-blocked": "A bench that cannot be closed is found out when the last rail is in your hands.",
    "order-contradiction": "No order can put each of these before the other.",
    # the layout
    "bay-width": "You cannot get a hand and a drawer into it.",
    "uneven-share": "A tape cannot be set to it; rounding each mark by itself adds up along the bench.",
    "clamp-gap": "The gap is there to clamp work to the top, and a knuckle must pass too.",
    "narrow-gap": "A panel cannot be slid in, nor a screw turned, where no hand fits.",
    # joints
    "clip-stack": "The screw's head would stand out of the slot and keep the panel or the next bar from seating.",
    "clip-thread": "Few threads in aluminium strip when the joint is pulled tight.",
    "through-thread": "Few threads in aluminium strip when the joint is pulled tight.",
    "counterbore": "The head would bear on the lips of the slot and bend them instead of pulling the bar home.",
    "key-crosses-screw": "The order of tightening cannot be mended later without taking the corner apart.",
    "clips-back-to-back": "Both screws are blind behind the other's bar.",
    # captured panels and the tray
    "tongue-bottoms": "The bars stay apart by what the tongue is too long, and the frame never closes square.",
    "tongue-short": "Wood shrinks across the grain, and a short tongue leaves its groove.",
    "loose-sheet": "A panel that rattles neither stiffens the frame nor stays quiet.",
    "not-measured": "Sheets and slots differ from maker to maker by more than the play of a tongue.",
    "tray-span": "The tray sags, and the drawers below it rub.",
    # strength and handling
    "tips-by-pull": "A bench that follows a pull falls on whoever pulls.",
    "drawer-tips": "The first drawer that somebody opens brings the bench down on their feet.",
    "drawers-open": "Full drawers stand out before the wheels, and nobody counts them while looking for a tool.",
    "caster-in-the-air": "Floors are never flat, and a stiff frame hangs its load on the wheels that touch.",
    "sag-top-bar": "Work clamped to a top that gives is glued up crooked.",
    "sag-top-board": "Work clamped to a top that gives is glued up crooked.",
    "sag-base": "A base that sags opens the joints above it and lets the drawers rub.",
    "sag-shelf": "A shelf that hangs slips off its cleats one day.",
    "sag-drawer-bottom": "A bottom that hangs leaves its groove, or drags over the drawer below.",
    "lift-weight": "Backs and fingers are hurt in the one minute in which a frame is lifted.",
    "door-parts": "What is built on the wrong side of a door stays there.",
    "door-bench": "A bench is born in a room that it may never leave.",
    "work-height": "A bench that is too low hurts the back, one that is too high the shoulders, every day.",
    # drawers
    "wide-drawer": "Pushed at one end it jams, and it wears out its slides.",
    "box-height": "The slide has no wood to be screwed to.",
    "box-width": "There would be no floor left in the drawer.",
    "slide-depth": "The slide would meet the spine before the front meets the frame.",
    "closed-zone": "What you store there never comes out again.",
    "slide-without-wall": "A slide carries the drawer by screws in a wall, and there is none.",
    "packing-thin": "The slide would stand behind the posts' faces and the drawer could not pass them.",
    "packing-planed": "Strips of unlike thickness bring the two slides of a drawer out of parallel.",
    "packing-narrow": "A screw near an edge splits the strip.",
    "strip-narrow": "The part cannot be cut from it.",
    "slide-plane": "The drawer catches on a post when it is pulled.",
    # totes and shelves
    "tote-bearing": "A full tote drops on the one below when it is pulled askew.",
    "tote-rim": "The tote does not go in.",
    "tote-gap-low": "The tote does not go in.",
    "tote-gap-high": "The tote falls through.",
    "tote-depth": "It stands out at the front, where shins are.",
    "shelf-height": "The shelf and the tray would be in one place.",
    "shelf-meets": "Two things cannot be in one place.",
    "shelf-low": "The cleat would have to be let into the bar.",
    "shelf-tilt": "Once the frame is closed the shelf stays outside.",
    "shelf-lands": "It stays hanging in the opening, tilted, with nothing under its far edge.",
    # machining, hardware, casters, stock
    "too-little-stock": "You find it out with the last sheet on the saw and the shop closed.",
    "relief-clear": "A relief that opens into a hole weakens the lips where a clamp pulls on them.",
    "bolt-window": "A bolt that is too long lifts the plate off the bar; one that is too short strips its thread.",
    "caster-rating": "A floor is never flat: one wheel hangs, and the others carry its load and every jolt.",
    "plate-without-bar": "The bolt would hold in nothing.",
    "plates-meet": "Two plates cannot be bolted to one place.",
    "wheel-sweep": "It is the wheel that trips you up, not the bench.",
    "plate-edge": "The rim behind the hole tears out when the wheel hits a threshold.",
    "unknown-hardware": "Its pack and price would be left out of the shopping list without a word.",
    "longer-than-stock": "You would notice at the shop's counter, or at the saw.",
    # solids, order, access
    "overlap": "The second of the two cannot be put in.",
    "notch-missing": "The panel stops short of its groove by the width of a clip.",
    "screws-meet": "The second screw stops on the first one and seems tight.",
    "nut-clash": "The nut stops there, and the bolt misses it.",
    "key-line-blocked": "A joint that cannot be tightened is held by friction alone.",
    "access-missing": "A joint that cannot be reached cannot be tightened.",
    "plate-over-access": "The joint works loose some day, and the plate must come off to tighten it.",
    "nuts-preload": "A forgotten nut means taking the frame apart again.",
    # nothing forgotten
    "tongue-without-groove": "The tongue stands in the way and holds nothing.",
    "edge-without-tongue": "The full thickness does not enter the slot.",
    "tongue-off-groove": "The panel is bent into its groove, or does not go in at all.",
    "tongue-shallow": "It leaves its groove when the wood shrinks or the frame is knocked.",
    "groove-too-short": "The rest of the edge hangs free.",
    "edge-unsupported": "A free edge rattles, bends and breaks.",
    "support-missing": "It would hang in the air.",
    "end-in-the-air": "A bar that is held at one end carries nothing.",
    "joint-without-fastener": "The two bars only touch.",
    "end-not-tapped": "The screw has nothing to go into, and the end is out of reach once the frame stands.",
    "screw-length": "Its point comes out on the show side, or into what you store.",
    "pocket-footprint": "The driver cannot be held straight there.",
}


def reason(code: str) -> str:
    """Why a finding of this code matters; empty for one that speaks for itself."""
    return REASONS.get(code, "")
