"""`schema`: the language for an editor."""

from __future__ import annotations

import click

from generator.verbs.saying import GOOD


@click.command()
def schema() -> int:
    """Print the JSON Schema of the spec language, for editors."""
    from generator.spec.json_schema import schema_json

    click.echo(schema_json(), nl=False)
    return GOOD
