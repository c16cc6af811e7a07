"""The guide's workflow file, run as it is: from a repository of specs to manuals that a web server shows."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

import pytest
import yaml

from generator.pages import guide
from generator.resources import bundled

ROOT = Path(__file__).resolve().parent.parent
#: As small as a bench can be.
BENCH = """spec: 1
title: One
bench: {length: 700, depth: 500, height: 800}
zones: [{name: front, bays: [{name: only}]}]
"""
#: The program with manuals of one page: what pages say is tested elsewhere.
SHORT = f"""#!{sys.executable}
import sys
sys.path.insert(0, {str(ROOT)!r})
from generator import gallery
from generator.cli import run
def short(loaded, figures, name, public=None):
    index = f"# {{loaded.spec.title}}\\n\\nrevision {{loaded.spec.revision.number}} at {{public.url}}\\n"
    return {{"mkdocs.yml": b"site_name: x\\ntheme: {{name: null, custom_dir: theme}}\\n",
             "theme/main.html": b"{{{{ page.content }}}}", "docs/index.md": index.encode()}}
gallery.compile_manual = short
run()
"""


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        pass


def git(*words: str, at: Path) -> str:
    who = ["-c", "user.name=Mara", "-c", "user.email=mara@example.org"]
    return subprocess.run(["git", *who, *words], cwd=at, check=True, capture_output=True, text=True).stdout


def push(work: Path, number: str) -> None:
    """A new revision of the bench, as its designer sends it."""
    (work / "specs").mkdir(exist_ok=True)
    (work / "specs" / "one.yml").write_text(f"{BENCH}revision: {{number: {number}}}\n", encoding="utf-8")
    (work / "specs" / "one.record.yml").write_text("- {date: 2026-11-03, note: begun}\n", encoding="utf-8")
    git("add", "-A", at=work)
    git("commit", "-qm", number, at=work)
    git("push", "-q", "origin", "HEAD:main", at=work)


def run_workflow(remote: Path, runner: Path, tools: Path) -> None:
    """What a host does at a push: a fresh copy of the repository, and the steps of the file in their order."""
    workflow = yaml.load((bundled("site_templates") / guide.WORKFLOW).read_text(), Loader=yaml.BaseLoader)
    git("clone", "-q", "--branch", "main", str(remote), str(runner), at=remote)
    environment = {**os.environ, **workflow["env"], "PATH": f"{tools}:{os.environ['PATH']}"}
    for step in workflow["jobs"]["manuals"]["steps"]:
        if "run" in step:
            done = subprocess.run(
                ["bash", "-e", "-c", step["run"]],
                cwd=runner,
                env=environment,
                capture_output=True,
                text=True,
                check=False,
            )
            assert done.returncode == 0, (step["name"], done.stdout, done.stderr)


def test_each_push_publishes_the_newest_manual_beside_the_earlier_ones(tmp_path: Path) -> None:
    tools, remote, work = tmp_path / "tools", tmp_path / "remote.git", tmp_path / "work"
    for folder in (tools, remote, work):
        folder.mkdir()
    for name, text in (
        ("bench-manual", SHORT),
        ("pipx", '#!/bin/sh\ntest "$1 $2" = "install ./bench-manual"\n'),
    ):
        (tools / name).write_text(text)
        (tools / name).chmod(0o755)
    git("init", "-q", "--bare", at=remote)
    git("init", "-q", "-b", "main", at=work)
    git("remote", "add", "origin", str(remote), at=work)
    for number in ("A", "B"):
        push(work, number)
        run_workflow(remote, tmp_path / f"runner-{number}", tools)
    git("clone", "-q", "--branch", "pages", str(remote), str(tmp_path / "host"), at=tmp_path)
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(tmp_path / "host"))) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()

        def shown(path: str) -> str:
            with urlopen(f"http://127.0.0.1:{server.server_port}/{path}") as answer:
                return str(answer.read().decode())

        index = shown("index.html")
        assert "one/all-revisions.html" in index
        (data,) = re.findall(r'<script type="application/ld\+json">(.*)</script>', index)
        (bench,) = json.loads(data)["hasPart"]
        assert (bench["@type"], bench["url"]) == ("HowTo", "https://example.org/benches/one/assembly.html")
        assert "revision B at https://example.org/benches/one/" in shown("one/index.html")
        assert "revision A" in shown("one/rev-a/index.html")
        assert "revision B" in shown("one/rev-b/index.html")
        assert shown("one/all-revisions.html").count("<li>") == 2
        assert "https://example.org/benches/" in shown("404.html")
        with pytest.raises(HTTPError):
            shown("one/rev-c/index.html")
        server.shutdown()
