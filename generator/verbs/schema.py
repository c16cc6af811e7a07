"""`schema`: the language for an editor."""

from __future__ import annotations

from pathlib import Path

import click

from generator.verbs.options import OUT_FILE
from generator.verbs.saying import deliver


@click.command()
@click.argument("spec", required=False, type=click.Path(path_type=Path))
@OUT_FILE
def schema(spec: Path | None, out: Path | None) -> int:
    """Print the JSON Schema of the spec language, for editors. With SPEC, keys that name goods also offer the names
    that SPEC has for its own.
    """
    from generator.spec.editor_schema import schema_json
    from generator.spec.reader import read_document
    from generator.spec.text_file import read_text

    data = read_document(read_text(spec), spec.name).data if spec else None
    return deliver(schema_json(data), out)
