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
BUILD = """
import json, sys
from generator.manual import compile_loaded
from generator.spec.load import read_spec
files, findings = compile_loaded(read_spec(sys.argv[1], "b.yml"), "b.yml")
told = [finding.explained() for finding in findings]
shown = {p: d.decode() for p, d in files.items() if p.endswith((".md", ".json", ".html", ".csv"))}
json.dump({"files": shown, "findings": told}, sys.stdout)
"""


def built(
    copy: Path, modules: Mapping[str, Path], lines: Sequence[tuple[str, str, str]], spec: str
) -> Manual:
    """The manual of a spec by a copy that has the kind's modules, by their places, and its lines.

    A line is file, text as it stands there once, text as it becomes.
    """
    for folder in ("generator", "specs", "site_templates"):
        shutil.copytree(ROOT / folder, copy / folder, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", copy)
    for path, old, new in lines:
        text = (copy / path).read_text(encoding="utf-8")
        assert text.count(old) == 1, (path, old)
        (copy / path).write_text(text.replace(old, new), encoding="utf-8")
    for place, module in modules.items():
        shutil.copy(module, copy / place)
    done = subprocess.run(
        [sys.executable, "-c", BUILD, spec],
        cwd=copy,
        env={"PYTHONPATH": str(copy)},
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
