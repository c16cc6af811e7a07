"""The folder of Markdown → the static site, with MkDocs as a library."""

from __future__ import annotations

import logging
import re
import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from html import escape, unescape
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import urlsplit

from jinja2 import BaseLoader, Environment
from mkdocs.commands.build import build, get_context
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, get_files, set_exclusions
from mkdocs.structure.nav import get_navigation
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink

from generator.disk import is_plain_file
from generator.output import MANIFEST, mark, require_no_link, require_own
from generator.quick_markdown import QuickTexts
from generator.readings import unbroken
from generator.templating import CompiledTemplates

PRUNED = ("**/*.map", "assets/javascripts/lunr", "sitemap.xml.gz")
"""What no reader of an English manual on a tablet needs: six sevenths of the theme's bytes."""
SITEMAP = "sitemap.xml"
"""The list of pages, which only a published manual has: without an address it is empty."""
_PICTURE = re.compile(r"<figure\b[^\n]*?</figure>")
"""A drawing as it is in a page: on one line. The figure of a photo has lines of its own, which are Markdown."""
_RAW = re.compile(rf'{_PICTURE.pattern}|<div class="bm-workings">.*?</div>', re.DOTALL)
"""What Markdown leaves as it is; the workings hold places that other pages lead to."""
_KEYED_HEADING = re.compile(r'<h[23] id="([^"]+)">[^\n]*<small class="bm-key">([^<]*)</small>')
"""A heading with the name that its goods have in the spec."""
_ID = re.compile(r'<p id="([^"]+)"')
"""Such a place."""
_PLACE = '<figure id="bm-picture-{}"></figure>'
_NOT_THERE = "404.html"
_DOCS = "docs/"
"""Where the pages of a project are."""
_EARLIER_MARK = b'<meta name="bench-manual"'
"""It is in the head of every page; marks the site of a version that wrote no manifest into it."""


_THEME = CompiledTemplates()
_FRESH, _OLD = "fresh", "old"
"""The new site and the old one, in the working folder beside the site."""


class SiteError(Exception):
    """A folder of pages that MkDocs refuses, or a site that cannot be served where it should be."""


@dataclass(frozen=True)
class Late:
    """Files of the project that its pages only link to: their paths, and all files when the site is built but for them.

    So they can be made while MkDocs works on the pages.
    """

    names: Sequence[str] = ()
    files: Callable[[], Mapping[str, bytes]] = dict


def build_site(pages_dir: Path, site_dir: Path, late: Late = Late()) -> None:
    """Build the MkDocs project `pages_dir` (`mkdocs.yml`, `docs/`) into `site_dir`; every warning is a fault.

    The site is built beside `site_dir` and then swapped in, so a failed build leaves the old site untouched. What a
    killed build left is cleared; the folder above must be held by the caller (`output.claimed`) or be its own.
    Raises SiteError with all that MkDocs had to say, FolderError when `site_dir` holds what somebody else put there.
    """
    require_replaceable(site_dir)
    # MkDocs would take a relative folder as lying beside its configuration
    pages_dir, site_dir = pages_dir.resolve(), site_dir.resolve()
    site_dir.parent.mkdir(parents=True, exist_ok=True)
    clear_left_over(site_dir)
    with TemporaryDirectory(prefix=f".{site_dir.name}-", dir=site_dir.parent) as beside:
        fresh = Path(beside, _FRESH)
        mark(fresh)
        _run_mkdocs(pages_dir, fresh, late)
        prune(fresh)
        _swap_in(fresh, site_dir, retired=Path(beside, _OLD))


