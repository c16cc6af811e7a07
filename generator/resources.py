"""Where the data that ships with the program is: page templates and specs."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def bundled(name: str) -> Path:
    """Return the folder `name` (`site_templates` or `specs`) of this installation.

    An installed wheel has it inside the package, a checkout beside it. The marker file shows that this is a checkout:
    in a site-packages folder, a neighbour called `specs` would be somebody else's.

    Raises FileNotFoundError when the installation lacks it.
    """
    inside = _PACKAGE / "_bundled" / name
    beside = _PACKAGE.parent / name
    if inside.is_dir():
        return inside
    if (_PACKAGE.parent / "pyproject.toml").is_file() and beside.is_dir():
        return beside
    raise FileNotFoundError(
        f"the folder {name!r} is missing from this installation; install bench-manual again"
    )
