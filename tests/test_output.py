"""Folders that are written: only real changes reach the disk, and what is not ours stays as it is."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import suppress
from itertools import count
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from generator.output import MANIFEST, MARK, FolderError, claimed, require_claimable, write_changed

PAGES = {"mkdocs.yml": b"site_name: x\n", "docs/index.md": b"# One\n", "docs/parts/a1.md": b"# A1\n"}


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path.name != MANIFEST
    }


def test_a_first_run_writes_all(tmp_path: Path) -> None:
    assert write_changed(PAGES, tmp_path / "new" / "pages") == (3, 0)
    assert tree(tmp_path / "new" / "pages") == PAGES


def test_equal_bytes_are_not_touched(tmp_path: Path) -> None:
    write_changed(PAGES, tmp_path)
    before = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")}
    assert write_changed(PAGES, tmp_path) == (0, 3)
    assert {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*")} == before


def test_only_the_changed_file_is_written(tmp_path: Path) -> None:
    write_changed(PAGES, tmp_path)
    untouched = (tmp_path / "mkdocs.yml").stat().st_mtime_ns
    assert write_changed({**PAGES, "docs/index.md": b"# Two\n"}, tmp_path) == (1, 2)
    assert (tmp_path / "docs/index.md").read_bytes() == b"# Two\n"
    assert (tmp_path / "mkdocs.yml").stat().st_mtime_ns == untouched


def test_a_file_edited_by_hand_is_made_right_again(tmp_path: Path) -> None:
    write_changed(PAGES, tmp_path)
    (tmp_path / "docs/index.md").write_text("scribble", encoding="utf-8")
    assert write_changed(PAGES, tmp_path) == (1, 2)
    assert tree(tmp_path) == PAGES


def test_what_is_no_longer_part_goes_and_foreign_files_stay(tmp_path: Path) -> None:
    write_changed(PAGES, tmp_path)
    (tmp_path / "docs" / "my-notes.md").write_bytes(b"mine")
    remaining = {name: content for name, content in PAGES.items() if "a1" not in name}
    assert write_changed(remaining, tmp_path) == (0, 2)
    assert tree(tmp_path) == {**remaining, "docs/my-notes.md": b"mine"}
    assert not (tmp_path / "docs" / "parts").exists()


def test_what_comes_later_stays_until_it_comes(tmp_path: Path) -> None:
    write_changed({"a.md": b"1", "b.pdf": b"old", "c.pdf": b"gone"}, tmp_path)
    assert write_changed({"a.md": b"2"}, tmp_path, ["b.pdf", "d.pdf"]) == (1, 0)
    assert (tmp_path / "b.pdf").read_bytes() == b"old"
    assert not (tmp_path / "c.pdf").exists()
    assert not (tmp_path / "d.pdf").exists()
    # a run that ends here leaves nothing that the next one would not know
    write_changed({"a.md": b"2"}, tmp_path)
    assert not (tmp_path / "b.pdf").exists()


def test_a_folder_with_a_foreign_file_stays(tmp_path: Path) -> None:
    write_changed(PAGES, tmp_path)
    (tmp_path / "docs" / "parts" / "photo.jpg").write_bytes(b"mine")
    write_changed({"mkdocs.yml": b""}, tmp_path)
    assert tree(tmp_path) == {"mkdocs.yml": b"", "docs/parts/photo.jpg": b"mine"}


def test_a_file_may_become_a_folder(tmp_path: Path) -> None:
    write_changed({"docs/a": b"file"}, tmp_path)
    write_changed({"docs/a/b": b"below"}, tmp_path)
    assert tree(tmp_path) == {"docs/a/b": b"below"}


@pytest.mark.parametrize(
    "name",
    [
        "../out.md",
        "docs/../../out.md",
        "/out.md",
        "docs//a.md",
        "./a.md",
        "",
        ".",
        "docs\\a.md",
        "c:a.md",
        "a\nb",
        MANIFEST,
    ],
)
def test_paths_that_leave_the_folder_are_refused_before_anything_is_written(
    tmp_path: Path, name: str
) -> None:
    with pytest.raises(ValueError, match="not a path inside"):
        write_changed({"mkdocs.yml": b"", name: b"x"}, tmp_path / "pages")
    assert not list(tmp_path.iterdir())


@pytest.fixture
def pages(tmp_path: Path) -> Path:
    """A folder that was written before, beside one of somebody else."""
    write_changed(PAGES, tmp_path / "pages")
    (tmp_path / "theirs").mkdir()
    (tmp_path / "theirs" / "a1.md").write_bytes(b"precious")
    return tmp_path / "pages"


@pytest.mark.parametrize("place", ["docs", "docs/parts", "."])
def test_a_linked_folder_is_refused_and_nothing_behind_it_is_touched(pages: Path, place: str) -> None:
    behind = pages.parent / "theirs"
    shutil.rmtree(pages / place)
    (pages / place).symlink_to(behind)
    (behind / MANIFEST).touch()  # even where it looks like one of ours
    for files in (PAGES, {"mkdocs.yml": b""}):
        with pytest.raises(FolderError, match=r"is a link to another place.*--out"):
            write_changed(files, pages)
    assert tree(behind) == {"a1.md": b"precious"}


@pytest.mark.parametrize("name", ["mkdocs.yml", f"{MANIFEST}", ".mkdocs.yml.part", ".bench-manual-part"])
def test_a_planted_link_is_never_written_through(pages: Path, name: str) -> None:
    behind = pages.parent / "theirs" / "a1.md"
    (pages / name).unlink(missing_ok=True)
    (pages / name).symlink_to(behind)
    new = {**PAGES, "mkdocs.yml": b"site_name: new\n"}
    with suppress(FolderError):  # a folder whose manifest is a link bears no mark
        write_changed(new, pages)
        assert {path: data for path, data in tree(pages).items() if path in new} == new
    assert behind.read_bytes() == b"precious"


@pytest.mark.parametrize("name", ["../theirs/a1.md", "/etc/hosts", "docs/../../theirs/a1.md", "a\0b"])
def test_a_manifest_that_names_what_is_elsewhere_is_refused(pages: Path, name: str) -> None:
    (pages / MANIFEST).write_text(f"{name}\n", encoding="utf-8")
    with pytest.raises(FolderError, match="was changed"):
        write_changed(PAGES, pages)
    assert tree(pages) == PAGES
    assert tree(pages.parent / "theirs") == {"a1.md": b"precious"}


def test_a_folder_that_somebody_else_filled_is_refused(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_bytes(b"site_name: mine\n")
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "index.md").write_bytes(b"mine")
    with pytest.raises(FolderError, match=r"did not write: docs and 1 more.*--out"):
        write_changed(PAGES, tmp_path)
    assert tree(tmp_path) == {"mkdocs.yml": b"site_name: mine\n", "docs/index.md": b"mine"}


def test_what_a_system_leaves_in_an_empty_folder_does_not_matter(tmp_path: Path) -> None:
    (tmp_path / ".DS_Store").touch()
    assert write_changed(PAGES, tmp_path) == (3, 0)


def test_pages_that_an_earlier_version_left_half_written_are_ours(tmp_path: Path) -> None:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "old.md").touch()
    (tmp_path / "mkdocs.yml").write_bytes(b"# Written by bench-manual. A stand-alone MkDocs project.\n")
    assert write_changed(PAGES, tmp_path) == (3, 0)


def test_no_temporary_file_is_left_when_writing_fails(tmp_path: Path) -> None:
    write_changed({"docs/index.md": b""}, tmp_path)
    (tmp_path / "index.md").mkdir()
    with pytest.raises(OSError):
        write_changed({"index.md": b"x"}, tmp_path)
    assert {path.name for path in tmp_path.iterdir()} == {"index.md", MANIFEST}


class Killed(BaseException):
    """The process is gone: nothing after this runs."""


NEXT = {"docs/index.md": b"# Two\n", "docs/parts": b"a file now\n", "docs/more/b1.md": b"# B1\n"}


@pytest.mark.parametrize("before", [{}, PAGES], ids=["first run", "later run"])
@pytest.mark.parametrize("step", range(20))
def test_a_run_that_is_killed_anywhere_is_made_good_by_the_next(
    step: int, before: dict[str, bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Before or after each call that reaches the disk: every file is whole, and the next run leaves none over."""
    if before:
        write_changed(before, tmp_path)
    calls = count()
    with monkeypatch.context() as patched, suppress(Killed):
        for name in ("open", "replace", "unlink", "rmdir"):
            patched.setattr(Path, name, dying(getattr(Path, name), calls, step))
        write_changed(NEXT, tmp_path)
    known = {content for files in (PAGES, NEXT) for content in files.values()}
    assert {data for name, data in tree(tmp_path).items() if not name.startswith(".")} <= known
    write_changed(NEXT, tmp_path)
    assert tree(tmp_path) == NEXT


