"""`schema`: the language for an editor."""

from __future__ import annotations

from pathlib import Path

import click

from generator.verbs.options import OUT_FILE
from generator.verbs.saying import deliver


@click.command()
@OUT_FILE
def schema(out: Path | None) -> int:
    """Print the JSON Schema of the spec language, for editors."""
    from generator.spec.json_schema import schema_json

    return deliver(schema_json(), out)
