"""The stiffness of a joint: a range, or one number that was measured, and where it comes from."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.findings import SpecError
from generator.provenance import GivenValue, provenance_of
from generator.spec.joints import EndClip
from generator.spec.load import read_spec

SPEC = """spec: 1
title: Joints
bench: {{length: 1500, depth: 800, height: 900}}
materials: {{bar: {{use: profile 40}}}}
hardware:
  end-clip: {{use: end clip M8, stiffness: {stiffness}}}
zones: [{{name: only, depth: share, bays: [{{width: share}}]}}]
"""


def stiffness(written: str) -> tuple[Fraction, Fraction]:
    card = read_spec(SPEC.format(stiffness=written), "joints.yml").spec.hardware["end-clip"]
    assert isinstance(card, EndClip)
    return card.stiffness


@pytest.mark.parametrize(("written", "both"), [("[1.5, 4]", ("1.5", "4")), ("2", ("2", "2"))])
def test_a_range_or_one_number_leads_back_to_its_line(written: str, both: tuple[str, str]) -> None:
    found = stiffness(written)
    assert found == tuple(map(Fraction, both))
    for value, text in zip(found, both, strict=True):
        origin = provenance_of(value)
        assert isinstance(origin, GivenValue)
        assert (origin.origin, origin.line, origin.text) == ("spec", 6, text)


@pytest.mark.parametrize(
    ("written", "code"), [("0", "out-of-range"), ("[1, 0]", "out-of-range"), ("soft", "bad-number")]
)
def test_a_joint_without_stiffness_is_refused_in_its_place(written: str, code: str) -> None:
    with pytest.raises(SpecError) as caught:
        stiffness(written)
    (finding,) = caught.value.findings
    assert (finding.code, finding.where and finding.where.line) == (code, 6)


def test_a_range_is_written_from_its_lower_end() -> None:
    with pytest.raises(SpecError, match=r"must be \[1, 3\]"):
        stiffness("[3, 1]")
