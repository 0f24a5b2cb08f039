"""The crew sheet: tasks on two clocks, counts, stop rules, and blanks for what it took; no money."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from paper_jobs import CEILING, REPAINT, STUDY, made, read, with_work

from estimating.estimate.pricing.plan import Suitability
from estimating.reports.documents.as_html import as_html
from estimating.reports.documents.as_pdf import as_images
from estimating.reports.documents.content import clock
from estimating.reports.documents.crew_sheet import crew_sheet
from estimating.reports.format import UnitSystem
from estimating.units import convert
from estimating.workbook import Outcome


def text(outcome: Outcome, shown: UnitSystem = UnitSystem.US) -> str:
    return read(as_html(crew_sheet(outcome, shown)))


def count_fixtures(**counts: int | str) -> Outcome:
    def change(job: dict[str, Any]) -> None:
        job["rooms"][0]["fixtures"] = counts

    return made(change)


@given(hours=st.floats(0, 500))
def test_a_clock_reads_back_to_the_minute(hours: float) -> None:
    """Hours and minutes come to the hours there were, within half a minute."""
    whole, minutes = clock(hours).split(":")
    assert len(minutes) == 2
    assert int(minutes) < 60
    assert int(whole) + int(minutes) / 60 == pytest.approx(hours, abs=0.5 / 60 + 1e-9)


@pytest.mark.parametrize("outcome", [made(), made(path=STUDY)], ids=["ceiling", "study"])
def test_every_task_stands_in_order_with_a_blank_for_what_it_took(outcome: Outcome) -> None:
    """All tasks of the schedule, those of the whole job too, one row each, each ending in a blank."""
    rows = re.findall(r'<tr class="plain"><td class="n"><span class="tick">.*?</tr>', as_html(crew_sheet(outcome)))
    tasks = sorted((task.title, clock(task.hours.value)) for task in outcome.estimate.schedule.tasks)
    assert len(rows) == len(tasks)
    for row in rows:
        assert row.endswith('<span class="blank">\u00a0</span></td></tr>')
    said = [read(row) for row in rows]
    assert all(any(each.startswith(title) and clocked in each for each in said) for title, clocked in tasks)


@pytest.mark.parametrize("path", [REPAINT, STUDY, CEILING])
def test_a_room_has_a_page_and_the_job_another(path: Path) -> None:
    """At most one page a room and one for the job, whatever the work, with the drawings on them."""
    outcome = made(path=path)
    pages = as_images(crew_sheet(outcome), 20)
    assert len(pages) <= 1 + len(outcome.job.rooms)


def test_what_is_minded_in_some_rooms_stands_on_their_pages() -> None:
    """What to do is on the job's page, once; which cautions count in a room, and why, is on the page of that room."""
    said = text(made(path=REPAINT))
    job, bedroom, study, _ = re.split(r"Front bedroom Task|Study Task|Stair and landing Task", said)
    assert "Old paint may hold lead" in job
    assert "Mold: Find and stop the water first" in job
    assert "Mold (a water stain)" in bedroom
    assert "Mold (" not in study
    assert said.count("Find and stop the water first") == 1


def test_tasks_stand_by_half_days() -> None:
    """Every half day that is worked in has its line on the job's page and its heading in the rooms."""
    outcome = made(path=REPAINT)
    said = text(outcome)
    plan = outcome.estimate.schedule
    for time in plan.times:
        assert f"Day {time.start_day} {'a.m.' if time.start_hour < plan.working_day.value / 2 else 'p.m.'}" in said


def test_each_wait_says_what_it_is_for() -> None:
    """Drying and settling stand beside the task they follow, as long as they take."""
    outcome = made(with_work(method="spray"))
    said = text(outcome)
    waits = [(task.wait, task.wait_for) for task in outcome.estimate.schedule.tasks if task.wait]
    assert {"coat 1 to dry before the next", "what would mark to be down before unmasking"} <= {why for _, why in waits}
    for wait, why in waits:
        assert f"{clock(convert(wait.value, wait.unit, 'hour'))} {why}" in said


