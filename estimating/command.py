"""What the command for a terminal does: read the job, price it, write and print what was asked for."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from estimating.errors import InputError, RecordsError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.estimate.uncertainty.price_risk import read_chance
from estimating.evidence import load_library
from estimating.files import write_together
from estimating.records.own import NOTHING_OWN, OwnTable, own_table
from estimating.records.store import open_records
from estimating.reports.documents.documents import documents, files_of
from estimating.reports.exports.adding import added_by_each
from estimating.reports.exports.estimate_json import estimate_json
from estimating.reports.exports.explain import explain
from estimating.reports.exports.profit import profit_words
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.exports.text_summary import plain_summary, risk_words
from estimating.reports.format import UnitSystem
from estimating.review.sending import record_as_sent
from estimating.workbook import Outcome, estimate_job, read_job


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m estimating", description="Estimate a painting job from its job file."
    )
    parser.add_argument("job", type=Path, metavar="JOB.toml")
    parser.add_argument("--csv", type=Path, metavar="SUMMARY.csv", help="write the job summary")
    parser.add_argument("--json", type=Path, metavar="ESTIMATE.json", help="write the estimate for another program")
    parser.add_argument(
        "--documents",
        type=Path,
        metavar="FOLDER",
        help="write proposal, crew sheet, shopping list and invoices, each as HTML and as PDF",
    )
    parser.add_argument(
        "--before", type=Path, metavar="OLD.toml", help="the job as it was sent: a change order joins the documents"
    )
    parser.add_argument(
        "--records", type=Path, metavar="RECORDS.sqlite", help="use the own values kept in this records file"
    )
    parser.add_argument(
        "--send", type=Path, metavar="RECORDS.sqlite", help="record the estimate as sent, under the job's title"
    )
    parser.add_argument(
        "--margin", type=float, metavar="PERCENT", help="also the price that leaves this share of it as profit"
    )
    parser.add_argument("--risk", metavar="PERCENT", help="also the price that loses money with this chance")
    parser.add_argument("--adds", action="store_true", help="what each work item adds to the rest of the job")
    parser.add_argument("--metric", action="store_true", help="show metric units instead of US customary ones")
    parser.add_argument(
        "--explain",
        metavar="ITEM",
        help="print the math of a line, of 'method' or of 'price'",
    )
    return parser


def _own_table(records: Path | None) -> OwnTable:
    """Return the own values of a records file named on the command line; a file that is not there is an error."""
    if records is None:
        return NOTHING_OWN
    if not records.exists():
        raise RecordsError(f"{records}: there is no such records file")
    own = own_table(records, load_library())
    if own.warning:
        print(own.warning, file=sys.stderr)
    return own


def _documents(
    options: argparse.Namespace, outcome: Outcome, sure: EstimateRanges, own: OwnTable, shown: UnitSystem
) -> dict[Path, bytes]:
    """Return every document by the place it goes to, its folder made."""
    before = estimate_job(read_job(options.before), own=own.values) if options.before else None
    try:
        options.documents.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise InputError(
            "--documents", str(options.documents), f"a folder that can be made ({problem.strerror})"
        ) from problem
    made = documents(outcome, sure, date.today(), shown, before, options.job.parent)
    return {options.documents / name: data for name, data in files_of(made).items()}


def _write(
    options: argparse.Namespace, outcome: Outcome, sure: EstimateRanges, own: OwnTable, shown: UnitSystem
) -> None:
    """Write all that was asked for: every file of this run, or none."""
    outputs: dict[Path, str | bytes] = {}
    if options.csv:
        outputs[options.csv] = summary_csv(outcome, sure, shown)
    if options.json and options.json == options.csv:
        raise InputError("--json", str(options.json), "a place of its own: --csv goes there")
    if options.json:
        outputs[options.json] = estimate_json(outcome, sure)
    if options.documents:
        outputs |= _documents(options, outcome, sure, own, shown)
    inputs = (options.job, options.before, options.records, options.send)
    write_together(outputs, inputs=[path for path in inputs if path is not None])


def _send(records: Path, outcome: Outcome, sure: EstimateRanges) -> str:
    """Keep the estimate in a records file and return what was done."""
    with open_records(records) as opened:
        sending = record_as_sent(opened, outcome.job.title, outcome, sure)
    done = "recorded as sent" if sending.new else f"was recorded just so on {sending.estimate.sent_at[:10]}"
    return f"\n{outcome.job.title}: {done}, {records}"


def _checked(parser: argparse.ArgumentParser, options: argparse.Namespace) -> argparse.Namespace:
    """Return the options, or end with what does not go together."""
    if options.before and not options.documents:
        parser.error("--before needs --documents: the change order is one of them")
    beside = ("csv", "json", "documents", "send", "margin", "risk", "adds")
    ignored = [f"--{name}" for name in beside if getattr(options, name) not in (None, False)]
    if options.explain and ignored:
        parser.error(f"--explain prints the math and nothing else: leave out {', '.join(ignored)}")
    return options


def estimate(arguments: Sequence[str] | None) -> int:
    """Price the job asked for and write and print what is wanted; 0 when done."""
    parser = _parser()
    options = _checked(parser, parser.parse_args(arguments))
    own = _own_table(options.records)
    job = read_job(options.job)
    for notice in job.notices:
        print(notice, file=sys.stderr)
    outcome = estimate_job(job, own=own.values)
    shown = UnitSystem.METRIC if options.metric else UnitSystem.US
    if options.explain:
        print(explain(outcome, options.explain, shown))
        return 0
    sure = estimate_ranges(outcome.estimate)
    _write(options, outcome, sure, own, shown)
    print(plain_summary(outcome, sure, shown))
    print(f"\n{profit_words(outcome.estimate, None if options.margin is None else options.margin / 100)}")
    if options.risk:
        print(f"\n{risk_words(outcome, sure, read_chance(options.risk))}")
    if options.adds:
        print(f"\n{added_by_each(outcome)}")
    if options.send:
        print(_send(options.send, outcome, sure))
    return 0
