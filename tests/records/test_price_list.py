"""The price list as CSV: written with ages, read again, and refused in words where it cannot be meant."""

from __future__ import annotations

import csv
from datetime import date, timedelta
from pathlib import Path

import pytest

from estimating.errors import InputErrors
from estimating.evidence import OwnValue, load_library
from estimating.records.__main__ import main
from estimating.records.own import own_table
from estimating.records.price_list import NO_DAY, OLD, price_csv, read_price_csv

LIBRARY = load_library()
TODAY = date(2026, 11, 20)
KEY = "prices/wall_paint/gallon"


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(text.splitlines()))


def one(text: str, item: str = "wall_paint", container: str = "gallon") -> dict[str, str]:
    return next(row for row in rows(text) if (row["item"], row["container"]) == (item, container))


def test_every_price_is_in_it_with_its_age() -> None:
    """One's own price in place of the table's; old ones and those without a day are marked."""
    own = {KEY: OwnValue(51.5, "dollar", note="by phone", date="2026-11-10")}
    text = price_csv(LIBRARY, own, TODAY)
    assert len(rows(text)) == len(LIBRARY.table("prices"))
    found = one(text)
    assert (found["dollars"], found["days_old"], found["warning"], found["note"]) == ("51.50", "10", "", "by phone")
    undated = price_csv(LIBRARY, {KEY: OwnValue(51.5, "dollar")}, TODAY)
    assert one(undated)["warning"] == NO_DAY
    aged = price_csv(LIBRARY, {KEY: OwnValue(51.5, "dollar", date="2026-08-01")}, TODAY)
    assert one(aged)["warning"] == OLD


def test_a_list_that_was_not_touched_changes_nothing() -> None:
    """Written and read on the same day or later."""
    text = price_csv(LIBRARY, {}, TODAY)
    assert read_price_csv(text, LIBRARY, {}, TODAY + timedelta(days=3)) == ()


def test_a_new_price_is_of_today_unless_its_day_is_typed() -> None:
    """A spreadsheet keeps the old day in its cell: with another price beside it, it is not meant."""
    text = price_csv(LIBRARY, {}, TODAY)
    before = one(text)
    line = next(line for line in text.splitlines() if line.startswith("wall_paint,gallon,"))
    again = text.replace(line, line.replace(f",{before['dollars']},", ",61.25,"))
    [found] = read_price_csv(again, LIBRARY, {}, TODAY)
    assert (found.item, found.container, str(found.dollars), found.priced_on) == (
        "wall_paint",
        "gallon",
        "61.25",
        TODAY,
    )
    [dated] = read_price_csv(
        "item,container,dollars,priced_on\nwall_paint,gallon,$61.25,2026-10-01\n", LIBRARY, {}, TODAY
    )
    assert dated.priced_on == date(2026, 10, 1)


def test_a_price_asked_again_and_the_same_is_new_again() -> None:
    """The same dollars with another day move the age and not the price."""
    before = one(price_csv(LIBRARY, {}, TODAY))
    text = f"item,container,dollars,priced_on\nwall_paint,gallon,{before['dollars']},2026-11-19\n"
    [found] = read_price_csv(text, LIBRARY, {}, TODAY)
    assert found.priced_on == date(2026, 11, 19)


def test_everything_wrong_is_said_at_once() -> None:
    """By row, and nothing is kept."""
    text = (
        "item,container,dollars,priced_on\nwall_pant,gallon,40,\nwall_paint,gallon,forty,\nwall_paint,five,200,May 4\n"
    )
    with pytest.raises(InputErrors) as refused:
        read_price_csv(text, LIBRARY, {}, TODAY)
    said = [str(each) for each in refused.value.problems]
    assert len(said) == 3
    assert said[0].startswith("row 2 · item")
    assert said[2].startswith("row 4 · priced_on")


def test_from_a_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Written, changed, read; then it stands in every estimate."""
    records, listed = tmp_path / "records.sqlite", tmp_path / "list.csv"
    assert main(["price-list", str(records), str(listed)]) == 0
    assert "ask again" in capsys.readouterr().out
    listed.write_text("item,container,dollars\nwall_paint,gallon,47\n", "utf-8")
    assert main(["read-prices", str(records), str(listed)]) == 0
    assert own_table(records, LIBRARY).values[KEY].likely == 47
    assert main(["read-prices", str(records), str(listed)]) == 0
    assert "no price in it is new" in capsys.readouterr().out


def test_a_price_that_cannot_be_meant_keeps_none_of_the_list(tmp_path: Path) -> None:
    """A slip of the point in one row leaves the others out as well."""
    records, listed = tmp_path / "records.sqlite", tmp_path / "list.csv"
    listed.write_text("item,container,dollars\nwall_paint,gallon,47\nwall_paint,quart,1800000\n", "utf-8")
    assert main(["read-prices", str(records), str(listed)]) == 2
    assert own_table(records, LIBRARY).values == {}
