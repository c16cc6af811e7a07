"""Put a bench together step by step with the independent solids, and look at every position on the way in."""

from __future__ import annotations

from collections.abc import Mapping

import manifold3d as m3

from generator.calculators.assembly import Proof, contents, moving_bodies

#: Distances from the seat (mm): close together where clips and tongues engage, wide apart beyond.
DISTANCES = (0, 0.5, 2, 5, 9, 14, 20, 30, 45, 70, 110, 170, 260, 400, 620, 950, 1400, 2100, 3200)

#: A round head within its slot, cut into 64 sides, may lose or gain this much (mm³).
ROUNDING = 0.5


def bounds_meet(one, other) -> bool:
    return all(one[a] < other[a + 3] - 0.02 and other[a] < one[a + 3] - 0.02 for a in range(3))


def collisions(proof: Proof, solids: Mapping[str, m3.Manifold]) -> list[tuple[str, str, float, float]]:
    """(moving, standing, distance, common volume) for every position in which two solids share a volume."""
    whole = contents(proof.order)
    standing: dict[str, list[str]] = {}
    found = []
    for way in proof.ways:
        motion = way.motion
        names = [body.name for body in moving_bodies(motion, whole)]
        there = standing.setdefault(motion.into, [])
        distances = DISTANCES if way.out else (0,)
        for distance in distances:
            shift = [0.0, 0.0, 0.0]
            if way.out:
                shift["xyz".index(way.out[1])] = distance if way.out[0] == "+" else -distance
            for name in names:
                moved = solids[name].translate(shift)
                box = moved.bounding_box()
                for other in there:
                    if bounds_meet(box, solids[other].bounding_box()):
                        volume = (moved ^ solids[other]).volume()
                        if volume > ROUNDING:
                            found.append((name, other, distance, volume))
        there.extend(names)
    return found
