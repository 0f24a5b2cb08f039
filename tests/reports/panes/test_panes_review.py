"""A review as HTML and as text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from xml.etree import ElementTree

import pytest

from estimating.evidence import load_library
from estimating.learning.backtest import try_forward
from estimating.learning.calibration import Bias, bias_by
from estimating.learning.rates import LeftOut, Observed
from estimating.records.actuals import Release, SurfaceTest
from estimating.records.compared import Compared
from estimating.records.sent import SentLine, list_estimates
from estimating.records.store import Records, open_records
from estimating.reports.charts.review import bias_chart, held_chart, learning_chart, place_in_range, rate_chart
from estimating.reports.panes import review as panes
from estimating.review.example import NAME, TODAY, invented_history
from estimating.review.lessons import Effect, Lessons, Walked, lessons, rows_of

LIBRARY = load_library()
ROLL = "production/roll_ceiling/roll/popcorn"
DAY = date(2026, 5, 4)
LINE = Observed("parlour", "roll", "hours", 3.0, 4.0, 6.0, 4.5, DAY)
NOTHING = Lessons(Compared((), ()), (), ())


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Records]:
    with open_records(invented_history(tmp_path_factory.mktemp("history") / NAME)) as opened:
        yield opened


@pytest.fixture(scope="module")
def found(records: Records) -> Lessons:
    return lessons(records, LIBRARY, {}, TODAY)


def _drawing(html: str) -> ElementTree.Element:
    (svg,) = re.findall(r"<svg.*?</svg>", html, re.DOTALL)
    return ElementTree.fromstring(svg)


def test_an_empty_file_is_no_fault() -> None:
    """It says how records come to be and offers an invented history; a path is never markup."""
    with_crew_note = panes.welcome("records/<mine>.sqlite")
    assert "how everybody starts" in with_crew_note
    assert "invented" in with_crew_note
    assert "&lt;mine&gt;" in with_crew_note


def test_an_estimate_is_named_by_its_day_its_job_and_its_price(records: Records) -> None:
    """And by whether anything is known of it."""
    first = list_estimates(records)[0]
    assert panes.estimate_name(first, True).startswith("2025-02-03  Bedroom ceiling, 3 Larch Court  $")
    assert panes.estimate_name(first, False).endswith("(open)")


def test_a_promise_stands_with_its_range() -> None:
    """One without a range has none."""
    line = SentLine("Roll", "roll_ceiling", "hours", 1.5, 2.0, 2.8)
    assert "promised 2 h (1.5 – 2.8)" in panes.promised(line)
    assert panes.promised(replace(line, low=2.0, high=2.0)).endswith("promised 2 h</span>")


def test_tests_and_releases_are_listed() -> None:
    """Each with its day; what was typed is never markup; nothing kept is said."""
    test = SurfaceTest("parlour", "water mist", "darkens", DAY, "<by the window>")
    release = Release("parlour", "looks_unpainted", "seal_roll", 0.1, 180.0, 2.5, 3.0, DAY)
    with_crew_note = panes.surface_list([test], [release])
    assert "2026-05-04: water mist, darkens, &lt;by the window&gt;" in with_crew_note
    assert "2.5 of 180 ft² came down, seal roll, looks unpainted, 3 h to put right" in with_crew_note
    assert "Nothing kept" in panes.surface_list([], [])


def test_every_proposal_is_listed_but_those_put_aside(found: Lessons) -> None:
    """Change, count, both ranges; a chance is said in percent."""
    with_crew_note = panes.proposals_table(found, {})
    assert with_crew_note.count("<tr>") == len(found.proposals) + 1
    assert "derived 160 → yours" in with_crew_note
    assert "<td>60 – 130</td>" in with_crew_note
    assert "roll ceiling, roll, popcorn" not in panes.proposals_table(found, {}, [ROLL])
    assert "Nothing new to propose" in panes.proposals_table(NOTHING, {})


def test_a_value_that_stands_is_shown_beside_the_proposal(found: Lessons) -> None:
    """The table's figure is not the one that would be replaced."""
    rolled = next(each for each in found.proposals if each.row.key == ROLL)
    own = {ROLL: replace(rolled.own_value(TODAY), likely=75.0)}
    assert "(yours now 75)" in panes.proposals_table(found, own)


def test_a_proposal_opened_shows_what_it_rests_on(found: Lessons) -> None:
    """Its own records are dots, as many as there are; a chance rests on what came down."""
    rolled = next(each for each in found.proposals if each.row.key == ROLL)
    with_crew_note = panes.lesson_detail(rolled, found.compared.observed)
    assert len(_drawing(with_crew_note).findall(".//{*}circle")) == 12
    assert "rests also on" in with_crew_note
    chance = next(each for each in found.proposals if each.row.table == "release")
    assert "judged by what came down" in panes.lesson_detail(chance, found.compared.observed)


