"""What a spec names and nothing uses: each with the key that could use it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.codes import Code
from generator.figures.rows.hardware import HardwareRow
from generator.findings import Finding, Severity, nearest, one_of
from generator.spec.load import LoadedSpec
from generator.spec.references import REFERENCES, Reference, values

#: Sections of named goods, and what one of them is called.
_SECTIONS = {"materials": "material", "hardware": "piece of hardware", "totes": "tote"}
#: What the reader writes for the key of each reference that has no fixed place.
_ANYWHERE = {
    "zones.*.bays.*.stack.*.totes": "`{{totes: {name}}}` in the `stack` of a bay",
    "services.*.item": "`item: {name}` in an entry of `services`",
    "join.*.bolt": "`bolt: {name}` in an entry of `join`",
}


def unused(loaded: LoadedSpec, rows: Sequence[HardwareRow]) -> tuple[Finding, ...]:
    """A warning for every name that the spec gives and nothing takes up: goods and packs."""
    return (*_goods(loaded), *_packs(loaded, rows))


def _goods(loaded: LoadedSpec) -> Iterator[Finding]:
    spec = loaded.spec
    for section, what in _SECTIONS.items():
        own = [each for each in REFERENCES if each.section == section]
        used = {name for each in own for _, name in values(spec, each.steps)}
        for name, entry in getattr(spec, section).items():
            if name in used or (section, name) not in loaded.document.places:
                continue
            kind = getattr(entry, "kind", what)
            fits = [each for each in own if not each.kinds or kind in each.kinds]
            yield Finding(
                Code.UNUSED_NAME,
                Severity.WARNING,
                f"the bench does not use this {kind}",
                loaded.where(section, name),
                found=name,
                advice=f"Write {_place(loaded, fits, section, name)}, or delete the entry.",
            )


def _place(loaded: LoadedSpec, fits: Sequence[Reference], section: str, name: str) -> str:
    """Where to write the name: the keys that now take the same typical card before all others of the kind."""
    fixed = [each for each in fits if "*" not in each.steps]
    if not fixed:
        return next(text.format(name=name) for key, text in _ANYWHERE.items() if key in {e.key for e in fits})
    # a key of a group that the spec leaves out is no place for a name, unless there is no other
    fixed = [each for each in fixed if _named(loaded, each)] or fixed
    card = loaded.typical.get((section, name))
    alike = [each for each in fixed if card and _card(loaded, each) == card]
    first, *others = alike or fixed
    also = f" (or {', '.join(each.key for each in others)})" if others else ""
    return f"`{first.key}: {name}`{also}"


def _card(loaded: LoadedSpec, reference: Reference) -> str:
    """The typical card under what a key takes now; empty for goods of the spec's own."""
    (name,) = _named(loaded, reference) or ("",)
    return loaded.typical.get((reference.section, str(name)), "")


def _named(loaded: LoadedSpec, reference: Reference) -> tuple[object, ...]:
    """What a key names now; nothing where the spec leaves its group out."""
    return tuple(name for _, name in values(loaded.spec, reference.steps))


def _packs(loaded: LoadedSpec, rows: Sequence[HardwareRow]) -> Iterator[Finding]:
    names = [row.item for row in rows]
    for name in loaded.spec.packs:
        if name not in names:
            yield Finding(
                Code.UNKNOWN_HARDWARE,
                Severity.WARNING,
                "this bench has no hardware with this name",
                loaded.where("packs", name),
                found=name,
                allowed=one_of(names),
                nearest=nearest(name, names),
                advice="Or delete the entry.",
            )
