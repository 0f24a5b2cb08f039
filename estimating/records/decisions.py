"""Own values accepted in place of reference rows, and taken back: dated decisions that can be gone back over."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from types import MappingProxyType

from estimating.errors import RecordsError
from estimating.evidence import OwnValue
from estimating.job.renamed import current_address
from estimating.origins import Kind
from estimating.records.store import Records, moment, read, understood, write


@dataclass(frozen=True)
class Decision:
    """An own value accepted for a reference row, or (value None) the last acceptance taken back."""

    id: int
    key: str
    decided_at: str
    value: OwnValue | None


def accept(records: Records, key: str, value: OwnValue, at: datetime | None = None) -> Decision:
    """Put an own value in place of a reference row from now on."""
    return _decide(records, key, value, at)


def take_back(records: Records, key: str, at: datetime | None = None) -> Decision:
    """Undo the last acceptance that still stands for a row: the own value before it holds again, or the reference row.

    Raises RecordsError when no acceptance stands.
    """
    if key not in own_values(records):
        raise RecordsError(f"{key}: has no own value to take back; it stands as published")
    return _decide(records, key, None, at)


def decisions(records: Records, key: str = "") -> tuple[Decision, ...]:
    """Return the decisions made about one row or all, the oldest first."""
    found = read(records, "SELECT * FROM own_values ORDER BY id")
    with understood(records):
        made = tuple(map(_decision, found))
    return tuple(each for each in made if key in ("", each.key))


def own_values(records: Records, as_of: datetime | None = None) -> Mapping[str, OwnValue]:
    """Return the own values that stand now, by row address, or those that stood at a moment in the past."""
    until = moment(as_of) if as_of else ""
    standing: dict[str, list[OwnValue]] = {}
    for decision in decisions(records):
        if until and decision.decided_at > until:
            continue
        values = standing.setdefault(decision.key, [])
        if decision.value is not None:
            values.append(decision.value)
        elif values:
            values.pop()
    return MappingProxyType({key: values[-1] for key, values in standing.items() if values})


def _decide(records: Records, key: str, value: OwnValue | None, at: datetime | None) -> Decision:
    decided_at = moment(at)
    row = write(
        records,
        "INSERT INTO own_values (key, decided_at, decision, value) VALUES (?, ?, ?, ?)",
        (
            key,
            decided_at,
            "taken back" if value is None else "accepted",
            None if value is None else json.dumps(asdict(value), ensure_ascii=False, allow_nan=False),
        ),
    )
    return Decision(row, key, decided_at, value)


def _decision(row: sqlite3.Row) -> Decision:
    cells = json.loads(row["value"]) if row["value"] else None
    value = OwnValue(**{**cells, "kind": Kind(cells["kind"])}) if cells else None
    return Decision(row["id"], current_address(row["key"]), row["decided_at"], value)
