"""An estimate as it goes to the client: its promises and its assumptions as the records keep them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from estimating.errors import RecordsError
from estimating.estimate.pricing.lines import Line, Section
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges
from estimating.evidence import ANY
from estimating.figures import Figure
from estimating.job.file import dump_job
from estimating.records.sent import (
    WHOLE_JOB,
    SentAssumption,
    SentEstimate,
    SentLine,
    list_estimates,
    save_job,
    send_estimate,
)
from estimating.records.store import Records, together
from estimating.review.release_terms import release_terms
from estimating.row_key import RowKey
from estimating.workbook import Outcome

MEASURES = {Section.LABOR: "hours", Section.PAINT: "gallons"}
WHOLE = "All hours of the job"
BY_SURFACE = "production"  # the table whose last key is the surface worked on


@dataclass(frozen=True)
class Sending:
    """An estimate in the records, and whether it was put there now or stood there already, word for word."""

    estimate: SentEstimate
    new: bool


def record_as_sent(
    records: Records, name: str, outcome: Outcome, sure: EstimateRanges, at: datetime | None = None
) -> Sending:
    """Freeze an estimate in the records under a job's name, with the job as it was typed.

    Sending the same again adds nothing; a changed one is a further estimate, and the older ones stay.
    Raises RecordsError for an estimate with nothing in it, or without a name.
    """
    if not name.strip():
        raise RecordsError("the name of the job: got nothing, needs a word to find it by")
    lines, assumptions = sent_lines(outcome, sure), sent_assumptions(outcome)
    if not lines:
        raise RecordsError(f"{name}: has no line to be sent; declined work is no estimate")
    text, price = dump_job(outcome.job), outcome.estimate.price
    with together(records):
        for latest in list_estimates(records, name)[-1:]:
            if (latest.job.toml, latest.price, latest.lines, latest.assumptions) == (text, price, lines, assumptions):
                return Sending(latest, new=False)
        save_job(records, name, text, at)
        sent = send_estimate(records, name, price=price, lines=lines, assumptions=assumptions, at=at)
    return Sending(sent, new=True)


def sent_lines(outcome: Outcome, sure: EstimateRanges) -> tuple[SentLine, ...]:
    """Return every line as a promise: labor in hours, paint in gallons, everything else in dollars.

    Before them stands one for all hours together, for who has only those. low and high are the 10th and 90th
    percentile of the line alone. No two lines have one name.
    """
    lines = outcome.estimate.lines
    if not lines:
        return ()
    hours, range_ = outcome.estimate.hours, sure.hours
    whole = SentLine(WHOLE, WHOLE_JOB, "hours", range_.low, hours.value, range_.high)
    return (whole, *(_sent_line(line, name, sure) for line, name in zip(lines, _names(lines), strict=True)))


def _names(lines: Iterable[Line]) -> Iterator[str]:
    seen: Counter[str] = Counter()
    for line in lines:
        name = f"{line.item}, {line.room}" if line.room else line.item
        seen[name] += 1
        yield name if seen[name] == 1 else f"{name} ({seen[name]})"


def _sent_line(line: Line, name: str, sure: EstimateRanges) -> SentLine:
    measure = MEASURES.get(line.section, "dollars")
    spread, likely = (
        (sure.amounts[line], float(line.cost)) if measure == "dollars" else (sure.quantities[line], line.quantity.value)
    )
    row = RowKey.parse(line.row)
    return SentLine(
        line=name,
        task=row.keys[0] if measure == "hours" and row.keys else line.key,
        measure=measure,
        low=spread.low,
        likely=likely,
        high=spread.high,
        surface=row.keys[-1] if row.table == BY_SURFACE and row.keys[-1] != ANY else "",
        product=line.key if measure == "gallons" else "",
        row=line.row,
    )


def sent_assumptions(outcome: Outcome) -> tuple[SentAssumption, ...]:
    """Return every assumption looked up for the estimate, and the odds of release; those of methods not taken too.

    All of them were weighed when the price was made, so all of them are kept.
    """
    used = outcome.basis.used()
    return (*(_sent_assumption(used[key]) for key in sorted(used)), *release_terms(outcome))


def _sent_assumption(figure: Figure) -> SentAssumption:
    origin = figure.origin
    return SentAssumption(
        key=figure.key,
        low=figure.value if figure.low is None else figure.low,
        likely=figure.value,
        high=figure.value if figure.high is None else figure.high,
        unit=figure.unit,
        origin=str(origin.kind),
        source=origin.source,
        place=origin.place,
        year=origin.year,
        note=origin.note,
    )
