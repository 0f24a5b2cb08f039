"""The reference tables as HTML: the rows of one, what stands behind a row, what is printed about it, and own values."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from html import escape
from typing import Any

from estimating.evidence import Basis, Library, OwnValue, Row
from estimating.norms import beside
from estimating.origins import Kind
from estimating.printed import Printed, disagree
from estimating.records.decisions import Decision
from estimating.reports.format import number, spoken_unit
from estimating.reports.panes.desk_panes import table
from estimating.scopes.shared.products import title_of
from estimating.scopes.shared.second_opinion import SecondOpinion, second_opinion

HEAD = ("key", "low", "likely", "high", "unit", "printed", "origin", "source", "place", "year", "note")
OWN_HEAD = ("row", "value", "date", "origin", "note")
BEYOND = "reaches beyond ours"
DIGITS = 6  # a table's figure is shown as it stands there


@dataclass(frozen=True)
class Evidence:
    """All that is known about the rows: the tables, what is printed about each row, and the values of one's own."""

    library: Library
    printed: Mapping[str, tuple[Printed, ...]]
    own: Mapping[str, OwnValue]

    @cached_property
    def basis(self) -> Basis:
        """The figures an estimate would take: the tables, with values of one's own in place of some."""
        return Basis(self.library, self.own)

    def second(self, row: Row) -> SecondOpinion | None:
        """Return how far a gallon goes by solids and film, beside a row of the coverage table."""
        return second_opinion(self.basis, row)

    @property
    def kinds(self) -> list[Kind]:
        """The kinds of origin that rows have."""
        found = {row.origin.kind for table in self.library.tables.values() for row in table.values()}
        return [kind for kind in Kind if kind in found]

    def of(self, row: Row) -> tuple[Printed, ...]:
        """Return what is printed about a row, in the order of its files."""
        return self.printed.get(row.key, ())

    def plain(self, row: Row) -> list[Printed]:
        """Return the figures printed for a row as it stands, from the lowest up."""
        return sorted((each for each in self.of(row) if each.plain(row)), key=lambda each: each.ends(row.unit))

    def disagree(self, row: Row) -> bool:
        """Say whether the sources leave no value that all of them print."""
        return disagree(self.of(row), row)


def chosen_rows(
    evidence: Evidence,
    name: str,
    words: str = "",
    kind: Kind | None = None,
    *,
    disagreeing: bool = False,
    mine: bool = False,
) -> list[Row]:
    """Return the rows of a table in which every word is found, of one kind of origin or of any.

    disagreeing: only those whose sources disagree. mine: only those with an own value.

    A word is looked for in keys, unit, origin, sources with their titles, place, year, note and the own value's note.
    """
    wanted = words.casefold().split()
    return [
        row
        for row in evidence.library.table(name).values()
        if (kind is None or row.origin.kind is kind)
        and (not disagreeing or evidence.disagree(row))
        and (not mine or row.key in evidence.own)
        and all(word in _text(row, evidence) for word in wanted)
    ]


def _text(row: Row, evidence: Evidence) -> str:
    """Return all that a search looks at, in small letters."""
    origin = row.origin
    sources = [evidence.library.sources.get(key, {}) for key in _keys(row)]
    titles = " ".join(f"{each.get('title', '')} {each.get('publisher', '')}" for each in sources)
    mine = evidence.own.get(row.key)
    parts = (
        *(row.key, row.key.replace("_", " "), row.unit, spoken_unit(row.unit), *row.words.values()),
        *(str(origin.kind), origin.source, titles, origin.place, origin.year, origin.note),
        mine.note if mine else "",
    )
    return " ".join(parts).casefold()


def _keys(row: Row) -> list[str]:
    return row.origin.source.split("; ") if row.origin.source else []


def row_name(row: Row) -> str:
    """Return a row's keys as words; the last keys are left out where they are `any`."""
    keys = list(row.keys)
    while len(keys) > 1 and keys[-1] == "any":
        keys.pop()
    return ", ".join(keys).replace("_", " ")


def rows_table(rows: Sequence[Row], evidence: Evidence, chosen: str = "") -> str:
    """Return rows as a table, own values marked in them, and beside the figures what is printed about each."""
    if not rows:
        return "<p>No row is like that.</p>"
    top = "".join(f'<th scope="col">{each}</th>' for each in HEAD)
    body = "".join(_row(row, evidence, chosen) for row in rows)
    inside = f"<thead><tr>{top}</tr></thead><tbody>{body}</tbody>"
    scrolls = 'class="pe-scroll" tabindex="0" role="region" aria-label="rows of the table"'
    return f'<div {scrolls}><table class="pe-table pe-rows">{inside}</table></div>'


