"""Jobs as typed and estimates as sent: kept word for word, and never changed afterward."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Sequence
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from decimal import Decimal

from estimating.errors import RecordsError
from estimating.job.renamed import ADDRESSES, current_address
from estimating.records.store import Records, moment, read, understood, write

WHOLE_JOB = "whole_job"  # the task of the line that promises all hours of a job together


@dataclass(frozen=True)
class Job:
    """One saving of a job: its file as it was typed, and when."""

    id: int
    name: str
    toml: str
    saved_at: str


@dataclass(frozen=True)
class SentLine:
    """One measured promise of an estimate: the hours, gallons or dollars of one line, with their range."""

    line: str
    task: str
    measure: str  # hours, gallons or dollars
    low: float
    likely: float
    high: float
    surface: str = ""
    product: str = ""
    row: str = ""  # the address of the reference row whose rate made it; blank when it rests on several or none


@dataclass(frozen=True)
class SentAssumption:
    """One figure the estimate rested on, with its range and where it came from."""

    key: str
    low: float
    likely: float
    high: float
    unit: str
    origin: str
    source: str = ""
    place: str = ""
    year: str = ""
    note: str = ""


@dataclass(frozen=True)
class SentEstimate:
    """An estimate as the client got it."""

    id: int
    job: Job
    sent_at: str
    price: Decimal
    lines: tuple[SentLine, ...]
    assumptions: tuple[SentAssumption, ...]
    hash: str


def save_job(records: Records, name: str, toml: str, at: datetime | None = None) -> Job:
    """Keep a job's file as it was typed; a text that has not changed since is not kept twice."""
    latest = read(records, "SELECT * FROM jobs WHERE name = ? ORDER BY id DESC LIMIT 1", (name,))
    if latest and latest[0]["toml"] == toml:
        return _job(latest[0])
    saved_at = moment(at)
    row = write(records, "INSERT INTO jobs (name, toml, saved_at) VALUES (?, ?, ?)", (name, toml, saved_at))
    return Job(row, name, toml, saved_at)


def list_jobs(records: Records) -> tuple[Job, ...]:
    """Return every job as it stands, the last saved first."""
    found = read(records, "SELECT * FROM jobs WHERE id IN (SELECT max(id) FROM jobs GROUP BY name) ORDER BY id DESC")
    return tuple(_job(row) for row in found)


def load_job(records: Records, name: str) -> Job:
    """Return a job as it stands; RecordsError names the jobs there are."""
    return job_history(records, name)[0]


def job_history(records: Records, name: str) -> tuple[Job, ...]:
    """Return every saving of a job, the last first."""
    found = read(records, "SELECT * FROM jobs WHERE name = ? ORDER BY id DESC", (name,))
    if not found:
        there = ", ".join(job.name for job in list_jobs(records)) or "none yet"
        raise RecordsError(f"no job {name!r} in the records; there are {there}")
    return tuple(_job(row) for row in found)


def send_estimate(
    records: Records,
    job: str,
    *,
    price: Decimal,
    lines: Sequence[SentLine],
    assumptions: Sequence[SentAssumption],
    at: datetime | None = None,
) -> SentEstimate:
    """Freeze an estimate as it goes to the client, tied to the job's file as it stands now.

    Raises RecordsError when the job was never saved. There is no way to change the row afterward: an altered price
    is a further estimate.
    """
    standing, sent_at = load_job(records, job), moment(at)
    texts = _as_json(lines), _as_json(assumptions)
    digest = _digest(standing, sent_at, str(price), *texts)
    row = write(
        records,
        "INSERT INTO estimates (job_id, sent_at, price, lines, assumptions, hash) VALUES (?, ?, ?, ?, ?, ?)",
        (standing.id, sent_at, str(price), *texts, digest),
    )
    return SentEstimate(row, standing, sent_at, price, tuple(lines), tuple(assumptions), digest)


def load_estimate(records: Records, estimate_id: int) -> SentEstimate:
    """Return an estimate as it was sent; RecordsError when it is not there, or no longer what was sent."""
    found = read(records, f"{_WITH_JOB} WHERE estimates.id = ?", (estimate_id,))
    if not found:
        raise RecordsError(f"no estimate {estimate_id} in the records")
    with understood(records):
        return _estimate(found[0])


def list_estimates(records: Records, job: str = "") -> tuple[SentEstimate, ...]:
    """Return the estimates sent, of one job or of all, the oldest first."""
    found = read(records, f"{_WITH_JOB} WHERE ? IN ('', jobs.name) ORDER BY estimates.id", (job,))
    with understood(records):
        return tuple(_estimate(row) for row in found)


_WITH_JOB = (
    "SELECT estimates.*, jobs.name, jobs.toml, jobs.saved_at FROM estimates JOIN jobs ON jobs.id = estimates.job_id"
)


def _job(row: sqlite3.Row) -> Job:
    return Job(row["id"], row["name"], row["toml"], row["saved_at"])


def _estimate(row: sqlite3.Row) -> SentEstimate:
    job = Job(row["job_id"], row["name"], row["toml"], row["saved_at"])
    if _digest(job, row["sent_at"], row["price"], row["lines"], row["assumptions"]) != row["hash"]:
        raise RecordsError(
            f"estimate {row['id']} of {job.name!r} is not what was sent on {row['sent_at'][:10]}: the file was altered "
            "outside this program; compare it with a backup before you rely on it"
        )
    lines = tuple(_line(SentLine(**each)) for each in json.loads(row["lines"]))
    assumptions = tuple(_assumption(SentAssumption(**each)) for each in json.loads(row["assumptions"]))
    return SentEstimate(row["id"], job, row["sent_at"], Decimal(row["price"]), lines, assumptions, row["hash"])


def _line(line: SentLine) -> SentLine:
    return replace(line, task=ADDRESSES.get(line.task, line.task), row=current_address(line.row))


def _assumption(assumption: SentAssumption) -> SentAssumption:
    return replace(assumption, key=current_address(assumption.key))


def _as_json(items: Sequence[SentLine] | Sequence[SentAssumption]) -> str:
    return json.dumps([asdict(item) for item in items], ensure_ascii=False, sort_keys=True, allow_nan=False)


def _digest(job: Job, *texts: str) -> str:
    whole = json.dumps([job.name, job.toml, job.saved_at, *texts], ensure_ascii=False)
    return hashlib.sha256(whole.encode("utf-8")).hexdigest()
