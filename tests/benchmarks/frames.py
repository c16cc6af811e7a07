"""200 random long sides against a frame solver of another project: the least and the greatest ratio of their sags.

Run with `python -m tests.benchmarks.frames`.
"""

from __future__ import annotations

from tests.calculators.test_plane_frame import compare

FRAMES = 200

if __name__ == "__main__":
    ratios = [compare(seed) for seed in range(FRAMES)]
    print(f"{FRAMES} frames: sag over that of the other solver {min(ratios):.4f} to {max(ratios):.4f}")
