"""What the reference tables rest on, as a page of text: `python -m estimating.evidence` prints it."""

from __future__ import annotations

import argparse
import csv
import sys
import textwrap
from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path

from estimating.evidence import Library, Row, load_library
from estimating.leave_one_out_report import BLIND, headlines
from estimating.leave_one_out_report import report as blind
from estimating.norms import counts
from estimating.norms import table as norms_table
from estimating.origins import Kind
from estimating.printed import PUBLISHED
from estimating.terminal import run

ASKED = "Asked without the source that set them"
AGE = 20  # years after which a row is listed as old
_SHORT = {
    Kind.PUBLISHED: "published",
    Kind.DERIVED: "derived",
    Kind.COMMON_PRACTICE: "practice",
    Kind.MEMORY: "memory",
    Kind.JUDGMENT: "judgment",
    Kind.INVENTED: "invented",
    Kind.DEFINITION: "definition",
}


def report(library: Library, *, years: int = AGE, this_year: int | None = None, checks: Path = PUBLISHED) -> str:
    """Return what stands behind the rows: kinds of origin, sources, checks, single sources, old rows, bare rows.

    years: how old the newest source of a row may be before it is listed. this_year: today's, unless given.
    checks: the folder of printed figures that the tests hold the rows to.
    """
    rows = _rows(library)
    oldest = (this_year or date.today().year) - years
    sections = [
        ("Published rows that rest on a single source", _named(row for row in rows if len(_sources_of(row)) == 1)),
        (f"Published rows whose newest source is more than {years} years old", _named(_older(rows, oldest))),
        ("Published rows whose sources give no year", [_count(row for row in rows if row.origin.year == "undated")]),
        ("Rows lacking an origin", _named(row for row in rows if _bare(row, library))),
    ]
    return "\n\n".join([standing(library, checks), *(_section(*each) for each in sections)])


def standing(library: Library, checks: Path = PUBLISHED) -> str:
    """Return the first part of the report: how many rows there are by origin, how many sources, how many checks."""
    sections = [
        ("Rows by table and origin", _by_kind(library)),
        ("Sources", [_sources(_rows(library), library)]),
        ("Published values checked", [_checked(checks)]),
        (ASKED, headlines(library, checks)),
        ("Our rates beside published norms", counts(library)),
    ]
    return "\n\n".join(_section(*each) for each in sections)


def _section(title: str, lines: Sequence[str]) -> str:
    return "\n".join([title, "-" * len(title), *lines])


def _rows(library: Library) -> list[Row]:
    return [row for table in library.tables.values() for row in table.values()]


def _sources_of(row: Row) -> list[str]:
    named = row.origin.kind is Kind.PUBLISHED and row.origin.source
    return row.origin.source.split("; ") if named else []


def _by_kind(library: Library) -> list[str]:
    """Return one line for each table, a column for each kind, and the totals."""
    kinds = list(_SHORT)
    lines = [f"{'table':<15}{'rows':>6}" + "".join(f"{_SHORT[kind]:>12}" for kind in kinds)]
    total: Counter[Kind] = Counter()
    for name, table in sorted(library.tables.items()):
        found = Counter(row.origin.kind for row in table.values())
        total += found
        lines.append(_line(name, [found[kind] for kind in kinds], len(table)))
    return [*lines, _line("all", [total[kind] for kind in kinds], total.total())]


def _line(name: str, counts: Sequence[int], rows: int) -> str:
    return f"{name:<15}{rows:>6}" + "".join(f"{count:>12}" for count in counts)


def _sources(rows: Sequence[Row], library: Library) -> str:
    used = {source for row in rows for source in row.origin.source.split("; ") if source}
    held = len(library.sources)
    return f"{len(used)} sources are used by rows; the bibliography holds {held}, with those of rules and checks"


def _checked(folder: Path) -> str:
    """Return how many printed figures there are, from how many titles."""
    figures, titles = 0, set()
    for path in sorted(folder.glob("*.csv")):
        with path.open(newline="", encoding="utf-8") as lines:
            for cells in csv.DictReader(lines):
                figures += 1
                titles.add(cells.get("title") or cells.get("source"))
    if not figures:
        return f"no printed figures in {folder}"
    return f"{figures} printed figures from {len(titles)} titles, in reference/printed"


def _older(rows: Iterable[Row], oldest: int) -> Iterable[Row]:
    published = (row for row in rows if row.origin.kind is Kind.PUBLISHED)
    return (row for row in published if row.origin.year.isdigit() and int(row.origin.year) < oldest)


def _bare(row: Row, library: Library) -> bool:
    """Say whether a row claims more than it shows: published without a known source, or judged without a reason."""
    if row.origin.kind is Kind.PUBLISHED:
        sources = _sources_of(row)
        return not sources or any(source not in library.sources for source in sources)
    return not (row.origin.note or row.origin.source or row.origin.place)


def _count(rows: Iterable[Row]) -> str:
    found = Counter(row.table for row in rows)
    each = ", ".join(f"{name} {count}" for name, count in sorted(found.items()))
    return f"{found.total()}: {each}" if found else "0"


def _named(rows: Iterable[Row]) -> list[str]:
    """Return how many rows there are, and their names, a paragraph for each table."""
    found = list(rows)
    lines = [_count(found)]
    for name in sorted({row.table for row in found}):
        names = ", ".join(row.address.within_table for row in found if row.table == name)
        lines += textwrap.wrap(f"{name}: {names}", width=110, subsequent_indent="  ", break_on_hyphens=False)
    return lines


def _printed(arguments: Sequence[str] | None) -> int:
    parser = argparse.ArgumentParser(prog="python -m estimating.evidence", description=__doc__)
    parser.add_argument("--years", type=int, default=AGE, help=f"when a published row is old (default {AGE})")
    parser.add_argument("--norms", action="store_true", help="print our rates of work beside published norms")
    parser.add_argument("--leave-one-out", action="store_true", help="print the blind check alone")
    asked = parser.parse_args(arguments)
    library = load_library()
    if asked.norms:
        print(_section("Our rates beside published norms", norms_table(library)))
    else:
        print(_section(BLIND, blind(library)) if asked.leave_one_out else report(library, years=asked.years))
    return 0


def main(arguments: Sequence[str] | None = None) -> int:
    """Print the report, or the blind check alone; --years says when a row is old."""
    return run(_printed, arguments)


if __name__ == "__main__":
    sys.exit(main())
