"""The templates of a manual: what a page's text may do, and how each is kept once it is compiled.

Compiling templates takes longer than filling them, and a server fills them anew at each save.
"""

from __future__ import annotations

from types import CodeType
from typing import Any

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined, pass_context
from jinja2.bccache import Bucket

from generator.pages.literal import literal
from generator.resources import bundled
from generator.writers.thumbnails import thumbnail


class CompiledTemplates(BytecodeCache):
    """Compiled templates by name and text, in memory alone: a template that was changed is compiled anew.

    For environments of equal settings, none of whose filters is applied while a template is compiled.
    """

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill the bucket with what is kept of its template, if anything is."""
        bucket.code = self._kept.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a compiled template."""
        if bucket.code is not None:
            self._kept[bucket.key, bucket.checksum] = bucket.code


_PAGES = CompiledTemplates()


@pass_context
def _shown(_context: object, value: object) -> object:
    """What a template prints, literally. It asks for a context so that no filter is applied before there is one:

    a filter knows the units of its manual, and the compiled template is used for others too.
    """
    return literal(value)


def page_environment() -> Environment:
    """For the Markdown of pages. Whoever fills them adds filters and values of a manual."""
    environment = Environment(
        loader=FileSystemLoader(bundled("site_templates")),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=True,
        finalize=_shown,
        bytecode_cache=_PAGES,
        optimized=False,
    )
    environment.filters["thumbnail"] = thumbnail
    return environment


def filled(template: str, **values: Any) -> str:
    """A file of the project, such as its configuration, with its values."""
    environment = Environment(
        loader=FileSystemLoader(bundled("site_templates")), undefined=StrictUndefined, trim_blocks=True
    )
    # YAML has no pairs of surrogates, as JSON in ASCII writes what is beyond U+FFFF
    environment.policies["json.dumps_kwargs"] = {"ensure_ascii": False}
    return environment.get_template(template).render(values)