def _row(row: Row, evidence: Evidence, chosen: str) -> str:
    marks = [name for name, on in (("pe-chosen", row.key == chosen), ("pe-own", row.key in evidence.own)) if on]
    origin = row.origin
    cells = [
        number(row.low, DIGITS),
        escape(yours(row, evidence.own[row.key])) if row.key in evidence.own else number(row.likely, DIGITS),
        number(row.high, DIGITS),
        escape(spoken_unit(row.unit)),
        _printed_words(row, evidence),
        *map(escape, (str(origin.kind), origin.source, origin.place, origin.year, origin.note)),
    ]
    name = escape(row.address.within_table).replace("/", "/<wbr>").replace("_", "_<wbr>")
    given = f' class="{" ".join(marks)}"' if marks else ""
    return f'<tr{given}><th scope="row">{name}</th>' + "".join(f"<td>{cell}</td>" for cell in cells) + "</tr>"


def _printed_words(row: Row, evidence: Evidence) -> str:
    """Return how much is printed about a row, from where to where, and whether it hangs together."""
    figures = evidence.plain(row)
    if not figures:
        by_rule = [f"{len(evidence.of(row))} by a rule"] if evidence.of(row) else []
        return "<br>".join([*by_rule, *_parted(row, evidence)])
    ends = [each.ends(row.unit) for each in figures]
    low, high = min(low for low, _ in ends), max(high for _, high in ends)
    far = sum(each.beyond(row) for each in figures)
    said = [f"{len(figures)}: {span(low, high)}"]
    said += ['<span class="pe-mind">sources disagree</span>'] if evidence.disagree(row) else []
    said += [f"{far} beyond ours"] if far else []
    return "<br>".join([*said, *_parted(row, evidence)])


def _parted(row: Row, evidence: Evidence) -> list[str]:
    """Return that the second opinion parts from a row, where it does by too much."""
    found = evidence.second(row)
    return [f'<span class="pe-mind">film says {found.worked.value:.0f}</span>'] if found and found.apart else []


def span(low: float, high: float) -> str:
    """Return a range, or the one figure it comes to."""
    first, last = number(low, 4), number(high, 4)
    return first if first == last else f"{first} – {last}"


def row_detail(row: Row, evidence: Evidence) -> str:
    """Return one row opened: its figures, its own value, its note, its sources, and what is printed about it."""
    range_ = "fixed" if row.low == row.high else f"{number(row.low, DIGITS)} to {number(row.high, DIGITS)}"
    figures = f"<strong>{escape(amount(row.likely, row.unit))}</strong>, {range_}{_reading_words(row)}"
    words = "".join(f"<p>{escape(name)}: {escape(text)}</p>" for name, text in row.words.items() if text)
    return (
        f"<h3>{escape(row.key)}</h3><p>{figures} · {escape(str(row.origin.kind))}, {escape(row.origin.year)}</p>"
        + _own_words(row, evidence.own.get(row.key))
        + (f"<p>{escape(row.origin.note)}</p>" if row.origin.note else "")
        + words
        + _source_list(row, evidence.library)
        + _second_words(evidence.second(row))
        + _printed_table(row, evidence)
        + (f"<p>{escape(said)}.</p>" if (said := beside(evidence.library, row.key)) else "")
    )


def _reading_words(row: Row) -> str:
    """Return the ends as their source prints them, where low and high were read from them."""
    if not (row.reading and row.printed):
        return ""
    ends = f"{number(row.printed[0], DIGITS)} to {number(row.printed[1], DIGITS)}"
    return escape(f", read from {ends}: {row.reading}")


def _second_words(found: SecondOpinion | None) -> str:
    """Return the second opinion on a spread rate, with what goes into it; marked where the two part by too much."""
    if found is None:
        return ""
    parts = [each for each in found.worked.walk() if each.key]
    inputs = ", ".join(f"{each.name} {amount(each.value, each.unit)}" for each in parts)
    worked = amount(round(found.worked.value), found.worked.unit)
    said = f"{worked} worked out for {title_of(found.product).lower()}, by hand, from {inputs}"
    apart = (
        f'<p class="pe-mind">The two part by a factor of {found.factor:.2f}, more than {found.most:g}: look at the '
        "surface before so much is bought.</p>"
    )
    agrees = f"<p>The two part by a factor of {found.factor:.2f}.</p>"
    return f"<h4>Second opinion</h4><p>{escape(said)}.</p>{apart if found.apart else agrees}"


