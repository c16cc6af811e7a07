"""What holds for all tests, and what is made once for all of them."""

import os

# the matrices here are small: more threads than one for them only wait for each other, and every process of a run
# would have as many (numpy reads this when it is imported)
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import gc
import pickle
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path

import pytest
from hypothesis import settings

from generator.disk import locked
from generator.figures import sheet_cutting
from generator.manual import compile_spec_file
from generator.resources import bundled
from tests.effort import THOROUGH

# how long an example takes says nothing about what is tested, and much about what else the machine is doing
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


# as the commands have it: the figures that tests share are a large heap, and each search for garbage goes through it
gc.set_threshold(200_000, 20, 100)


class NamedAtOnce:
    """A failed test is named as soon as it fails: what stops the run before its end does not hide it."""

    def __init__(self, out: pytest.TerminalReporter) -> None:
        self.out = out

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.out.write_line(f"\nfailed: {report.nodeid}")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """What takes long and says little new at each run waits for a thorough one."""
    if not THOROUGH:
        waits = [item for item in items if item.get_closest_marker("thorough")]
        config.hook.pytest_deselected(items=waits)
        items[:] = [item for item in items if item not in waits]


def pytest_collection_finish() -> None:
    gc.freeze()  # all modules and all collected tests stay to the end


@pytest.hookimpl(trylast=True)  # the reporter comes in this hook too
def pytest_configure(config: pytest.Config) -> None:
    out = config.pluginmanager.get_plugin("terminalreporter")
    if out is not None and not hasattr(config, "workerinput"):
        config.pluginmanager.register(NamedAtOnce(out))


@pytest.fixture(scope="module")
def quick_plans() -> Iterator[None]:
    """Little effort for the plans of sheets: for laws of hundreds of benches that hold whatever is planned."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sheet_cutting, "BUDGET", sheet_cutting.BUDGET / 20)
        sheet_cutting.planned_once.cache_clear()
        yield
    sheet_cutting.planned_once.cache_clear()


@pytest.fixture(scope="session")
def of_this_run(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that all processes of this run of the tests share; whoever makes a thing there holds its lock."""
    own = tmp_path_factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "of-this-run"
    folder.mkdir(exist_ok=True)
    return folder


@pytest.fixture(scope="session")
def shipped(of_this_run: Path) -> Callable[[str], Mapping[str, bytes]]:
    """`shipped(name)` is the manual of a shipped spec: path -> bytes, compiled once for all tests."""

    @cache
    def compiled(name: str) -> Mapping[str, bytes]:
        kept = of_this_run / f"{name}.manual"
        with locked(kept):
            if not kept.exists():
                made = compile_spec_file(bundled("specs") / f"{name}.yml")
                kept.write_bytes(pickle.dumps(dict(made)))
            files: Mapping[str, bytes] = pickle.loads(kept.read_bytes())
        return files

    return compiled
