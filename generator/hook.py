"""MkDocs hook of the checkout's own mkdocs.yml: `mkdocs build` and `serve` make the manual of `extra.spec`.

The pages go to `build/<spec name>/pages`, where they can be read; no manual needs this hook.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer

from generator.findings import SpecError
from generator.manual import compile_spec_file
from generator.output import FolderError, claimed, write_changed
from generator.site import prune


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Compile the spec and point MkDocs at the pages. Runs before each build, so also after each change."""
    spec = _spec_file(config)
    folder = _root(config) / "build" / spec.stem
    pages = folder / "pages"
    try:
        files = compile_spec_file(spec)
        with claimed(folder, "manual", lambda: None):
            write_changed(files, pages)
    except (SpecError, FolderError) as error:
        raise PluginError(str(error)) from error
    manual = yaml.safe_load(files["mkdocs.yml"])
    config.docs_dir = str(pages / "docs")
    config.extra.update(manual["extra"])
    config.site_name = manual["site_name"]
    config.nav = manual["nav"]
    config.copyright = manual.get("copyright")
    return config


def on_post_build(config: MkDocsConfig) -> None:
    """Leave the same files as `bench-manual build` does."""
    prune(Path(config.site_dir))


def on_serve(server: LiveReloadServer, config: MkDocsConfig, **_: Any) -> LiveReloadServer:
    """Watch the spec's folder (with the build record) instead of the pages, which each build may rewrite."""
    server.unwatch(config.docs_dir)
    server.watch(str(_spec_file(config).parent), recursive=False)
    return server


def _spec_file(config: MkDocsConfig) -> Path:
    return _root(config) / str(config.extra["spec"])


def _root(config: MkDocsConfig) -> Path:
    return Path(config.config_file_path).parent
