"""Writing files so that an existing one is never left half-written."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from estimating.errors import InputError


def write_aside(path: Path, text: str) -> None:
    """Write `text` beside `path` and then put it in place in one step.

    Raises InputError when the folder cannot be written to; the old file is then untouched.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    except OSError as problem:
        raise InputError("output file", str(path), f"a folder that can be written to ({problem.strerror})") from problem
    aside = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as out:
            out.write(text)
            out.flush()
            os.fsync(out.fileno())
        aside.chmod(0o644)
        aside.replace(path)
    except OSError as problem:
        raise InputError("output file", str(path), f"a place that can be written to ({problem.strerror})") from problem
    finally:
        aside.unlink(missing_ok=True)