def test_effects_are_shown_with_their_sign() -> None:
    """Dearer, cheaper, the same, and a job that cannot be priced any more."""
    now, dearer = Walked(Decimal("900.00"), 12.0, 2.0), Walked(Decimal("950.50"), 13.0, 2.0)
    with_crew_note = panes.effects_table(
        [
            Effect("one", "2026-05-01", Decimal("890.00"), now, dearer),
            Effect("two", "2026-05-01", Decimal("890.00"), dearer, now),
            Effect("three", "2026-05-01", Decimal("890.00"), now, now),
            Effect("four", "2026-05-01", Decimal("890.00"), None, None, "attic: <unknown>"),
        ]
    )
    for words in ("+$50.50", "−$50.50", "±$0.00", "cannot be priced any more: attic: &lt;unknown&gt;", "12 h, 2 days"):
        assert words in with_crew_note
    assert "No estimate is open" in panes.effects_table([])


def test_what_could_not_be_learned_from_is_counted_by_reason() -> None:
    """One example of each is named."""
    with_crew_note = panes.left_out([LeftOut("a", "gone"), LeftOut("b", "gone"), LeftOut("c", "no row")])
    assert "2 × gone, such as b" in with_crew_note
    assert "1 × no row, such as c" in with_crew_note
    assert panes.left_out([]) == ""


def test_honesty_counts_only_promises_with_a_range(found: Lessons) -> None:
    """A fixed figure was never said to hold four times in five."""
    fixed = replace(LINE, low=4.0, high=4.0)
    assert panes.with_a_range([LINE, fixed]) == [LINE]
    only_fixed = Lessons(Compared((fixed,), ()), (), ())
    with_crew_note = panes.honesty(only_fixed, LIBRARY)
    assert "inside the" not in with_crew_note
    assert "from the second finished job on" in with_crew_note
    assert "No finished line" in panes.honesty(NOTHING, LIBRARY)


def test_honesty_says_how_sure_it_can_be(found: Lessons) -> None:
    """Counts by measure with the bound, every task, and learned rates on jobs they had no part in."""
    with_crew_note = panes.honesty(found, LIBRARY)
    assert re.search(
        r"<strong>hours</strong>: \d+ of \d+ inside the 80% range; the true share is between", with_crew_note
    )
    assert "<strong>gallons</strong>" in with_crew_note
    assert "lines of one job share its good and bad days" in with_crew_note
    assert "On 105 lines that earlier jobs could teach about" in with_crew_note
    assert panes.open_prices([], 60) == ""


def test_the_summary_says_the_same_in_plain_text(found: Lessons) -> None:
    """No markup, and nothing where nothing is known."""
    with_crew_note = panes.review_summary(found, LIBRARY, 10)
    assert "<" not in with_crew_note
    assert with_crew_note.startswith("estimates sent 10, jobs finished 8, ")
    assert "production/roll_ceiling/roll/popcorn: from memory, not checked 90 → yours" in with_crew_note
    assert panes.review_summary(NOTHING, LIBRARY, 1).startswith("estimates sent 1, jobs finished 0, lines compared 0")


@pytest.mark.parametrize(("actual", "place"), [(3.0, -1.0), (4.5, 0.0), (6.0, 1.0), (9.0, 3.0)])
def test_an_actual_is_placed_in_its_range(actual: float, place: float) -> None:
    """The low end is -1 and the high end 1."""
    assert place_in_range(replace(LINE, actual=actual)) == pytest.approx(place)


def test_every_actual_is_drawn_inside_or_outside() -> None:
    """Bars of the two colors; the ends of the range belong to it; far strays stand at the edge."""
    drawn = held_chart([replace(LINE, actual=each) for each in (3.0, 4.5, 6.0, 60.0, 0.1)])
    assert "3 of 5 actuals fell between" in drawn
    assert drawn.count('fill="#1565c0"') == 3
    assert drawn.count('fill="#c2410c"') == 2


def test_charts_are_sound_at_their_edges(found: Lessons) -> None:
    """One line, one job, one record or a ratio far off is drawn too, as well-formed SVG with a title."""
    tried = try_forward(rows_of(LIBRARY), found.compared.observed)
    charts = (
        held_chart([LINE]),
        bias_chart([Bias("roll (hours)", 1, 9.0, None, None)]),
        bias_chart(bias_by(found.compared.observed)),
        learning_chart(tried[:1]),
        learning_chart(tried),
        rate_chart((60.0, 90.0, 130.0), (50.0, 70.0, 90.0), [], "ft²/h"),
    )
    for each in charts:
        assert _drawing(each).get("aria-label")
        assert "nan" not in each
