"""Look after a records file: python -m estimating.records backup | restore | prices | price | price-list and others."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path

from estimating.errors import RecordsError
from estimating.evidence import Basis, load_library
from estimating.files import write_together
from estimating.records.actuals import Price, latest_prices, list_prices
from estimating.records.own import own_table
from estimating.records.price_list import (
    dollars_of,
    keep_prices,
    price_csv,
    price_list,
    read_price_file,
    trusted_days,
    warning_of,
)
from estimating.records.store import back_up, backups, open_records, restore
from estimating.terminal import run


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m estimating.records", description=__doc__)
    asked = parser.add_subparsers(dest="asked", required=True)
    for name, told in (("backup", "copy the file beside itself, with the time in its name"), ("backups", "list them")):
        asked.add_parser(name, help=told).add_argument("records", type=Path)
    again = asked.add_parser("restore", help="put a backup in place; the file as it is now is backed up first")
    again.add_argument("records", type=Path)
    again.add_argument("backup", type=Path)
    prices = asked.add_parser("prices", help="list the prices kept, the newest of each container")
    prices.add_argument("records", type=Path)
    prices.add_argument("--all", action="store_true", help="older ones too")
    price = asked.add_parser("price", help="keep a price of today, and use it in every estimate from now on")
    price.add_argument("records", type=Path)
    price.add_argument("item", help="as in reference/prices.csv, such as wall_paint")
    price.add_argument("container", help="such as gallon or five")
    price.add_argument("dollars")
    price.add_argument("--day", type=date.fromisoformat, default=None, help="the day it was asked, as 2026-03-02")
    price.add_argument("--note", default="", help="who said so")
    listed = asked.add_parser("price-list", help="write the whole price list as CSV, with the age of each price")
    listed.add_argument("records", type=Path)
    listed.add_argument("csv", type=Path, metavar="LIST.csv")
    again = asked.add_parser("read-prices", help="keep the prices of a list that are new, from now on")
    again.add_argument("records", type=Path)
    again.add_argument("csv", type=Path, metavar="LIST.csv")
    return parser


def _backup(options: argparse.Namespace) -> str:
    return f"backed up as {back_up(options.records)}"


def _backups(options: argparse.Namespace) -> str:
    return "\n".join(map(str, backups(options.records))) or "no backups"


def _restore(options: argparse.Namespace) -> str:
    kept = restore(options.records, options.backup)
    return f"{options.records} is {options.backup.name} again" + (f"; it was kept as {kept.name}" if kept else "")


def _prices(options: argparse.Namespace) -> str:
    if not options.records.exists():
        raise RecordsError(f"{options.records}: there is no such records file")
    with open_records(options.records) as records:
        found = list_prices(records) if options.all else tuple(latest_prices(records).values())
    return "\n".join(map(_price_line, found)) or "no prices kept"


def _price_line(price: Price) -> str:
    return f"{price.priced_on}  {price.item} {price.container}  ${price.dollars}  {price.note}".rstrip()


def _price(options: argparse.Namespace) -> str:
    price = Price(
        options.item, options.container, dollars_of(options.dollars), options.day or date.today(), options.note
    )
    keep_prices(options.records, (price,), load_library())
    return f"kept: {_price_line(price)}"


def _price_list(options: argparse.Namespace) -> str:
    library, today = load_library(), date.today()
    own = own_table(options.records, library).values
    write_together({options.csv: price_csv(library, own, today)}, inputs=[options.records])
    trusted = trusted_days(Basis(library, own))
    listed = price_list(library, own)
    old = [each for each in listed if warning_of(each.days_old(today), trusted)]
    said = f"{options.csv}: {len(listed)} prices"
    return f"{said}, {len(old)} of them older than {trusted:.0f} days or without a day: ask again" if old else said


def _read_prices(options: argparse.Namespace) -> str:
    library, today = load_library(), date.today()
    own = own_table(options.records, library).values
    prices = read_price_file(options.csv, "price list", library, own, today)
    keep_prices(options.records, prices, library)
    return "\n".join(["kept:", *map(_price_line, prices)] if prices else ["no price in it is new"])


COMMANDS: Mapping[str, Callable[[argparse.Namespace], str]] = {
    "backup": _backup,
    "backups": _backups,
    "restore": _restore,
    "prices": _prices,
    "price": _price,
    "price-list": _price_list,
    "read-prices": _read_prices,
}


def _asked(arguments: Sequence[str] | None) -> int:
    options = _parser().parse_args(arguments)
    print(COMMANDS[options.asked](options))
    return 0


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; 0 when done, else a status and a line that says what is wrong."""
    return run(_asked, arguments)


if __name__ == "__main__":
    sys.exit(main())
