"""The reference tables as HTML and SVG: what is found, what is shown of a row, and where sources part."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import UTC, datetime
from types import MappingProxyType
from xml.etree import ElementTree

import pytest

from estimating.evidence import Library, OwnValue, Row, load_library
from estimating.origins import Kind, Origin
from estimating.printed import Printed, by_row, read_printed
from estimating.records.decisions import Decision
from estimating.reports.charts.evidence import MOST, bands, scale_for, spread_plot
from estimating.reports.panes.evidence import (
    Evidence,
    amount,
    chosen_rows,
    evidence_summary,
    link,
    own_in_use,
    own_pane,
    row_detail,
    row_name,
    rows_table,
)

LIBRARY = load_library()
PRINTED = by_row(read_printed(), LIBRARY)
RATE = "production/roll_ceiling/roll/popcorn"
MINE = OwnValue(128.0, "ft**2/hour", note="two houses <b>last</b> summer", date="2026-05-04")
NO_OWN: Mapping[str, OwnValue] = MappingProxyType({})


def evidence(own: Mapping[str, OwnValue] = NO_OWN) -> Evidence:
    return Evidence(LIBRARY, PRINTED, own)


def row(key: str) -> Row:
    return LIBRARY.row(*key.split("/"))


def shelf(*figures: tuple[float, float], low: float = 100, likely: float = 150, high: float = 200) -> Evidence:
    """Return a library of one row, brick, with these figures printed about it by sources of their own."""
    origin = Origin(Kind.PUBLISHED, "cans-1999", "p. 3", "As <printed>.", "1999")
    brick = Row("coverage", ("brick", "any"), low, likely, high, "ft**2/gallon", origin)
    source = {"title": "Cans & walls", "publisher": "A press", "URL": "https://example.org/a?b=1&c=2", "note": "Read."}
    printed = tuple(
        Printed("value", "coverage/brick/any", *ends, "ft**2/gallon", 0.5, f"Title {n}", "", "", "1999", "p. 3", "", "")
        for n, ends in enumerate(figures)
    )
    library = Library({"coverage": {brick.keys: brick}}, {"cans-1999": source})
    return Evidence(library, {brick.key: printed}, NO_OWN)


def brick_of(found: Evidence) -> Row:
    return found.library.row("coverage", "brick", "any")


def pictures(text: str) -> list[ElementTree.Element]:
    """Return the drawings in a text, read as XML."""
    return [ElementTree.fromstring(each) for each in re.findall(r"<svg.*?</svg>", text, re.DOTALL)]


def test_every_word_must_be_found_somewhere_in_a_row() -> None:
    """Keys as words, titles of sources, notes and units are looked through, in any order and any case."""
    found = chosen_rows(evidence(), "coverage", "ROUGH stucco")
    assert {each.key for each in LIBRARY.table("coverage").values() if each.keys[0] == "stucco_rough"} <= {
        each.key for each in found
    }
    assert len(found) < len(LIBRARY.table("coverage"))
    assert chosen_rows(evidence(), "coverage", "loxon rough") != []
    assert chosen_rows(evidence(), "coverage", "rough nowhere-at-all") == []
    assert len(chosen_rows(evidence(), "coverage")) == len(LIBRARY.table("coverage"))


def test_rows_are_found_by_kind_of_origin_and_by_disagreement() -> None:
    """Each filter narrows by itself, and all hold together."""
    suitability = chosen_rows(evidence(), "production", kind=Kind.JUDGMENT)
    assert suitability
    assert {each.origin.kind for each in suitability} == {Kind.JUDGMENT}
    parted = chosen_rows(evidence(), "coverage", disagreeing=True)
    assert parted
    assert all(evidence().disagree(each) for each in parted)
    assert chosen_rows(evidence(), "measuring", kind=Kind.JUDGMENT, disagreeing=True) == []


def test_own_values_are_found_together_and_by_their_note() -> None:
    """What the contractor wrote beside a value is looked through too."""
    found = evidence({RATE: MINE})
    assert [each.key for each in chosen_rows(found, "production", mine=True)] == [RATE]
    assert [each.key for each in chosen_rows(found, "production", "last summer")] == [RATE]
    assert chosen_rows(evidence(), "production", mine=True) == []


def test_a_name_leaves_out_any_at_its_end() -> None:
    """The wider classes of a row are said only as far as they narrow it."""
    assert row_name(row("coverage/smooth_drywall/any/any/any")) == "smooth drywall"
    assert row_name(row("coverage/stucco_rough/any/any/repellent")) == "stucco rough, any, any, repellent"


def test_the_table_has_every_row_with_its_figures_and_its_ground() -> None:
    """Key, three figures, unit, origin, source, place, year and note of each row, and what is printed about it."""
    rows = list(LIBRARY.table("losses").values())
    shown = rows_table(rows, evidence())
    assert shown.count("<tr") == len(rows) + 1
    for name in ("low", "likely", "high", "unit", "origin", "source", "place", "year", "note", "printed"):
        assert f'<th scope="col">{name}</th>' in shown
    assert "sources disagree" in shown
    assert rows_table([], evidence()) == "<p>No row is like that.</p>"


def test_an_own_value_is_marked_in_the_table_and_the_published_one_stays() -> None:
    """Both figures are shown, and the row is marked as one's own."""
    likely = row(RATE).likely
    shown = rows_table([row(RATE)], evidence({RATE: MINE}), chosen=RATE)
    assert f"from memory {likely:g} → yours 128 ft²/h" in shown
    assert 'class="pe-chosen pe-own"' in shown
    assert "yours" not in rows_table([row(RATE)], evidence())


