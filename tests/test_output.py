"""write_changed: only real changes reach the disk, and only our own files are ever removed."""

from pathlib import Path

import pytest

from generator.output import MANIFEST, write_changed

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


def test_a_link_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    pages, elsewhere = tmp_path / "pages", tmp_path / "elsewhere"
    pages.mkdir()
    elsewhere.mkdir()
    (pages / "docs").symlink_to(elsewhere)
    with pytest.raises(ValueError, match="not a path inside"):
        write_changed(PAGES, pages)
    assert not list(elsewhere.iterdir())


def test_a_tampered_manifest_removes_nothing_outside(tmp_path: Path) -> None:
    pages, other = tmp_path / "pages", tmp_path / "other.md"
    other.write_bytes(b"mine")
    write_changed(PAGES, pages)
    (pages / MANIFEST).write_text("../other.md\n", encoding="utf-8")
    with pytest.raises(ValueError, match=r"other\.md"):
        write_changed(PAGES, pages)
    assert other.read_bytes() == b"mine"


def test_no_temporary_file_is_left_when_writing_fails(tmp_path: Path) -> None:
    (tmp_path / "index.md").mkdir()
    with pytest.raises(OSError):
        write_changed({"index.md": b"x"}, tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["index.md"]
