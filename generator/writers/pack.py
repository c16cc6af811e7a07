"""The pack of a plan: one ZIP file from which a stranger builds the same manual. The same content, the same bytes."""

from __future__ import annotations

import hashlib
import io
import zipfile
from collections.abc import Mapping

#: The earliest day that a ZIP can say; a real one would make each build another file.
_DAY = (1980, 1, 1, 0, 0, 0)
_UNIX, _FILE_MODE = 3, 0o100644 << 16
CHECKSUMS = "checksums.txt"


def pack(files: Mapping[str, bytes], folder: str) -> bytes:
    """A ZIP of relative path -> content below one folder, with the SHA-256 of each in a list."""
    sums = "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in sorted(files.items()))
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        for name, data in sorted({**files, CHECKSUMS: sums.encode()}.items()):
            entry = zipfile.ZipInfo(f"{folder}/{name}", _DAY)
            entry.create_system, entry.external_attr = _UNIX, _FILE_MODE
            archive.writestr(entry, data, zipfile.ZIP_DEFLATED)
    return target.getvalue()
