"""What the user did not say: defaults of the language, values of typical cards, constants of the trade."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import reduce
from itertools import chain
from typing import Any, cast

from pydantic import BaseModel

from generator.bench.fillings import FILLINGS
from generator.bench.frames import frame_kind
from generator.bench.frames.panels import FIXED, tongue_of, wall_names
from generator.bench.frames.trays import FIXED as TRAY_FIXED
from generator.bench.layout import CLAMP_GAP
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.fits import BOTTOM_CLEARANCE
from generator.calculators.tightening import usual_nut_force
from generator.figures.rows.spec import Assumption
from generator.figures.sway import target
from generator.spec.fields import Screw
from generator.spec.item import FromMemory
from generator.spec.load import LoadedSpec
from generator.spec.members import METAL, WEBS
from generator.spec.references import REFERENCES, SECTIONS

Assumed = str | Fraction | float | tuple[Fraction, ...]

DEFAULT = "default of the spec language"
_IDENTITY = (
    "designer",
    "licence",
    "revision.reason",
    "revision.date",
    "use",
    "label",
    "measured",
    "lot",
    "on_hand",
)
_NOTHING: tuple[object, ...] = (None, "", (), {})


def assumed(bench: Bench) -> tuple[Assumption, ...]:
    """Every value that the manual rests on and the spec does not state, in the order of the spec."""
    loaded = bench.loaded
    used = used_names(bench)
    rows = [*_defaults(bench, used), *_derived(bench), *_typical(loaded, used), *_constants(bench)]
    seen: dict[str, Assumption] = {}
    measured = {each.path for each in loaded.measured}
    for row in rows:
        if row.path not in measured:
            seen.setdefault(row.path, row)
    return tuple(seen.values())


def used_names(bench: Bench) -> set[tuple[str, str]]:
    """Entries of materials, hardware and totes that the bench really takes something from."""
    spec = bench.spec
    used = {("materials", part.material) for part in bench.parts}
    used |= {("hardware", joint.fastener) for joint in bench.joints}
    used |= {("hardware", lump.item) for lump in bench.stand.lumps}
    if bench.goods.profile is not None:
        used.add(("hardware", spec.frame.slot_nut))
    if spec.top.bracket:
        used.add(("hardware", spec.top.bracket))
    return used | {each for kind in FILLINGS for each in kind.uses(bench)}


def _unused_sections(bench: Bench) -> set[str]:
    read = {section for kind in FILLINGS if bench.storage.of(kind.placed) for section in kind.sections}
    return {*SECTIONS, "extra"} | {section for kind in FILLINGS for section in kind.sections} - read


def _defaults(bench: Bench, used: set[tuple[str, str]]) -> Iterator[Assumption]:
    spec = bench.spec
    skipped, silent = _unused_sections(bench), (*bench.stand.unused, *frame_kind(spec).unused)
    for path, value, why in _unset(spec, ""):
        if path.split(".")[0].split("[")[0] not in skipped and not path.startswith(silent):
            yield Assumption(path, value, why)
    for section in SECTIONS:
        for name, entry in getattr(spec, section).items():
            if (section, name) in used:
                for each in _unset(entry, f"{section}.{name}."):
                    yield Assumption(*each)


def _unset(node: BaseModel, prefix: str) -> Iterator[tuple[str, Assumed, str]]:
    """Key path, value, and why: a default of the language, unless its key says that it is no more than a guess."""
    for name, field in type(node).model_fields.items():
        path, value = prefix + name, getattr(node, name)
        if isinstance(value, BaseModel):
            yield from _unset(value, f"{path}.")
        elif isinstance(value, tuple) and value and isinstance(value[0], BaseModel):
            for index, item in enumerate(value):
                yield from _unset(item, f"{path}[{index}].")
        elif name not in node.model_fields_set and value not in _NOTHING and not _is_identity(path, name):
            guess = next((each.says for each in field.metadata if isinstance(each, FromMemory)), DEFAULT)
            yield path, _shown(value), guess


def _is_identity(path: str, name: str) -> bool:
    return path in _IDENTITY or name in _IDENTITY or path.endswith(".count")


def _shown(value: object) -> Assumed:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Fraction):
        return value
    if isinstance(value, Screw):
        return value.text
    if isinstance(value, tuple):
        return value if all(isinstance(item, Fraction) for item in value) else ", ".join(map(str, value))
    return value if isinstance(value, int | float) else str(value)


def _derived(bench: Bench) -> Iterator[Assumption]:
    loaded = bench.loaded
    spec = loaded.spec
    if spec.panels.tongue is None:
        why = f"longest that leaves {BOTTOM_CLEARANCE} mm under it in its groove"
        yield Assumption("panels.tongue", tongue_of(loaded), why)
    slot = loaded.goods.profile.slot if loaded.goods.profile else None
    if slot is not None and slot.nut_force is None:
        why = "usual for a lip of this thickness, from memory: the maker of the bar says it"
        path = f"materials.{spec.frame.material}.slot.nut_force"
        yield Assumption(path, usual_nut_force(slot.opening, slot.lip), why)
    if slot is not None:
        yield Assumption("metal of a bar, as a part of its square", METAL, "from memory")
        yield Assumption("webs of a bar, as a part of its metal", WEBS, "from memory")
    if spec.tray.end_rail_bottom is None:
        level = bench.layout.levels.end_rail_bottom
        yield Assumption("tray.end_rail_bottom", level, f"leaves a clamp gap of at least {CLAMP_GAP} mm")
    if spec.limits.sway is None:
        why = f"usual limit for {spec.user.work}, in proportion to the push"
        yield Assumption("limits.sway", target(spec), why)
    if spec.panels.walls is None:
        yield Assumption("panels.walls", ", ".join(wall_names(spec)), "usual walls for this number of zones")
    for each in REFERENCES:
        if each.default and not _is_written(loaded, each.steps):
            name: str = reduce(getattr, each.steps, cast(Any, spec))
            if name != each.default:
                yield Assumption(each.key, name, f"the first of its kind under `{each.section}`")
    for kind in FILLINGS:
        yield from (Assumption(*each) for each in kind.assumed(bench))


def _typical(loaded: LoadedSpec, used: set[tuple[str, str]]) -> Iterator[Assumption]:
    """Values that came from a typical card and that the spec itself does not write."""
    for (section, name), card in loaded.typical.items():
        if (section, name) not in used:
            continue
        entry = getattr(loaded.spec, section)[name]
        for path, value in _set_values(entry, (section, name)):
            if not _is_written(loaded, path) and loaded.measured_at(*path) is None:
                text = ".".join(str(step) for step in path)
                yield Assumption(text, _shown(value), f"typical card “{card}”: measure yours")


def _is_written(loaded: LoadedSpec, path: tuple[str | int, ...]) -> bool:
    here = loaded.document.data
    for step in path:
        if not isinstance(here, dict) or step not in here:
            return False
        here = here[step]
    return True


def _set_values(node: BaseModel, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], object]]:
    for name in type(node).model_fields:
        value = getattr(node, name)
        if name in ("kind", "use", "label", "stock", "measured") or value in _NOTHING:
            continue
        if isinstance(value, BaseModel):
            yield from _set_values(value, (*path, name))
        elif name in node.model_fields_set:
            yield (*path, name), value


def _constants(bench: Bench) -> Iterator[Assumption]:
    """Millimetres that no key changes: of the frame's boards, and of what fills the bays."""
    made = [kind.fixed for kind in FILLINGS if bench.storage.of(kind.placed)]
    pieces = TRAY_FIXED if len(bench.of(Role.TRAY)) > 1 else ()
    for what, value in (*FIXED, *pieces, *chain.from_iterable(made)):
        yield Assumption(what, Fraction(value), "fixed millimetres in any unit")
