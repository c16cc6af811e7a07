"""The folder of Markdown → the static site, with MkDocs as a library."""

from __future__ import annotations

import logging
import shutil
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException
from mkdocs.livereload import LiveReloadServer

PRUNED = ("**/*.map", "assets/javascripts/lunr", "sitemap.xml*")
"""What no reader of an English manual on a tablet needs: six sevenths of the theme's bytes."""
_SITE_MARK = "404.html"
"""A page that every theme makes and no other folder has."""


class SiteError(Exception):
    """A folder of pages that MkDocs refuses, or a site that cannot be put or served where it should be."""


def build_site(pages_dir: Path, site_dir: Path) -> None:
    """Build the MkDocs project `pages_dir` (`mkdocs.yml`, `docs/`) into `site_dir`; every warning is a fault.

    The site is built beside `site_dir` and then swapped in, so a failed build leaves the old site untouched.
    Raises SiteError with all that MkDocs had to say, or when `site_dir` holds files that are not a site.
    """
    # MkDocs would take a relative folder as lying beside its configuration
    pages_dir, site_dir = pages_dir.resolve(), site_dir.resolve()
    _require_replaceable(site_dir)
    site_dir.parent.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix=f".{site_dir.name}-", dir=site_dir.parent) as beside:
        fresh = Path(beside, "fresh")
        fresh.mkdir()
        _run_mkdocs(pages_dir, fresh)
        prune(fresh)
        _swap_in(fresh, site_dir, retired=Path(beside, "old"))


def _to_stderr(message: str) -> None:
    sys.stderr.write(f"{message}\n")


def serve_site(
    pages_dir: Path,
    host: str = "127.0.0.1",
    port: int = 8000,
    *,
    rebuild: Callable[[], None],
    watch: Sequence[Path],
    on_ready: Callable[[str], None],
    on_error: Callable[[str], None] = _to_stderr,
) -> None:
    """Serve the site of `pages_dir` until interrupted, and renew it whenever a file of `watch` changes.

    `rebuild` writes `pages_dir` anew. It runs once before the first page is served, where its errors pass
    through, and after each change, where they go to `on_error` and the last good site stays. `on_ready` gets
    the address. A file of `watch` need not exist yet, its folder must. Raises SiteError when the pages cannot
    be built or the port cannot be had.
    """
    with TemporaryDirectory(prefix="bench-manual-") as work, _mkdocs_warnings():
        site_dir = Path(work, "site")
        rebuild()
        build_site(pages_dir, site_dir)
        seen = _contents(watch)

        def renew() -> None:
            nonlocal seen
            if (now := _contents(watch)) == seen:
                return
            seen = now
            try:
                rebuild()
                build_site(pages_dir, site_dir)
            except Exception as error:  # whatever a half-edited spec does, the server lives on
                on_error(str(error))

        server = _Server(renew, host, port, site_dir, on_ready)
        # Folders, not files: an editor that saves by replacing the file would end the watch on it.
        for folder in sorted({path.resolve().parent for path in watch}):
            server.watch(str(folder), recursive=False)
        try:
            server.serve()  # type: ignore[no-untyped-call] # MkDocs leaves it untyped
        except KeyboardInterrupt:
            pass
        finally:
            server.shutdown()


class _Server(LiveReloadServer):
    """MkDocs' own live server, which also tells when and where it listens."""

    def __init__(
        self, builder: Callable[[], None], host: str, port: int, root: Path, on_ready: Callable[[str], None]
    ) -> None:
        super().__init__(builder, host, port, str(root))
        self.host = host
        self.on_ready = on_ready

    def server_bind(self) -> None:
        try:
            super().server_bind()
        except OSError as error:
            raise SiteError(f"cannot serve on {self.url}: {error.strerror}") from error

    def server_activate(self) -> None:
        super().server_activate()
        self.on_ready(f"http://{self.host}:{self.server_port}/")


def _contents(paths: Sequence[Path]) -> list[bytes | None]:
    return [path.read_bytes() if path.is_file() else None for path in paths]


def _run_mkdocs(pages_dir: Path, site_dir: Path) -> None:
    with _mkdocs_warnings() as warnings:
        try:
            config = load_config(str(pages_dir / "mkdocs.yml"), site_dir=str(site_dir), strict=True)
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
    """Remove `PRUNED` from a built site."""
    for pattern in PRUNED:
        for path in list(site_dir.glob(pattern)):
            shutil.rmtree(path) if path.is_dir() else path.unlink()


def _require_replaceable(site_dir: Path) -> None:
    if site_dir.is_dir() and any(site_dir.iterdir()) and not (site_dir / _SITE_MARK).is_file():
        raise SiteError(f"{site_dir} holds files that are not a site; name another folder")


def _swap_in(fresh: Path, site_dir: Path, retired: Path) -> None:
    if site_dir.exists():
        site_dir.rename(retired)
    try:
        fresh.rename(site_dir)
    except OSError:
        if retired.exists():
            retired.rename(site_dir)
        raise
