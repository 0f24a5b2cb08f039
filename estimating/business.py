"""Figures of a year and of a price: python -m estimating.business overhead | margin | markup."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from estimating.evidence import OwnValue, load_library
from estimating.records.own import keep_own
from estimating.row_key import RowKey
from estimating.terminal import run
from estimating.trade.labor import overhead_rate
from estimating.trade.pricing import margin_from_markup, markup_from_margin

OVERHEAD = ("business", "overhead")


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m estimating.business", description=__doc__)
    asked = parser.add_subparsers(dest="asked", required=True)
    overhead = asked.add_parser("overhead", help="the overhead each billable hour has to carry")
    overhead.add_argument("--year", type=float, required=True, metavar="DOLLARS", help="overhead of a whole year")
    overhead.add_argument("--hours", type=float, required=True, help="hours billed to jobs in that year, all people")
    overhead.add_argument("--keep", type=Path, metavar="RECORDS.sqlite", help="use it in every estimate from now on")
    for name, other in (("margin", "markup"), ("markup", "margin")):
        told = asked.add_parser(name, help=f"the {other} that a {name} comes to")
        told.add_argument("percent", type=float)
    return parser


def overhead_words(yearly: float, hours: float, keep: Path | None, today: date) -> str:
    """Return the overhead of a billable hour in words; with a records file it stands in every estimate from then on.

    yearly: dollars. hours: those billed to jobs in the same year. Raises InputError where there are no hours.
    """
    rate = float(overhead_rate(yearly_overhead=yearly, productive_hours=hours))
    said = f"${yearly:,.2f} a year over {hours:,.0f} billable hours is ${rate:,.2f} an hour"
    if keep is None:
        return said
    note = f"${yearly:,.2f} over {hours:,.0f} hours"
    keep_own(keep, load_library().row(*OVERHEAD), OwnValue(rate, "dollar/hour", note=note, date=today.isoformat()))
    return f"{said}; kept in {keep}, in place of {RowKey.of(*OVERHEAD)}"


def _share_words(asked: str, percent: float) -> str:
    if asked == "margin":
        markup = markup_from_margin(margin=percent / 100)
        return f"a margin of {percent:g} % of the price is a markup of {markup:.1%} on cost"
    margin = margin_from_markup(markup=percent / 100)
    return f"a markup of {percent:g} % on cost is a margin of {margin:.1%} of the price"


def _asked(arguments: Sequence[str] | None) -> int:
    options = _parser().parse_args(arguments)
    if options.asked == "overhead":
        print(overhead_words(options.year, options.hours, options.keep, date.today()))
    else:
        print(_share_words(options.asked, options.percent))
    return 0


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; 0 when done, else a status and a line that says what is wrong."""
    return run(_asked, arguments)


if __name__ == "__main__":
    sys.exit(main())