@pytest.mark.parametrize("method", ["roll", "spray", "seal_roll", "scrape", "overlay"])
def test_no_money_is_on_it(method: str) -> None:
    """It lies about on site: no price, wage or cost."""
    said = text(made(with_work(method=method)))
    assert "$" not in said
    assert not re.search(r"\b(wage|markup|profit|dollars?)\b", said, re.IGNORECASE)


def test_what_is_taken_out_is_counted_back_in() -> None:
    """Detectors and heads first, then every fixture there is, with blanks for out, in and tested."""
    said = text(count_fixtures(detector=2, sprinkler_head=3, fan=1, grille=0))
    assert "detectors 2" in said
    assert "sprinkler heads 3" in said
    assert said.index("detectors 2") < said.index("fans 1")
    assert "grilles" not in said
    assert "nobody leaves" in said


def test_what_nobody_counted_is_counted_on_the_day() -> None:
    """An unknown count is asked for, and is never taken as none."""
    said = text(count_fixtures())
    assert "detectors not counted: count now" in said
    assert "sprinkler heads not counted: count now" in said
    assert "other fixtures not counted: count now" in said


def test_the_stop_rule_names_the_next_way_that_is_priced() -> None:
    """When to stop, and what to change to: the cheapest other way that may be used."""
    outcome = made(with_work(method="spray"))
    said = text(outcome)
    others = [each for each in outcome.comparisons[0].options if each.plan.method not in ("spray", "decline")]
    allowed = [each for each in others if each.plan.suitability is not Suitability.CLOSED]
    cheapest = min(allowed, key=lambda option: option.price)
    assert "crumbs on the nap" in said
    assert f"Next method, priced already: {cheapest.plan.title}." in said


def test_where_no_other_way_is_left_the_crew_asks() -> None:
    """No way is named that may not be used."""

    def shut(job: dict[str, Any]) -> None:
        job["site"].update(asbestos_test="positive")
        job["work"][0].update(method="spray")

    assert "No other method is priced: ask first." in text(made(shut))


def test_cans_of_one_color_are_boxed() -> None:
    """Where more than one can of a product is bought they are poured together; a single can is not."""
    outcome = made()
    said = text(outcome)
    for order in outcome.estimate.paint:
        cans = order.containers.fives + order.containers.gallons + order.containers.quarts
        poured = f"{order.containers} of {order.title}"
        assert (poured in said) == (cans > 1)


def test_masking_and_gun_are_set_out() -> None:
    """The drop of the film, what comes off which roll, the plan of the ceiling, and the figures of the gun."""
    sheet = as_html(crew_sheet(made(with_work(method="spray"))))
    said = read(sheet)
    for part in (
        "drop 8.2 ft",
        "Masking film",
        "arm speed",
        "what marks down",
        "fine mist down",
        "Plan of the ceiling",
    ):
        assert part in said
    assert "<svg" in sheet


def test_papering_has_its_walls_and_no_ceiling() -> None:
    """Strips are drawn wall by wall; a ceiling that is not coated is not drawn."""
    said = text(made(path=STUDY))
    assert "Papered wall, window wall" in said
    assert "Plan of the ceiling" not in said


def test_all_cautions_are_on_it_with_the_tail() -> None:
    """The crew sees the household's cautions and its own, and that local rules come first."""
    said = text(made(with_work(method="spray")))
    for title in ("Old paint may hold lead", "Spray can go through skin", "Heat in a sealed room", "Lamps and live"):
        assert title in said
    assert "Local codes and licensed practice come first" in said


def test_metric_goes_through() -> None:
    """Drop, fan, areas and blanks are metric; names of goods and labels of cans stay."""
    said = text(made(with_work(method="spray")), UnitSystem.METRIC)
    assert "drop 2.5 m" in said
    assert "Used, L" in said
    assert "air 21.1 °C" in said
    assert "First strip of 0.93 m²" in said
    assert not re.search(r"\d ft\b|°F|\bmil\b", said.replace("over 115 °F", "").replace("3 ft above the landing", ""))
