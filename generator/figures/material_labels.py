"""What each material of a bench is called for its reader, by its name in the spec."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from generator.bench.model import Bench
from generator.spec.labels import material_label, sized


def material_labels(bench: Bench) -> Mapping[str, str]:
    """Name in the spec -> what it is, for all that parts are cut from.

    Two materials of one label keep their names behind it. What is no material of the spec says itself what it is, and
    has the thickness of its pieces before it.
    """
    spec, labels = bench.spec, {}
    for name, part in {part.material: part for part in reversed(bench.parts)}.items():
        entry = spec.materials.get(name)
        thin = min(side.size for side in (part.box.x, part.box.y, part.box.z))
        labels[name] = material_label(entry, spec.units) if entry else sized(thin, name, spec.units)
    shared = {label for label, count in Counter(labels.values()).items() if count > 1}
    return {name: f"{label} ({name})" if label in shared else label for name, label in labels.items()}