def test_a_row_opened_shows_its_sources_and_what_is_printed() -> None:
    """Title, publisher, address as a link, place, how it was seen, the note, and each printed figure against ours."""
    found = shelf((150, 150), (180, 240))
    shown = row_detail(brick_of(found), found)
    for words in ("<cite>Cans &amp; walls</cite>", "A press", "undated", "p. 3", "Read.", "As &lt;printed&gt;."):
        assert words in shown
    assert '<a href="https://example.org/a?b=1&amp;c=2" target="_blank" rel="noopener noreferrer">' in shown
    assert shown.count("within") == 1
    assert shown.count("reaches beyond ours") == 1
    assert "The sources disagree" in shown


def test_sources_that_agree_raise_no_warning() -> None:
    """Ranges with a value in common do not disagree, nor does a row of which nothing is printed."""
    for found in (shelf((120, 180), (150, 190)), shelf()):
        assert "disagree" not in row_detail(brick_of(found), found)


def test_a_row_without_a_source_says_so() -> None:
    """Memory is called memory, and nothing stands where a source would."""
    shown = row_detail(row(RATE), evidence())
    assert "No source is claimed: from memory, not checked." in shown
    assert "None that the row is tested against." in shown


def test_every_row_can_be_opened() -> None:
    """Each row of each table, with its sources and its printed figures, comes out as text without a gap."""
    everything = evidence()
    for table in LIBRARY.tables.values():
        for each in table.values():
            shown = row_detail(each, everything)
            assert each.key in shown
            assert "not in the bibliography" not in shown
            assert "None," not in shown


def test_an_own_value_is_opened_with_its_date_and_note() -> None:
    """What was typed is never markup."""
    shown = row_detail(row(RATE), evidence({RATE: MINE}))
    assert "yours 128 ft²/h" in shown
    assert "2026-05-04" in shown
    assert "&lt;b&gt;last&lt;/b&gt;" in shown
    assert "<b>" not in shown


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (28, "dollar/hour", "$28/h"),
        (28.5, "dollar/hour", "$28.50/h"),
        (0.035, "dollar/ft**2", "$0.035/ft²"),
        (1200, "dollar", "$1200"),
        (128, "ft**2/hour", "128 ft²/h"),
        (3, "count", "3"),
    ],
)
def test_an_amount_is_said_as_the_trade_says_it(value: float, unit: str, words: str) -> None:
    """Money with its sign before it, and no digit of a table rounded away."""
    assert amount(float(value), unit) == words


def test_only_addresses_of_the_web_become_links() -> None:
    """An address that would run a script stays plain text."""
    assert link("javascript:alert(1)") == "javascript:alert(1)"
    assert link('https://a.org/"x').startswith('<a href="https://a.org/&quot;x"')


def test_the_own_table_shows_what_stands_and_every_decision() -> None:
    """Newest decision first; taken back is a decision too; what was set aside is said."""
    at = datetime(2026, 5, 4, tzinfo=UTC).isoformat()
    made = [Decision(1, RATE, at, MINE), Decision(2, "business/wage", at, OwnValue(30, "dollar/hour"))]
    shown = own_pane(evidence({RATE: MINE}), "own values not used: x", [*made, Decision(3, "business/wage", at, None)])
    assert shown.index("business/wage: taken back") < shown.index("business/wage: $30/h")
    assert "own values not used: x" in shown
    assert "yours 128 ft²/h" in shown
    assert "No value of your own yet" in own_pane(evidence(), "", [])


