"""The price of what is typed: the last good result, its ranges, and whether the notes have moved on from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from time import process_time
from typing import Any

from estimating.desk.usual import ASSUMED
from estimating.errors import InputError, InputErrors, RecordsError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, ranges_by_and_by
from estimating.evidence import load_library
from estimating.records.own import NOTHING_OWN, OwnTable, own_table
from estimating.workbook import Outcome, build_job, estimate_job


def without_desk_notes(job: Mapping[str, Any]) -> dict[str, Any]:
    """Return a job as a job file holds it, without what the desk keeps beside it."""
    return {name: value for name, value in job.items() if name != ASSUMED}


class Pricing:
    """Prices jobs with the contractor's own values."""

    def __init__(self) -> None:
        self.own: OwnTable = NOTHING_OWN
        self.outcome: Outcome | None = None
        self.stale = False  # what is typed cannot be priced, and the outcome is from before
        self.took = 0.0  # seconds of work for the last price
        self._sure: tuple[Outcome, EstimateRanges] | None = None

    def read_own(self, records: Path) -> str:
        """Read the own values anew; return what is wrong with their file, nothing when all is well."""
        self.own = NOTHING_OWN
        try:
            self.own = own_table(records, load_library())
        except RecordsError as problem:
            return f"priced without own values: {problem}"
        return ""

    def forget(self) -> None:
        """Forget the last result: another job is on the desk."""
        self.outcome = self._sure = None
        self.stale = False

    def price(self, job: Mapping[str, Any]) -> list[InputError]:
        """Price a job; return what is wrong with it, in which case the last good result stays."""
        began = process_time()
        self.stale = False
        try:
            self.outcome = self.outcome_of(job) if job.get("rooms") and job.get("work") else None
        except InputErrors as problems:
            return self._stays(list(problems.problems))
        except InputError as problem:
            return self._stays([problem])
        self.took = process_time() - began
        return []

    def _stays(self, problems: list[InputError]) -> list[InputError]:
        self.stale = True
        return problems

    def outcome_of(self, job: Mapping[str, Any]) -> Outcome:
        """Return what the workbook makes of a job."""
        return estimate_job(build_job(without_desk_notes(job)), own=self.own.values)

    def price_of(self, job: Mapping[str, Any]) -> float:
        """Return the price of a job in dollars."""
        return float(self.outcome_of(job).estimate.price)

    @property
    def sure(self) -> EstimateRanges | None:
        """The ranges of the last good result, worked out now if they are not yet."""
        for _ in self.work_out_ranges():
            pass
        return self._sure[1] if self._sure else None

    def work_out_ranges(self) -> Iterator[None]:
        """Work the ranges of the last good result out, a little at a time; nothing where they stand already."""
        outcome = self.outcome
        if outcome is None or (self._sure is not None and self._sure[0] is outcome):
            return
        self._sure = outcome, (yield from ranges_by_and_by(outcome.estimate))

    def to_send(self) -> tuple[Outcome, EstimateRanges]:
        """Return what is shown, which is what is sent; InputError while the notes say something else."""
        sure = self.sure
        if self.outcome is None or sure is None or self.stale:
            raise InputError("estimate", "from before the last change", "the marked fields put right first")
        return self.outcome, sure
