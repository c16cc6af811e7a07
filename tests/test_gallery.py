"""A gallery of manuals: cards that lead to each, nothing built twice, nothing half."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from generator import gallery
from generator.cli import main
from generator.gallery import KEPT
from generator.output import MANIFEST
from generator.resources import bundled

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two benches in a folder, and their gallery."""
    folder = tmp_path_factory.mktemp("shop")
    (folder / "one.yml").write_text(STARTER, encoding="utf-8")
    nasty = STARTER.replace("title: My first bench", "title: 'Tom & <b>x</b>'")
    (folder / "two.yml").write_text(nasty, encoding="utf-8")
    assert (
        main(["gallery", str(folder / "one.yml"), str(folder / "two.yml"), "--out", str(folder / "out")]) == 0
    )
    return folder


def times(folder: Path) -> dict[str, int]:
    return {str(path): path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()}


def again(shop: Path, *names: str) -> int:
    return main(["gallery", *(str(shop / name) for name in names), "--out", str(shop / "out")])


def test_every_card_leads_to_its_manual_and_shows_its_bench(shop: Path) -> None:
    site = shop / "out" / "site"
    page = (site / "index.html").read_text(encoding="utf-8")
    links = set(re.findall(r'(?:href|src)="([^"#]+)"', page))
    assert {"one/index.html", "two/index.html"} <= links
    assert all((site / link).is_file() for link in links)
    assert "Tom &amp; &lt;b&gt;x&lt;/b&gt;" in page
    for said in ("1300 × 700 × 900 mm", "kg", "revision A, draft", "none stated"):
        assert said in page
    assert not re.search(r'(?:src|href)="(?:https?:)?//', page)


def test_what_did_not_change_is_not_built_again(
    shop: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    before = times(shop / "out")
    monkeypatch.setattr(gallery, "build_site", None)  # would be called for a manual that changed
    assert again(shop, "one.yml", "two.yml") == 0
    assert "2 manuals, 0 built" in capsys.readouterr().out
    assert times(shop / "out") == before


def test_a_record_or_another_spec_is_a_change_of_its_own_manual_only(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    record = shop / "two.record.yml"
    record.write_text("- {date: 2026-11-03, note: begun}\n", encoding="utf-8")
    untouched = times(shop / "out" / "site" / "one")
    assert again(shop, "one.yml", "two.yml") == 0
    assert "2 manuals, 1 built: two" in capsys.readouterr().out
    assert times(shop / "out" / "site" / "one") == untouched
    assert "in work" in (shop / "out" / "site" / "index.html").read_text(encoding="utf-8")


def test_faults_of_all_specs_are_told_and_nothing_is_written(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (shop / "bad.yml").write_text("spec: 1\n", encoding="utf-8")
    (shop / "worse.yml").write_text(STARTER + "zzz: 1\n", encoding="utf-8")
    before = times(shop / "out")
    assert again(shop, "one.yml", "bad.yml", "worse.yml") == 2
    said = capsys.readouterr().err
    assert "bad.yml" in said
    assert "worse.yml" in said
    (shop / "deep").mkdir()
    (shop / "deep" / "one.yml").write_text(STARTER, encoding="utf-8")
    assert again(shop, "one.yml", "deep/one.yml") == 2
    assert "two specs have the name one" in capsys.readouterr().err
    assert again(shop) == 2
    assert times(shop / "out") == before


def test_what_its_own_notes_name_is_removed_only_where_it_bears_our_mark(
    shop: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The notes of a gallery lie in its folder, where anybody may have written."""
    out, theirs = shop / "out", shop / "theirs"
    theirs.mkdir()
    (theirs / "letter.txt").touch()
    (theirs / MANIFEST).write_text("letter.txt\n", encoding="utf-8")
    (out / "site" / "photos").mkdir()
    (out / "site" / "photos" / "letter.txt").touch()
    (out / "site" / "linked").symlink_to(theirs)
    (out / "pages" / "linked").symlink_to(theirs)
    notes = json.loads((out / KEPT).read_bytes())
    for name in (str(theirs), "../../theirs", "photos", "linked", "..", ".", "", "a\0b"):
        notes[name] = notes["one"]
    (out / KEPT).write_text(json.dumps(notes), encoding="utf-8")
    assert again(shop, "one.yml") == 0
    assert not (out / "site" / "two").exists()
    assert not (out / "pages" / "two").exists()
    assert (out / "site" / "one" / "index.html").is_file()
    for place in (theirs, out / "site" / "photos", out / "site" / "linked"):
        assert (place / "letter.txt").is_file()
    assert set(json.loads((out / KEPT).read_bytes())) == {"one"}


@pytest.mark.parametrize(
    "notes", ["[]", "7", '{"one": 1}', '{"one": {"source": "x", "card": {}}}', "\ufffd{"]
)
def test_notes_that_nobody_can_read_are_begun_anew(
    shop: Path, notes: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = json.loads((shop / "out" / KEPT).read_bytes())
    with monkeypatch.context() as patched:
        patched.setattr(gallery, "compile_manual", lambda *_, **__: {"mkdocs.yml": b""})
        patched.setattr(gallery, "build_site", lambda *_: None)
        (shop / "out" / KEPT).write_text(notes, encoding="utf-8")
        assert again(shop, "one.yml") == 0
    assert json.loads((shop / "out" / KEPT).read_bytes()) == before


def test_a_gallery_leaves_the_files_of_others(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for place in ("theirs-too/site/index.html", "theirs-too/pages/one/mkdocs.yml"):
        (shop / place).parent.mkdir(parents=True)
        (shop / place).write_text("precious")
    before = times(shop / "theirs-too")
    assert main(["gallery", str(shop / "one.yml"), "--out", str(shop / "theirs-too")]) == 2
    assert re.search("did not write: pages and 1 more.*--out", capsys.readouterr().err)
    assert times(shop / "theirs-too") == before
