"""What a piece is for: by this it is found, never by the words of its group."""

from __future__ import annotations

from enum import Enum


class Role(Enum):
    """The part that a piece plays in the bench; the value is what its group is called in the figures."""

    CORNER_POST = "corner post"
    LONG_RAIL = "long rail"
    BASE_CROSS_MEMBER = "base cross-member"
    TOP_CROSS_MEMBER = "top cross-member"
    BASE_END_MEMBER = "base end member"
    TRAY_END_RAIL = "tray end rail"
    TOP_END_MEMBER = "top end member"
    INNER_POST = "inner post"
    KNEE_POST = "knee post"
    """A post beside leg room: it runs down to the underside of the frame, because no base rail is below it."""
    END_SPINE_POST = "end spine post"
    EXTRA_MEMBER = "extra member"
    DIVIDER = "divider"
    END_PANEL = "end panel"
    SPINE_PANEL = "spine panel"
    BACK_PANEL = "back panel"
    TRAY = "tray"
    TRAY_TRIM = "tray trim"
    EXTRA_PANEL = "extra panel"
    PACKING_STRIP = "packing strip"
    TOTE_RUNNER = "tote runner"
    SHELF_CLEAT = "shelf cleat"
    SHELF = "shelf"
    DRAWER_SIDE = "drawer side"
    DRAWER_END = "drawer front and back"
    DRAWER_BOTTOM = "drawer bottom"
    DRAWER_FACE = "drawer face"
    FILLING = "filling"
    """A piece of what fills a bay; its kind says what it is called."""
    TOP = "top"
    TOP_EDGING = "top edging"
    STAND = "stand"
    """A plate of what the bench stands on; its kind says what it is called."""


#: The pieces of a drawer, in the order in which its box is put together.
DRAWER = (Role.DRAWER_SIDE, Role.DRAWER_END, Role.DRAWER_BOTTOM, Role.DRAWER_FACE)
#: What is fixed to a wall, to carry something.
STRIPS = (Role.PACKING_STRIP, Role.TOTE_RUNNER, Role.SHELF_CLEAT)
