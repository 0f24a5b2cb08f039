"""Old job files and records open under today's names, and the reader says once what is called otherwise."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from places import TESTS

from estimating.evidence import OwnValue, load_library
from estimating.job.file import dump_job
from estimating.job.renamed import ADDRESSES, current, current_address
from estimating.records.decisions import accept, own_values, take_back
from estimating.records.own import own_table
from estimating.records.sent import SentAssumption, SentLine, list_estimates, save_job, send_estimate
from estimating.records.store import open_records
from estimating.workbook import build_job, estimate_job, parse_job, read_job

OLD_JOBS = sorted((TESTS / "old_jobs").glob("*.toml"))
NAMES = {  # fields as the stored files have them, and as they are called now
    "colour_now": "color_now",
    "colour_wanted": "color_wanted",
    "bulkheads": "soffits",
    "recessed_trim": "recessed_light",
    "flush_light": "ceiling_light",
}
DEN = {"name": "den", "shape": {"kind": "rectangle", "length": "12 ft", "width": "10 ft"}, "height": "8 ft"}
OLD_ROWS = (
    "business/labour_share",
    "business/second_coat_labour",
    "cautions/mould",
    "cautions/solvent_vapour",
    "factors/extra_colour/member",
    "factors/height_allowance_1890/storey",
    "measuring/above_three_storeys/factor",
    "measuring/height_interior/added_per_storey",
    "measuring/louvred/factor",
    "production/change_colour/airless/any",
    "production/extra_colour/any/any",
    "production/mobilise/any/any",
    "production/paint_door/brush/louvred",
    "production/shutter/brush/louvred",
    "release/way/seal_roll/odds",
)


def repaint(**answers: Any) -> dict[str, Any]:
    return {"title": "a den", "rooms": [DEN], "work": [{"kind": "interior_repaint", "room": "den", **answers}]}


@pytest.mark.parametrize("path", OLD_JOBS, ids=lambda path: path.stem)
def test_an_old_file_comes_to_the_price_of_the_same_file_in_todays_words(path: Path) -> None:
    """Stored as they were written before colors, soffits and lights had their names of today."""
    old = read_job(path)
    text = path.read_text(encoding="utf-8")
    renamed = text
    for name, now in NAMES.items():
        renamed = renamed.replace(name, now)
    today = parse_job(renamed)
    assert estimate_job(old).estimate.price == estimate_job(today).estimate.price
    assert dump_job(old) == dump_job(today)
    assert today.notices == ()
    for name, now in NAMES.items():
        assert any(f"“{name}” is called “{now}” now" in each for each in old.notices) is (name in text)


def test_each_old_name_is_said_once() -> None:
    """However many surfaces have a color, the reader says it once; what it writes is read without a word."""
    surface = {"painted": "yes", "colour_now": "gray", "colour_wanted": "white", "change": "same colour"}
    doors = [{"kind": "louvred", "count": 2}]
    plain = repaint(walls=surface, ceiling=surface, trim={"painted": "yes", "doors": doors}, way="spray")
    job = build_job({**plain, "terms": {"licence": "L 1"}})
    assert sorted(each.split("”")[0].strip("“") for each in job.notices) == sorted(
        ("colour_now", "colour_wanted", "louvred", "licence", "same colour", "way")
    )
    assert job.work[0].method == "spray"
    assert job.terms.license == "L 1"
    assert parse_job(dump_job(job)).notices == ()


def test_an_old_own_figure_stands_in_place_of_the_row_as_it_is_called_now() -> None:
    """The price is that of the same figure under today's address."""
    own = {"likely": 3, "unit": "hour"}
    old, now = (build_job({**repaint(), "own": {f"production/{key}/any/any": own}}) for key in ("mobilise", "mobilize"))
    assert list(old.own) == ["production/mobilize/any/any"]
    assert estimate_job(old).estimate.price == estimate_job(now).estimate.price
    assert now.notices == ()


def test_where_old_and_new_name_stand_side_by_side_the_new_one_holds() -> None:
    """The old one is not read, nor is anything said of it."""
    plain, notices = current({"work": [{"way": "roll", "method": "spray"}]})
    assert plain == {"work": [{"method": "spray"}]}
    assert notices == ()


@pytest.mark.parametrize("address", OLD_ROWS)
def test_every_row_that_was_renamed_is_found(address: str) -> None:
    """The address an older file or record uses leads to a row that is in the tables."""
    library = load_library()
    assert not library.has(address)
    assert library.has(current_address(address))


def test_no_row_of_today_is_renamed() -> None:
    """What is called by its name of today stays as it is."""
    rows = [row.key for table in load_library().tables.values() for row in table.values()]
    assert [key for key in rows if current_address(key) != key] == []
    assert not set(ADDRESSES) & set(ADDRESSES.values())


def test_records_of_an_older_day_are_read_in_todays_names(tmp_path: Path) -> None:
    """Own values, estimates as sent and the jobs in them; an own value can be taken back by its name of today."""
    path, old, now = tmp_path / "records.sqlite", "production/mobilise/any/any", "production/mobilize/any/any"
    line = SentLine("Load, unload and set up", "mobilise", "hours", 1, 1.5, 2, row=old)
    text = (TESTS / "old_jobs" / "alder_row_sitting_room.toml").read_text(encoding="utf-8")
    with open_records(path) as records:
        accept(records, old, OwnValue(2.0, "hour"))
        job = save_job(records, "Alder Row", text)
        price = estimate_job(parse_job(job.toml)).estimate.price
        assumption = SentAssumption(old, 1, 1.5, 2, "hour", "judgment")
        send_estimate(records, "Alder Row", price=price, lines=[line], assumptions=[assumption])
        (sent,) = list_estimates(records)
    assert (sent.lines[0].task, sent.lines[0].row, sent.assumptions[0].key) == ("mobilize", now, now)
    assert parse_job(sent.job.toml).notices
    assert set(own_table(path, load_library()).values) == {now}
    assert own_table(path, load_library()).warning == ""
    with open_records(path) as records:
        take_back(records, now)
        assert own_values(records) == {}
