"""Actuals laid beside what was promised, in the words learning works with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from estimating.learning.failures import Worked
from estimating.learning.rates import Observed
from estimating.records.actuals import Actual, list_actuals, list_releases
from estimating.records.sent import WHOLE_JOB, SentAssumption, SentEstimate, SentLine, list_estimates
from estimating.records.store import Records


@dataclass(frozen=True)
class Compared:
    """Finished lines beside their promises; and what has no ratio: not promised, or promised and not done."""

    observed: tuple[Observed, ...]
    unmatched: tuple[Actual, ...]


def compare(records: Records) -> Compared:
    """Return every actual beside the line it was promised in.

    Several actuals of one line and measure (a line that took three days) are added up, and dated by the last.
    An actual of a line that stood in no estimate, or that was promised nothing or took nothing, is unmatched.
    """
    sent = {estimate.id: estimate for estimate in list_estimates(records)}
    promised = {(each.id, line.line, line.measure): line for each in sent.values() for line in each.lines}
    spent: dict[tuple[int, str, str], list[Actual]] = {}
    for actual in list_actuals(records):
        spent.setdefault((actual.estimate_id, actual.line, actual.measure), []).append(actual)
    observed, unmatched = [], []
    for key, actuals in spent.items():
        line = promised.get(key)
        amount = sum(actual.amount for actual in actuals)
        if line is None or line.likely <= 0 or amount <= 0:
            unmatched += actuals
        else:
            observed.append(_observed(sent[key[0]], line, amount, actuals[-1].done_on, actuals[-1].crew))
    return Compared(tuple(observed), tuple(unmatched))


def worked(records: Records) -> tuple[Worked, ...]:
    """Return every recorded job on an old coating, with whether any of it came down."""
    return tuple(
        Worked(each.history, each.odds, each.released_area > 0, each.done_on, each.share, each.sound)
        for each in list_releases(records)
    )


def _observed(estimate: SentEstimate, line: SentLine, amount: float, done_on: date, crew: str) -> Observed:
    assumed = _by_key(estimate).get(line.row)
    return Observed(
        job=estimate.job.name,
        task=line.task,
        measure=line.measure,
        low=line.low,
        estimated=line.likely,
        high=line.high,
        actual=amount,
        done_on=done_on,
        surface=line.surface,
        product=line.product,
        row=line.row if assumed else "",
        assumed=assumed.likely if assumed else 0.0,
        unit=assumed.unit if assumed else "",
        crew=crew,
        whole=line.task == WHOLE_JOB,
    )


def _by_key(estimate: SentEstimate) -> Mapping[str, SentAssumption]:
    return {assumption.key: assumption for assumption in estimate.assumptions}
