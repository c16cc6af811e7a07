"""Any change of the worked bench is solved or refused."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import SpecError
from generator.spec.load import LoadedSpec, read_spec
from generator.writers.figures_json import figures_json
from tests.effort import examples
from tests.test_spec_faults import DEMO

# --- any text

WORDS = (
    "", "0", "-1", "1", "2", "6", "1e3", "No", "[]", "{}", "share", "share 3", "5 in", "3 ft 2 in", "999999", "~",
    "0.001", "bar", "ply-12", "end-clip", "through-screw", "slide", "caster", "poplar-15", "[1, 2]", "{a: 1}",
    "20 kg", "100 m", "rails", "posts", "profile", "sheet", "strip", "x", "40", "500", "1/3", "M8x25", "tote-145",
    "plywood 12", "profile 40", "slide 500", "[dividers]", "[spine]", "[back, ends]", "true", "'", '"', "&a", "*a",
    "!!x", "1500",
)  # fmt: skip


VALUE = re.compile(r"(?<=[:\[,] )[^,\[\]{}\n#]+")


KEY = re.compile(r"[a-z_]+(?=:)")


KEYS = tuple(dict.fromkeys(match.group() for match in KEY.finditer(DEMO)))


#: Where a small number asks for more work than a test has time for.
HEAVY = ("pitch",)


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """The demo with up to three changes: lines dropped, doubled, moved or indented, values or keys replaced."""
    text = DEMO
    for _ in range(draw(st.integers(1, 3))):
        act = draw(
            st.sampled_from(["value", "value", "value", "key", "slip", "drop", "double", "indent", "swap"])
        )
        if act in ("value", "key", "slip"):
            spots = list((VALUE if act == "value" else KEY).finditer(text))
            spots = [spot for spot in spots if not text[: spot.start()].rstrip(": ").endswith(HEAVY)]
            spot = draw(st.sampled_from(spots))
            words = {"value": WORDS, "key": KEYS, "slip": (spot.group()[1:], spot.group() + "s")}[act]
            text = text[: spot.start()] + draw(st.sampled_from(words)) + text[spot.end() :]
            continue
        lines = text.split("\n")
        at, other = (draw(st.integers(0, len(lines) - 1)) for _ in "ab")
        if act == "swap":
            lines[at], lines[other] = lines[other], lines[at]
        else:
            lines[at : at + 1] = {"drop": [], "double": [lines[at]] * 2, "indent": [f"  {lines[at]}"]}[act]
        text = "\n".join(lines)
    return text


def read_or_none(text: str) -> LoadedSpec | None:
    try:
        return read_spec(text, "bench.yml")
    except SpecError as error:
        assert error.findings
        assert all(finding.where and finding.where.line >= 1 and str(finding) for finding in error.findings)
        return None


@settings(max_examples=examples(30, 120), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(mutated())
def test_any_change_of_the_demo_is_solved_or_refused(text: str) -> None:
    loaded = read_or_none(text)
    if loaded is None:
        return
    try:
        bench = solve(loaded)
    except SpecError as error:
        assert error.findings
        return
    figures_json(compute(bench)[0])


def test_a_wrong_key_that_is_named_like_its_kind_is_told() -> None:
    text = DEMO.replace("rating: 180 kg}", "caster}")
    assert text != DEMO
    with pytest.raises(SpecError) as caught:
        read_spec(text, "demo.yml")
    found = [(each.code, each.where.path) for each in caught.value.findings if each.where]
    assert ("unknown-key", "hardware.caster.caster") in found
