"""The steps of the assembly that place parts, by their stable keys and in the reader's words."""

from __future__ import annotations

from generator.bench.fillings import FILLINGS
from generator.bench.place import ENDS
from generator.bench.stands import STANDS

_OF_END_FRAME = {
    "ring": "lower members",
    "panels": "panels",
    "clips": "fasteners on the ends of the bars",
    "posts": "corner posts",
    "top": "top end member",
}
_NAMES = {
    "cross": "posts on the cross-members",
    "rails": "base rails and cross-members",
    "posts": "front and rear posts",
    "knee-posts": "posts beside the leg room",
    "extra": "extra members",
    "divider": "dividers",
    "spine-panel": "spine panels",
    "back-panel": "back panels",
    "extra-panels": "extra panels",
    "close-left": "left end frame on",
    "close-right": "right end frame on",
    "tray-fix": "trim of the tray",
    "grid": "top grid, flat",
    "lid": "top grid on",
    **{key: name for kind in FILLINGS for key, name in kind.step_names.items()},
    **{kind.step_key: kind.motion for kind in STANDS},
    "top": "top board",
    **{f"{end}-{key}": f"{end} end frame: {name}" for end in ENDS for key, name in _OF_END_FRAME.items()},
}


def step_name(key: str) -> str:
    """A step in the reader's words."""
    return _NAMES.get(key, key)
