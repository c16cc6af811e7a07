"""What joints are judged by: each law of the worked clip and screw, its limit by hand, and a longer screw."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import pytest

from generator.bench.joints import JOINTS, holds, suits
from generator.bench.joints.screws import longer_screw, shorter_screw
from generator.bench.law import Case, Verdict
from generator.findings import Change
from generator.spec.load import LoadedSpec, read_spec
from generator.spec.samples import sample_text
from tests.bench.benches import DEMO, solved

IN_SLOTS = ("end-clip", "through-screw")


def verdicts(loaded: LoadedSpec, names: Sequence[str] = IN_SLOTS) -> list[Verdict]:
    goods = loaded.goods
    return [each for name in names for how in (holds, suits) for each in how(goods, name)]


@pytest.mark.parametrize(
    ("code", "old", "new", "value", "limit"),
    [
        # lip 4.5 + clip 3 + head 5; the slot is 12.3 deep
        ("clip-stack", "head_height: 4.4", "head_height: 5", "12.5", "12.3"),
        # 23 less lip and clip; two diameters in aluminium
        ("clip-thread", "M8x25", "M8x23", "15.5", "16"),
        # mouth 8.2, and 2 more to bear on; hollow 15
        ("clip-mouth", "clip: [36, 14, 3]", "clip: [36, 10.1, 3]", "10.1", "10.2"),
        ("clip-undercut", "clip: [36, 14, 3]", "clip: [36, 15.1, 3]", "15.1", "15"),
        ("bolt-mouth", "opening: 8.2", "opening: 7.9", "8", "7.9"),
        # a key of 5 across flats is 5.77 over its corners
        ("access-key", "access_hole: 8", "access_hole: 5.7", "5.7", "5.7735"),
        # 42 less the 26.5 that are left of the bar below the counterbore; two diameters
        ("through-thread", "M8x45", "M8x42", "15.5", "16"),
        ("counterbore", "depth: 13.5", "depth: 12.2", "12.2", "12.3"),
        # the head of M8 is 13 across and 8 high (ISO 4762)
        ("head-counterbore", "diameter: 14", "diameter: 12.9", "12.9", "13"),
        ("head-proud", "depth: 13.5", "depth: 7.9", "7.9", "8"),
        # 40 less the slot of 12.3 and 3 of metal
        ("counterbore-through", "depth: 13.5", "depth: 24.8", "24.8", "24.7"),
        ("screw-hole", "hole: 9", "hole: 7.9", "7.9", "8"),
        # half of thread and head: (8 + 13) / 2
        ("screw-hole-wide", "hole: 9", "hole: 10.6", "10.6", "10.5"),
    ],
)
def test_each_law_has_its_limit(code: str, old: str, new: str, value: str, limit: str) -> None:
    assert all(each.ok for each in verdicts(read_spec(DEMO, "bench.yml")))
    failed = {
        each.law.code: each
        for each in verdicts(read_spec(DEMO.replace(old, new, 1), "bench.yml"))
        if not each.ok
    }
    assert code in failed
    assert failed[code].value == Fraction(value)
    assert failed[code].limit is not None
    assert float(failed[code].limit) == pytest.approx(float(limit), abs=1e-3)  # type: ignore[arg-type]


def test_every_law_of_a_joint_is_judged() -> None:
    """But for clips that face each other, which two joints decide."""
    timber = (Path(__file__).parents[2] / "data" / "timber.yml").read_text(encoding="utf-8")
    lumber = sample_text("lumber")
    judged = {
        each.law.code
        for text, names in (
            (DEMO, IN_SLOTS),
            (timber, ("tenon", "corner")),
            (lumber, ("lap", "corner", "pocket")),
            (sample_text("joiner"), ("bridle",)),
        )
        for each in verdicts(read_spec(text, "bench.yml"), names)
    }
    assert {law.code for kind in JOINTS for law in kind.laws} - judged == {"clips-back-to-back"}


def case(text: str, off: str) -> Case:
    bench = solved(text)
    path = ("hardware", "end-clip", "screw")
    return Case(bench.loaded, bench.layout, path, Fraction(0), Fraction(off), False)


@pytest.mark.parametrize(
    ("off", "longer", "shorter"),
    [("0.1", "M8x30", "M8x20"), ("5", "M8x30", "M8x20"), ("5.1", "M8x35", "M8x15")],
)
def test_a_screw_is_changed_by_whole_steps(off: str, longer: str, shorter: str) -> None:
    """From M8x25 by steps of 5, no less than it lacks."""
    wish = case(DEMO, off)
    assert longer_screw(wish) == (Change("hardware.end-clip.screw", longer),)
    assert shorter_screw(wish) == (Change("hardware.end-clip.screw", shorter),)


@pytest.mark.parametrize(("undercut", "cure"), [("15", "[36 mm, 15 mm, 3 mm]"), ("14.9", "")])
def test_a_clip_is_widened_where_the_slot_has_room_for_it(undercut: str, cure: str) -> None:
    """A mouth of 13 wants a clip of 15, which a hollow of 15 just takes."""
    text = DEMO.replace("opening: 8.2", "opening: 13").replace("undercut: 15", f"undercut: {undercut}")
    loaded = read_spec(text, "bench.yml")
    (law,) = [each.law for each in verdicts(loaded) if each.law.code == "clip-mouth"]
    wish = Case(loaded, solved().layout, ("hardware", "end-clip", "clip"), Fraction(14), Fraction(15), False)
    assert not isinstance(law.cure, str)
    assert law.cure(wish) == ((Change("hardware.end-clip.clip", cure),) if cure else ())
