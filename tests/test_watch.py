"""What a writer saves is seen once, and whole."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

import pytest

from generator.watch import Watch

LONG = 30.0


@pytest.fixture
def waiting() -> Iterator[Callable[[Watch], Future[None]]]:
    """`waiting(watch)` is done once the watch has seen something."""
    with ThreadPoolExecutor() as pool:
        yield lambda watch: pool.submit(watch.wait)


def test_a_change_is_seen_once(tmp_path: Path, waiting: Callable[[Watch], Future[None]]) -> None:
    spec, record = tmp_path / "a.yml", tmp_path / "a.record.yml"
    spec.write_text("one", encoding="utf-8")
    watch = Watch([spec, record])
    seen = waiting(watch)
    spec.write_text("one", encoding="utf-8")  # saved again, and nothing changed
    assert not seen.done()
    spec.write_text("two", encoding="utf-8")
    seen.result(LONG)

    seen = waiting(watch)
    record.write_text("new", encoding="utf-8")
    seen.result(LONG)

    seen = waiting(watch)
    other = tmp_path / "saved-by-replacing"
    other.write_text("three", encoding="utf-8")
    other.replace(spec)
    seen.result(LONG)


@pytest.mark.parametrize("gone", [False, True], ids=["emptied", "taken away"])
def test_the_first_stroke_of_a_save_is_not_taken_for_it(
    tmp_path: Path, waiting: Callable[[Watch], Future[None]], gone: bool
) -> None:
    spec = tmp_path / "a.yml"
    spec.write_text("one", encoding="utf-8")
    seen = waiting(Watch([spec], emptied=LONG))
    if gone:
        spec.unlink()
    else:
        spec.write_text("", encoding="utf-8")
    threading.Event().wait(0.2)
    assert not seen.done()
    spec.write_text("two", encoding="utf-8")
    seen.result(LONG / 2)


def test_a_file_that_stays_empty_counts(tmp_path: Path, waiting: Callable[[Watch], Future[None]]) -> None:
    spec = tmp_path / "a.yml"
    spec.write_text("one", encoding="utf-8")
    seen = waiting(Watch([spec], emptied=0.0))
    spec.unlink()
    seen.result(LONG)
