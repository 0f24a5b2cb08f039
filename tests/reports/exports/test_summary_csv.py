import csv
import dataclasses
import io
import re
from decimal import Decimal
from functools import lru_cache

import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from places import JOBS as JOBS_DIR

from estimating.estimate.pricing.lines import Section
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.reports.exports.summary_csv import COLUMNS, FORMULA_STARTS, plain_text, summary_csv
from estimating.reports.format import UnitSystem
from estimating.workbook import Outcome, estimate_job, read_job

JOBS = sorted(JOBS_DIR.glob("*.toml"))


@pytest.fixture(scope="module", params=JOBS, ids=lambda path: path.stem)
def priced(request: pytest.FixtureRequest) -> tuple[Outcome, EstimateRanges]:
    outcome = estimate_job(read_job(request.param))
    return outcome, estimate_ranges(outcome.estimate, points=512)


@pytest.fixture(scope="module")
def demo() -> tuple[Outcome, EstimateRanges]:
    return small()


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_it_is_written_as_the_standard_says(priced: tuple[Outcome, EstimateRanges]) -> None:
    """RFC 4180: every record ends in CR LF, the header first, every record as many fields; and it is UTF-8."""
    text = summary_csv(*priced)
    lines = text.split("\r\n")
    assert lines.pop() == ""
    assert lines[0] == ",".join(COLUMNS)
    records = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert {len(record) for record in records} == {len(COLUMNS)}
    assert len(records) == len(priced[0].estimate.lines) + 2
    assert text.encode("utf-8").decode("utf-8") == text
    assert "\n" not in text.replace("\r\n", "")


def test_a_field_with_a_comma_a_quote_or_a_line_end_is_quoted(demo: tuple[Outcome, EstimateRanges]) -> None:
    """And comes back as it was."""
    outcome, sure = demo
    title = 'A "ceiling", over\r\ntwo lines'
    text = summary_csv(dataclasses.replace(outcome, job=outcome.job.model_copy(update={"title": title})), sure)
    assert '"invented job; A ""ceiling"", over\r\ntwo lines"' in text
    assert rows_of(text)[-1]["detail"] == f"invented job; {title}"


def test_the_rows_add_up_to_the_total_to_the_cent(priced: tuple[Outcome, EstimateRanges]) -> None:
    """Read as decimals from the text itself, and to the price of the estimate."""
    *lines, total = rows_of(summary_csv(*priced))
    assert total["section"] == "total"
    assert sum(Decimal(line["cost"]) for line in lines) == Decimal(total["cost"]) == priced[0].estimate.price
    assert all(Decimal(line["cost"]) == Decimal(line["cost"]).quantize(Decimal("0.01")) for line in (*lines, total))


def test_it_opens_in_pandas(priced: tuple[Outcome, EstimateRanges]) -> None:
    """As a table of numbers and words, whose sum is the total."""
    table = pd.read_csv(io.StringIO(summary_csv(*priced)))
    assert list(table.columns) == list(COLUMNS)
    for column in ("quantity", "low", "likely", "high", "unit cost", "cost", "cost low", "cost high"):
        assert pd.api.types.is_numeric_dtype(table[column]), column
    lines = table[table["section"] != "total"]
    assert lines["cost"].sum() == pytest.approx(float(priced[0].estimate.price), abs=0.001)
    assert lines["origin"].notna().all()
    assert set(lines["section"]) <= {str(section) for section in Section}


def test_every_row_says_its_range_and_where_it_comes_from(priced: tuple[Outcome, EstimateRanges]) -> None:
    """Low no more than high; kinds of evidence, and sources where there are any."""
    *lines, _ = rows_of(summary_csv(*priced))
    for line in lines:
        assert float(line["low"]) <= float(line["high"])
        assert float(line["cost low"]) <= float(line["cost high"])
        assert line["origin"]
    assert any(re.search(r"\bP\d", line["origin"]) for line in lines)
    assert all(len(line["origin"]) < 40 for line in lines)