def test_the_line_of_the_desk_is_empty_without_own_values() -> None:
    """Nothing is said where there is nothing to say."""
    assert own_in_use({}, LIBRARY) == ""
    assert "yours 128 ft²/h" in own_in_use({RATE: MINE}, LIBRARY)
    assert 'role="alert"' in own_in_use({}, LIBRARY, "set aside")


def test_a_unit_of_ones_own_is_named_on_both_sides() -> None:
    """A value in another unit than the table's is shown with both."""
    mine = {RATE: OwnValue(12, "meter**2/hour")}
    assert f"from memory {row(RATE).likely:g} ft²/h → yours 12 m²/h" in own_in_use(mine, LIBRARY)


def test_the_plot_has_a_dot_for_each_source_and_a_band_for_ours() -> None:
    """A figure outside our range is hollow; the drawing is sound XML and says in words what it shows."""
    found = shelf((150, 150), (120, 180), (180, 240))
    (picture,) = pictures(spread_plot(bands([brick_of(found)], found)))
    space = "{http://www.w3.org/2000/svg}"
    assert len([each for each in picture.iter(f"{space}g") if "pe-dot" in each.get("class", "")]) == 3
    assert len([each for each in picture.iter(f"{space}g") if "pe-beyond" in each.get("class", "")]) == 1
    assert len(list(picture.iter(f"{space}rect"))) == 1
    titles = [each.text for each in picture.iter(f"{space}title")]
    assert "brick: ours 100 – 200 ft²/gal; 3 printed, 120 – 240" in titles
    assert "180 – 240 ft²/gal: Title 2, 1999, p. 3 ()" in titles


def test_dots_that_would_lie_on_one_another_are_drawn_apart() -> None:
    """Three sources with one and the same figure are three dots to be seen."""
    found = shelf((150, 150), (150, 150), (150, 150))
    (picture,) = pictures(spread_plot(bands([brick_of(found)], found)))
    circles = [(each.get("cx"), each.get("cy")) for each in picture.iter("{http://www.w3.org/2000/svg}circle")]
    assert len(set(circles)) == 3


def test_one_line_can_stand_for_a_class() -> None:
    """All rows of a surface make one band, from their lowest low to their highest high; a figure counts once."""
    rows = chosen_rows(evidence(), "coverage", "stucco_rough")
    (band,) = bands(rows, evidence(), by_class=True)
    held = [each for each in rows if evidence().plain(each)]
    assert (band.low, band.high) == (min(each.low for each in held), max(each.high for each in held))
    assert len(bands(rows, evidence())) == len(held)
    assert len(band.dots) < sum(len(evidence().plain(each)) for each in held)


def test_an_own_value_is_drawn_where_it_lies() -> None:
    """In the unit of the row, whatever unit it was typed in, and on the scale."""
    key = "coverage/stucco_rough/any/any/any"
    mine = {key: OwnValue(20, "meter**2/liter")}
    (band,) = bands([row(key)], evidence(mine))
    assert band.own == pytest.approx((814.9,), abs=0.1)
    assert scale_for([band]).holds(band.own[0])
    assert any(text.startswith("▼") for text in pictures(spread_plot([band]))[0].itertext())


@pytest.mark.parametrize("name", sorted(LIBRARY.tables))
@pytest.mark.parametrize("by_class", [True, False])
def test_every_table_can_be_drawn(name: str, by_class: bool) -> None:
    """Each drawing is sound XML, has round marks on its scale, and holds all that it draws."""
    found = bands(LIBRARY.table(name).values(), evidence(), by_class=by_class)
    drawn = pictures(spread_plot(found))
    shown = found[:MOST]
    assert len(drawn) == len({band.unit for band in shown})
    for unit in {band.unit for band in shown}:
        several = [band for band in shown if band.unit == unit]
        scale = scale_for(several)
        assert 2 <= len(scale.ticks()) <= 14
        assert all(scale.holds(dot.low) and scale.holds(dot.high) for band in several for dot in band.dots)


def test_long_drawings_are_cut_and_say_so() -> None:
    """More bands than fit are counted, not dropped in silence."""
    found = bands(LIBRARY.table("coverage").values(), evidence())
    assert len(found) > MOST
    assert f"The first {MOST} of {len(found)}" in spread_plot(found)


def test_the_summary_counts_what_the_tables_hold() -> None:
    """Rows by origin add up to the rows; own values are named."""
    text = evidence_summary(evidence({RATE: MINE}), "losses")
    rows = LIBRARY.table("losses")
    counted = [int(each) for each in re.findall(r" (\d+)(?:,|$)", text.splitlines()[0])]
    assert sum(counted) == len(rows)
    assert "yours 128 ft²/h" in text.splitlines()[2]
    assert evidence_summary(evidence(), "losses").endswith("own values: none")
