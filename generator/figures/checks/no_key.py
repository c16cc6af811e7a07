"""Checks that no single key of the spec cures, and why: their advice says what to do instead."""

from __future__ import annotations

from collections.abc import Mapping

_HOUSE = "guards the tool's own work: no spec that passes the others provokes it, and no key cures it"
_PLACED = "only a bar or board that the spec places under `extra` can be so: its place decides"
_MEASURE = "the goods were measured or copied wrongly: only measuring them again tells the value"
_GOODS = "which goods to take instead is a choice among cards, and more than one value changes with it"
_WORK = "says how the work is done or the bench is used: there is nothing to change in the spec"

#: Codes that no key cures, and why.
NO_KEY: Mapping[str, str] = {
    **dict.fromkeys(
        ("access-missing", "end-not-tapped", "joint-without-fastener", "notch-missing", "support-missing",
         "tongue-off-groove", "tongue-shallow", "tongue-without-groove", "edge-without-tongue", "groove-too-short",
         "plate-without-bar"), _HOUSE,
    ),
    **dict.fromkeys(("caster-holes", "slide-hole", "tote-body", "tote-rim-height", "wheel-height"), _MEASURE),
    **dict.fromkeys(
        ("bolt-mouth", "bore-thread", "bush-cutter", "caster-on-plate", "clip-mouth", "clip-undercut", "plate-thread",
         "relief-wide", "slide-rating", "thread-deep", "threads-meet"), _GOODS,
    ),
    **dict.fromkeys(("end-in-the-air", "edge-unsupported", "overlap", "nut-clash"), _PLACED),
    **dict.fromkeys(
        ("drawers-open", "lift-weight", "door-bench", "door-parts", "nuts-preload", "pocket-footprint",
         "plate-over-access", "shelf-tilt", "shelf-lands"), _WORK,
    ),
    "no-holes": "pitch, edge and the bars below share in it: which of them gives way is the maker's choice",
    "groove-place": "the groove's height and the lowest front share in it, drawer by drawer",
    "tips-by-pull": "depth, casters, load and ballast share in it: no single value follows from the check",
    "drawer-tips": "depth, travel, load and ballast share in it: no single value follows from the check",
    "order-blocked": "joints, walls and places share in it: the finding names what blocks what",
    "key-line-blocked": "joints and places share in it: the finding names what bars the key",
    "screws-meet": "which of the two members gets another joint is a choice of the maker",
    "clips-back-to-back": "which of the two members gets another joint is a choice of the maker",
}  # fmt: skip
