"""Look after a records file: python -m estimating.records backup | backups | restore | prices | price."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from decimal import Decimal, InvalidOperation
from pathlib import Path

from estimating.errors import InputError, RecordsError
from estimating.evidence import OwnValue, load_library
from estimating.records.actuals import Price, add_price, latest_prices, list_prices
from estimating.records.own import keep_own
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
    day = options.day or date.today()
    price = Price(options.item, options.container, _dollars(options.dollars), day, options.note)
    row = load_library().row("prices", price.item, price.container)
    own = OwnValue(float(price.dollars), "dollar", note=price.note, date=day.isoformat())
    keep_own(options.records, row, own)
    with open_records(options.records) as records:
        return f"kept: {_price_line(add_price(records, price))}"


def _dollars(text: str) -> Decimal:
    try:
        return Decimal(text.removeprefix("$"))
    except InvalidOperation as problem:
        raise InputError("dollars", text, "a price such as 42.50") from problem


COMMANDS: Mapping[str, Callable[[argparse.Namespace], str]] = {
    "backup": _backup,
    "backups": _backups,
    "restore": _restore,
    "prices": _prices,
    "price": _price,
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
