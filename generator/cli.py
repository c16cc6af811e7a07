"""The command line: all verbs, and how each ends."""

from __future__ import annotations

import gc
import io
import os
import sys
from collections.abc import Sequence
from contextlib import suppress

import click

from generator.findings import SpecError
from generator.sharing import cores
from generator.verbs import VERBS
from generator.verbs.saying import GOOD, UNREADABLE, counted, fail, report, unwritten


class _InOrder(click.Group):
    """Commands in the order of the work, each with its first sentence whole."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(
                [
                    (name, f"{(each.help or '').partition('. ')[0].rstrip('.')}.")
                    for name, each in self.commands.items()
                ]
            )


@click.group(
    cls=_InOrder,
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog="\b\nStart with:   bench-manual new my-bench.yml\nthen:         bench-manual serve my-bench.yml\n"
    "More help:    bench-manual COMMAND --help",
)
@click.version_option(package_name="bench-manual")
def commands() -> None:
    """Turn a bench spec into a build manual."""


for verb in VERBS:
    commands.add_command(verb)


def main(arguments: Sequence[str] | None = None, processes: int = 1) -> int:
    """Run one command. Returns its exit status; a faulty spec prints every fault and returns 2.

    `processes` is how many a build takes where its options say nothing.
    """
    try:
        return _told(arguments, processes)
    except BrokenPipeError:  # the reader of a pipe has seen enough
        return GOOD
    except OSError as error:
        with suppress(OSError):  # where standard error takes no more either, the status says it
            unwritten(error, "the output")
        return UNREADABLE


def _told(arguments: Sequence[str] | None, processes: int) -> int:
    """Run one command and say how it ended."""
    try:
        usual = {"build": {"processes": processes}}
        status = commands.main(arguments, prog_name="bench-manual", standalone_mode=False, default_map=usual)
    except SpecError as error:
        report(error.findings)
        return fail(f"{counted(len(error.findings), 'fault')}; nothing was written")
    except click.ClickException as error:
        error.show()
        return error.exit_code
    except (click.Abort, KeyboardInterrupt):
        return 130
    return status if isinstance(status, int) else GOOD


def run() -> None:
    """Entry point of the installed command. Text is UTF-8, whatever the system says."""
    if sys.getfilesystemencoding() == "ascii":  # a system without a language setting
        os.execv(sys.executable, [sys.executable, "-X", "utf8", *sys.orig_argv[1:]])
    # a manual is many small values that all live until it is written: to look for garbage among them so often as
    # Python does by itself takes a tenth of the time
    gc.set_threshold(200_000, 20, 100)
    # the matrices here are small: more threads than one for them only wait for each other
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    streams = [stream for stream in (sys.stdout, sys.stderr) if isinstance(stream, io.TextIOWrapper)]
    for stream in streams:
        # the name of a file goes out as it came in
        stream.reconfigure(encoding="utf-8", errors="surrogateescape")
    status = main(processes=min(2, cores()))
    for stream in streams:
        try:
            stream.flush()
        except OSError:  # said above; Python would try again at its end
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
    sys.exit(status)


if __name__ == "__main__":
    run()
