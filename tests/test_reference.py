"""Every row of every reference table: its header, its key, its unit, its range, its origin, its source.

Where reference/printed holds what a row's own sources print, the row may go no further than they do.
"""

from __future__ import annotations

import csv
import importlib
import json
import pkgutil
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest
from frictionless import Package
from places import TESTS
from test_published_coverage import PUBLISHED, Printed, printed, row_of
from test_published_coverage import TABLES as HELD_TABLES

import estimating
from estimating.evidence import REFERENCE, TAIL, Library, Row, load_library
from estimating.origins import Kind
from estimating.rules import RuleCard
from estimating.units import registry, same_dimension

PACKAGE = REFERENCE.parent / "estimating"
NOTED = {Kind.JUDGMENT, Kind.MEMORY, Kind.COMMON_PRACTICE, Kind.DERIVED}
SOURCED = {Kind.PUBLISHED, Kind.DERIVED}
CSL_TYPES = {
    "article-journal", "article-magazine", "article-newspaper", "book", "chapter", "legislation", "manuscript", "post",
    "post-weblog",     "paper-conference", "regulation", "report", "standard", "thesis", "webpage", "document",
}  # fmt: skip


def package() -> dict[str, Any]:
    found: dict[str, Any] = json.loads((REFERENCE / "datapackage.json").read_text(encoding="utf-8"))
    return found


RESOURCES = {each["name"]: each for each in package()["resources"]}
LIBRARY = load_library()
ROWS = [row for rows in LIBRARY.tables.values() for row in rows.values()]
each_table = pytest.mark.parametrize("name", sorted(RESOURCES))


def sources_of(row: Row) -> list[str]:
    return row.origin.source.split("; ") if row.origin.source else []


def of(name: str) -> list[Row]:
    return list(LIBRARY.tables[name].values())


def test_the_package_is_valid_to_the_tool_of_its_own_standard() -> None:
    """Frictionless reads every table and finds nothing against its description."""
    report = Package(str(REFERENCE / "datapackage.json")).validate()
    assert report.valid, report.flatten(["title", "rowNumber", "fieldName", "note"])


def test_every_table_is_described_and_every_description_has_its_table() -> None:
    """No file in reference/ is outside the package, and the list is in order."""
    assert sorted(f"{name}.csv" for name in RESOURCES) == sorted(path.name for path in REFERENCE.glob("*.csv"))
    assert list(RESOURCES) == sorted(RESOURCES)


@each_table
def test_a_table_has_exactly_the_columns_it_declares(name: str) -> None:
    """Key columns first, then description, then the tail that every table shares."""
    schema = RESOURCES[name]["schema"]
    declared = [field["name"] for field in schema["fields"]]
    with (REFERENCE / f"{name}.csv").open(newline="", encoding="utf-8") as lines:
        header = next(csv.reader(lines))
    assert header == declared
    assert tuple(header[-len(TAIL) :]) == TAIL
    assert header[: len(schema["primaryKey"])] == schema["primaryKey"]


@each_table
def test_every_column_says_what_it_holds(name: str) -> None:
    """Title, description and fields are in sentences, not in names."""
    resource = RESOURCES[name]
    texts = [resource["description"], *(field["description"] for field in resource["schema"]["fields"])]
    assert resource["title"]
    assert all(len(text.split()) >= 2 for text in texts)


@each_table
def test_no_row_stands_twice(name: str) -> None:
    """The key columns name one row only."""
    keys = RESOURCES[name]["schema"]["primaryKey"]
    with (REFERENCE / f"{name}.csv").open(newline="", encoding="utf-8") as lines:
        found = [tuple(row[key] for key in keys) for row in csv.DictReader(lines)]
    assert len(found) == len(set(found))


@each_table
def test_every_row_is_called_something_in_plain_words(name: str) -> None:
    """A title stands in the table, not at the place that uses the row, and shows no key as it is written in a file."""
    for row in of(name):
        assert row.title, row.key
        assert "_" not in row.title, row.key


