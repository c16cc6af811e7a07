"""The samples that come with the program, and one of them in another size and for other things."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.findings import dotted
from generator.resources import bundled
from generator.spec.adapt import adapted
from generator.spec.load import read_spec
from generator.spec.schema import BaySpec, Spec

#: Each with what it shows.
SAMPLES: Mapping[str, str] = {
    "wall-bench": "drawers with pulls, totes and a pull-out, on a plinth",
    "island": "worked at from two sides: doors, a rack, leg room",
    "cart": "on casters, in inches",
    "outfeed": "behind a saw: a mitre slot, an opening for a hose",
    "assembly": "a vise, dog holes, a top of two layers",
    "desk": "leg room, an edging, an oiled top",
    "joiner": "a frame of timber",
    "lumber": "a frame of lumber with laps and screws, in inches",
    "row": "benches that are bolted together in a row",
}
#: What is stored -> the stack of a bay, by the unit of the spec; `as it is` leaves the sample's own.
AS_IT_IS = "as it is"
STACKS: Mapping[str, Mapping[str, str]] = {
    "tools": dict.fromkeys(("mm", "in"), "[{drawer: share 2}, {drawer: share}]"),
    "boxes": {"mm": "[{shelf: 60}, {shelf: 300}]", "in": "[{shelf: 2 1/2}, {shelf: 12}]"},
    "sheets": dict.fromkeys(("mm", "in"), "[{rack: share, slots: 4}]"),
    "nothing": dict.fromkeys(("mm", "in"), "[]"),
}


def sample_text(name: str) -> str:
    """The text of a sample. Raises KeyError for a name that is none."""
    if name not in SAMPLES:
        raise KeyError(name)
    return (bundled("specs") / "samples" / f"{name}.yml").read_text(encoding="utf-8")


def sample_size(name: str) -> Mapping[str, str]:
    """Length, depth and height of a sample as its text says them, in its own unit."""
    document = read_spec(sample_text(name), f"{name}.yml").document
    return {key: str(document.data["bench"][key]) for key in ("length", "depth", "height")}


def like(name: str, size: Mapping[str, str], store: str = AS_IT_IS) -> str:
    """A sample with other outside sizes (`length`, `depth`, `height`), its bays for what is stored.

    Raises SpecError where a size is none. What comes back may still not fit: its checks say so.
    """
    text = sample_text(name)
    settings = [(f"bench.{key}", value) for key, value in size.items()]
    if store != AS_IT_IS:
        spec = read_spec(text, f"{name}.yml").spec
        settings += [(path, STACKS[store][spec.units]) for path in _stacks(spec)]
    return adapted(text, settings, f"{name}.yml")


def _stacks(spec: Spec) -> Iterator[str]:
    """The key of each bay's stack: of all that hold something."""
    for number, zone in enumerate(spec.zones):
        for index, bay in enumerate(zone.bays):
            if _holds(bay):
                yield dotted(("zones", number, "bays", index, "stack"))


def _holds(bay: BaySpec) -> bool:
    return bool(bay.stack) and not bay.knee