class PageMaker:
    """Makes single pages of a MkDocs project as `build_site` would, without building the others.

    The project's pages may be empty: their Markdown comes with each call. They are not entered for the search.
    """

    def __init__(self, pages_dir: Path) -> None:
        with _mkdocs_warnings():
            config = load_config(str(pages_dir.resolve() / "mkdocs.yml"))
            config.markdown_extensions.append(QuickTexts())
            config.plugins.on_startup(command="serve", dirty=False)
            self._config = config.plugins.on_config(config)
            self._templates = _kept(config.theme.get_env())
            self._files = get_files(config)
            self._files.add_files_from_theme(self._templates, config)
            set_exclusions(self._files, config)
            self._nav = get_navigation(self._files, config)

    def make(self, file: str, markdown: str, facts: Mapping[str, Any]) -> str:
        """The page of one Markdown file as HTML; `facts` are `site_name` and what belongs under `extra`."""
        found = self._files.get_file_from_path(file)
        page = found.page if found else None
        if page is None:
            raise SiteError(f"{file} is not a page of this manual")
        self._config.site_name = facts["site_name"]
        self._config.extra.update(facts)
        page.markdown, raw = put_aside(markdown, _RAW)
        page.meta = {}
        with _mkdocs_warnings():
            page.render(self._config, self._files)
        _name_as_read(page.toc, page.content or "")
        page.content = unbroken(page.content or "")
        page.active = True
        try:
            context = get_context(self._nav, self._files, self._config, page)
            return put_back(self._templates.get_template("main.html").render(context), raw)
        finally:
            page.active = False


def put_aside(markdown: str, pattern: re.Pattern[str]) -> tuple[str, list[str]]:
    """The page with an empty figure for each part of the pattern, and the parts.

    Markdown leaves them as they are, but would read them to their end several times over.
    """
    parts = pattern.findall(markdown)
    numbers = count()
    return pattern.sub(lambda _: _PLACE.format(next(numbers)), markdown), parts


def put_back(text: str, parts: Sequence[str]) -> str:
    """The page with its parts where they were taken out."""
    for number, part in enumerate(parts):
        text = text.replace(_PLACE.format(number), part)
    return text


def _name_as_read(toc: Iterable[AnchorLink], html: str) -> None:
    """Leave the names that goods have in the spec out of a page's contents, where what they are is said before."""
    titles = {place: unescape(key) for place, key in _KEYED_HEADING.findall(html)}
    links = [each for top in toc for each in (top, *top.children)]
    shorter = {
        each.id: escape(unescape(each.title).removesuffix(f" {titles[each.id]}"), quote=False)
        for each in links
        if each.id in titles
    }
    for each in links:
        if each.id in shorter and list(shorter.values()).count(shorter[each.id]) == 1:
            each.title = shorter[each.id]


class _OurWay(BasePlugin):  # type: ignore[type-arg, no-untyped-call]
    """Takes drawings and workings out of each page while MkDocs works on it; the search index needs neither.

    The page of what is not there gets relative links, as all others have: a manual may be in any folder of a server.
    """

    def __init__(self, late: Late) -> None:
        super().__init__()
        self._late = late
        self._raw: dict[str, list[str]] = {}
        self._root = "/"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        self._root = f"{urlsplit(config.site_url or '').path.rstrip('/')}/"
        config.markdown_extensions.append(QuickTexts())
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        for name in self._late.names:
            path = name.removeprefix(_DOCS)
            if earlier := files.get_file_from_path(path):
                files.remove(earlier)
            files.append(File.generated(config, path, content=b""))
        return files

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        made = self._late.files()
        for name in self._late.names:
            Path(config.site_dir, name.removeprefix(_DOCS)).write_bytes(made[name])

    def on_env(self, env: Environment, **_: Any) -> Environment:
        return _kept(env)

    def on_page_markdown(self, markdown: str, *, page: Page, **_: Any) -> str:
        text, self._raw[page.file.src_uri] = put_aside(markdown, _RAW)
        return text

    def on_page_content(self, html: str, *, page: Page, **_: Any) -> str:
        if page.present_anchor_ids is not None:
            for part in self._raw[page.file.src_uri]:
                page.present_anchor_ids.update(_ID.findall(part))
        _name_as_read(page.toc, html)
        return unbroken(html)

    def on_post_page(self, output: str, *, page: Page, **_: Any) -> str:
        return put_back(output, self._raw.pop(page.file.src_uri))

    def on_post_template(self, output: str, *, template_name: str, **_: Any) -> str:
        return _from_here(output, self._root) if template_name == _NOT_THERE else output


def _kept(templates: Environment) -> Environment:
    """The templates of the theme, compiled once for all sites that this process builds."""
    templates.bytecode_cache = _THEME
    if templates.loader is not None:
        templates.loader = _Valid(templates.loader)
    return templates


