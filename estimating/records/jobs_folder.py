"""A folder of jobs: those of the desk and job files beside them, each with the state it is in, from draft to paid.

The desk keeps the state of its jobs in their files. For job files (TOML) it stands in `states.csv` in the same folder.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from estimating.errors import EstimatingError, InputError, RecordsError
from estimating.files import write_aside
from estimating.job.model import Job
from estimating.records.my_jobs import DEMO
from estimating.records.sitting import DRAFT, STATES, Sitting, loaded
from estimating.scopes.registry import READER

STATE_FILE = "states.csv"
HEAD = ("job", "state", "day")
OPEN = (DRAFT, "sent")  # their price may still be another
WON = ("won", "done", "paid")
DECIDED = (*WON, "lost")


@dataclass(frozen=True)
class FiledJob:
    """A job of a folder with the state it is in, or what is wrong with its file."""

    name: str  # of its file, without the ending
    state: str
    job: Job | None = None
    problem: str = ""


def filed_jobs(folder: Path) -> Iterator[FiledJob]:
    """Yield the jobs of a folder one after the other, in the order of their names; drafts over demos are left out."""
    if not folder.is_dir():
        raise RecordsError(f"{folder}: there is no such folder of jobs")
    states = _states(folder)
    for path in sorted([*folder.glob("*.toml"), *folder.glob("*.json")]):
        if not path.name.startswith(DEMO):
            yield _filed(path, states)


def _filed(path: Path, states: Mapping[str, str]) -> FiledJob:
    try:
        if path.suffix == ".toml":
            return FiledJob(path.stem, states.get(path.name, DRAFT), READER.read(path))
        kept = loaded(path)
        return FiledJob(path.stem, kept.state, READER.build(kept.job))
    except EstimatingError as problem:
        return FiledJob(path.stem, "", None, str(problem))


def set_state(folder: Path, name: str, state: str, on: date) -> None:
    """Put a job of a folder into a state; InputError where there is no such state, RecordsError where no such job."""
    if state not in STATES:
        raise InputError("state", state, f"one of {', '.join(STATES)}")
    desk, file = folder / f"{name}.json", folder / f"{name}.toml"
    if desk.exists():
        Sitting(desk, loaded(desk)).note(state=state)
    elif file.exists():
        kept = {**_lines(folder), file.name: (state, on.isoformat())}
        write_aside(folder / STATE_FILE, _csv(kept))
    else:
        raise RecordsError(f"{folder}: has no job called {name}")


def _states(folder: Path) -> Mapping[str, str]:
    return {name: state for name, (state, _) in _lines(folder).items()}


def _lines(folder: Path) -> dict[str, tuple[str, str]]:
    path = folder / STATE_FILE
    if not path.exists():
        return {}
    try:
        rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8"))))
        found = {row["job"]: (row["state"], row["day"]) for row in rows}
    except (OSError, KeyError, UnicodeDecodeError, csv.Error) as problem:
        raise RecordsError(f"{path}: cannot be read as states of jobs ({problem})") from problem
    wrong = [state for state, _ in found.values() if state not in STATES]
    if wrong:
        raise RecordsError(f"{path}: “{wrong[0]}” is no state; needs one of {', '.join(STATES)}")
    return found


def _csv(kept: Mapping[str, tuple[str, str]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEAD)
    writer.writerows((name, *each) for name, each in sorted(kept.items()))
    return text.getvalue()