@each_table
def test_every_unit_is_of_the_declared_dimension(name: str) -> None:
    """Each unit reads in the one registry and measures what the table says it does."""
    units = RESOURCES[name]["units"]
    column = RESOURCES[name]["schema"]["primaryKey"].index(units["by"])
    for row in of(name):
        wanted = units["is"].get(row.keys[column], units["is"].get("other"))
        assert wanted, f"{row.key}: no unit is declared for {row.keys[column]}"
        assert registry.Unit(row.unit)
        assert same_dimension(row.unit, wanted), f"{row.key}: {row.unit} is no {wanted}"
        assert not re.search(r"\b(mil|gal|sqft|ft2)\b", row.unit), row.key


@each_table
def test_every_range_is_in_order(name: str) -> None:
    """Low, likely, high rise, and none is below nothing unless it is a temperature."""
    for row in of(name):
        assert row.low <= row.likely <= row.high, row.key
        assert row.low >= 0 or row.unit in ("degF", "degC"), row.key


@each_table
def test_every_source_named_in_a_table_is_in_the_bibliography(name: str) -> None:
    """A source taken out of the bibliography leaves its rows without ground."""
    missing = {(row.key, source) for row in of(name) for source in sources_of(row) if source not in LIBRARY.sources}
    assert not missing


@each_table
def test_every_source_has_its_place(name: str) -> None:
    """Each source of a row has a table, page or clause, in the same order."""
    for row in of(name):
        places = row.origin.place.split("; ") if row.origin.place else []
        assert all(places), row.key
        assert not sources_of(row) or len(places) == len(sources_of(row)), row.key


@each_table
def test_a_row_says_what_it_rests_on(name: str) -> None:
    """Published rows name a source; judgment, memory and practice give their reason; every row has a year."""
    for row in of(name):
        if row.origin.kind in SOURCED:
            assert sources_of(row), row.key
        if row.origin.kind in NOTED:
            assert row.origin.note, row.key
        assert re.fullmatch(r"\d{4}|undated", row.origin.year), row.key


@each_table
def test_no_likely_value_is_published_on_one_weak_source(name: str) -> None:
    """A copy without a publisher, or a page that names no source of its own, may only join others."""
    alone = [row.key for row in of(name) if row.origin.kind is Kind.PUBLISHED and len(sources_of(row)) == 1]
    weak = {key for key, entry in LIBRARY.sources.items() if entry.get("custom", {}).get("weak")}
    assert weak
    assert not [key for key in alone if sources_of(LIBRARY.named(key))[0] in weak]


@each_table
def test_a_derived_figure_is_not_called_published(name: str) -> None:
    """Published means that a source names that very figure; what was worked from it says so, and by what rule."""
    claimed = [row.key for row in of(name) if row.origin.kind is Kind.PUBLISHED and "(derived)" in row.origin.place]
    assert not claimed


@each_table
def test_what_has_no_source_claims_none(name: str) -> None:
    """Common practice without a source, and memory, name no source; a judgment may lean on one."""
    unsourced = {Kind.COMMON_PRACTICE, Kind.MEMORY}
    assert not [row.key for row in of(name) if row.origin.kind in unsourced and sources_of(row)]


def rule_sources() -> Iterator[tuple[str, str]]:
    for found in pkgutil.walk_packages(estimating.__path__, "estimating."):
        if ".lab" in found.name:
            continue
        for name, value in vars(importlib.import_module(found.name)).items():
            card = getattr(value, "card", None)
            if isinstance(card, RuleCard) and card.origin.source:
                yield from ((f"{found.name}.{name}", source) for source in card.origin.source.split("; "))


def test_every_source_a_rule_cites_is_in_the_bibliography() -> None:
    """A formula names a source that can be looked up."""
    assert not {(rule, source) for rule, source in rule_sources() if source not in LIBRARY.sources}


