"""What is of other projects is listed with origin, licence and version, and is as it was published."""

from __future__ import annotations

import hashlib
import re

import yaml
from fontTools.ttLib import TTFont

from generator.resources import bundled

SHIPPED = bundled("site_templates")
LISTED = yaml.safe_load((SHIPPED / "third-party.yml").read_text(encoding="utf-8"))
LICENCE = re.compile(rb"copyright|permission is hereby granted", re.IGNORECASE)


def test_every_part_of_another_project_is_listed() -> None:
    others = [
        path
        for path in SHIPPED.rglob("*")
        if path.is_file() and path.name not in ("LICENSE.txt", "third-party.yml")
    ]
    found = {
        path.relative_to(SHIPPED).as_posix()
        for path in others
        if path.parent.name == "fonts"
        or (path.suffix in (".js", ".css") and LICENCE.search(path.read_bytes()))
    }
    assert found == {each["file"] for each in LISTED}
    for each in LISTED:
        assert all(each[key] for key in ("what", "origin", "version", "licence"))


def test_each_is_as_it_was_published() -> None:
    for each in LISTED:
        data = (SHIPPED / each["file"]).read_bytes()
        assert hashlib.sha256(data).hexdigest() == each["sha256"], each["file"]
        version = data[:200].decode(errors="replace")
        if each["file"].endswith(".ttf"):
            with TTFont(SHIPPED / each["file"]) as font:
                version = font["name"].getDebugName(5)
        assert each["version"] in version
