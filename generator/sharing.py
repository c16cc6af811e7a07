"""A second process that makes parts of a manual: where there are two cores, a build is done sooner.

It is started before all else and reads the program while this one reads the spec. The largest parts are taken first,
from both ends of the list, so that both end together. What the site only links to is made by the second process while
this one builds the site. Whatever it fails to make, this process makes: a fault in a part is told as it is without a
second process, and nothing of a half-made manual is ever written.
"""

from __future__ import annotations

import json
import os
import pickle
import subprocess
import sys
from collections import deque
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from threading import Event, Thread
from typing import IO, TYPE_CHECKING

if TYPE_CHECKING:
    from generator.manual import Manual

_START = (
    "import json, sys; sys.path[:] = json.loads(sys.argv[1]); from generator.second import serve; serve()"
)
"""What the second process runs: the program from the same places, on every system in the same way."""


def cores() -> int:
    """How many processes the machine lets this one have at a time."""
    if sys.platform == "linux":
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def second_process(processes: int) -> Iterator[Second | None]:
    """A second process for the time of a build; none when one process is to do it all, or when none can be started."""
    second = None
    if processes > 1:
        with suppress(OSError):
            second = Second()
    try:
        yield second
    finally:
        if second:
            second.end()


class Second:
    """The other process, as this one sees it."""

    def __init__(self) -> None:
        self._failed = False
        self._given_out = Event()
        """No part that the site waits for is at the other process any more."""
        self._leading: Thread | None = None
        pipe = subprocess.PIPE
        self._process = subprocess.Popen(
            [sys.executable, "-c", _START, json.dumps(sys.path)],
            stdin=pipe,
            stdout=pipe,
            stderr=subprocess.DEVNULL,
        )

    def help(self, manual: Manual) -> bool:
        """Make every part of a manual that its site waits for, this process and the other one.

        The other one goes on with what comes later: `finish` waits for it. False when the other one ended early.
        """
        waiting = deque(manual.jobs)
        self._leading = Thread(target=self._lead, args=(manual, waiting))
        self._leading.start()
        _make(manual, waiting)
        self._given_out.wait()
        # what the other one had begun when it ended
        _make(manual, waiting)
        return not self._failed

    def finish(self) -> bool:
        """Wait until the other one has made all that it can make; False when it ended early."""
        if self._leading:
            self._leading.join()
        return not self._failed

    def end(self) -> None:
        """End the other process, whatever it does."""
        self._process.kill()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe:
                with suppress(OSError):
                    pipe.close()
        self._process.wait()

    def _lead(self, manual: Manual, waiting: deque[str]) -> None:
        """Give the other process one part after the other, from the front, and take what it made."""
        to, back = self._process.stdin, self._process.stdout
        assert to and back
        job: str | None = None
        try:
            _send(to, manual.given)
            while job := _taken(waiting.popleft):
                _send(to, job)
                manual.take(job, pickle.load(back))
            self._given_out.set()
            for later in manual.later_jobs:
                _send(to, later)
                manual.take(later, pickle.load(back))
        except Exception:
            self._failed = True
            if job:
                waiting.append(job)
        finally:
            self._given_out.set()


def _make(manual: Manual, waiting: deque[str]) -> None:
    while job := _taken(waiting.pop):
        manual.take(job, manual.make(job))


def _taken(take: Callable[[], str]) -> str | None:
    """The next part, if the other side has left one."""
    try:
        return take()
    except IndexError:
        return None


def _send(pipe: IO[bytes], value: object) -> None:
    pickle.dump(value, pipe, pickle.HIGHEST_PROTOCOL)
    pipe.flush()