def checked_titles() -> set[tuple[str, str]]:
    found = set()
    for path in PUBLISHED.glob("*.csv"):
        with path.open(newline="", encoding="utf-8") as lines:
            found |= {(row.get("title", ""), row.get("url", "")) for row in csv.DictReader(lines)}
    return found


def named_by_key() -> set[str]:
    """Return the sources that the package, the tests or their files of printed figures name by their key."""
    paths = [*PUBLISHED.glob("*.csv"), *TESTS.rglob("test_*.py"), *PACKAGE.rglob("*.py")]
    text = "".join(path.read_text(encoding="utf-8") for path in paths)
    return set(re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)+", text)) & set(LIBRARY.sources)


def test_every_entry_of_the_bibliography_is_used() -> None:
    """By a row, a rule or a check; a list of books nobody opened is no evidence."""
    by_rows = {source for row in ROWS for source in sources_of(row)}
    by_rules = {source for _, source in rule_sources()}
    titles = checked_titles()
    by_checks = {key for key, each in LIBRARY.sources.items() if (each["title"], each.get("URL", "")) in titles}
    unused = set(LIBRARY.sources) - by_rows - by_rules - by_checks - named_by_key()
    assert not unused


@pytest.mark.parametrize("key", sorted(LIBRARY.sources))
def test_a_source_can_be_found_and_says_how_it_was_seen(key: str) -> None:
    """Title, kind, who or where, and in the note whether the page, an excerpt or a copy was read."""
    entry: Mapping[str, Any] = LIBRARY.sources[key]
    assert entry["title"]
    assert entry["type"] in CSL_TYPES
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", key)
    assert any(entry.get(field) for field in ("publisher", "author", "container-title", "URL"))
    assert entry.get("note")


def beyond(row: Row, ranges: tuple[Printed, ...]) -> bool:
    """Say whether a row goes further than its own sources print."""
    own = [each for each in ranges if each.source in sources_of(row)]
    low, high = row.written
    return bool(own) and not (min(each.least for each in own) <= low and high <= max(each.most for each in own))


PUBLISHED_SUBJECTS = [
    subject for table in HELD_TABLES for subject in printed(table) if row_of(subject).origin.kind is Kind.PUBLISHED
]


@pytest.mark.parametrize("subject", PUBLISHED_SUBJECTS)
def test_a_published_row_goes_no_further_than_its_own_sources(subject: str) -> None:
    """Low is not below and high not above what the sources of the row print, as they stand in the table."""
    row = row_of(subject)
    assert not beyond(row, printed(row.table)[subject])


@pytest.mark.parametrize("subject", PUBLISHED_SUBJECTS)
def test_widening_a_published_row_is_seen(subject: str) -> None:
    """A row let out by a tenth beyond the printed extremes does not pass as published."""
    row = row_of(subject)
    ranges = printed(row.table)[subject]
    own = [each for each in ranges if each.source in sources_of(row)]
    out = max(abs(row.high), 1.0) / 10
    low, high = row.written
    assert beyond(replace(row, printed=(low, max(each.most for each in own) + out)), ranges)
    assert beyond(replace(row, printed=(min(each.least for each in own) - out, high)), ranges)


@pytest.mark.parametrize("name", HELD_TABLES)
def test_every_source_of_a_published_row_has_its_printed_figure(name: str) -> None:
    """What each source of a row prints stands in reference/printed, so that the row can be held to it."""
    ranges = printed(name)
    missing = {
        (row.key, source)
        for row in of(name)
        if row.origin.kind is Kind.PUBLISHED
        for source in sources_of(row)
        if source not in {each.source for each in ranges.get(row.key, ())}
    }
    assert not missing


def test_a_library_without_a_source_is_seen() -> None:
    """The test of sources looks: with one entry taken away it finds the rows that lean on it."""
    gone = "tm-43-0139"
    poorer = Library(LIBRARY.tables, {key: each for key, each in LIBRARY.sources.items() if key != gone})
    assert any(source not in poorer.sources for row in ROWS for source in sources_of(row))
