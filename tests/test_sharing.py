"""A build in two processes: the same bytes as in one, and never less than a whole manual."""

import pickle
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.codes import Code
from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.findings import Finding, Severity, SpecError
from generator.manual import Manual, compile_spec_file
from generator.prints.print import PrintOptions
from generator.sharing import second_process
from generator.spec.load import LoadedSpec, read_spec_file

STARTER = Path(__file__).resolve().parents[1] / "specs" / "starter.yml"
DEMO = STARTER.with_name("demo.yml")
PATIENCE = 300
"""Seconds after which the other process is taken for dead."""
FEW, LATER = ("openings-and-drawers", "checklist", "measure"), "glossary"


class Few(Manual):
    """A manual of few parts: the first is made by the other process, for this one waits for it."""

    jobs, later_jobs = FEW, (LATER,)
    taken_by: dict[str, str]

    def make(self, job: str) -> Any:
        begin = time.monotonic()
        while FEW[0] not in self.__dict__.setdefault("taken_by", {}) and time.monotonic() < begin + PATIENCE:
            time.sleep(0.01)
        return super().make(job)

    def take(self, job: str, made: Any) -> None:
        self.__dict__.setdefault("taken_by", {})[job] = threading.current_thread().name
        super().take(job, made)


@pytest.fixture(scope="module")
def starter(quick_plans: None) -> tuple[LoadedSpec, Figures]:
    loaded = read_spec_file(STARTER)
    return loaded, figures_of(loaded)[0]


def test_what_another_process_makes_is_what_this_one_makes(starter: tuple[LoadedSpec, Figures]) -> None:
    manual, alone = Few(*starter, "starter.yml"), Manual(*starter, "starter.yml")
    with second_process(2) as second:
        assert second and second.help(manual)
        assert manual.taken_by.keys() >= set(FEW), "all that the site waits for"
        assert second.finish()
    assert manual.taken_by.keys() == {*FEW, LATER}
    assert threading.current_thread().name not in (manual.taken_by[FEW[0]], manual.taken_by[LATER])
    for job in (*FEW, LATER):
        assert manual.make(job) == alone.make(job)
    made = alone.make(FEW[0])
    assert made.drawings, "a page with drawings is among them"
    for drawn in made.drawings:
        path = f"docs/drawings/{drawn.id}.svg"
        assert manual.file(path) == alone.file(path) == drawn.alone.encode()


def test_a_part_survives_its_way(starter: tuple[LoadedSpec, Figures]) -> None:
    """Whatever a process sends must be whole on the other side, papers too."""
    manual = Manual(*starter, "starter.yml")
    assert set(manual.jobs) > {"assembly/0", "index"}
    assert list(manual.later_jobs) == ["papers"]
    given = pickle.loads(pickle.dumps(manual.given))
    assert Manual(*given).make("working") == manual.make("working"), "numbers keep their working"


def test_the_assembly_is_the_same_from_shares(starter: tuple[LoadedSpec, Figures]) -> None:
    """Those that were drawn elsewhere, in any order, and those that nobody has drawn yet."""
    alone, there, here = (Manual(*starter, "starter.yml") for _ in range(3))
    shares = [job for job in there.jobs if job.startswith("assembly/")]
    assert len(shares) > 2
    for share in reversed(shares[1:]):
        here.take(share, pickle.loads(pickle.dumps(there.make(share))))
    assert here.make("assembly") == alone.make("assembly")
    assert len(alone.make("assembly").drawings) > len(shares)


def test_this_process_makes_what_another_did_not(starter: tuple[LoadedSpec, Figures]) -> None:
    class One(Manual):
        jobs, later_jobs = ("checklist", "glossary"), ("measure",)

    manual = One(*starter, "starter.yml")
    with second_process(2) as second:
        assert second
        second.end()
        assert not second.help(manual)
        assert not second.finish()
    assert all(manual.make(job).text for job in One.jobs)


def test_a_fault_in_a_part_is_told_as_in_one_process(starter: tuple[LoadedSpec, Figures]) -> None:
    class Faulty(Manual):
        jobs = ("what neither can make",)

        def make(self, job: str) -> Any:
            raise SpecError([Finding(Code.NO_FONT, Severity.ERROR, f"{job} is told")])

    assert not Manual(*starter, "starter.yml", PrintOptions(font=DEMO)).later_jobs, "a font may be none"
    with second_process(2) as second, pytest.raises(SpecError, match="neither can make is told"):
        assert second
        second.help(Faulty(*starter, "starter.yml"))


@pytest.mark.parametrize(
    ("given", "usual", "expected"), [([], 1, 1), ([], 2, 2), (["--processes", "1"], 2, 1)]
)
def test_a_user_can_ask_for_one_process(
    given: list[str], usual: int, expected: int, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    asked = []

    @contextmanager
    def second(processes: int) -> Iterator[None]:
        asked.append(processes)
        yield None

    # by its module: the package has the command under this name
    monkeypatch.setattr(sys.modules["generator.verbs.build"], "second_process", second)
    monkeypatch.chdir(tmp_path)
    assert main(["build", "nowhere.yml", *given], processes=usual) == 2
    assert asked == [expected]


def test_one_process_starts_no_other() -> None:
    with second_process(1) as second:
        assert second is None


@pytest.mark.thorough
def test_two_processes_give_the_bytes_of_one() -> None:
    loaded = read_spec_file(DEMO)
    manual = Manual(loaded, figures_of(loaded)[0], DEMO.name)
    with second_process(2) as second:
        assert second and second.help(manual) and second.finish()
    assert manual.files() == compile_spec_file(DEMO)
