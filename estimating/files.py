"""Writing files so that an existing one is never left half-written, and no input is ever written over."""

from __future__ import annotations

import hashlib
import os
import signal
import stat
import tempfile
import time
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from estimating.errors import InputError

OUTPUT = "output file"
STALE = 60.0  # seconds after which a part left behind is of a run that was killed


@dataclass(frozen=True)
class _Aside:
    part: Path
    target: Path


def write_aside(path: Path, text: str) -> None:
    """Write `text` beside `path` and then put it in place in one step.

    Raises InputError when the folder cannot be written to; the old file is then untouched.
    """
    write_together({path: text})


def write_together(outputs: Mapping[Path, str | bytes], *, inputs: Iterable[Path] = ()) -> None:
    """Write several files aside, and put them in place only once all of them are whole.

    A link is followed and kept, and so is the mode of a file that is there. inputs: files this run reads, none of which
    may be written over. Raises InputError, with every file as it was, where a place cannot be written to, is an input,
    is asked for twice, or is no ordinary file.
    """
    targets = _targets(outputs, inputs)
    asides: list[_Aside] = []
    try:
        for path, content in outputs.items():
            asides.append(_aside(path, targets[path], content))
        with _undisturbed():
            for each in asides:
                _in_place(each)
    finally:
        for each in asides:
            each.part.unlink(missing_ok=True)


def _in_place(aside: _Aside) -> None:
    try:
        aside.part.replace(aside.target)
    except OSError as problem:
        needed = f"a place that can be written to ({problem.strerror})"
        raise InputError(OUTPUT, str(aside.target), needed) from problem


def _targets(outputs: Iterable[Path], inputs: Iterable[Path]) -> dict[Path, Path]:
    read = {path.resolve(): path for path in inputs}
    targets: dict[Path, Path] = {}
    for path in outputs:
        target = path.resolve()
        if target in read:
            raise InputError(OUTPUT, str(path), f"another place: {read[target]} is read by this run")
        if target in targets.values():
            raise InputError(OUTPUT, str(path), "a place of its own: another output of this run goes there")
        if target.exists() and not target.is_file():
            raise InputError(OUTPUT, str(path), "an ordinary file, not a folder or a device")
        targets[path] = target
    return targets


def _aside(path: Path, target: Path, content: str | bytes) -> _Aside:
    mark = f".{hashlib.sha256(target.name.encode('utf-8', 'surrogateescape')).hexdigest()[:12]}."
    _sweep(target.parent, mark)
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else 0o644
    try:
        handle, name = tempfile.mkstemp(dir=target.parent, prefix=mark, suffix=".part")
    except OSError as problem:
        raise InputError(OUTPUT, str(path), f"a folder that can be written to ({problem.strerror})") from problem
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(_bytes(path, content))
            out.flush()
            os.fsync(out.fileno())
        part.chmod(mode)
    except OSError as problem:
        part.unlink(missing_ok=True)
        raise InputError(OUTPUT, str(path), f"a place that can be written to ({problem.strerror})") from problem
    except InputError:
        part.unlink(missing_ok=True)
        raise
    return _Aside(part, target)


def _bytes(path: Path, content: str | bytes) -> bytes:
    if isinstance(content, bytes):
        return content
    try:
        return content.encode("utf-8")
    except UnicodeEncodeError as problem:
        seen = content[problem.start : problem.end]
        raise InputError(str(path), ascii(seen), "text that can be written as UTF-8, without half characters") from None


def _sweep(folder: Path, mark: str) -> None:
    """Take away what a run that was killed left beside this file."""
    for part in folder.glob(f"{mark}*.part"):
        try:
            if time.time() - part.stat().st_mtime > STALE:
                part.unlink(missing_ok=True)
        except OSError:  # another run was quicker, or it isn't ours: it harms nobody
            continue


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Let no interrupt fall between two files of one run; it is answered once all are in place."""
    if not hasattr(signal, "pthread_sigmask"):  # not on every system
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
