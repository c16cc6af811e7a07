"""How long problems that ask for too much take: each should end within its budget and two seconds of processor time.

Usage: python -m tests.benchmarks.awkward [SECONDS]
"""

from __future__ import annotations

import json
import subprocess
import sys

#: Seconds beyond the budget that a problem may take, with reading and writing.
BEYOND = 2


def main() -> int:
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 5.0
    code = f"from tests.spec.test_awkward_problems import child; child({seconds})"
    done = subprocess.run([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, check=True)
    rows = [json.loads(line) for line in done.stdout.splitlines()]
    for row in rows:
        late = " LATE" if row["seconds"] > seconds + BEYOND else ""
        print(f"{row['seconds']:6.2f} s {row['kilobytes'] / 1000:6.0f} MB  {row['name']}{late}")
    return int(any(row["seconds"] > seconds + BEYOND for row in rows))


if __name__ == "__main__":
    raise SystemExit(main())
