"""Open estimates priced again with other prices or rates: what each comes to now, and what each change moves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from estimating.errors import EstimatingError, InputError
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.evidence import Library, OwnValue, load_library
from estimating.records.jobs_folder import OPEN, FiledJob, filed_jobs
from estimating.records.own import check_own
from estimating.units import convert
from estimating.workbook import Outcome, estimate_job


@dataclass(frozen=True)
class Repriced:
    """An open job before and after: its price, what it costs to do eight times in ten, and what each change moves."""

    name: str
    title: str
    state: str
    before: Decimal = Decimal(0)
    after: Decimal = Decimal(0)
    cost_low: float = 0.0
    cost_high: float = 0.0
    moved: Mapping[str, Decimal] | None = None  # by the address of the row, each change by itself
    problem: str = ""

    @property
    def change(self) -> Decimal:
        """What the price goes up or down by."""
        return self.after - self.before


def repriced(
    folder: Path, before: Mapping[str, OwnValue], after: Mapping[str, OwnValue], library: Library | None = None
) -> Iterator[Repriced]:
    """Yield the open jobs of a folder priced with both sets of own values, one after the other.

    Raises InputError where a value cannot stand in place of its row.
    """
    library = library or load_library()
    changes = changed(before, after, library)
    for filed in filed_jobs(folder):
        if filed.problem:
            yield Repriced(filed.name, filed.name, "", problem=filed.problem)
        elif filed.state in OPEN:
            yield _repriced(filed, before, changes, library)


def changed(
    before: Mapping[str, OwnValue], after: Mapping[str, OwnValue], library: Library
) -> dict[str, OwnValue | None]:
    """Return the values that are another after than before; None where the row of the table stands again."""
    found: dict[str, OwnValue | None] = {}
    for key in dict.fromkeys((*before, *after)):
        if before.get(key) != after.get(key):
            own = after.get(key)
            if not library.has(key):
                raise InputError(key, "", "the address of a row, such as prices/wall_paint/gallon")
            if own is not None:
                check_own(library.named(key), own)
            found[key] = own
    return found


def _repriced(
    filed: FiledJob, before: Mapping[str, OwnValue], changes: Mapping[str, OwnValue | None], library: Library
) -> Repriced:
    assert filed.job is not None
    after = {key: own for key, own in before.items() if key not in changes}
    after |= {key: own for key, own in changes.items() if own is not None}
    try:
        old = estimate_job(filed.job, library, before)
        new = estimate_job(filed.job, library, after) if changes else old
        cost = estimate_ranges(new.estimate).cost
        moved = {key: _moved(old, key, own) for key, own in changes.items()}
    except EstimatingError as problem:
        return Repriced(filed.name, filed.job.title, filed.state, problem=str(problem))
    prices = old.estimate.price, new.estimate.price
    return Repriced(filed.name, filed.job.title, filed.state, *prices, cost.low, cost.high, moved)


def _moved(outcome: Outcome, key: str, own: OwnValue | None) -> Decimal:
    """Return what one value moves by itself; nothing where the price does not rest on its row."""
    row = outcome.basis.library.named(key)
    held = outcome.basis.own.get(key)
    likely, unit = (row.likely, row.unit) if own is None else (own.likely, own.unit)
    value = float(convert(likely, unit, held.unit if held else row.unit))
    try:
        return outcome.moved({key: value}).price - outcome.estimate.price
    except InputError:
        return Decimal("0.00")
