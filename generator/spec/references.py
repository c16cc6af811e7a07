"""Where a spec names its goods: the keys that take a name, what each may name, and which name is the default."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from generator.spec.bracing import REFERENCES as BRACING_REFERENCES
from generator.spec.edge_bands import REFERENCES as BAND_REFERENCES
from generator.spec.fillings.doors import REFERENCES as DOOR_REFERENCES
from generator.spec.frames import REFERENCES as FRAME_REFERENCES
from generator.spec.joining import REFERENCES as NEIGHBOUR_REFERENCES
from generator.spec.joints import KINDS as JOINING
from generator.spec.services import REFERENCES as SERVICE_REFERENCES
from generator.spec.stands import REFERENCES as STAND_REFERENCES
from generator.spec.tops import REFERENCES as TOP_REFERENCES

Path = tuple[str | int, ...]


@dataclass(frozen=True)
class Reference:
    """A key that names an entry of `section`. No `kinds` means any kind; no `default`, that it may be left out.

    What a key names for itself `alone` is no default of another key: nobody buys oak for strips behind slides.
    """

    key: str
    section: str
    kinds: tuple[str, ...] = ()
    default: str = ""
    alone: bool = False

    @property
    def steps(self) -> tuple[str, ...]:
        """The key, step by step; `*` is any entry of a list or group."""
        return tuple(self.key.split("."))


REFERENCES: tuple[Reference, ...] = (
    Reference("frame.material", "materials", ("profile",), "bar"),
    *(Reference(*each) for each in FRAME_REFERENCES),
    Reference("frame.joints.default", "hardware", JOINING, "end-clip"),
    Reference("frame.joints.long_rails_to_corner_posts", "hardware", JOINING, "through-screw"),
    Reference("frame.joints.inner_post_tops", "hardware", JOINING, "through-screw"),
    Reference("frame.slot_nut", "hardware", ("slot nut",), "slot-nut"),
    *(Reference(*each) for each in BRACING_REFERENCES),
    Reference("zones.*.bays.*.stack.*.totes", "totes"),
    Reference("panels.material", "materials", ("sheet",), "ply-12"),
    Reference("panels.boards.*", "materials", ("sheet",), alone=True),
    Reference("tray.material", "materials", ("sheet",), "ply-12"),
    Reference("tray.trim", "materials", ("angle",)),
    Reference("drawers.slide", "hardware", ("slide",), "slide"),
    Reference("drawers.box", "materials", ("sheet",), "ply-12"),
    Reference("drawers.bottom", "materials", ("sheet",), "ply-6"),
    Reference("drawers.front", "materials", ("sheet",), "ply-18"),
    Reference("drawers.pull", "hardware", ("pull", "edge grip")),
    Reference("drawers.packing", "materials", ("strip",), "poplar-20"),
    Reference("shelves.material", "materials", ("sheet",), "ply-18"),
    Reference("shelves.cleat", "materials", ("strip",), "poplar-20"),
    *(Reference(*each) for each in DOOR_REFERENCES),
    *(Reference(*each) for each in BAND_REFERENCES),
    *(Reference(*each) for each in SERVICE_REFERENCES),
    *(Reference(*each) for each in NEIGHBOUR_REFERENCES),
    Reference("totes.*.runner", "materials", ("strip",)),
    Reference("top.material", "materials", ("sheet",), "mdf-18"),
    Reference("top.bracket", "hardware", ("bracket",)),
    *(Reference(*each) for each in TOP_REFERENCES),
    *(Reference(*each) for each in STAND_REFERENCES),
    Reference("extra.panels.*.material", "materials", ("sheet",)),
)

#: Sections whose entries are goods with names of their own.
SECTIONS = tuple(dict.fromkeys(each.section for each in REFERENCES))


def values(here: Any, pattern: tuple[str, ...], path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every value that data or a spec have at a key, with its path."""
    if not pattern:
        yield path, here
        return
    step, rest = pattern[0], pattern[1:]
    if step == "*":
        pairs = (
            here.items()
            if isinstance(here, dict)
            else enumerate(here)
            if isinstance(here, list | tuple)
            else ()
        )
        for key, value in pairs:
            yield from values(value, rest, (*path, key))
    elif isinstance(here, dict) and step in here:
        yield from values(here[step], rest, (*path, step))
    elif isinstance(here, BaseModel) and step in type(here).model_fields:
        yield from values(getattr(here, step), rest, (*path, step))


def kind_of(entry: Any) -> str:
    """The kind of an entry; empty when it has none, which is a fault of its own."""
    return str(entry.get("kind") or "") if isinstance(entry, dict) else ""


def own_goods(
    data: Mapping[str, Any], standard: Mapping[str, Mapping[str, Any]], own: Mapping[str, Mapping[str, Any]]
) -> Iterator[tuple[Reference, str]]:
    """Keys that the spec leaves out and whose default name does not answer, with the name that does.

    `standard` are the cards behind the default names, `own` the entries that the spec writes, by section. What it
    names wins over a standard card: the first of that kind. Only of sheets there are several standard cards, so that
    none can be meant. The name is empty where the spec gives the default name to goods of another kind and has none
    of this kind: then the standard card needs a name of its own.
    """
    asked = (values(data, each.steps) for each in REFERENCES if each.alone)
    alone = {name for found in asked for _, name in found if isinstance(name, str)}
    for each in REFERENCES:
        kind = kind_of(standard[each.section].get(each.default))
        entries = own.get(each.section, {})
        of_default = kind_of(entries.get(each.default))
        if not kind or of_default in each.kinds or any(values(data, each.steps)):
            continue
        named = (name for name, entry in entries.items() if kind_of(entry) == kind and name not in alone)
        name = next(named, "")
        if name and kind != "sheet":
            yield each, name
        elif of_default:
            yield each, ""
