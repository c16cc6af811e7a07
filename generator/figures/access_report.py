"""The bench as it goes together: bodies, proved order, and until when each key and each nut gets to its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fasteners import fastener_name, key_block
from generator.bench.fillings import FILLINGS
from generator.bench.fillings.bolted import BoltWay
from generator.bench.frames.slot_nuts import PlacedNut, slot_nuts
from generator.bench.model import Bench, Joint
from generator.bench.proof import Assembled
from generator.calculators.access import Access, AssemblyTimeline, access, key_line, last_chance
from generator.calculators.bodies import Body
from generator.calculators.collisions import Clash, clashes


@dataclass(frozen=True)
class AccessReport:
    """`keys` by the fastener's name, glued joints too; `bolts` of brackets; `nuts` with their last chance."""

    done: Assembled
    timeline: AssemblyTimeline
    clashes: tuple[Clash, ...]
    keys: dict[str, tuple[Joint, Access]]
    bolts: tuple[tuple[BoltWay, Access], ...]
    nuts: tuple[tuple[PlacedNut, Access], ...]

    @property
    def by_name(self) -> dict[str, Body]:
        """All bodies by name."""
        return {body.name: body for body in self.done.bodies}


def access_report(bench: Bench) -> AccessReport:
    """Put the bench together and look at every key and nut on the way."""
    done = bench.proof or assembly_proof(bench)
    timeline = AssemblyTimeline(done.proof.order)
    nuts = slot_nuts(bench)
    return AccessReport(
        done=done,
        timeline=timeline,
        clashes=clashes((*done.bodies, *(nut.body for nut in nuts))),
        keys=dict(_keys(bench, timeline)),
        bolts=tuple(
            (bolt, access(timeline, bolt.name, bolt.bars, key_line(bolt.way)))
            for kind in FILLINGS
            for bolt in kind.bolt_ways(bench)
        ),
        nuts=tuple((nut, last_chance(timeline, nut.body, nut.bar.mark, nut.bar.along)) for nut in nuts),
    )


def _keys(bench: Bench, timeline: AssemblyTimeline) -> Iterator[tuple[str, tuple[Joint, Access]]]:
    by_mark = {part.mark: part for part in bench.parts}
    for joint in bench.joints:
        member, crossing = by_mark.get(joint.member), by_mark.get(joint.crossing)
        if member is None or crossing is None:
            continue
        fixing = bench.joinings[joint.fastener]
        name, bars = fastener_name(joint, fixing), (joint.member, joint.crossing)
        if not fixing.solids:  # glue needs no key: it only has to be there
            yield name, (joint, access(timeline, joint.member, bars, lambda _: ()))
            continue
        lines = [key_block(joint, member, crossing, fixing, float(at)) for at in fixing.places]
        found = access(timeline, name, bars, key_line(*lines))
        yield name, (joint, found)
