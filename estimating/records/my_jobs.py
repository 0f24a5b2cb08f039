"""The contractor's jobs, each in a file of its own beside the records, and the demos that can be copied."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from copy import deepcopy
from dataclasses import dataclass, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from estimating.errors import EstimatingError, RecordsError
from estimating.files import write_aside
from estimating.job.file import plain_job
from estimating.job.values import UNKNOWN
from estimating.records.sitting import Kept, Sitting, loaded, open_sitting
from estimating.scopes.registry import READER

FOLDER = "jobs"
LAST = "open_pages"
DEMO = "demo-"  # a draft over a demo is kept under the demo's name, and is no job of one's own
EMPTY: Mapping[str, Any] = {"title": "New job", "invented": False, "rooms": [], "work": [], "own": {}}


@dataclass(frozen=True)
class JobRow:
    """One line of the list: a job of one's own, or a demo."""

    key: str
    title: str
    client: str
    state: str
    changed: str
    price: str
    demo: bool = False


def jobs_folder(records: Path) -> Path:
    """Return the folder of the contractor's jobs, beside the records file."""
    return records.parent / FOLDER


def my_jobs(records: Path) -> list[JobRow]:
    """Return the jobs of one's own, the one changed last first; a file that cannot be read is listed as such."""
    paths = [path for path in jobs_folder(records).glob("*.json") if not path.name.startswith(DEMO)]
    return sorted(map(_row, paths), key=lambda row: row.changed, reverse=True)


def _row(path: Path) -> JobRow:
    try:
        kept = loaded(path)
    except RecordsError:
        return JobRow(path.stem, path.stem, "", "cannot be read", "", "")
    return JobRow(path.stem, title_of(kept.job), client_of(kept.job), kept.state, kept.changed, kept.price)


def title_of(job: Mapping[str, Any]) -> str:
    """Return the title of a job as typed."""
    return str(job.get("title") or "Job without a name")


def client_of(job: Mapping[str, Any]) -> str:
    """Return the client's name as typed; empty while unknown."""
    name = str((job.get("client") or {}).get("name", UNKNOWN))
    return "" if name == UNKNOWN else name


def demo_jobs(folder: Path) -> list[JobRow]:
    """Return the invented jobs in a folder of job files."""
    rows = []
    for path in sorted(folder.glob("*.toml")):
        try:
            job = READER.read(path)
        except EstimatingError:
            continue  # a job file that cannot be read is no demo; opening it says what is wrong
        if job.invented:
            rows.append(JobRow(str(path), job.title, "", "demo", "", "", demo=True))
    return rows


def new_job(records: Path, usual: Mapping[str, Any], title: str = "") -> Sitting:
    """Begin a job of one's own with what is usual for the business and nothing else."""
    job = {**deepcopy(dict(EMPTY)), **deepcopy(dict(usual)), "title": title or str(EMPTY["title"])}
    return begin(records, Kept(job=job))


def begin(records: Path, kept: Kept) -> Sitting:
    """Put a job into the folder under a name that is not in use."""
    folder = jobs_folder(records)
    sitting = Sitting(folder / f"{_free(folder, title_of(kept.job))}.json", kept)
    sitting.keep_mine()
    return sitting


def _free(folder: Path, title: str) -> str:
    word = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")[:40] or "job"
    word = word if not word.startswith(DEMO) else f"my-{word}"
    names = (word, *(f"{word}-{number}" for number in range(2, 10_000)))
    return next(name for name in names if not (folder / f"{name}.json").exists())


def copy_job(records: Path, kept: Kept, usual: Mapping[str, Any]) -> Sitting:
    """Begin a job of one's own with the rooms and work of another; of a demo, nothing that was invented about people.

    A copy of a demo takes no client, address, household or terms along, and no figure of the demo's own.
    """
    job = deepcopy(dict(kept.job))
    job["title"] = f"Copy of {title_of(job)}"
    if job.get("invented") or kept.demo:
        kept_parts = {str(name): job[name] for name in ("title", "rooms", "work") if name in job}
        job = {**deepcopy(dict(EMPTY)), **deepcopy(dict(usual)), **kept_parts}
    return begin(records, Kept(job=job))


def open_own(records: Path, key: str) -> Sitting:
    """Return the sitting of a job of one's own."""
    return open_sitting(jobs_folder(records) / f"{key}.json")


def open_file(records: Path, path: Path) -> Sitting:
    """Return the sitting over a job file: a demo as a draft of itself, any other as a job of one's own.

    Where the file has changed since it was last read, what it holds now is one more step, which undo takes back.
    """
    path = path.resolve()
    text = _text(path)
    job = READER.parse(text, str(path))
    mark = sha256(text.encode("utf-8")).hexdigest()
    folder = jobs_folder(records)
    drafts = [folder / f"{DEMO}{path.stem}.json"] if job.invented else sorted(folder.glob("*.json"))
    sitting = _from_source(drafts, path)
    if sitting is None:
        kept = Kept(plain_job(job), demo=str(path) if job.invented else "", source=str(path), source_mark=mark)
        sitting = Sitting(drafts[0], kept) if job.invented else begin(records, kept)
    elif sitting.kept.source_mark != mark:
        sitting.kept = replace(sitting.kept, source_mark=mark)
        sitting.change(plain_job(job), "job file read again")
    sitting.notices = job.notices
    return sitting


def _from_source(drafts: Iterable[Path], path: Path) -> Sitting | None:
    for draft in drafts:
        try:
            kept = loaded(draft)
        except RecordsError:
            continue
        if kept.source == str(path):
            return Sitting(draft, kept)
    return None


def _text(path: Path) -> str:
    READER.read(path)  # says in words what is wrong with a file that cannot be read
    return path.read_text(encoding="utf-8")


def remember(records: Path, page: str, key: str) -> None:
    """Remember which job of one's own a page has on its desk, so that it goes on with it; empty for none."""
    folder = jobs_folder(records)
    folder.mkdir(parents=True, exist_ok=True)
    write_aside(folder / LAST, json.dumps({**_remembered(records), page: key}))


def last_open(records: Path, page: str) -> str:
    """Return the job of one's own that a page had on its desk last; empty when it is there no more."""
    key = _remembered(records).get(page, "")
    return key if key and (jobs_folder(records) / f"{key}.json").exists() else ""


def _remembered(records: Path) -> dict[str, str]:
    try:
        held = json.loads((jobs_folder(records) / LAST).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(page): str(key) for page, key in held.items()} if isinstance(held, dict) else {}
