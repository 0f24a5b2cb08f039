"""The panes of the desk: one result in two systems of units, and how the chance of release is reached."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from paper_jobs import NASTY, STUDY, made, read, with_work

from estimating.estimate.uncertainty.estimate_ranges import EstimateRanges, estimate_ranges
from estimating.evidence import load_library
from estimating.reports.exports.explain import explain
from estimating.reports.exports.text_summary import plain_summary
from estimating.reports.format import UnitSystem, quantity
from estimating.reports.panes import desk_panes as panes
from estimating.workbook import Outcome

US, METRIC = UnitSystem.US, UnitSystem.METRIC
PANES: dict[str, Callable[[Outcome, EstimateRanges, UnitSystem], str]] = {
    "head": lambda outcome, sure, shown: panes.head(outcome, sure),
    "methods": lambda outcome, sure, shown: panes.methods(outcome, shown),
    "lines": panes.lines,
    "order": lambda outcome, sure, shown: panes.order(outcome, shown),
    "days": lambda outcome, sure, shown: panes.days(outcome, shown),
    "set_up": lambda outcome, sure, shown: panes.set_up(outcome, shown),
    "cautions": lambda outcome, sure, shown: panes.cautions(outcome, shown),
    "questions": lambda outcome, sure, shown: panes.questions(outcome),
    "release": lambda outcome, sure, shown: panes.release(outcome, shown),
    "plain": plain_summary,
    "explain": lambda outcome, sure, shown: explain(outcome, "price", shown),
}
each_pane = pytest.mark.parametrize("name", PANES)


@pytest.fixture(scope="module")
def outcome() -> Outcome:
    return made()


@pytest.fixture(scope="module")
def sure(outcome: Outcome) -> EstimateRanges:
    return estimate_ranges(outcome.estimate)


def scored(*keys: str) -> float:
    """Return what the table of release holds for these keys."""
    return load_library().row("release", *keys).likely


@each_pane
def test_prices_are_the_same_in_both_systems(name: str, outcome: Outcome, sure: EstimateRanges) -> None:
    """Every amount of money stands in both, in the same order."""
    seen = [re.findall(r"\$[\d,]+\.\d\d", PANES[name](outcome, sure, shown)) for shown in UnitSystem]
    assert seen[0] == seen[1]


@each_pane
def test_nothing_typed_is_changed(name: str, outcome: Outcome, sure: EstimateRanges) -> None:
    """The job and what was typed in it are the same before and after either is shown."""
    before = outcome.job.model_dump_json()
    for shown in UnitSystem:
        PANES[name](outcome, sure, shown)
    assert outcome.job.model_dump_json() == before


def test_every_quantity_is_shown_in_the_system_asked_for(outcome: Outcome, sure: EstimateRanges) -> None:
    """The quantity of each line is in its pane, and what is metric is not in US customary units."""
    for shown in UnitSystem:
        text = read(panes.lines(outcome, sure, shown))
        assert all(quantity(line.quantity.value, line.quantity.unit, shown) in text for line in outcome.estimate.lines)
    metric = " ".join(read(PANES[name](outcome, sure, METRIC)) for name in ("methods", "lines", "days", "set_up"))
    titles = {order.title for order in outcome.estimate.supplies}  # a title is a name, sizes and all
    for title in titles:
        metric = metric.replace(title, "")
    formula = r"× distance ÷ 12 in|1604"  # a formula stays as its source writes it
    assert not re.search(r"\d (?:ft|gal|mil|psi|in)\b|°F", re.sub(formula, "", metric))


def test_the_path_of_the_chance_is_the_arithmetic_of_odds(outcome: Outcome) -> None:
    """Prior odds times each result, a second like one counting for less, give the chance that the methods start from.

    Of weak surfaces a method brings down a share, of sound ones hardly any.
    """
    base = outcome.comparisons[0].decision_figure
    assert base is not None
    prior = scored("prior", "looks_unpainted", "probability")
    clean, chalky = scored("evidence", "rub_clean", "odds"), scored("evidence", "rub_chalky", "odds")
    on_sound = (chalky - 1) / (chalky - clean)  # clean rubs among sound surfaces, from the two odds ratios
    alike = scored("tests", "clustered", "correlation")
    urn = [(1 - alike) * each + alike for each in (clean * on_sound, on_sound)]  # a second clean rub in the same room
    rubs = clean * urn[0] / urn[1]
    odds = [prior / (1 - prior)]
    odds.append(odds[-1] * rubs)
    odds.append(odds[-1] * scored("evidence", "mist_darkens", "odds"))
    odds.append(odds[-1] * scored("evidence", "tape_under_5", "odds"))
    assert base.value == pytest.approx(odds[-1] / (1 + odds[-1]))
    text = read(panes.release(outcome))
    assert re.search(".*".join(f"{each / (1 + each):.1%}" for each in odds), text)
    sprayed = base.value * scored("method", "spray", "share") + (1 - base.value) * scored(
        "sound", "coated", "probability"
    )
    assert re.search(rf"Spray, water-borne × [\d.]+ \([\d. –]+\) {sprayed:.1%}", text)


def test_the_bound_and_the_extents_stand_by_the_odds(outcome: Outcome) -> None:
    """The exact bound of the tests is said in its sentence, and every extent with its share and mending."""
    text = read(panes.release(outcome))
    assert "3 of 4 spot tests clean: up to 75% of the ceiling may still be bad (95 % one-sided, exact)." in text
    for extent in ("spots", "patches", "sheets"):
        chance = scored("extent", extent, "probability")
        assert re.search(rf"{extent} {chance:.0%} [\d.]+ % [\d.]+ ft² \$[\d,.]+", text)
    assert "judgment" in text


def test_without_a_test_it_says_so() -> None:
    """No bound is made up where nothing was tested."""
    text = read(panes.release(made(with_work(tests="none"))))
    assert "no spot test was made" in text
    assert "one-sided" not in text


def test_work_without_a_texture_has_no_chance_of_release() -> None:
    """The pane is empty for papering."""
    assert panes.release(made(path=STUDY)) == ""


def test_a_limit_is_named_where_advice_speaks_of_it(outcome: Outcome) -> None:
    """A piece larger than this: the piece is named."""
    assert "a piece larger than 1 in, or" in read(panes.cautions(outcome))
    assert "a piece larger than 25.4 mm, or" in read(panes.cautions(outcome, METRIC))


@each_pane
def test_what_people_typed_is_text_and_not_html(name: str) -> None:
    """A room called after a script is a room with a strange name."""

    def rename(job: dict[str, object]) -> None:
        job["title"] = NASTY
        job["rooms"][0]["name"] = NASTY  # type: ignore[index]
        job["work"][0].update(room=NASTY, color_wanted=NASTY, history_evidence=NASTY)  # type: ignore[index]

    outcome = made(rename)
    shown = PANES[name](outcome, estimate_ranges(outcome.estimate), US)
    if name not in ("plain", "explain"):  # these two are plain text, escaped by whoever puts them on a page
        assert "<script" not in shown