def test_paint_is_shown_as_bought_beside_what_is_needed(demo: tuple[Outcome, EstimateRanges]) -> None:
    """Whole containers, in gallons, no less than the need."""
    outcome, _ = demo
    bought = {order.title: order.containers.gallons_bought for order in outcome.estimate.paint}
    lines = [line for line in rows_of(summary_csv(*demo)) if line["section"] == "paint"]
    assert len(lines) == len(bought)
    for line in lines:
        assert line["unit"] == "gal"
        assert float(line["quantity"]) >= float(line["likely"])
        assert (float(line["quantity"]) / 0.25).is_integer()
        assert "buy " in line["detail"]


def test_an_invented_job_says_so(priced: tuple[Outcome, EstimateRanges]) -> None:
    """In the row of the total, which goes wherever the file goes."""
    assert "invented job" in rows_of(summary_csv(*priced))[-1]["detail"]


def test_in_metric_the_money_is_the_same(priced: tuple[Outcome, EstimateRanges]) -> None:
    """Quantities in liters and meters; every cost to the cent as before."""
    feet, meters = (rows_of(summary_csv(*priced, shown)) for shown in (UnitSystem.US, UnitSystem.METRIC))
    assert [line["cost"] for line in feet] == [line["cost"] for line in meters]
    assert {line["unit"] for line in meters if line["section"] == "paint"} == {"L"}


HIDDEN = [
    "\u200b=",
    "\ufeff+",
    "\uff1d",
    "\uff0b",
    "\uff0d",
    "\uff20",
    "\ufe66",
    "\u2060@",
    "\u00a0-",
    "\u200b\ufeff =",
]


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r=", " =", "\n=", *HIDDEN])
def test_text_that_a_spreadsheet_would_run_is_made_plain(start: str) -> None:
    """A quote is put before it, which the spreadsheet shows as text."""
    assert plain_text(f"{start}1+1") == f"'{start}1+1"


@pytest.mark.parametrize("text", ["sitting room", "12 × 10", "a = b", "'=1", "", "½ in"])
def test_other_text_is_left_alone(text: str) -> None:
    """A sign inside a sentence is no formula."""
    assert plain_text(text) == text


typed = st.text(st.characters(codec="utf-8"), min_size=1, max_size=20)
formulas = st.builds("{}{}".format, st.sampled_from(FORMULA_STARTS), typed)


@settings(max_examples=40, deadline=None)
@given(st.one_of(formulas, typed), st.one_of(formulas, typed))
def test_whatever_is_typed_runs_in_no_spreadsheet_and_comes_back(title: str, room: str) -> None:
    """No field begins as a formula would, and each is what was typed, with no more than a quote before it."""
    outcome, sure = small()
    lines = tuple(dataclasses.replace(line, room=room, detail=title) for line in outcome.estimate.lines)
    again = dataclasses.replace(
        outcome,
        job=outcome.job.model_copy(update={"title": title, "invented": False}),
        estimate=dataclasses.replace(outcome.estimate, lines=lines),
    )
    ranges = (
        dict(zip(lines, sure.amounts.values(), strict=True)),
        dict(zip(lines, sure.quantities.values(), strict=True)),
    )
    text = summary_csv(again, dataclasses.replace(sure, amounts=ranges[0], quantities=ranges[1]))
    records = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    for field in (field for record in records for field in record):
        assert not field.lstrip().startswith(FORMULA_STARTS) or is_number(field)
    first = dict(zip(COLUMNS, records[1], strict=True))
    assert first["room"].removeprefix("'") == room.removeprefix("'")
    assert first["detail"].removeprefix("'") == title.removeprefix("'")


def is_number(field: str) -> bool:
    try:
        float(field)
    except ValueError:
        return False
    return True


@lru_cache(maxsize=1)
def small() -> tuple[Outcome, EstimateRanges]:
    """Return the demo, priced once for all examples."""
    (path,) = [path for path in JOBS if path.stem == "alder_row_sitting_room"]
    outcome = estimate_job(read_job(path))
    return outcome, estimate_ranges(outcome.estimate, points=64)
