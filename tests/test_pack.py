"""The pack: a stranger unpacks it anywhere and builds the same manual, byte by byte."""

from __future__ import annotations

import hashlib
import io
import zipfile
from pathlib import Path

import pytest
from PIL import Image

from generator.manual import compile_spec_file
from generator.resources import bundled
from generator.writers.pack import pack


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A starter bench with a record, a large photo in a folder, and another name than the spec's."""
    folder = tmp_path_factory.mktemp("one shop") / "plans"
    (folder / "photos").mkdir(parents=True)
    exif = Image.Exif()
    exif[0x0112] = 6
    Image.linear_gradient("L").convert("RGB").resize((2000, 1200)).save(folder / "photos/a b.jpg", exif=exif)
    Image.new("RGB", (30, 20), "red").save(folder / "photos/plan.png")
    (folder / "my bench.yml").write_bytes((bundled("specs") / "starter.yml").read_bytes())
    (folder / "my bench.record.yml").write_text(
        "- {date: 2026-11-03, measured: {path: materials.ply-12.thickness, value: 11.8}}\n"
        "- {date: 2026-11-04, photo: {file: photos/a b.jpg, alt: The first end frame}}\n"
        "- {date: 2026-11-04, photo: {file: photos/plan.png, alt: A red board}, note: one of them}\n",
        encoding="utf-8",
    )
    return folder / "my bench.yml"


def test_a_stranger_builds_the_same_manual_elsewhere(bench: Path, tmp_path: Path) -> None:
    mine = compile_spec_file(bench)
    data = mine["docs/downloads/my-bench-pack.zip"]
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        archive.extractall(tmp_path / "far away")
    folder = tmp_path / "far away" / "my-bench"
    theirs = compile_spec_file(folder / "my-bench.yml")
    assert sorted(theirs) == sorted(mine)
    assert [name for name in mine if theirs[name] != mine[name]] == []  # the pack itself is among them
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert {
        "my-bench.yml",
        "my-bench.record.yml",
        "photos/a b.jpg",
        "photos/plan.png",
        "cards.yml",
        "figures.json",
        "cut-list.csv",
        "labels-A4.pdf",
        "README.txt",
    } <= names
    assert any(name.startswith("drawings/") for name in names)
    for line in (folder / "checksums.txt").read_text(encoding="utf-8").splitlines():
        digest, _, name = line.partition("  ")
        assert hashlib.sha256((folder / name).read_bytes()).hexdigest() == digest, name
    page = mine["docs/build-record.md"].decode()
    assert "![The first end frame](photos/001.jpg)" in page
    assert mine["docs/photos/001.jpg"] == (folder / "photos/a b.jpg").read_bytes()


def test_a_pack_does_not_know_when_or_in_which_order_it_was_made() -> None:
    files = {"b.txt": b"two", "a.txt": b"one"}
    assert pack(files, "x") == pack(dict(reversed(files.items())), "x")
    with zipfile.ZipFile(io.BytesIO(pack(files, "x"))) as archive:
        assert archive.namelist() == ["x/a.txt", "x/b.txt", "x/checksums.txt"]
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
