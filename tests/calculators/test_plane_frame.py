"""The plane frame against handbook values and against a frame solver of another project, on random frames."""

from __future__ import annotations

import itertools
from dataclasses import replace
from random import Random

import pytest
from Pynite import FEModel3D

from generator.calculators.plane_frame import FrameBar, PlaneFrame

BENDING, STRETCHING = 70_000 * 95_000.0, 70_000 * 480.0
#: Shear modulus of aluminium times half of a slotted bar's metal.
SHEARING = 26_900 * 240.0
#: A spring of the other solver is a bar so long (mm): as short as its arithmetic bears, for it shortens another bar.
STUB = 0.03
#: Frames that a run of the tests tries; `tests/benchmarks/frames.py` tries 200.
SAMPLE = 12


def beam(spring: float | None) -> PlaneFrame:
    """Two posts that cannot turn or sink, and a beam of 1000 between them, joined by springs."""
    low, high = ((0.0, 0.0), (1000.0, 0.0)), ((0.0, 500.0), (500.0, 500.0), (1000.0, 500.0))
    stiff = 1e6 * BENDING
    posts = (FrameBar((0, 2), stiff, stiff), FrameBar((1, 4), stiff, stiff))
    foot = FrameBar((0, 1), stiff, stiff)
    across = FrameBar((2, 3, 4), BENDING, STRETCHING, (spring, spring))
    return PlaneFrame((*low, *high), (*posts, foot, across), (0, 1))


@pytest.mark.parametrize("shearing", [None, 6e6])
@pytest.mark.parametrize(("spring", "divisor"), [(None, 192), (1e-3, 48)])
def test_a_beam_that_is_clamped_and_one_that_turns_freely(
    spring: float | None, divisor: int, shearing: float | None
) -> None:
    """F a³ / (192 E I) and F a³ / (48 E I): AISC Table 3-23; in shear F a / (4 κ G A) more, by Timoshenko."""
    frame = beam(spring)
    frame = replace(frame, bars=(*frame.bars[:-1], replace(frame.bars[-1], shearing=shearing)))
    sag = frame.settlements([{3: 1000.0}])[0][3]
    more = 0 if shearing is None else 1000 * 1000 / (4 * shearing)
    assert sag == pytest.approx(1000 * 1000**3 / (divisor * BENDING) + more, rel=1e-3)


def test_a_post_on_nothing_is_a_mechanism() -> None:
    frame = PlaneFrame(((0, 0), (500, 0), (500, 500)), (FrameBar((0, 1), BENDING, STRETCHING),), (0,))
    with pytest.raises(ValueError, match="mechanism"):
        frame.settlements([{1: 1.0}])


def random_side(random: Random) -> PlaneFrame:
    """A long side: posts run through or rails do, two to five posts, four or six stands, every joint a spring."""
    count, height = random.randint(2, 5), random.uniform(500, 900)
    axes = [0.0]
    while len(axes) < count:
        axes.append(axes[-1] + random.uniform(350, 900))
    stands = [axes[0] + 70, axes[-1] - 70, *([axes[-1] / 2 + 1] if random.random() < 0.5 else [])]
    low = sorted({*axes, *stands, *((a + b) / 2 + 3 for a, b in itertools.pairwise(axes))})
    high = sorted({*axes, *((a + b) / 2 for a, b in itertools.pairwise(axes))})
    nodes = [*((x, 0.0) for x in low), *((x, height) for x in high)]

    def spring() -> float:
        return random.uniform(1, 15) * 1e6

    rails_through = random.random() < 0.5
    bars = []
    for xs, first in ((low, 0), (high, len(low))):
        ends = (None, None) if rails_through else (spring(), spring())
        bars.append(FrameBar(tuple(range(first, first + len(xs))), BENDING, STRETCHING, ends))
    for place, x in enumerate(axes):
        outer = place in (0, len(axes) - 1)
        ends = (None, None) if outer and not rails_through else (spring(), spring())
        bars.append(FrameBar((low.index(x), len(low) + high.index(x)), BENDING, STRETCHING, ends))
    return PlaneFrame(tuple(nodes), tuple(bars), tuple(low.index(x) for x in sorted(stands)))


def by_another_solver(frame: PlaneFrame, loads: dict[int, float]) -> list[float]:
    """Bars of the other project are rigid at their nodes: a spring is a short stub that bends as far as it turns."""
    model, modulus = FEModel3D(), 70_000.0
    model.add_material("bar", modulus, modulus / 2.6, 0.3, 1e-9)
    second = BENDING / modulus
    model.add_section("bar", STRETCHING / modulus, second, second, second)
    for number, (x, z) in enumerate(frame.nodes):
        model.add_node(f"N{number}", x, z, 0)
    for index, bar in enumerate(frame.bars):
        names = [f"N{node}" for node in bar.nodes]
        for end, spring in zip((0, -1), bar.springs, strict=True):
            if spring is None:
                continue
            (x, z), (nx, nz) = frame.nodes[bar.nodes[end]], frame.nodes[bar.nodes[1 if end == 0 else -2]]
            far = abs(nx - x) + abs(nz - z)
            own, stub = f"S{index}.{end}", f"J{index}.{end}"
            model.add_node(own, x + STUB * (nx - x) / far, z + STUB * (nz - z) / far, 0)
            bends = STUB * spring / modulus
            model.add_section(stub, STRETCHING / modulus, bends, bends, bends)
            model.add_member(stub, names[end], own, "bar", stub)
            names[end] = own
        for a, b in itertools.pairwise(names):
            model.add_member(f"{a}-{b}", a, b, "bar", "bar")
    for name in model.nodes:
        model.def_support(name, False, False, True, True, True, False)
    for node in frame.supports:
        model.def_support(f"N{node}", node == frame.supports[0], True, True, True, True, False)
    for node, force in loads.items():
        model.add_node_load(f"N{node}", "FY", -force)
    model.analyze_linear(check_statics=False, sparse=False)
    return [-float(next(iter(model.nodes[f"N{n}"].DY.values()))) for n in range(len(frame.nodes))]


def compare(seed: int) -> float:
    """The deepest sag of a random side over that of the other solver; the whole shape agrees as well."""
    random = Random(seed)
    frame = random_side(random)
    loads = {node: random.uniform(100, 900) for node in range(len(frame.nodes)) if node not in frame.supports}
    own, other = frame.settlements([loads])[0], by_another_solver(frame, loads)
    assert own == pytest.approx(other, rel=1e-3, abs=1e-3), seed
    return float(max(own) / max(other))


@pytest.mark.parametrize("seed", range(SAMPLE))
def test_another_solver_finds_the_same(seed: int) -> None:
    assert compare(seed) == pytest.approx(1, abs=5e-4)


def test_a_frame_that_also_gives_way_in_shear_is_on_the_safe_side() -> None:
    """A load moves its own node further, in every frame and at every node."""
    for seed in range(SAMPLE):
        frame = random_side(Random(seed))
        sheared = replace(frame, bars=tuple(replace(bar, shearing=SHEARING) for bar in frame.bars))
        loads = [{node: 1.0} for node in range(len(frame.nodes)) if node not in frame.supports]
        for load, stiff, soft in zip(
            loads, frame.settlements(loads), sheared.settlements(loads), strict=True
        ):
            (node,) = load
            assert soft[node] > stiff[node]
