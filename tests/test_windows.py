"""What is another matter on Windows, as far as it can be faked here."""

from __future__ import annotations

import errno
import mimetypes
import re
import socket
import socketserver
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.booklet import PROGRAM_FOLDERS, BookletError, find_browser, print_booklet
from generator.cli import main
from generator.drawings.paper import A4
from generator.findings import SpecError
from generator.live import LiveSite, ManualStore
from generator.manual import Manual, frame_files
from generator.output import write_changed

ROOT = Path(__file__).resolve().parent.parent


def test_the_readme_has_commands_for_a_shell_without_ampersands() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    (first, _) = re.findall(r"^python3 -m venv .*", text, re.MULTILINE)
    (block,) = re.findall(r"```\n(py .*?)```", text, re.DOTALL)
    assert "&&" not in block
    told = [
        line.replace("py ", "python3 ", 1).replace(".venv\\Scripts\\", ".venv/bin/")
        for line in block.splitlines()
    ]
    assert told == [command.strip() for command in first.split("&&")]


@pytest.mark.parametrize("variable", PROGRAM_FOLDERS)
@pytest.mark.parametrize(
    "program", ["Google/Chrome/Application/chrome.exe", "Microsoft/Edge/Application/msedge.exe"]
)
def test_a_browser_is_found_where_its_installer_puts_it(
    variable: str, program: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path / "empty"))
    monkeypatch.setenv(variable, str(tmp_path))
    with pytest.raises(BookletError):
        find_browser()
    (tmp_path / program).parent.mkdir(parents=True)
    (tmp_path / program).touch()
    assert find_browser() == tmp_path / program
    with pytest.raises(BookletError, match="no browser has the name chrome"):
        find_browser("chrome")


def test_a_browser_may_speak_in_another_code_page(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("<article>One</article>")
    browser = tmp_path / "browser"
    browser.write_text("#!/bin/sh\nprintf 'gesch\\204ft\\n' >&2\n")
    browser.chmod(0o755)
    with pytest.raises(BookletError, match=r"browser made no PDF: gesch.ft"):
        print_booklet(tmp_path, [("One", "index.html")], A4, tmp_path / "out.pdf", browser)


@pytest.mark.parametrize("there", [True, False])
def test_a_file_that_a_viewer_has_open_is_to_be_closed(
    there: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def held(self: Path, target: Path) -> Path:
        raise PermissionError(errno.EACCES, "Permission denied", str(self))

    out = tmp_path / "schema.json"
    if there:
        out.write_text("{}")
    monkeypatch.setattr(Path, "replace", held)
    assert main(["schema", "--out", str(out)]) == 2
    said = capsys.readouterr().err
    assert f"{out} cannot be written: Permission denied" in said
    assert ("close it there and try again" in said) == there
    assert [path.name for path in tmp_path.iterdir()] == (["schema.json"] if there else [])


@pytest.mark.parametrize("name", ["docs/downloads/cut-list.csv", "docs/downloads/part-sheets-A4.pdf"])
def test_a_list_or_paper_that_is_open_elsewhere_is_named_and_stays(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = Path.replace

    def held(self: Path, target: Path) -> Path:
        if Path(target).name == Path(name).name:
            raise PermissionError(errno.EACCES, "Permission denied", str(self))
        return place(self, target)

    write_changed({name: b"first"}, tmp_path / "pages")
    monkeypatch.setattr(Path, "replace", held)
    with pytest.raises(PermissionError) as caught:
        write_changed({name: b"second"}, tmp_path / "pages")
    assert caught.value.filename == str(tmp_path / "pages" / name)
    assert (tmp_path / "pages" / name).read_bytes() == b"first"
    monkeypatch.undo()
    assert write_changed({name: b"second"}, tmp_path / "pages") == (1, 0)


def test_the_browsers_own_profile_may_be_in_use(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("<article>One</article>")
    browser, said = tmp_path / "browser", tmp_path / "said"
    browser.write_text(
        f"#!/bin/sh\nprintf '%s\\n' \"$@\" >> '{said}'\n"
        'for each; do case $each in --print-to-pdf=*) echo %PDF > "${each#*=}";; esac; done\n'
    )
    browser.chmod(0o755)
    for number in (1, 2):
        print_booklet(tmp_path, [("One", "index.html")], A4, tmp_path / f"{number}.pdf", browser)
    profiles = re.findall(r"--user-data-dir=(.*)", said.read_text())
    assert len(set(profiles)) == 2
    assert not [profile for profile in profiles if Path(profile).parent.exists()]


def test_a_second_server_has_no_part_of_a_port(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text("spec: 1\n", encoding="utf-8")
    asked: list[tuple[bool, int]] = []

    def taken(server: socketserver.TCPServer) -> None:
        asked.append((server.allow_reuse_address, server.socket.getsockopt(socket.SOL_SOCKET, exclusive)))
        raise OSError(errno.EACCES, "another has it for itself alone")

    exclusive = socket.SO_KEEPALIVE  # any switch that this system has
    monkeypatch.setattr(socket, "SO_EXCLUSIVEADDRUSE", exclusive, raising=False)
    monkeypatch.setattr(socketserver.TCPServer, "server_bind", taken)
    assert main(["serve", str(spec), "--port", "8123"]) == 2
    assert [(reuse, bool(switch)) for reuse, switch in asked] == [(False, True)]
    assert "name another port with --port" in capsys.readouterr().err


@pytest.fixture
def _a_strange_registry() -> Iterator[None]:
    """Some program has told the system that scripts are plain text."""
    mimetypes.add_type("text/plain", ".js")
    yield
    mimetypes.init()


@pytest.mark.usefixtures("_a_strange_registry")
def test_scripts_are_sent_as_scripts_whatever_the_system_says(tmp_path: Path) -> None:
    def faulty() -> Manual:
        raise SpecError([])

    write_changed(frame_files(), tmp_path / "pages")
    (tmp_path / "site" / "assets").mkdir(parents=True)
    (tmp_path / "site" / "assets" / "search.js").write_text("1")
    site = LiveSite(ManualStore(faulty), tmp_path / "pages", tmp_path / "site")
    for name in ("assets/search.js", "search/search_index.js"):
        assert site.answer(name)[1] == "text/javascript"
