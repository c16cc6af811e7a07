"""A build whose inputs are the same says so at once; after any change of what a page depends on it builds."""

import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, ClassVar

import pytest
from PIL import Image

import generator.manual
import generator.site
from generator import unchanged
from generator.cli import main
from generator.codes import Code
from generator.findings import Finding, Severity

SPECS = Path(__file__).resolve().parents[1] / "specs"
LONG_AGO = 1_000_000_000


@pytest.fixture
def built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """A folder with a spec, its record, photo and picture, that was built once; every build is entered in the list.

    The pages and the site are of two lines: that they depend on nothing else than what is read is others' business.
    """
    monkeypatch.chdir(tmp_path)
    text = (SPECS / "starter.yml").read_text(encoding="utf-8")
    for name in ("mine.yml", "earlier.yml"):
        Path(name).write_text(f"{text}site: {{image: picture.png}}\n", encoding="utf-8")
    for name, tone in (("picture.png", 10), ("photo.png", 20)):
        Image.new("L", (8, 8), tone).save(name)
    Path("mine.record.yml").write_text("- {date: 2026-11-03, photo: {file: photo.png, alt: The left end}}\n")
    shutil.copy(SPECS.parent / "site_templates" / "fonts" / "DejaVuSans.ttf", "own.ttf")
    builds: list[Any] = []

    class OneFile:
        late: ClassVar[list[str]] = []

        def files(self) -> dict[str, bytes]:
            return {"mkdocs.yml": b"pages"}

        first_files = files

    def begun(*given: Any) -> tuple[OneFile, tuple[Finding, ...]]:
        builds.append(given)
        return OneFile(), (Finding(Code.SWAY, Severity.ERROR, "it sways"),)

    def build_site(pages: Path, site: Path, late: object) -> None:
        site.mkdir(exist_ok=True)
        (site / "index.html").write_text("site")
        (site / unchanged.MADE.replace("made", "files")).touch()

    monkeypatch.setattr(generator.manual, "begun", begun)
    monkeypatch.setattr(generator.site, "build_site", build_site)
    for path in tmp_path.iterdir():
        os.utime(path, (LONG_AGO, LONG_AGO))
    run()
    return builds


def run(*more: str) -> None:
    assert (
        main(["build", "mine.yml", "--out", "out", "--font", "own.ttf", "--against", "earlier.yml", *more])
        == 0
    )


def write(name: str, text: str) -> Callable[[], None]:
    def change() -> None:
        path = Path(name)
        path.write_text(path.read_text(encoding="utf-8") + text, encoding="utf-8")
        os.utime(path, (LONG_AGO + 1, LONG_AGO + 1))

    return change


def repaint(name: str) -> Callable[[], None]:
    return lambda: Image.new("L", (8, 8), 30).save(name)


def more_of_a_font() -> None:
    with Path("own.ttf").open("ab") as stream:
        stream.write(b"\0")


CHANGES: dict[str, Callable[[], object]] = {
    "the spec": write("mine.yml", "# more\n"),
    "its record": write("mine.record.yml", "- {date: 2026-11-04, note: more}\n"),
    "no record any more": lambda: Path("mine.record.yml").unlink(),
    "a photo": repaint("photo.png"),
    "the picture": repaint("picture.png"),
    "the earlier spec": write("earlier.yml", "# more\n"),
    "a record of the earlier spec": lambda: Path("earlier.record.yml").write_text(
        "- {date: 2026-11-04, note: n}\n"
    ),
    "the own font": more_of_a_font,
    "a page": write("out/pages/mkdocs.yml", "more"),
    "a file of the site is gone": lambda: Path("out/site/index.html").unlink(),
    "a file more in the site": lambda: Path("out/site/other.html").touch(),
    "what is known of the last build": lambda: Path("out", unchanged.MADE).write_text("{"),
    "nothing known": lambda: Path("out", unchanged.MADE).unlink(),
}


def test_nothing_is_built_where_nothing_changed(built: list[Any], capsys: pytest.CaptureFixture[str]) -> None:
    Path("out", unchanged.MADE).unlink()
    run()
    first = capsys.readouterr()
    run()
    assert len(built) == 2
    assert capsys.readouterr() == first, "the same is said of it"
    assert "1 error: do not cut" in first.err
    assert "Pages: 0 files written, 1 unchanged" in first.out


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_what_a_page_depends_on_is_built_again(built: list[Any], change: Callable[[], object]) -> None:
    change()
    run()
    assert len(built) == 2


@pytest.mark.parametrize(
    "more", [["--bar", "99.7"], ["--site-url", "https://example.org/b/"], ["--for", "web"]]
)
def test_another_option_is_another_manual(
    built: list[Any], more: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.web_folder.publish", lambda *_: [])
    run(*more)
    run()
    assert len(built) == 3


@pytest.mark.parametrize("folder", ["generator", "site_templates", "specs"])
def test_another_program_builds_again(
    built: list[Any], folder: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / folder
    other.mkdir()
    (other / "other.txt").touch()
    if folder == "generator":
        monkeypatch.setattr(unchanged, "_PACKAGE", other)
    else:
        usual = unchanged.bundled
        monkeypatch.setattr(unchanged, "bundled", lambda name: other if name == folder else usual(name))
    run()
    (other / "other.txt").write_text("longer")
    run()
    assert len(built) == 3


def test_another_library_builds_again(
    built: list[Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "libraries" / "mkdocs-99.dist-info").mkdir(parents=True)
    monkeypatch.syspath_prepend(tmp_path / "libraries")
    run()
    assert len(built) == 2


def test_a_spec_that_is_written_while_it_is_read_is_built_again(
    built: list[Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    write("mine.yml", "# more\n")()
    os.utime("mine.yml", (2 * LONG_AGO, sys.maxsize // 10**9))
    run()
    run()
    assert len(built) == 3


def test_a_build_that_fails_leaves_nothing_known(built: list[Any], monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object) -> None:
        raise generator.site.SiteError("no site")

    write("mine.yml", "# more\n")()
    with monkeypatch.context() as patch:
        patch.setattr(generator.site, "build_site", fails)
        assert main(["build", "mine.yml", "--out", "out"]) == 2
    assert not Path("out", unchanged.MADE).exists()
