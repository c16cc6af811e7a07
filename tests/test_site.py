"""The site: built beside, swapped in, quiet, the same twice; the checkout's own mkdocs.yml."""

import re
import shutil
import subprocess
import sys
import types
from collections.abc import Iterator, Mapping
from pathlib import Path

import jinja2
import pytest
import yaml
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException
from mkdocs.livereload import LiveReloadServer

from generator import resources
from generator.findings import Finding, Severity, SpecError
from generator.output import MANIFEST, FolderError
from generator.site import Late, SiteError, build_site, mend_site

ROOT = Path(__file__).resolve().parent.parent
TEMPLATES = ROOT / "site_templates"


def mkdocs_yml(**context: object) -> str:
    loader = jinja2.FileSystemLoader(TEMPLATES)
    environment = jinja2.Environment(loader=loader, undefined=jinja2.StrictUndefined, trim_blocks=True)
    defaults = {
        "site_name": "A bench",
        "manual_id": "a-bench",
        "unit": "mm",
        "nav": [("Overview", "index.md")],
    }
    return environment.get_template("mkdocs.yml.jinja").render({**defaults, **context})


def project(folder: Path, index: str = "# Overview\n", config: str = "") -> Path:
    """A stand-alone project as a manual writes it."""
    shutil.copytree(TEMPLATES / "overrides", folder / "overrides", dirs_exist_ok=True)
    shutil.copytree(TEMPLATES / "assets", folder / "docs" / "assets", dirs_exist_ok=True)
    (folder / "docs" / "index.md").write_text(index, encoding="utf-8")
    (folder / "mkdocs.yml").write_text(config or mkdocs_yml(), encoding="utf-8")
    return folder


