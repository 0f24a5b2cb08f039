"""The price list as a file for a spreadsheet: every price with its day and its age, written and read again."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from pathlib import Path

from estimating.errors import InputError, InputErrors
from estimating.evidence import Basis, Library, OwnValue, Row
from estimating.records.actuals import Price, add_price
from estimating.records.own import check_own, keep_own
from estimating.records.store import open_records

TABLE = "prices"
HEAD = ("item", "container", "title", "dollars", "priced_on", "days_old", "warning", "note")
OLD, NO_DAY = "old: ask again", "no day: ask again"
TRUSTED = ("business", "price_age")


@dataclass(frozen=True)
class Listed:
    """A price that stands now: the contractor's own, or the one of the table."""

    item: str
    container: str
    title: str
    dollars: float
    priced_on: str
    note: str

    def days_old(self, today: date) -> int | None:
        """Return how many days ago it was asked; None where nobody wrote the day down."""
        day = read_day(self.priced_on)
        return (today - day).days if day else None


def read_day(text: str) -> date | None:
    """Return the day somebody wrote down; None where it is none."""
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def asked_on(row: Row, own: OwnValue | None) -> str:
    """Return when a price was asked, as it was written down: one's own where it stands, else that of the table."""
    return own.date if own else row.words.get("priced_on", "")


def price_list(library: Library, own: Mapping[str, OwnValue]) -> tuple[Listed, ...]:
    """Return every price of the table, one's own in its place where one stands."""
    return tuple(_listed(row, own.get(row.key)) for row in library.table(TABLE).values())


def _listed(row: Row, own: OwnValue | None) -> Listed:
    item, container = row.keys
    dollars, note = (own.likely, own.note) if own else (row.likely, str(row.origin.kind))
    return Listed(item, container, row.title, dollars, asked_on(row, own), note)


def trusted_days(basis: Basis) -> float:
    """Return for how many days a price is trusted."""
    row = basis.library.row(*TRUSTED)
    own = basis.own.get(row.key)
    return own.likely if own else row.likely


def price_csv(library: Library, own: Mapping[str, OwnValue], today: date) -> str:
    """Return the price list as CSV, with the age of each price in days and a warning where it is not to be trusted."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEAD)
    trusted = trusted_days(Basis(library, own))
    for each in price_list(library, own):
        days = each.days_old(today)
        said = warning_of(days, trusted)
        shown = "" if days is None else days
        writer.writerow(
            (each.item, each.container, each.title, f"{each.dollars:.2f}", each.priced_on, shown, said, each.note)
        )
    return text.getvalue()


def warning_of(days: int | None, trusted: float) -> str:
    """Return the warning about a price so many days old; empty where it is trusted."""
    if days is None:
        return NO_DAY
    return OLD if days > trusted else ""


def read_price_file(
    path: Path, field: str, library: Library, own: Mapping[str, OwnValue], today: date
) -> tuple[Price, ...]:
    """Return what `read_price_csv` does of a file; InputError, naming the field, where it cannot be read."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as problem:
        raise InputError(field, str(path), f"a file that can be read ({problem})") from problem
    return read_price_csv(text, library, own, today)


def read_price_csv(text: str, library: Library, own: Mapping[str, OwnValue], today: date) -> tuple[Price, ...]:
    """Return the prices of a list that are another than those that stand now, or of another day.

    A price whose day was left as it was, or left out, is of today. Raises InputErrors with every row that is wrong.
    """
    standing = {(each.item, each.container): each for each in price_list(library, own)}
    found: list[Price] = []
    wrong: list[InputError] = []
    for number, cells in enumerate(_rows(text), 2):
        try:
            found += _changed(cells, standing, today)
        except InputError as problem:
            wrong.append(InputError(f"row {number} · {problem.field}", problem.value, problem.needed))
    if wrong:
        raise InputErrors(wrong)
    return tuple(found)


def _rows(text: str) -> Iterator[dict[str, str]]:
    reader = csv.DictReader(io.StringIO(text.removeprefix("\ufeff")))
    missing = {"item", "container", "dollars"} - set(reader.fieldnames or ())
    if missing:
        raise InputError("price list", ", ".join(reader.fieldnames or ()), f"the columns {', '.join(sorted(missing))}")
    for row in reader:
        yield {name: (value or "").strip() for name, value in row.items() if name}


def _changed(cells: Mapping[str, str], standing: Mapping[tuple[str, str], Listed], today: date) -> list[Price]:
    key = (cells["item"], cells["container"])
    if not any(key) and not cells["dollars"]:
        return []
    if key not in standing:
        raise InputError("item", " ".join(key), "an item and a container of the price list, such as wall_paint gallon")
    before = standing[key]
    dollars, typed = dollars_of(cells["dollars"]), cells.get("priced_on", "")
    moved = float(dollars) != round(before.dollars, 2)
    day = today if not typed or (moved and typed == before.priced_on) else _day(typed)
    if not moved and typed in ("", before.priced_on):
        return []
    note = cells.get("note", "")
    return [Price(*key, dollars, day, "" if note == before.note else note)]


def dollars_of(text: str) -> Decimal:
    """Return the dollars of a typed price; InputError where it is none."""
    try:
        return Decimal(text.removeprefix("$").replace(",", ""))
    except InvalidOperation as problem:
        raise InputError("dollars", text, "a price such as 42.50") from problem


def _day(text: str) -> date:
    day = read_day(text)
    if day is None:
        raise InputError("priced_on", text, "a day such as 2026-03-02")
    return day


def own_of(price: Price) -> OwnValue:
    """Return a price as one's own value in place of its row."""
    return OwnValue(float(price.dollars), "dollar", note=price.note, date=price.priced_on.isoformat())


def keep_prices(path: Path, prices: tuple[Price, ...], library: Library) -> None:
    """Let prices stand in every estimate from now on; InputError where one cannot be meant, and then none is kept."""
    for price in prices:
        check_own(library.row(TABLE, price.item, price.container), own_of(price))
    for price in prices:
        keep_own(path, library.row(TABLE, price.item, price.container), own_of(price))
        with open_records(path) as records:
            add_price(records, price)
