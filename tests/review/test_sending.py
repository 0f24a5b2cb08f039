"""An estimate as it goes into the records."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from places import JOBS

from estimating.errors import RecordsError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.job.file import plain_job
from estimating.records.sent import list_estimates, load_estimate
from estimating.records.store import Records, open_records
from estimating.review.release_terms import terms_of
from estimating.review.sending import WHOLE, record_as_sent, sent_assumptions, sent_lines
from estimating.workbook import Outcome, build_job, estimate_job, parse_job, read_job

ALDER_ROW = JOBS / "alder_row_sitting_room.toml"
NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    return estimate_job(read_job(ALDER_ROW))


@pytest.fixture(scope="module")
def sure(outcome: Outcome) -> EstimateRanges:
    return estimate_ranges(outcome.estimate)


@pytest.fixture
def records(tmp_path: Path) -> Iterator[Records]:
    with open_records(tmp_path / "records.sqlite") as opened:
        yield opened


def test_every_line_is_a_promise_with_its_range(outcome: Outcome, sure: EstimateRanges) -> None:
    """Hours, gallons and dollars with the ends the desk shows; the lines of labor add up to all hours."""
    whole, *lines = sent_lines(outcome, sure)
    assert len(lines) == len(outcome.estimate.lines)
    for line, sent in zip(outcome.estimate.lines, lines, strict=True):
        spread = sure.amounts[line] if sent.measure == "dollars" else sure.quantities[line]
        assert (sent.low, sent.high) == (spread.low, spread.high)
    assert {line.section: sent.measure for line, sent in zip(outcome.estimate.lines, lines, strict=True)}.items() >= {
        ("labor", "hours"),
        ("paint", "gallons"),
        ("overhead", "dollars"),
    }
    assert whole.line == WHOLE
    assert whole.likely == pytest.approx(sum(each.likely for each in lines if each.measure == "hours"))


def test_each_line_has_a_name_of_its_own_and_the_row_of_its_rate(outcome: Outcome, sure: EstimateRanges) -> None:
    """Two rooms with one task do not run together; the row is among the assumptions kept."""
    lines = sent_lines(outcome, sure)
    assert len({line.line for line in lines}) == len(lines)
    edge = next(line for line in lines if line.task == "mask_edge")
    assert (edge.line, edge.row) == ("Run paper along the ceiling edge, sitting room", "production/mask_edge/paper/any")
    kept = {each.key: each for each in sent_assumptions(outcome)}
    assert {line.row for line in lines if line.row} <= kept.keys()
    figure = outcome.basis.used()[edge.row]
    assumed = kept[edge.row]
    assert (assumed.low, assumed.likely, assumed.high, assumed.unit) == (
        figure.low,
        figure.value,
        figure.high,
        "ft/hour",
    )
    assert assumed.origin == str(figure.origin.kind)
    assert assumed.note == figure.origin.note


def test_lines_of_one_name_are_numbered() -> None:
    """Two papers on two walls of one room have two lines each, told apart."""
    plain = plain_job(read_job(JOBS / "quarry_lane_study.toml"))
    (paper,) = plain["work"]
    halves = [{**paper, "walls": [wall], "start": wall["name"]} for wall in paper["walls"][:2]]
    twice = estimate_job(build_job({**plain, "work": halves}))
    names = [line.line for line in sent_lines(twice, estimate_ranges(twice.estimate))]
    assert any(name.endswith(" (2)") for name in names)
    assert len(set(names)) == len(names)


def test_what_was_sent_is_the_job_and_the_estimate_of_that_moment(
    records: Records, outcome: Outcome, sure: EstimateRanges
) -> None:
    """The job read back from the records is the job that was priced, at the price it was sent for."""
    sending = record_as_sent(records, "Alder Row", outcome, sure, NOON)
    kept = load_estimate(records, sending.estimate.id)
    assert sending.new
    assert kept.price == outcome.estimate.price
    assert kept.sent_at.startswith("2026-03-04T12:00")
    assert parse_job(kept.job.toml) == outcome.job


def test_the_same_estimate_is_not_sent_twice_and_a_changed_one_is_a_further_one(
    records: Records, outcome: Outcome, sure: EstimateRanges
) -> None:
    """A second press changes nothing; another price stands beside the first, which stays."""
    first = record_as_sent(records, "Alder Row", outcome, sure)
    again = record_as_sent(records, "Alder Row", outcome, sure)
    assert (again.new, again.estimate) == (False, first.estimate)
    plain = plain_job(outcome.job)
    dearer = estimate_job(build_job({**plain, "own": {"business/wage": {"likely": 40, "unit": "dollar/hour"}}}))
    record_as_sent(records, "Alder Row", dearer, estimate_ranges(dearer.estimate))
    prices = [each.price for each in list_estimates(records, "Alder Row")]
    assert prices == [outcome.estimate.price, dearer.estimate.price]


def test_the_odds_of_release_are_kept_way_by_way(records: Records, outcome: Outcome, sure: EstimateRanges) -> None:
    """Prior, odds of the tests and what the method does give the chance that was priced, method by method."""
    sent = record_as_sent(records, "Alder Row", outcome, sure).estimate
    kept = {each.key: each for each in sent.assumptions}
    prior = kept["release/prior/looks_unpainted/probability"].likely
    chances = {
        option.plan.method: option.plan.risks[0].chance.value
        for option in outcome.comparisons[0].options
        if option.plan.risks
    }
    terms = {each.method: each for each in terms_of(sent)}
    assert terms.keys() == chances.keys()
    for method, term in terms.items():
        odds = prior / (1 - prior) * term.odds
        weak = odds / (1 + odds)
        assert weak * term.share + (1 - weak) * term.sound == pytest.approx(chances[method])
        assert term.history == "looks_unpainted"
        assert term.work == "ceiling, sitting room"
        assert term.area == pytest.approx(260.604, abs=0.001)


def test_nothing_is_sent_without_a_name_or_a_line(records: Records, outcome: Outcome, sure: EstimateRanges) -> None:
    """A blank name is refused, and so is work that was declined."""
    with pytest.raises(RecordsError, match="the name of the job"):
        record_as_sent(records, "  ", outcome, sure)
    plain = plain_job(outcome.job)
    declined = estimate_job(build_job({**plain, "work": [{**plain["work"][0], "method": "decline"}]}))
    with pytest.raises(RecordsError, match="no line to be sent"):
        record_as_sent(records, "Alder Row", declined, estimate_ranges(declined.estimate))
    assert list_estimates(records) == ()
