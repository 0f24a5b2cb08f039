"""Figures of a year and of a price, and jobs in hand: python -m estimating.business overhead | in-hand | reprice …"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path

from estimating.errors import InputError, RecordsError
from estimating.evidence import Basis, OwnValue, load_library
from estimating.files import write_together
from estimating.records.business import read_business
from estimating.records.jobs_folder import set_state
from estimating.records.own import keep_own, own_table
from estimating.records.price_list import own_of, read_price_file
from estimating.reports.exports.in_hand_text import in_hand_text, repriced_csv, repriced_text
from estimating.review.in_hand import by_week, jobs_in_hand
from estimating.review.reprice import Repriced, repriced
from estimating.row_key import RowKey
from estimating.terminal import run
from estimating.trade.labor import overhead_rate
from estimating.trade.pricing import margin_from_markup, markup_from_margin
from estimating.units import read_quantity

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
    _about_jobs(asked)
    return parser


def _about_jobs(asked: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    in_hand = asked.add_parser("in-hand", help="jobs by state, wins by kind and size, hours promised by week")
    again = asked.add_parser("reprice", help="open jobs priced again with other prices or rates")
    for each in (in_hand, again):
        each.add_argument("folder", type=Path, help="of job files (TOML) or of the desk's jobs")
        each.add_argument("--records", type=Path, metavar="RECORDS.sqlite", help="use the own values kept there")
    in_hand.add_argument("--people", type=int, help="in all crews together; else as kept in your business")
    again.add_argument(
        "--own", action="append", default=[], metavar="ROW=VALUE", help="such as business/wage=31, as often as need be"
    )
    again.add_argument("--prices", type=Path, metavar="LIST.csv", help="a price list with the new prices")
    again.add_argument("--csv", type=Path, metavar="OUT.csv", help="write the table as well")
    mark = asked.add_parser("mark", help="put a job into a state: draft, sent, won, lost, done, paid")
    mark.add_argument("folder", type=Path)
    mark.add_argument("job", help="the name of its file, without the ending")
    mark.add_argument("state")


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


def _own(records: Path | None) -> Mapping[str, OwnValue]:
    if records is None:
        return {}
    if not records.exists():
        raise RecordsError(f"{records}: there is no such records file")
    return own_table(records, load_library()).values


def in_hand_words(folder: Path, records: Path | None, people: int | None) -> str:
    """Return the jobs of a folder by state, the wins, and the weeks promised; people: in all crews together."""
    own = _own(records)
    if people is None:
        people = int(read_business(records)["people"]) if records else 1
    day = Basis(load_library(), own).figure("business", "day_length").value
    jobs = list(jobs_in_hand(folder, own))
    return in_hand_text(jobs, by_week(jobs, people=people, day_length=day))


def _typed(text: str) -> tuple[str, OwnValue]:
    key, _, value = text.partition("=")
    library = load_library()
    if not value or not library.has(key):
        raise InputError("--own", text, "a row and its value, such as business/wage=31 or prices/wall_paint/gallon=48")
    unit = library.named(key).unit
    amount = value.strip().removeprefix("$")
    named = any(sign.isalpha() or sign == "%" for sign in amount)
    read = read_quantity(amount.replace("%", " percent") if named else f"{amount} {unit}", unit)
    return key, OwnValue(read.value, unit)


def _changes(options: argparse.Namespace, before: Mapping[str, OwnValue]) -> Mapping[str, OwnValue]:
    """Return the own values as they would be: those kept, with the prices of the list and the rows typed."""
    listed: dict[str, OwnValue] = {}
    if options.prices:
        prices = read_price_file(options.prices, "--prices", load_library(), before, date.today())
        listed = {str(RowKey.of("prices", each.item, each.container)): own_of(each) for each in prices}
    return {**before, **listed, **dict(map(_typed, options.own))}


def _reprice(options: argparse.Namespace) -> None:
    kept = _own(options.records)
    asked = bool(options.own or options.prices)
    before, after = (kept, _changes(options, kept)) if asked else ({}, kept)
    jobs = list[Repriced]()
    for line in repriced_text(_noted(repriced(options.folder, before, after), jobs)):
        print(line)
    if options.csv:
        write_together({options.csv: repriced_csv(jobs)}, inputs=[each for each in (options.prices,) if each])


def _noted(jobs: Iterable[Repriced], kept: list[Repriced]) -> Iterator[Repriced]:
    for each in jobs:
        kept.append(each)
        yield each


def _asked(arguments: Sequence[str] | None) -> int:
    options = _parser().parse_args(arguments)
    if options.asked == "overhead":
        print(overhead_words(options.year, options.hours, options.keep, date.today()))
    elif options.asked == "in-hand":
        print(in_hand_words(options.folder, options.records, options.people))
    elif options.asked == "reprice":
        _reprice(options)
    elif options.asked == "mark":
        set_state(options.folder, options.job, options.state, date.today())
        print(f"{options.job}: {options.state}")
    else:
        print(_share_words(options.asked, options.percent))
    return 0


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; 0 when done, else a status and a line that says what is wrong."""
    return run(_asked, arguments)


if __name__ == "__main__":
    sys.exit(main())