def _own_words(row: Row, own: OwnValue | None) -> str:
    if own is None:
        return ""
    low, high = (own.low, own.high) if own.low is not None and own.high is not None else (None, None)
    ends = f"{number(low, DIGITS)} to {number(high, DIGITS)}" if low is not None and high is not None else ""
    parts = [ends or "range in proportion to the table's", own.date, str(own.kind), own.note]
    said = "; ".join(part for part in parts if part)
    return f'<p class="pe-yours"><strong>{escape(yours(row, own))}</strong><br>{escape(said)}</p>'


def _source_list(row: Row, library: Library) -> str:
    keys = _keys(row)
    if not keys:
        return f"<p>No source is claimed: {escape(str(row.origin.kind))}.</p>"
    places = row.origin.place.split("; ")
    items = "".join(
        f"<li>{_source(key, library.sources.get(key, {}), place)}</li>"
        for key, place in zip(keys, places, strict=False)
    )
    return f"<h4>Sources</h4><ul>{items}</ul>"


def _source(key: str, entry: Mapping[str, Any], place: str) -> str:
    """Return one source: title, who, number, year, the place in it, its address, and how it was seen."""
    if not entry:
        return f'<span class="pe-stop">{escape(key)} is not in the bibliography</span>'
    who = ", ".join([*map(_author, entry.get("author", [])), *([entry["publisher"]] if "publisher" in entry else [])])
    year = _year(entry) or "undated"
    facts = ", ".join(escape(str(part)) for part in (who, entry.get("number", ""), year) if part)
    weak = entry.get("custom", {}).get("weak", "")
    mark = f'<br><span class="pe-small">weak: {escape(weak)}; sets no likely value alone</span>' if weak else ""
    return (
        f"<cite>{escape(entry['title'])}</cite>, {facts}: {escape(place)}<br>{link(entry.get('URL', ''))}"
        f'<br><span class="pe-small">{escape(key)} · {escape(entry.get("note", ""))}</span>{mark}'
    )


def _author(author: Mapping[str, str]) -> str:
    return author.get("literal") or f"{author.get('given', '')} {author.get('family', '')}".strip()


def _year(entry: Mapping[str, Any]) -> str:
    parts = entry.get("issued", {}).get("date-parts", [[""]])
    return str(parts[0][0])


def link(address: str) -> str:
    """Return an address of the web as a link that opens beside the workbook; anything else as plain text."""
    shown = escape(address)
    if not address.startswith(("https://", "http://")):
        return shown
    return f'<a href="{shown}" target="_blank" rel="noopener noreferrer">{shown}</a>'


def _printed_table(row: Row, evidence: Evidence) -> str:
    figures = evidence.plain(row)
    others = [each for each in evidence.of(row) if not each.plain(row)]
    if not figures and not others:
        return "<h4>Printed figures</h4><p>None that the row is tested against.</p>"
    warning = (
        '<p class="pe-mind">The sources disagree: no one value lies in all that they print.</p>'
        if evidence.disagree(row)
        else ""
    )
    rows = (_printed_row(each, row) for each in (*figures, *others))
    head = ("printed", "against ours", "where, and how much of it was seen")
    return f"<h4>Printed figures the row is tested against</h4>{warning}{table(head, rows)}"


def _printed_row(printed: Printed, row: Row) -> tuple[str, ...]:
    plain = printed.plain(row)
    against = f'<span class="pe-mind">{BEYOND}</span>' if plain and printed.beyond(row) else "within"
    figure = f"{span(printed.low, printed.high)} {spoken_unit(printed.unit)}".strip()
    if plain and printed.unit != row.unit:
        figure += f", {span(*printed.ends(row.unit))} {spoken_unit(row.unit)}"
    return (
        escape(figure),
        against if plain else "by a rule",
        f"{_title(printed)}: {escape(printed.place)} ({escape(printed.seen)})" + ("" if plain else _compared(printed)),
    )


def _compared(printed: Printed) -> str:
    """Return how the tests compare a figure that is not printed for the row as it stands."""
    return f'<br><span class="pe-small">{escape(printed.check.replace("_", " "))}: {escape(printed.subject)}</span>'


