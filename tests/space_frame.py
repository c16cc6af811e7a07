"""All bars of a bench as one frame in space, solved by another project: what no plane of ours can leave out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from itertools import pairwise

from Pynite import FEModel3D

from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.figures.bar_frame import joined_bars, lies

#: A joint is a stub so long (mm) that bends and twists as far as the joint turns.
STUB = 0.5
#: Twist of a bar, as a part of what it bends.
TWIST = 0.3
N_MM = 1e6


class SpaceFrame:
    """Bars on their axes, joints as soft as their cards allow, the stands under the base rails, no panel, no shear."""

    def __init__(self, bench: Bench) -> None:
        self.bench, self.model = bench, FEModel3D()
        self.bars = {bar.mark: bar for bar in joined_bars(bench)}
        self.nodes: dict[str, dict[float, str]] = defaultdict(dict)
        members = bench.goods.members
        self.modulus = float(members.lying.modulus)
        self.model.add_material("bar", self.modulus, self.modulus / 2.6, 0.3, 1e-9)
        for name, beam in (("lying", members.lying), ("upright", members.upright)):
            bends = float(beam.second_moment)
            self.model.add_section(name, float(beam.area), bends, bends, TWIST * bends)
        self._join(float(members.lying.area))

    def sags(self, force: float) -> Mapping[str, float]:
        """How far each bar of the top goes down (mm) under a force (N) in the middle of its worst span, by its mark."""
        loads = [(mark, self._node(mark, at)) for mark, at in self._loaded()]
        for point in self.bench.stand.points:
            self.model.def_support(self._above(*map(float, point)), True, True, True, False, False, False)
        for mark, nodes in self.nodes.items():
            section = "lying" if lies(self.bars[mark]) else "upright"
            for a, b in pairwise(sorted(nodes)):
                self.model.add_member(f"{mark} {a}", nodes[a], nodes[b], "bar", section)
        for number, (_, node) in enumerate(loads):
            self.model.add_load_combo(f"C{number}", {f"L{number}": 1.0})
            self.model.add_node_load(node, "FY", -force, case=f"L{number}")
        self.model.analyze_linear(check_statics=False, sparse=True)
        found: dict[str, float] = defaultdict(float)
        for number, (mark, node) in enumerate(loads):
            found[mark] = max(found[mark], -float(self.model.nodes[node].DY[f"C{number}"]))
        return found

    def _join(self, area: float) -> None:
        for number, joint in enumerate(self.bench.joints):
            member, crossing = self.bars[joint.member], self.bars[joint.crossing]
            at = _middle(crossing, member.along)
            own = at + STUB * (1 if _middle(member, member.along) > at else -1)
            bends = STUB * N_MM * float(min(self.bench.joinings[joint.fastener].stiffness)) / self.modulus
            name = f"J{number}"
            self.model.add_section(name, area, bends, bends, 2.6 * bends)
            ends = self._node(joint.crossing, _middle(member, crossing.along)), self._node(joint.member, own)
            self.model.add_member(name, *ends, "bar", name)

    def _loaded(self) -> list[tuple[str, float]]:
        plan, found = self.bench.layout, []
        for bar in self.bars.values():
            if bar.role is Role.TOP_CROSS_MEMBER:
                found += [(bar.mark, float(zone.y.middle)) for zone in plan.zones]
            elif bar.role is Role.TOP_END_MEMBER:
                found.append((bar.mark, float(plan.depth / 2)))
            elif bar.role is Role.LONG_RAIL and bar.place.level == "top":
                zone = plan.zones[0 if bar.place.side == "front" else -1]
                found += [(bar.mark, float(bay.x.middle)) for bay in zone.bays]
        return found

    def _above(self, x: float, y: float) -> str:
        """The node of the base rail above a stand."""
        front = y < self.bench.layout.depth / 2
        rails = [
            bar
            for bar in self.bench.of(Role.LONG_RAIL, side="front" if front else "back", level="base")
            if bar.box.x.low <= x <= bar.box.x.high
        ]
        return self._node(rails[0].mark, x)

    def _node(self, mark: str, along: float) -> str:
        bar, key = self.bars[mark], round(along, 3)
        if key not in self.nodes[mark]:
            x, y, z = (along if axis == bar.along else _middle(bar, axis) for axis in "xyz")
            self.nodes[mark][key] = f"{mark}:{key}"
            self.model.add_node(f"{mark}:{key}", x, z, y)
        return self.nodes[mark][key]


def _middle(bar: Part, axis: str) -> float:
    return float(bar.box.span(axis).middle)
