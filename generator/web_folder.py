"""A folder for a web server: the newest manual, and each revision that was published before beside it.

`FOLDER` has the newest manual, `FOLDER/rev-B` the same pages under the name of their revision, where they stay when
the next one comes, and a list of all revisions. All links are relative, so the folder may be anywhere on a server.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from generator.disk import is_plain_file
from generator.names import file_stem
from generator.output import MANIFEST, write_changed
from generator.resources import bundled

LIST, DATA = "all-revisions.html", "all-revisions.json"
"""The page that lists the revisions, and what the next run reads of it."""


@dataclass(frozen=True)
class Issue:
    """A revision of a bench that is published; `title` is the bench's."""

    title: str
    number: str
    date: str
    reason: str

    @property
    def folder(self) -> str:
        """Where its manual is, beside the newest."""
        return f"rev-{file_stem(self.number).lower()}"


def publish(site: Path, folder: Path, issue: Issue) -> list[Issue]:
    """Put a built site into `folder` as the newest manual and under its revision; all revisions there, newest first.

    A revision that is published again takes its own place. Raises FolderError as `write_changed` does.
    """
    files = {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in site.rglob("*")
        if is_plain_file(path) and path.name != MANIFEST
    }
    others = [each for each in _published(folder) if each.folder != issue.folder]
    revisions = [issue, *others]
    data = json.dumps([asdict(each) for each in revisions], indent=1, ensure_ascii=False).encode()
    write_changed(
        files | {LIST: rendered("revisions.html.jinja", revisions=revisions, up=""), DATA: data}, folder
    )
    up = rendered("revisions.html.jinja", revisions=revisions[:1], up="../")
    write_changed(files | {LIST: up}, folder / issue.folder)
    return revisions


def _published(folder: Path) -> Sequence[Issue]:
    """What a former run listed, as far as its manuals are there. What it cannot have written is passed over."""
    try:
        data = json.loads((folder / DATA).read_bytes()) if is_plain_file(folder / DATA) else []
        found = [Issue(**each) for each in data]
        return [each for each in found if is_plain_file(folder / each.folder / "index.html")]
    except (OSError, ValueError, TypeError, AttributeError):
        return []


def rendered(template: str, **values: object) -> bytes:
    """A page that stands alone, from a template of the house."""
    environment = Environment(
        loader=FileSystemLoader(bundled("site_templates")),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    return environment.get_template(template).render(values).encode()