def _title(printed: Printed) -> str:
    """Return the title of the source as a link, with who, number and year."""
    title = f"<cite>{escape(printed.title)}</cite>"
    if printed.url.startswith(("https://", "http://")):
        title = f'<a href="{escape(printed.url)}" target="_blank" rel="noopener noreferrer">{title}</a>'
    facts = [escape(part) for part in (printed.publisher, printed.number, printed.year) if part]
    return ", ".join([title, *facts])


def yours(row: Row, own: OwnValue) -> str:
    """Return a row's own value beside the table's, such as "published 150 → yours 128 ft²/h"."""
    kind = str(row.origin.kind).partition(",")[0]
    short = own.unit == row.unit and not own.unit.startswith("dollar")
    before = number(row.likely, DIGITS) if short else amount(row.likely, row.unit)
    return f"{kind} {before} → yours {amount(own.likely, own.unit)}"


def amount(value: float, unit: str) -> str:
    """Return a number as it stands in a table, with its unit; money as $28.50/h."""
    said = spoken_unit(unit)
    if not said.startswith("$"):
        return f"{number(value, DIGITS)} {said}".strip()
    cents = number(value, DIGITS) if value == round(value) or abs(value) < 1 else f"{value:.2f}"
    return f"${cents}{said.removeprefix('$')}"


def own_in_use(own: Mapping[str, OwnValue], library: Library, warning: str = "") -> str:
    """Return the line of the desk that says which own values stand in place of reference rows; empty for none."""
    each = "; ".join(f"{row.key} {yours(row, own[row.key])}" for row in _rows_of(own, library))
    said = f'<p class="pe-small">Own values in use: {escape(each)}.</p>' if own else ""
    return said + (f'<p class="pe-error" role="alert">{escape(warning)}</p>' if warning else "")


def _rows_of(keys: Iterable[str], library: Library) -> list[Row]:
    return [library.named(key) for key in sorted(keys)]


def own_pane(evidence: Evidence, warning: str, decisions: Sequence[Decision]) -> str:
    """Return the contractor's own table: each value beside the table's, and every decision there was, newest first."""
    if not decisions:
        return "<p>No value of your own yet. Choose a row, and put yours in place of the table's.</p>"
    pairs = [(row, evidence.own[row.key]) for row in _rows_of(evidence.own, evidence.library)]
    rows = [
        [escape(each) for each in (row.key, yours(row, own), own.date, str(own.kind), own.note)] for row, own in pairs
    ]
    standing = table(OWN_HEAD, rows) if rows else "<p>Every row stands as in the tables.</p>"
    said = f'<p class="pe-error" role="alert">{escape(warning)}</p>' if warning else ""
    made = "".join(f"<li>{escape(_decision(each))}</li>" for each in reversed(decisions))
    return f"{said}{standing}<h4>Decisions</h4><ul>{made}</ul>"


def _decision(decision: Decision) -> str:
    day = decision.decided_at[:10]
    if decision.value is None:
        return f"{day} · {decision.key}: taken back"
    figure = amount(decision.value.likely, decision.value.unit)
    note = f" – {decision.value.note}" if decision.value.note else ""
    return f"{day} · {decision.key}: {figure}{note}"


def evidence_summary(evidence: Evidence, name: str) -> str:
    """Return the state of one table as plain text: its rows by origin, what is printed about them, own values."""
    rows = list(evidence.library.table(name).values())
    kinds = {kind: sum(row.origin.kind is kind for row in rows) for kind in Kind}
    held = [row for row in rows if evidence.plain(row)]
    figures = {(each.title, each.place, each.low, each.high) for row in held for each in evidence.plain(row)}
    mine = [f"{row.key} {yours(row, evidence.own[row.key])}" for row in _rows_of(evidence.own, evidence.library)]
    opinions = [found for row in rows if (found := evidence.second(row))]
    second = [f"second opinion by solids and film: {len(opinions)} rows, {sum(each.apart for each in opinions)} part"]
    return "\n".join(
        [
            f"{name}: {len(rows)} rows; " + ", ".join(f"{kind} {count}" for kind, count in kinds.items() if count),
            f"printed figures: {len(figures)}, about {len(held)} rows; the sources of "
            f"{sum(evidence.disagree(row) for row in held)} rows disagree",
            *(second if opinions else []),
            f"own values: {'; '.join(mine) or 'none'}",
        ]
    )
