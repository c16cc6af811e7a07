"""An earlier version of a spec and its record, as the version control of its folder kept it."""

from __future__ import annotations

import subprocess
from pathlib import Path

from generator.spec.load import LoadedSpec, RecordText, read_spec
from generator.spec.neighbours import texts_in, with_neighbours
from generator.spec.record import record_path

GIT_SECONDS = 60
"""Seconds after which git hangs."""


class EarlierError(Exception):
    """There is no such earlier version to be had; the text says why."""


def earlier_spec(spec: Path, revision: str) -> LoadedSpec:
    """The spec as it was at a revision of git (`HEAD~3`, a tag, a commit).

    Raises EarlierError, or SpecError when it was faulty then.
    """
    text = _shown(spec.parent, revision, spec.name)
    name = f"{spec.name} at {revision}"
    record = record_path(spec).name
    try:
        kept: RecordText | None = RecordText(_shown(spec.parent, revision, record), f"{record} at {revision}")
    except EarlierError:
        kept = None
    return with_neighbours(
        read_spec(text, name, kept), lambda other: _beside(spec, revision, other), read_spec
    )


def _beside(spec: Path, revision: str, name: str) -> str:
    """The spec of another bench as it was then; as it is now where that revision does not have it."""
    try:
        return _shown(spec.parent, revision, name)
    except EarlierError:
        return texts_in(spec.parent)(name)


def _shown(folder: Path, revision: str, name: str) -> str:
    if not revision or revision.startswith("-") or ":" in revision:
        raise EarlierError(f"{revision!r} is not a revision; write for instance HEAD~1 or the name of a tag")
    command = ["git", "-C", str(folder or "."), "show", f"{revision}:./{name}"]
    try:
        done = subprocess.run(command, capture_output=True, timeout=GIT_SECONDS)
    except FileNotFoundError:
        raise EarlierError(
            "git is not installed, so there is no earlier version; name two files instead"
        ) from None
    except (OSError, ValueError) as error:
        raise EarlierError(f"git cannot be started: {error}") from None
    except subprocess.TimeoutExpired:
        raise EarlierError(f"git did not answer within {GIT_SECONDS} seconds") from None
    if done.returncode:
        if b"not a git repository" in done.stderr:
            raise EarlierError(
                f"the folder of {name} is not in git, so there is no earlier version; name two files instead"
            )
        why = done.stderr.decode(errors="replace").strip().splitlines()
        raise EarlierError(f"git has no {name} at {revision}: {why[0] if why else 'no reason given'}")
    try:
        return done.stdout.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise EarlierError(f"{name} at {revision} is not UTF-8 text") from None
