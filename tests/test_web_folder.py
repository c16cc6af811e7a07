"""The folder for a web server: the newest manual, every revision that was published, and a list of them."""

from __future__ import annotations

import json
import re
from pathlib import Path

from generator.output import MANIFEST
from generator.web_folder import DATA, LIST, Issue, publish


def site(folder: Path, **pages: str) -> Path:
    """A built site."""
    folder.mkdir(exist_ok=True)
    for name, text in pages.items():
        (folder / f"{name}.html").write_text(text)
    (folder / MANIFEST).touch()
    return folder


def revision(number: str) -> Issue:
    return Issue("A bench", number, "2026-11-02", f"<b>{number}</b>")


def test_an_earlier_revision_stays_beside_the_newest(tmp_path: Path) -> None:
    web = tmp_path / "web"
    publish(site(tmp_path / "one", index="A", gone="A"), web, revision("A"))
    said = publish(site(tmp_path / "two", index="B"), web, revision("B"))
    assert [each.number for each in said] == ["B", "A"]
    assert (web / "index.html").read_text() == "B"
    assert not (web / "gone.html").exists()
    assert [(web / f"rev-{each}" / "index.html").read_text() for each in "ab"] == ["A", "B"]
    assert (web / "rev-a" / "gone.html").is_file()
    page = (web / LIST).read_text()
    links = re.findall(r'href="([^"]+)"', page)
    assert links == ["index.html", "rev-b/index.html", "rev-a/index.html"]
    assert "&lt;b&gt;A" in page
    assert '"../all-revisions.html"' in (web / "rev-a" / LIST).read_text()


def test_a_revision_that_is_published_again_takes_its_own_place(tmp_path: Path) -> None:
    web = tmp_path / "web"
    for number, text in (("A", "1"), ("B", "2"), ("A", "3")):
        publish(site(tmp_path / "site", index=text), web, revision(number))
    assert (web / "rev-a" / "index.html").read_text() == "3"
    assert [each["number"] for each in json.loads((web / DATA).read_text())] == ["A", "B"]


def test_a_list_that_nobody_can_read_is_begun_anew(tmp_path: Path) -> None:
    web = tmp_path / "web"
    publish(site(tmp_path / "site", index="1"), web, revision("A"))
    (web / DATA).write_text('[{"number": 1}]')
    assert len(publish(site(tmp_path / "site", index="2"), web, revision("B"))) == 1
