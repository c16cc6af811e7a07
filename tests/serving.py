"""`serve` as a writer runs it: a process of its own, ended as from a keyboard."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent


@dataclass
class Served:
    """A running `serve`: its address, what it said, and its spec."""

    url: str
    said: list[str]
    errors: str = ""

    def get(self, path: str) -> str:
        with urllib.request.urlopen(self.url + path, timeout=30) as answer:
            body: bytes = answer.read()
            return body.decode()

    def state(self, seen: int = 0) -> dict[str, Any]:
        state: dict[str, Any] = json.loads(self.get(f"live?seen={seen}"))
        return state


@contextmanager
def serving(spec: Path, *options: str) -> Iterator[Served]:
    code = "from generator.cli import run; run()"
    process = subprocess.Popen(
        [sys.executable, "-c", code, "serve", str(spec), "--port", "0", *options],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout
    try:
        said = [process.stdout.readline() for _ in range(2 if "--lan" in options else 1)]
        assert said[0].startswith("Serving http://127.0.0.1:"), said
        served = Served(said[0].split()[1], said)
        yield served
    finally:
        process.send_signal(signal.SIGINT)
        _, errors = process.communicate(timeout=20)
    served.errors = errors
    assert process.returncode == 0