def dying(real: Callable[..., Any], calls: Iterator[int], step: int) -> Callable[..., Any]:
    def call(*args: Any, **keys: Any) -> Any:
        if next(calls) == step:
            raise Killed
        result = real(*args, **keys)
        if next(calls) == step:
            if hasattr(result, "close"):
                result.close()
            raise Killed
        return result

    return call


def test_a_second_writer_waits_for_the_first(tmp_path: Path) -> None:
    folder, said = tmp_path / "out", list[str]()
    with claimed(folder, "manual", lambda: said.append("first waits")):
        second = Thread(target=hold, args=(folder, said))
        second.start()
        while "second waits" not in said:
            second.join(0.01)
        said.append("first is done")
    second.join()
    assert said == ["second waits", "first is done", "second is in"]


def hold(folder: Path, said: list[str]) -> None:
    with claimed(folder, "manual", lambda: said.append("second waits")):
        said.append("second is in")


def test_a_folder_that_holds_a_gallery_takes_no_manual(tmp_path: Path) -> None:
    with claimed(tmp_path, "gallery", lambda: None):
        pass
    with pytest.raises(FolderError, match="has a gallery in it"):
        require_claimable(tmp_path, "manual")
    require_claimable(tmp_path, "gallery")


def test_a_mark_that_is_a_link_is_not_written_through(pages: Path) -> None:
    """The folder is one of ours by its manifest; its mark is planted."""
    behind = pages.parent / "theirs" / "a1.md"
    (pages / MARK).symlink_to(behind)
    with claimed(pages, "manual", lambda: None):
        pass
    assert behind.read_bytes() == b"precious"
    assert (pages / MARK).read_bytes() == b"manual\n"
