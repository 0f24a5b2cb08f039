"""A job being worked on: what is typed, every step of the sitting, and the one file that holds both at all times.

The file is written whole at every accepted change, aside first and then in place, so that a reload, a kernel started
again or killed, or a second job opened in between loses nothing: whoever opens the file goes on where it was left.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import Any

from estimating.errors import InputError, Location, RecordsError
from estimating.estimate.whatif.scenario import ABSENT, Changes, apply, changes_between
from estimating.files import write_aside

FORMAT = 1
LONGEST = 2000  # steps kept; a long day's typing is a few hundred
DRAFT = "draft"
STATES = (DRAFT, "sent", "won", "lost", "done", "paid")


@dataclass(frozen=True)
class Step:
    """One change: what it was, and what is set where to make it and to take it back."""

    said: str
    forth: Changes
    back: Changes


@dataclass(frozen=True)
class Kept:
    """What the file of a job holds."""

    job: Mapping[str, Any]  # as typed, right or wrong
    steps: tuple[Step, ...] = ()
    at: int = 0  # how many of the steps are done
    state: str = DRAFT
    price: str = ""  # as last worked out; empty before
    changed: str = ""  # when, to the second
    demo: str = ""  # the demo file this is a draft of; empty for a job of one's own
    source: str = ""  # the job file it was read from, and a mark of what that held
    source_mark: str = ""
    sent: Mapping[str, Any] | None = None  # the job as it was last recorded as sent, which a change order starts from


class Sitting:
    """The job on the desk. `kept` is what is typed now; nothing is written before the first change."""

    def __init__(self, path: Path, kept: Kept) -> None:
        self.path = path
        self.kept = kept
        self.seen = mark_of(path)
        self.notices: tuple[str, ...] = ()  # what the reader of a job file had to put right

    @property
    def job(self) -> Mapping[str, Any]:
        """The job as typed."""
        return self.kept.job

    def change(self, job: Mapping[str, Any], said: str) -> bool:
        """Take a changed job as the next step and write it down; say whether anything was different."""
        before = self.kept.job
        forth = changes_between(before, job)
        if not forth:
            return False
        done = (*self.kept.steps[: self.kept.at], Step(said, forth, changes_between(job, before)))[-LONGEST:]
        self._write(replace(self.kept, job=apply(before, forth), steps=done, at=len(done)))
        return True

    def undo(self) -> str:
        """Take the last step back; return what it was, empty when there is none."""
        if self.kept.at == 0:
            return ""
        step = self.kept.steps[self.kept.at - 1]
        self._write(replace(self.kept, job=apply(self.kept.job, step.back), at=self.kept.at - 1))
        return step.said

    def redo(self) -> str:
        """Make the step again that was last taken back; return what it was, empty when there is none."""
        if self.kept.at == len(self.kept.steps):
            return ""
        step = self.kept.steps[self.kept.at]
        self._write(replace(self.kept, job=apply(self.kept.job, step.forth), at=self.kept.at + 1))
        return step.said

    def note(self, *, price: str | None = None, state: str | None = None, sent: bool = False) -> None:
        """Note the price last worked out, a state, or that it was sent as it is; undo passes these over."""
        now = replace(
            self.kept,
            price=self.kept.price if price is None else price,
            state=self.kept.state if state is None else state,
            sent=self.kept.job if sent else self.kept.sent,
        )
        untouched = not self.path.exists() and state is None and not sent
        if untouched:
            self.kept = now
        elif now != self.kept:
            self._write(now, now=self.kept.changed)

    def taken_elsewhere(self) -> bool:
        """Say whether somebody else has written the file since this sitting read or wrote it."""
        return mark_of(self.path) != self.seen

    def take_theirs(self) -> None:
        """Take up what somebody else has written."""
        self.kept = loaded(self.path)
        self.seen = mark_of(self.path)

    def keep_mine(self) -> None:
        """Write what is typed here over what somebody else has written."""
        self.seen = mark_of(self.path)
        self._write(self.kept)

    def _write(self, kept: Kept, now: str = "") -> None:
        """Put a state on disk; what is typed is taken in either way, and said to be unsaved where it cannot be."""
        self.kept = replace(kept, changed=now or datetime.now().isoformat(timespec="seconds"))
        if self.taken_elsewhere():
            raise RecordsError(f"{self.path.stem}: changed at another desk in the meantime; take theirs or keep yours")
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            write_aside(self.path, dumped(self.kept))
        except (OSError, InputError) as problem:
            raise RecordsError(f"NOT SAVED, {self.path}: {problem}") from problem
        self.seen = mark_of(self.path)


def mark_of(path: Path) -> tuple[int, int]:
    """Return what tells one writing of a file from the next; nothing for a file that is not there."""
    try:
        found = os.stat(path)
    except OSError:
        return (0, 0)
    return (found.st_ino, found.st_mtime_ns)


def open_sitting(path: Path) -> Sitting:
    """Return the sitting in a file; RecordsError when it cannot be read."""
    return Sitting(path, loaded(path))


def dumped(kept: Kept) -> str:
    """Return the text of a job's file."""
    whole = {name: value for name, value in vars(kept).items() if name != "steps"}
    steps = [[step.said, _packed(step.forth), _packed(step.back)] for step in kept.steps]
    return json.dumps({"format": FORMAT, **whole, "steps": steps}, ensure_ascii=False, separators=(",", ":"))


def loaded(path: Path) -> Kept:
    """Return what a job's file holds."""
    try:
        held = json.loads(path.read_text(encoding="utf-8"))
        if held.pop("format") != FORMAT:
            raise RecordsError(f"{path}: written by another version of the workbook")
        steps = tuple(Step(said, _unpacked(forth), _unpacked(back)) for said, forth, back in held.pop("steps"))
        return Kept(**held, steps=steps)
    except (OSError, ValueError, KeyError, TypeError) as problem:
        raise RecordsError(f"{path}: is no job of this workbook ({problem})") from problem


def _packed(changes: Changes) -> list[list[Any]]:
    return [[list(path)] if value is ABSENT else [list(path), value] for path, value in changes.items()]


def _unpacked(changes: Sequence[Sequence[Any]]) -> dict[Location, Any]:
    return {tuple(each[0]): each[1] if len(each) > 1 else ABSENT for each in changes}
