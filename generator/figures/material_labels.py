"""What each material of a bench is called for its reader, by its name in the spec."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from generator.bench.model import Bench
from generator.spec.labels import material_label


def material_labels(bench: Bench) -> Mapping[str, str]:
    """Name in the spec -> what it is, for all that parts are cut from.

    Two materials of one label keep their names behind it. What is no material of the spec says itself what it is.
    """
    spec, labels = bench.spec, {}
    for name in dict.fromkeys(part.material for part in bench.parts):
        entry = spec.materials.get(name)
        labels[name] = material_label(entry, spec.units) if entry else name
    shared = {label for label, count in Counter(labels.values()).items() if count > 1}
    return {name: f"{label} ({name})" if label in shared else label for name, label in labels.items()}
