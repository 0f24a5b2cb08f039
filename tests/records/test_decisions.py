from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from estimating.errors import RecordsError
from estimating.evidence import OwnValue
from estimating.origins import Kind
from estimating.records.decisions import accept, decisions, own_values, take_back
from estimating.records.store import open_records

KEY = "production/roll_ceiling/roll/popcorn"
NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
FIRST = OwnValue(140.0, "ft**2/hour", 110.0, 180.0, "published 150 → yours 140 (n = 3)", "2026-03-04", Kind.OWN_RECORD)
SECOND = OwnValue(128.0, "ft**2/hour", 104.0, 158.0, "published 150 → yours 128 (n = 7)", "2026-05-04", Kind.OWN_RECORD)


def test_own_values_are_accepted_and_taken_back_step_by_step(tmp_path: Path) -> None:
    """Taking back returns to the own value before, then to the reference row, then is refused."""
    with open_records(tmp_path / "records.sqlite") as records:
        assert own_values(records) == {}
        accept(records, KEY, FIRST)
        accept(records, KEY, SECOND)
        assert own_values(records) == {KEY: SECOND}
        take_back(records, KEY)
        assert own_values(records) == {KEY: FIRST}
        take_back(records, KEY)
        assert own_values(records) == {}
        with pytest.raises(RecordsError, match="no own value to take back"):
            take_back(records, KEY)
        assert [each.value for each in decisions(records, KEY)] == [FIRST, SECOND, None, None]


def test_the_own_values_of_a_past_day_can_be_seen_again(tmp_path: Path) -> None:
    """What stood at a moment stands there for good, whatever was decided later."""
    with open_records(tmp_path / "records.sqlite") as records:
        accept(records, KEY, FIRST, NOON)
        accept(records, KEY, SECOND, NOON + timedelta(days=60))
        take_back(records, KEY, NOON + timedelta(days=61))
        assert own_values(records, NOON - timedelta(days=1)) == {}
        assert own_values(records, NOON) == {KEY: FIRST}
        assert own_values(records, NOON + timedelta(days=60)) == {KEY: SECOND}
        assert own_values(records) == {KEY: FIRST}
