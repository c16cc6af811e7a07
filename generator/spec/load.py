"""`read_spec`: text in, validated and located spec out, or every fault at once."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path as FilePath

from generator.findings import Finding, Severity, SpecError, Where
from generator.spec.cards import Completed, complete
from generator.spec.check import check_names
from generator.spec.faults import validate
from generator.spec.origins import with_origins
from generator.spec.reader import Document, read_document, read_text
from generator.spec.schema import Spec
from generator.units import INCH, format_mm


@dataclass(frozen=True)
class LoadedSpec:
    """A valid spec with the places of its keys. `typical` names the card under an entry of a section."""

    spec: Spec
    document: Document
    text: str
    checksum: str
    typical: Mapping[tuple[str, str], str]

    def where(self, *path: str | int) -> Where:
        """The place of a key path, or of its nearest ancestor that the spec writes."""
        return self.document.where(path)

    def say(self, length: Fraction) -> str:
        """A length for a message, in the spec's own unit and exact to a thousandth."""
        if self.spec.units == "in":
            return f"{format_mm(length / INCH, 3)} in"
        return f"{format_mm(length, 3)} mm"


def read_spec(text: str, file: str) -> LoadedSpec:
    """Read a spec. Raises SpecError with all faults; `file` is only named in them."""
    document = read_document(text, file)
    completed = complete(document.data)
    units = completed.data.get("units", "mm")
    context = {"units": units if units in ("mm", "in") else "mm"}
    findings = _unknown_cards(completed, document) + check_names(
        completed.data, document, {card.path[:2] for card in completed.unknown}
    )
    spec, faults = validate(completed.data, document, context)
    findings += faults
    if findings or spec is None:
        raise SpecError(sorted(findings, key=_in_file_order))
    checksum = hashlib.sha256(text.encode()).hexdigest()[:12]
    spec = with_origins(spec, document, completed.typical)
    return LoadedSpec(spec, document, text, checksum, completed.typical)


def read_spec_file(path: FilePath) -> LoadedSpec:
    """Read a spec from a file. Raises SpecError also when the file cannot be read."""
    return read_spec(read_text(path), path.name)


def _in_file_order(finding: Finding) -> tuple[int, int]:
    return (finding.where.line, finding.where.column) if finding.where else (0, 0)


def _unknown_cards(completed: Completed, document: Document) -> list[Finding]:
    return [
        Finding(
            "unknown-card",
            Severity.ERROR,
            "no typical data card of this name",
            document.where(card.path),
            found=card.name,
            allowed=", ".join(card.allowed),
            nearest=card.nearest,
        )
        for card in completed.unknown
    ]
