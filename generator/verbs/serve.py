"""`serve`: the manual while its spec is written."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import click

from generator.verbs.options import BAR, FONT, SPEC
from generator.verbs.saying import GOOD, fail


@click.command()
@SPEC
@click.option("--host", default="127.0.0.1", show_default=True, help="Address to listen on.")
@click.option(
    "--lan", is_flag=True, help="Let other devices on this network read the manual, such as a tablet."
)
@click.option(
    "--port",
    default=8000,
    show_default=True,
    type=click.IntRange(0, 65535),
    help="Port: the number at the end of the address. 0 takes any free one.",
)
@BAR
@FONT
def serve(
    spec: Path, host: str, lan: bool, port: int, bar: tuple[Fraction, Fraction] | None, font: Path | None
) -> int:
    """Show the manual of SPEC in the browser and update it at every save of the spec. Nothing is written."""
    from generator.figures.compute import figures_of
    from generator.live import ANYWHERE, network_address, serve_live
    from generator.manual import Manual
    from generator.prints.print import PrintOptions
    from generator.site import SiteError
    from generator.spec.load import read_spec_file
    from generator.spec.neighbours import neighbour_files
    from generator.spec.record import record_path
    from generator.spec.text_file import read_text

    read_text(spec)  # a spec with faults is served and followed; a name that is no file was misspelt

    def compile_spec() -> Manual:
        loaded = read_spec_file(spec)
        values, _ = figures_of(loaded)
        return Manual(loaded, values, spec.name, PrintOptions(bar, font))

    def ready(url: str) -> None:
        click.echo(f"Serving {url} (stop with Ctrl+C)")
        if lan or host == ANYWHERE:
            address = network_address()
            place = f"http://{address}:{url.rsplit(':', 1)[1]}" if address else "no network was found"
            click.echo(f"On this network: {place} (everyone on the network can read the manual)")

    try:
        serve_live(
            compile_spec,
            [spec, record_path(spec), *neighbour_files(spec)],
            ANYWHERE if lan else host,
            port,
            on_ready=ready,
            on_fault=lambda message: click.echo(message, err=True),
        )
    except SiteError as error:
        return fail(str(error))
    return GOOD
