"""Estimate a job from a terminal: python -m estimating JOB.toml --csv SUMMARY.csv --json ESTIMATE.json."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from estimating.errors import EstimatingError, InputError, InputErrors, RecordsError
from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.evidence import load_library
from estimating.files import write_aside
from estimating.records.own import NOTHING_OWN, OwnTable, own_table
from estimating.records.store import open_records
from estimating.reports.documents.documents import papers
from estimating.reports.exports.adding import added_by_each
from estimating.reports.exports.estimate_json import estimate_json
from estimating.reports.exports.explain import explain
from estimating.reports.exports.profit import profit_words
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.exports.text_summary import plain_summary
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
        "--papers",
        type=Path,
        metavar="FOLDER",
        help="write proposal, crew sheet and purchase list, to be printed from a browser",
    )
    parser.add_argument(
        "--before", type=Path, metavar="OLD.toml", help="the job as it was agreed: a change order joins the papers"
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
    parser.add_argument("--adds", action="store_true", help="what each piece of work adds to the rest of the job")
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


def _write_papers(
    options: argparse.Namespace, outcome: Outcome, sure: EstimateRanges, own: OwnTable, shown: UnitSystem
) -> None:
    """Write every paper into the folder asked for, each aside first and then in place."""
    before = estimate_job(read_job(options.before), own=own.values) if options.before else None
    try:
        options.papers.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise InputError(
            "--papers", str(options.papers), f"a folder that can be made ({problem.strerror})"
        ) from problem
    for name, text in papers(outcome, sure, date.today(), shown, before).items():
        write_aside(options.papers / name, text)


def _send(records: Path, outcome: Outcome, sure: EstimateRanges) -> str:
    """Keep the estimate in a records file and return what was done."""
    with open_records(records) as opened:
        sending = record_as_sent(opened, outcome.job.title, outcome, sure)
    done = "recorded as sent" if sending.new else f"was recorded just so on {sending.estimate.sent_at[:10]}"
    return f"\n{outcome.job.title}: {done}, {records}"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; 0 when done, 2 when something in the job or on the command line is wrong."""
    parser = _parser()
    options = parser.parse_args(arguments)
    if options.before and not options.papers:
        parser.error("--before needs --papers: the change order is one of them")
    try:
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
        if options.csv:
            write_aside(options.csv, summary_csv(outcome, sure, shown))
        if options.json:
            write_aside(options.json, estimate_json(outcome, sure))
        if options.papers:
            _write_papers(options, outcome, sure, own, shown)
        print(plain_summary(outcome, sure, shown))
        print(f"\n{profit_words(outcome.estimate, None if options.margin is None else options.margin / 100)}")
        if options.adds:
            print(f"\n{added_by_each(outcome)}")
        if options.send:
            print(_send(options.send, outcome, sure))
    except InputErrors as problems:
        print("\n".join(str(each) for each in problems.problems), file=sys.stderr)
        return 2
    except EstimatingError as problem:
        print(problem, file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    sys.exit(main())