class _Valid(BaseLoader):
    """The theme's templates as valid HTML: a box to tick has no `autocomplete`."""

    def __init__(self, theme: BaseLoader) -> None:
        self._theme = theme

    def get_source(
        self, environment: Environment, template: str
    ) -> tuple[str, str | None, Callable[[], bool] | None]:
        text, file, fresh = self._theme.get_source(environment, template)
        return text.replace(' autocomplete="off">', ">") if template == "base.html" else text, file, fresh

    def list_templates(self) -> list[str]:
        return self._theme.list_templates()


def _from_here(page: str, root: str) -> str:
    """A page whose links begin at its own folder, not at the root of the server."""
    return re.sub(rf'((?:href|src)="){re.escape(root)}', r"\1", page)


def _run_mkdocs(pages_dir: Path, site_dir: Path, late: Late) -> None:
    with _mkdocs_warnings() as warnings:
        try:
            config = load_config(str(pages_dir / "mkdocs.yml"), site_dir=str(site_dir), strict=True)
            config.plugins["bench-manual"] = _OurWay(late)
            config.plugins.on_startup(command="build", dirty=False)
            try:
                build(config)
            finally:
                config.plugins.on_shutdown()
        except MkDocsException as error:  # Abort is one too, and a SystemExit besides.
            raise SiteError("\n".join([*warnings, str(error)])) from error


@contextmanager
def _mkdocs_warnings() -> Iterator[list[str]]:
    """Keep MkDocs' log off the screen and hand over its warnings and errors instead."""
    messages: list[str] = []
    handler = logging.Handler(logging.WARNING)
    handler.emit = lambda record: messages.append(record.getMessage())  # type: ignore[method-assign]
    logger = logging.getLogger("mkdocs")
    propagated, logger.propagate = logger.propagate, False
    logger.addHandler(handler)
    try:
        yield messages
    finally:
        logger.removeHandler(handler)
        logger.propagate = propagated


def prune(site_dir: Path) -> None:
    """Remove `PRUNED` from a built site, and the list of pages of a private one."""
    sitemap = site_dir / SITEMAP
    private = sitemap.is_file() and b"<loc>" not in sitemap.read_bytes()
    for pattern in (*PRUNED, *((SITEMAP,) if private else ())):
        for path in list(site_dir.glob(pattern)):
            shutil.rmtree(path) if path.is_dir() else path.unlink()


def require_replaceable(site_dir: Path) -> None:
    """Raise FolderError when `site_dir` is a link or holds what is not a site: nobody's files are swapped out."""
    require_no_link(site_dir)
    require_own(site_dir, _is_earlier_site)


def mend_site(site_dir: Path) -> None:
    """Put the old site back where a build died between taking it away and putting the new one there."""
    if not site_dir.exists():
        for old in (left / _OLD for left in _left_over(site_dir)):
            if is_site(old):
                old.rename(site_dir)
                return


def clear_left_over(site_dir: Path) -> None:
    """Remove what builds of this site left that are dead; the caller holds the folder, so that all of them are."""
    mend_site(site_dir)
    for left in _left_over(site_dir):
        shutil.rmtree(left)


def is_site(folder: Path) -> bool:
    """Whether a folder has the mark of a site that this program or an earlier version built."""
    return not folder.is_symlink() and (is_plain_file(folder / MANIFEST) or _is_earlier_site(folder))


def _is_earlier_site(site_dir: Path) -> bool:
    page = site_dir / "404.html"
    return is_plain_file(page) and _EARLIER_MARK in page.read_bytes()


def _left_over(site_dir: Path) -> list[Path]:
    """The working folders beside a site whose builds are dead; a folder of that name with anything else in it stays."""
    form = re.compile(rf"\.{re.escape(site_dir.name)}-[a-z0-9_]{{8}}")
    beside = site_dir.parent.iterdir() if site_dir.parent.is_dir() else ()
    return [path for path in sorted(beside) if form.fullmatch(path.name) and _is_work(path)]


def _is_work(path: Path) -> bool:
    return (
        path.is_dir()
        and not path.is_symlink()
        and all(inner.name in (_FRESH, _OLD) and not inner.is_symlink() for inner in path.iterdir())
    )


def _swap_in(fresh: Path, site_dir: Path, retired: Path) -> None:
    if site_dir.exists():
        site_dir.rename(retired)
    try:
        fresh.rename(site_dir)
    except OSError:
        if retired.exists():
            retired.rename(site_dir)
        raise
