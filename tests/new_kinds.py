"""A copy of the program with a kind that nobody knows, and the manual that it builds."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

#: Files by their paths, and what is found.
Manual = dict[str, Any]

ROOT = Path(__file__).parents[1]
#: The folders that a copy has of the program.
COPIED = ("generator", "specs", "site_templates")
BUILD = """
import json, sys
from generator.manual import compile_loaded
from generator.spec.load import read_spec
files, findings = compile_loaded(read_spec(sys.argv[1], "b.yml"), "b.yml")
told = [finding.explained() for finding in findings]
shown = {p: d.decode() for p, d in files.items() if p.endswith((".md", ".json", ".html", ".csv"))}
json.dump({"files": shown, "findings": told}, sys.stdout)
"""


def program_with(copy: Path, modules: Mapping[str, Path], lines: Sequence[tuple[str, str, str]]) -> Path:
    """A copy of the program with the kind's modules, by their places, and its lines.

    A line is file, text as it stands there once, text as it becomes.
    """
    for folder in COPIED:
        shutil.copytree(ROOT / folder, copy / folder, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", copy)
    for path, old, new in lines:
        text = (copy / path).read_text(encoding="utf-8")
        assert text.count(old) == 1, (path, old)
        (copy / path).write_text(text.replace(old, new), encoding="utf-8")
    for place, module in modules.items():
        shutil.copy(module, copy / place)
    return copy


def changed(program: Path) -> set[str]:
    """Files of a copy that the program does not have, or has otherwise."""

    def before(path: Path) -> bytes:
        old = ROOT / path.relative_to(program)
        return old.read_bytes() if old.exists() else b""

    return {
        path.relative_to(program).as_posix()
        for folder in COPIED
        for path in (program / folder).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts and path.read_bytes() != before(path)
    }


def built(program: Path, spec: str) -> Manual:
    """The manual of a spec by a copy of the program."""
    done = subprocess.run(
        [sys.executable, "-B", "-c", BUILD, spec],
        cwd=program,
        env={"PYTHONPATH": str(program)},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode()
    found: Manual = json.loads(done.stdout)
    return found


def pages_of(manual: Manual) -> dict[str, str]:
    """Each page by its name, without what marks terms and figures."""
    names = {path: text for path, text in manual["files"].items() if path.endswith(".md")}
    return {
        Path(path).stem: re.sub(r"\[([^]]*)\]\([^)]*\)(\{[^}]*\})?", r"\1", t) for path, t in names.items()
    }
