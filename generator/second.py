"""The second process of a build: a manual comes in, then the names of its parts; each part goes out as it is made."""

from __future__ import annotations

import gc
import os
import pickle
import sys
from contextlib import suppress
from typing import Any

import generator.writers.pdf  # noqa: F401  # read while the other process reads the spec
from generator.manual import Manual

GARBAGE = (200_000, 20, 100)
"""A manual is many small values that all live until it is made: to look for garbage more often takes long."""


def serve() -> None:
    """Make parts until no more is asked for. Whoever asks makes a part that fails itself, and tells why."""
    gc.set_threshold(*GARBAGE)
    back = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    sys.stdout = sys.stderr  # nothing but parts goes back
    given: tuple[Any, ...] = pickle.load(sys.stdin.buffer)
    manual = Manual(*given)
    with suppress(EOFError):
        while True:
            pickle.dump(manual.make(pickle.load(sys.stdin.buffer)), back, pickle.HIGHEST_PROTOCOL)
            back.flush()