def tree(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


# ---- bundled data ----


def test_a_wheel_brings_its_own_data_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "generator"
    monkeypatch.setattr(resources, "_PACKAGE", package)
    (package / "_bundled" / "specs").mkdir(parents=True)
    (tmp_path / "specs").mkdir()
    (tmp_path / "pyproject.toml").touch()
    assert resources.bundled("specs") == package / "_bundled" / "specs"


def test_a_checkout_is_known_by_its_marker(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(resources, "_PACKAGE", tmp_path / "generator")
    (tmp_path / "specs").mkdir()
    with pytest.raises(FileNotFoundError, match="specs"):
        resources.bundled("specs")
    (tmp_path / "pyproject.toml").touch()
    assert resources.bundled("specs") == tmp_path / "specs"


# ---- build ----


def test_a_site_is_built_and_pruned(tmp_path: Path) -> None:
    build_site(project(tmp_path / "pages"), tmp_path / "site")
    names = tree(tmp_path / "site").keys()
    assert {"index.html", "search/search_index.js", "assets/manual.css", "assets/iframe-worker.js"} <= names
    assert not [name for name in names if name.endswith(".map") or "lunr/" in name or "sitemap" in name]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["pages", "site"]
    assert sum(map(len, tree(tmp_path / "site").values())) < 500_000, "the frame of a site is to be light"


def test_a_box_to_tick_has_no_attribute_of_a_field(tmp_path: Path) -> None:
    build_site(project(tmp_path / "pages"), tmp_path / "site")
    boxes = re.findall(r'<input[^>]*type="checkbox"[^>]*>', (tmp_path / "site" / "index.html").read_text())
    assert boxes
    assert not [box for box in boxes if "autocomplete" in box]


def test_a_published_site_has_a_list_of_its_pages_and_no_link_from_the_root(tmp_path: Path) -> None:
    config = mkdocs_yml(site_url="https://example.org/benches/one/", card="assets/card.png")
    index = '---\ndescription: "a \\"fine\\" bench"\n---\n\n# Overview\n'
    build_site(project(tmp_path / "pages", index, config), tmp_path / "site")
    files = tree(tmp_path / "site")
    assert b"<loc>https://example.org/benches/one/index.html</loc>" in files["sitemap.xml"]
    assert "sitemap.xml.gz" not in files
    page = files["index.html"].decode()
    for said in (
        '<link rel="canonical" href="https://example.org/benches/one/index.html">',
        '<meta property="og:image" content="https://example.org/benches/one/assets/card.png">',
        '<meta property="og:description" content="a &#34;fine&#34; bench">',
    ):
        assert said in page
    assert not [
        link for link in re.findall(r'(?:href|src)="([^"]*)"', files["404.html"].decode()) if link[0] == "/"
    ]


def test_the_same_pages_give_the_same_bytes(tmp_path: Path) -> None:
    pages = project(tmp_path / "pages")
    build_site(pages, tmp_path / "one")
    build_site(pages, tmp_path / "two")
    assert tree(tmp_path / "one") == tree(tmp_path / "two")


def test_what_comes_late_is_in_the_site_as_if_it_had_been_there(tmp_path: Path) -> None:
    """The page links to two files: one is not there yet, one is there from an earlier build."""
    late = {"docs/downloads/new.pdf": b"made late", "docs/downloads/old.pdf": b"made anew"}
    index = "# Overview\n\n[New](downloads/new.pdf) and [old](downloads/old.pdf)\n"
    sites = []
    for name, there in (("whole", late), ("early", {"docs/downloads/old.pdf": b"of an earlier build"})):
        made = project(tmp_path / name, index)
        for path, data in there.items():
            (made / path).parent.mkdir(exist_ok=True)
            (made / path).write_bytes(data)
        build_site(made, tmp_path / f"{name}-site", Late(list(late), lambda: late))
        sites.append(tree(tmp_path / f"{name}-site"))
    assert sites[0] == sites[1]
    assert sites[0]["downloads/new.pdf"] == b"made late"


def test_a_second_build_takes_the_place_of_the_first(tmp_path: Path) -> None:
    build_site(project(tmp_path / "pages", "# First\n"), tmp_path / "site")
    (tmp_path / "site" / "left-over.html").touch()
    build_site(project(tmp_path / "pages", "# Second\n"), tmp_path / "site")
    assert b"Second" in (tmp_path / "site" / "index.html").read_bytes()
    assert not (tmp_path / "site" / "left-over.html").exists()


@pytest.mark.parametrize(
    ("index", "config", "message"),
    [
        ("# One\n\n[Parts](parts.md)\n", "", "parts.md"),
        ("# One\n\n[Step](#step-9)\n", "", "step-9"),
        ("# One\n", "site_name: x\ntheme: no-such-theme\n", "no-such-theme"),
        ("# One\n", "site_name: x\nunheard_of: 1\n", "unheard_of"),
        ("# One\n", "site_name: [x\n", "mkdocs.yml"),
    ],
    ids=["dead link", "dead anchor", "bad theme", "unknown key", "no yaml"],
)
def test_a_fault_is_told_and_the_old_site_stays(
    tmp_path: Path, index: str, config: str, message: str
) -> None:
    build_site(project(tmp_path / "pages"), tmp_path / "site")
    before = tree(tmp_path / "site")
    with pytest.raises(SiteError, match=message):
        build_site(project(tmp_path / "pages", index, config), tmp_path / "site")
    assert tree(tmp_path / "site") == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["pages", "site"]


def test_a_missing_project_is_told(tmp_path: Path) -> None:
    with pytest.raises(SiteError, match=r"mkdocs\.yml"):
        build_site(tmp_path / "nowhere", tmp_path / "site")


@pytest.mark.parametrize("theirs", ["thesis.txt", "404.html"])
def test_a_folder_of_other_files_is_not_swapped_out(tmp_path: Path, theirs: str) -> None:
    """Any MkDocs site has a 404.html: it is not ours for that."""
    home = tmp_path / "home"
    home.mkdir()
    (home / theirs).write_bytes(b"<meta name=precious>")
    with pytest.raises(FolderError, match=rf"did not write: {theirs}.*--out"):
        build_site(project(tmp_path / "pages"), home)
    assert tree(home) == {theirs: b"<meta name=precious>"}


def test_a_linked_site_is_refused(tmp_path: Path) -> None:
    build_site(project(tmp_path / "pages"), tmp_path / "elsewhere")
    before = tree(tmp_path / "elsewhere")
    (tmp_path / "site").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(FolderError, match="is a link"):
        build_site(tmp_path / "pages", tmp_path / "site")
    assert tree(tmp_path / "elsewhere") == before


def test_a_site_of_a_version_that_wrote_no_mark_is_built_again(tmp_path: Path) -> None:
    pages = project(tmp_path / "pages")
    build_site(pages, tmp_path / "site")
    (tmp_path / "site" / MANIFEST).unlink()
    build_site(pages, tmp_path / "site")
    assert (tmp_path / "site" / MANIFEST).is_file()


def killed_after(renames: int, pages: Path, site: Path) -> None:
    """Build in a process that is gone after so many of the two renames of its swap, and clears nothing up."""
    code = (
        "import os, sys\nfrom pathlib import Path\nfrom generator.site import build_site\n"
        f"rename, left = Path.rename, [{renames}]\n"
        "def dying(path, target):\n"
        "    left[0] -= 1\n"
        "    return rename(path, target) if left[0] >= 0 else os._exit(9)\n"
        "Path.rename = dying\n"
        "build_site(*map(Path, sys.argv[1:]))\n"
    )
    done = subprocess.run([sys.executable, "-c", code, str(pages), str(site)], cwd=ROOT, check=False)
    assert done.returncode == 9
    assert [path for path in site.parent.iterdir() if path.name.startswith(".site-")]


@pytest.mark.parametrize("renames", [0, 1])
def test_a_build_that_dies_in_its_swap_is_mended_and_cleared_at_the_next_start(
    tmp_path: Path, renames: int
) -> None:
    build_site(project(tmp_path / "pages", "# First\n"), tmp_path / "site")
    first = tree(tmp_path / "site")
    killed_after(renames, project(tmp_path / "pages", "# Second\n"), tmp_path / "site")
    mend_site(tmp_path / "site")
    assert tree(tmp_path / "site") == first
    build_site(tmp_path / "pages", tmp_path / "site")
    assert b"Second" in (tmp_path / "site" / "index.html").read_bytes()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["pages", "site"]


def test_only_what_a_dead_build_left_is_cleared(tmp_path: Path) -> None:
    theirs = tmp_path / "theirs"
    theirs.mkdir()
    (theirs / "letter.txt").touch()
    (tmp_path / ".site-abcdefgh").mkdir()
    (tmp_path / ".site-abcdefgh" / "letter.txt").touch()
    (tmp_path / ".site-photos").mkdir()
    (tmp_path / ".site-12345678").symlink_to(theirs)
    (tmp_path / ".site-aaaaaaaa").mkdir()
    (tmp_path / ".site-aaaaaaaa" / "old").symlink_to(theirs)
    before = sorted(tmp_path.rglob("*"))
    build_site(project(tmp_path / "pages"), tmp_path / "site")
    assert set(before) <= set(tmp_path.rglob("*"))
    assert (theirs / "letter.txt").exists()


def test_a_swap_that_fails_puts_the_old_site_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pages = project(tmp_path / "pages")
    build_site(pages, tmp_path / "site")
    before = tree(tmp_path / "site")
    rename = Path.rename

    def failing(path: Path, target: Path) -> Path:
        if path.name == "fresh":
            raise OSError("disk full")
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(OSError, match="disk full"):
        build_site(pages, tmp_path / "site")
    assert tree(tmp_path / "site") == before


def test_a_build_says_nothing(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    build_site(project(tmp_path / "pages"), tmp_path / "site")
    with pytest.raises(SiteError):
        build_site(project(tmp_path / "pages", "[x](x.md)\n"), tmp_path / "site")
    assert capfd.readouterr() == ("", "")


# ---- configuration ----


def test_titles_survive_in_yaml() -> None:
    title = "Saws: 'fence' & \"stop\" – #1 <½>"
    config = yaml.safe_load(
        mkdocs_yml(site_name=title, nav=[(title, "a.md"), ("B", "b.md")], copyright=title)
    )
    assert config["site_name"] == config["copyright"] == title
    assert config["nav"] == [{title: "a.md"}, {"B": "b.md"}]
    assert config["extra"]["manual_id"] == "a-bench"


def test_a_manual_needs_no_hook_no_own_plugin_and_no_network() -> None:
    config = yaml.safe_load(mkdocs_yml())
    assert config["plugins"] == ["search", "offline"]
    assert "hooks" not in config and "repo_url" not in config
    assert config["theme"]["font"] is False
    assert "navigation.instant" not in config["theme"]["features"]
    assert "http" not in mkdocs_yml()


# ---- the checkout's mkdocs.yml and its hook ----


def compiled(path: Path) -> Mapping[str, bytes]:
    text = path.read_text(encoding="utf-8")
    if "broken" in text:
        raise SpecError([Finding("T1", Severity.ERROR, "the bench is broken")])
    return {"mkdocs.yml": mkdocs_yml(site_name="Demo").encode(), "docs/index.md": text.encode()} | {
        f"docs/assets/{asset.name}": asset.read_bytes() for asset in (TEMPLATES / "assets").iterdir()
    }


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """What `mkdocs build` needs in the root, with a compiler that puts the spec's text on the page."""
    manual = types.ModuleType("generator.manual")
    manual.compile_spec_file = compiled  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "generator.manual", manual)
    root = tmp_path / "checkout"
    shutil.copytree(TEMPLATES, root / "site_templates")
    (root / "generator").mkdir()
    shutil.copy(ROOT / "generator" / "hook.py", root / "generator")
    shutil.copy(ROOT / "mkdocs.yml", root)
    (root / "specs").mkdir()
    (root / "specs" / "demo.yml").write_text("# One bench\n", encoding="utf-8")
    yield root
    sys.modules.pop("generator/hook.py", None)


def test_mkdocs_build_in_the_root_makes_the_demo_manual(checkout: Path) -> None:
    build(load_config(str(checkout / "mkdocs.yml"), strict=True))
    page = (checkout / "site" / "index.html").read_text(encoding="utf-8")
    assert "One bench" in page
    assert not list((checkout / "site").rglob("*.map"))
    assert "<title>Demo</title>" in page
    assert '<meta name="bench-manual" content="a-bench" data-unit="mm">' in page
    assert (checkout / "build" / "demo" / "pages" / "docs" / "index.md").is_file()


def test_a_spec_that_fails_stops_mkdocs_with_its_findings(
    checkout: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (checkout / "specs" / "demo.yml").write_text("broken", encoding="utf-8")
    with pytest.raises(MkDocsException):
        build(load_config(str(checkout / "mkdocs.yml")))
    assert "the bench is broken" in caplog.text


def test_mkdocs_serve_watches_the_spec_and_not_what_it_makes(checkout: Path) -> None:
    config = load_config(str(checkout / "mkdocs.yml"))
    build(config)
    server = LiveReloadServer(lambda: None, "127.0.0.1", 0, str(checkout / "site"))
    server.watch(config.docs_dir)
    config.plugins.on_serve(server, config=config, builder=lambda: None)
    assert list(server._watched_paths) == [str(checkout / "specs")]
    server.server_close()
