"""A build goes through the floors once: what a lower floor makes is there before a higher one begins.

Floors 0 to 2 are tools, which hold nothing of a build; those from 6 to 8 make one file after the other, as the manual
asks for it. So a build has four stages, each begun by one function.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import CodeType, FrameType

import pytest

from tests.test_floors import PACKAGE

ONE_DRAWER = """
spec: 1
title: One drawer
units: mm
bench: {length: 700, depth: 600, height: 900}
materials:
  bar: {use: profile 40}
  ply-12: {use: plywood 12}
zones:
  - name: front
    depth: share
    bays:
      - {width: share, stack: [{drawer: share}]}
"""

#: A stage: the function that begins it, and the rooms whose work is done by then.
STAGES = {
    "bench/solve.py:solve": {"spec"},
    "figures/compute.py:compute": {"spec", "bench"},
    "manual.py:Manual.__init__": {"spec", "bench", "figures"},
    "site.py:build_site": {"spec", "bench", "figures", "drawings", "pages", "prints", "writers", "manual"},
}

CARD = "the card behind a name of the spec is looked up"
PLACE = "a finding says where in the text its key stands"
ANSWER = "a frozen value answers for itself: a piece's length, a place in words, a length in the spec's unit"
FACTS = "kinds are asked for their facts"
PROOF = (
    "the order is proved when its figures are asked for: an entry of the record and a comparison need none"
)
WORKINGS = "workings lie in the figures' numbers; only pages take them apart, once"
WORDS = "words and choices of rows that only pages and prints need"

#: What is entered again by a stage, a module or a room, and why. Only fewer.
AGAIN = {
    "bench/solve.py:solve": {
        "spec/chosen.py": CARD,
        "spec/members.py": CARD,
        "spec/fields.py": ANSWER,
        "spec/load.py": ANSWER,
        "spec/tops/": ANSWER,
    },
    "figures/compute.py:compute": {
        "spec/references.py": CARD,
        "spec/document.py": PLACE,
        "spec/measured.py": PLACE,
        "spec/labels.py": ANSWER,
        "spec/fields.py": ANSWER,
        "spec/load.py": ANSWER,
        "bench/driven.py": ANSWER,
        "bench/layout.py": ANSWER,
        "bench/model.py": ANSWER,
        "bench/piece.py": ANSWER,
        "bench/place.py": ANSWER,
        "bench/fillings/": FACTS,
        "bench/frames/": FACTS,
        "bench/joints/": FACTS,
        "bench/stands/": FACTS,
        "bench/tops/": FACTS,
        "bench/law.py": FACTS,
        "bench/openings.py": FACTS,
        "bench/regions.py": ANSWER,
        "spec/tops/": ANSWER,
        "bench/remedies.py": FACTS,
        "bench/assembly_proof.py": PROOF,
        "bench/box_body.py": PROOF,
        "bench/fasteners.py": PROOF,
        "bench/late_fasteners.py": PROOF,
        "bench/order.py": PROOF,
        "bench/solids.py": PROOF,
    },
    "manual.py:Manual.__init__": {
        "spec/json_schema.py": "the language's own page is made from its schema",
        "spec/tops/": "the language's own page is made from its schema",
        "spec/labels.py": ANSWER,
        "spec/texts.py": "letters that the letters of the PDFs lack are looked for in the spec's texts",
        "spec/document.py": PLACE,
        "spec/measured.py": PLACE,
        "bench/piece.py": ANSWER,
        "figures/model.py": ANSWER,
        "figures/rows/": ANSWER,
        "figures/calculations.py": WORKINGS,
        "figures/number_names.py": WORKINGS,
        "figures/unit_algebra.py": WORKINGS,
        "figures/workings.py": WORKINGS,
        "figures/cautions.py": WORDS,
        "figures/compare.py": WORDS,
        "figures/homes.py": WORDS,
        "figures/record.py": WORDS,
        "figures/steps/": WORDS,
    },
    "site.py:build_site": {},
}


def entered(run: Callable[[], object]) -> set[tuple[str, str]]:
    """Modules of lower floors that run after a stage has begun, each with the stage."""
    place: dict[CodeType, tuple[str, str] | None] = {}
    found: set[tuple[str, str]] = set()
    stages = list(STAGES)
    begun: list[str] = []

    def look(frame: FrameType, event: str, _: object) -> None:
        code = frame.f_code
        if code not in place:
            place[code] = _place(code)
        here = place[code]
        if here is None:
            return
        module, name = here
        if name in stages and (not begun or stages.index(name) > stages.index(begun[-1])):
            begun.append(name)
        if begun and module.split("/")[0].removesuffix(".py") in STAGES[begun[-1]]:
            found.add((begun[-1], module))

    before = sys.gettrace()
    sys.settrace(look)  # it answers None, so that calls alone are traced, no lines
    try:
        run()
    finally:
        sys.settrace(before)
    assert begun == stages
    return found


def _place(code: CodeType) -> tuple[str, str] | None:
    """The module and the function's name; None for what is not ours, and for the making of a module by an import."""
    path = Path(code.co_filename)
    if not path.is_relative_to(PACKAGE) or code.co_name == "<module>":
        return None
    module = path.relative_to(PACKAGE).as_posix()
    return module, f"{module}:{code.co_qualname}"


#: A process of its own: what an earlier test has put into a cache would not be entered.
BUILD = """
import json
from pathlib import Path
from generator.cli import main
from tests.test_trace import entered
found = entered(lambda: main(["build", "one.yml"]))
Path("found.json").write_text(json.dumps(sorted(found)), encoding="utf-8")
"""


@pytest.mark.thorough
def test_a_lower_floor_is_not_entered_again(tmp_path: Path) -> None:
    (tmp_path / "one.yml").write_text(ONE_DRAWER, encoding="utf-8")
    path = os.pathsep.join([str(PACKAGE.parent), *sys.path])
    subprocess.run(
        [sys.executable, "-c", BUILD], cwd=tmp_path, env={**os.environ, "PYTHONPATH": path}, check=True
    )
    found = {(at, module) for at, module in json.loads((tmp_path / "found.json").read_text(encoding="utf-8"))}
    listed = {(stage, prefix) for stage, reasons in AGAIN.items() for prefix in reasons}

    def is_listed(stage: str, module: str) -> bool:
        return any(stage == at and module.startswith(prefix) for at, prefix in listed)

    assert sorted(each for each in found if not is_listed(*each)) == []
    needless = [
        (at, prefix)
        for at, prefix in listed
        if not any(stage == at and module.startswith(prefix) for stage, module in found)
    ]
    assert sorted(needless) == []
