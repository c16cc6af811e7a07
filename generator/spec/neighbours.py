"""The specs of the benches that a spec joins: read from beside it, each with its own faults."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING

from generator.codes import Code
from generator.findings import Finding, Severity, SpecError
from generator.spec.reader import read_document
from generator.spec.text_file import read_text

if TYPE_CHECKING:
    from generator.spec.load import LoadedSpec

ENDINGS = (".yml", ".yaml")
BELOW = "the name of a spec file in the same folder, such as wing.yml"


def with_neighbours(
    loaded: LoadedSpec, text_of: Callable[[str], str], read: Callable[[str, str], LoadedSpec]
) -> LoadedSpec:
    """The spec with those that it joins. Raises SpecError with all their faults.

    `text_of` gives the text of a file beside the spec, or raises SpecError; `read` makes a spec of it. Of the other
    bench only its plan counts: what was measured at it is in its own manual.
    """
    found: dict[str, LoadedSpec] = {}
    faults: list[Finding] = []
    for number, each in enumerate(loaded.nominal.join):
        if not each.to or each.to in found:
            continue
        if not _is_beside(each.to):
            message = "this is not the name of a spec file in the same folder"
            path = ("join", number, "to")
            faults.append(loaded.fault(Code.OUTSIDE_THE_FOLDER, message, *path, found=each.to, allowed=BELOW))
            continue
        try:
            found[each.to] = read(text_of(each.to), each.to)
        except SpecError as error:
            faults += (_placed(loaded, number, each.to, fault) for fault in error.findings)
    if faults:
        raise SpecError(faults)
    return replace(loaded, neighbours=found)


def _placed(loaded: LoadedSpec, number: int, name: str, fault: Finding) -> Finding:
    """A fault of the other file, in its own place; of a file that cannot be read, at the key that names it."""
    if fault.where is not None:
        return fault
    where = loaded.where("join", number, "to")
    return replace(fault, severity=Severity.ERROR, where=where, found=fault.found or name)


def _is_beside(name: str) -> bool:
    """Whether it is a file name alone, on every system, with the ending of a spec."""
    plain = PurePosixPath(name)
    return plain.name == name and plain.suffix in ENDINGS and not set(name) & set("\\:")


def texts_in(folder: Path) -> Callable[[str], str]:
    """The texts of the files in a folder."""
    return lambda name: read_text(folder / name)


def neighbour_files(spec: Path) -> list[Path]:
    """The files of the specs that a spec file names now; none where it cannot be read."""
    try:
        joins = read_document(read_text(spec), spec.name).data.get("join")
    except SpecError:
        return []
    named = [each.get("to") for each in joins if isinstance(each, dict)] if isinstance(joins, list) else []
    return [spec.parent / name for name in dict.fromkeys(named) if isinstance(name, str) and _is_beside(name)]
