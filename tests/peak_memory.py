"""The most memory that this process took. A child's `ru_maxrss` begins at what its parent held when it was forked."""

from __future__ import annotations

import resource
import sys
from pathlib import Path


def peak_kilobytes() -> int:
    """Peak of the resident memory since the program was loaded (kB)."""
    status = Path("/proc/self/status")
    if status.exists():
        lines = status.read_text(encoding="ascii", errors="replace").splitlines()
        return next(int(line.split()[1]) for line in lines if line.startswith("VmHWM"))
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most // 1024 if sys.platform == "darwin" else most
