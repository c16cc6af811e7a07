"""The files of `cuts`: cutting problems and benches, read with all faults of all files at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from generator.figures.cut_demands import Demand
    from generator.findings import Finding
    from generator.spec.cut_problem import CutProblem
    from generator.spec.offcut_store import OffcutStore


@dataclass(frozen=True)
class CutFiles:
    """What the files ask for, in their order, and what is to be said about them."""

    demands: tuple[Demand, ...]
    """Of all files; none where one cutting problem is alone."""
    findings: tuple[Finding, ...]
    problem: CutProblem | None = None
    """The cutting problem, where one file alone was named and is one, without a store."""
    store: OffcutStore | None = None
    store_before: str = ""
    """The text of the store."""

    @property
    def units(self) -> str:
        """The units of the first file."""
        return self.demands[0].problem.units if self.demands else "mm"


def read_cut_files(files: Sequence[Path], store: Path | None = None) -> CutFiles:
    """Read all files and the store of off-cuts. Raises SpecError with the faults of all of them."""
    from generator.disk import readable
    from generator.findings import Finding, SpecError
    from generator.offcut_file import stored_text
    from generator.spec.cut_form import NEEDS
    from generator.spec.cut_problem import read_cut_problem
    from generator.spec.offcut_store import read_store
    from generator.spec.reader import read_document
    from generator.spec.text_file import read_text

    demands: list[Demand] = []
    findings: list[Finding] = []
    faults: list[Finding] = []
    problem: CutProblem | None = None
    shown = _shown(files)
    alone = len(files) == 1 and store is None
    for path, source in zip(files, _sources(files), strict=True):
        try:
            text = read_text(path)
            document = read_document(text, shown[path], start=NEEDS)
            if "spec" in document.data:
                for found in _of_bench(path, shown[path], source):
                    (findings if isinstance(found, Finding) else demands).append(found)  # type: ignore[arg-type]
            else:
                problem = read_cut_problem(text, shown[path])
                if not alone:
                    demands.append(_of_problem(problem, source))
        except SpecError as error:
            faults += error.findings
    before, offcuts = "", None
    if store is not None:
        try:
            before = stored_text(store)
            offcuts = read_store(before, readable(store.name))
        except SpecError as error:
            faults += error.findings
    if faults:
        raise SpecError(faults)
    return CutFiles(tuple(demands), tuple(findings), problem if alone else None, offcuts, before)


def _of_problem(problem: CutProblem, source: str) -> Demand:
    """The demand of a cutting problem."""
    from generator.figures.cut_demands import problem_demand  # knows benches: half of the start of `cuts`

    return problem_demand(source, problem)


def _of_bench(path: Path, shown: str, source: str) -> list[Demand | Finding]:
    """The demands of a bench, and what is wrong with its sizes."""
    from generator.bench.solve import solve
    from generator.figures.cut_demands import bench_demands
    from generator.spec.load import read_spec_file

    bench = solve(read_spec_file(path, shown))
    return [*bench.findings, *bench_demands(source, bench)]


def _shown(files: Sequence[Path]) -> dict[Path, str]:
    """The name of each file in messages: its own, or its whole path where two have one name."""
    from generator.disk import readable

    names = Counter(path.name for path in dict.fromkeys(files))
    return {path: readable(path.name if names[path.name] == 1 else str(path)) for path in files}


def _sources(files: Sequence[Path]) -> list[str]:
    """What the pieces of each file bear: its name without ending, made distinct where two are the same."""
    from generator.disk import readable

    stems = Counter(path.stem for path in dict.fromkeys(files))
    sources: list[str] = []
    for path in files:
        name = readable(path.stem if stems[path.stem] == 1 else str(path.with_suffix("")))
        again = sum(each == path for each in files[: len(sources)])
        sources.append(f"{name}#{again + 1}" if again else name)
    return sources
