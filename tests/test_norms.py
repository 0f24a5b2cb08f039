"""Our rates of work stand beside published norms; where the two part by more than half, the table says why."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from html import escape
from statistics import geometric_mean
from types import MappingProxyType

import pytest
from places import JOBS

from estimating.estimate.pricing.lines import Section
from estimating.estimate.uncertainty.estimate_ranges import estimate_ranges
from estimating.evidence import Library, Row, load_library
from estimating.evidence_report import main
from estimating.job.room import Floor
from estimating.norms import APART, Comparison, Ratio, beside, compared, counts, held_against_norms, ratios, table
from estimating.origins import Kind
from estimating.reports.exports.summary_csv import summary_csv
from estimating.reports.panes.lines_by_room import lines_by_room
from estimating.reports.provenance import rate_words
from estimating.workbook import estimate_job, read_job

LIBRARY = load_library()
COMPARED = compared(LIBRARY)
RATIOS = ratios(LIBRARY)
BY_TASK = {each.task: each for each in COMPARED}


@pytest.mark.parametrize("each", [*COMPARED, *RATIOS], ids=lambda each: getattr(each, "task", None) or each.ratio)
def test_nothing_parts_from_the_norms_without_saying_why(each: Comparison | Ratio) -> None:
    """By more than half, faster or slower than the middle of the norms; and no reason outlives its use."""
    assert bool(each.why) == each.apart, each


def test_a_rate_let_go_is_seen() -> None:
    """Twice the middle of the norms is apart, and so is half."""
    for times in (APART * 1.01, 1 / APART / 1.01):
        changed = Library(
            MappingProxyType(
                {**LIBRARY.tables, "production": _times(times / BY_TASK["sealer on a wall by roller"].factor)}
            ),
            LIBRARY.sources,
        )
        assert {each.task: each for each in compared(changed)}["sealer on a wall by roller"].apart


def _times(times: float) -> MappingProxyType[tuple[str, ...], Row]:
    rows = LIBRARY.table("production")
    return MappingProxyType({keys: replace(row, likely=row.likely * times) for keys, row in rows.items()})


def test_publishers_have_one_voice_each() -> None:
    """Two items of one norm do not outvote another norm."""
    each = BY_TASK["wall, one coat with its cut-in, 12 × 12 × 8 ft room"]
    by_hand = geometric_mean([132.0, 108.7, 53.82])  # SINAPI twice the same, ENiR, one school's book
    assert each.middle == pytest.approx(by_hand, rel=1e-3)


def test_a_task_of_several_rows_adds_their_hours() -> None:
    """384 ft² of wall rolled and 157 ft cut in: 384 ÷ 230 and 157 ÷ 240 hours."""
    each = BY_TASK["wall, one coat with its cut-in, 12 × 12 × 8 ft room"]
    assert each.now == pytest.approx(1 / (1 / 230 + 0.409 / 240))
    slow, fast = each.ends
    assert slow < each.now < fast


def test_our_lines_agree_with_our_own_cross_check() -> None:
    """Rolling and cutting in an ordinary room come to what a whole repainted wall takes, within a tenth."""
    lines = next(each for task, each in BY_TASK.items() if task.startswith("wall, one coat with its cut-in, 12"))
    whole = LIBRARY.row("production", "repaint_wall", "roll", "any").likely
    assert lines.now == pytest.approx(whole, rel=0.1)


def test_a_ceiling_takes_longer_than_a_wall_as_every_norm_has_it() -> None:
    """From 1.16 to 1.39 times the hours, cut-in inside."""
    wall, ceiling = (
        next(each for task, each in BY_TASK.items() if task.startswith(f"{what}, one coat with its cut-in, 12"))
        for what in ("wall", "ceiling")
    )
    assert 1.16 <= wall.now / ceiling.now <= 1.39


@pytest.mark.parametrize(
    "said",
    [
        "ceiling over wall, one coat",
        "sanding: ceiling over wall",
        "water-borne over solvent enamel",
        "paint sprayed over paint rolled",
    ],
)
def test_what_norms_say_of_one_work_against_another_is_held(said: str) -> None:
    """Ours lies within a tenth of what they print, or among them."""
    found = next(each for each in RATIOS if each.ratio.startswith(said))
    assert 0.9 * min(found.printed) <= found.now <= 1.1 * max(found.printed)


def test_a_tape_and_a_second_color_stand_beside_their_norms() -> None:
    """An edge taped, and a second color by its area."""
    assert BY_TASK["tape along an edge"].why
    assert not BY_TASK["second color on a wall of 96 ft²"].apart


def test_norms_price_nothing() -> None:
    """They are looked at, never looked up; and what a painter writes of his own work is not called published."""
    outcome = estimate_job(read_job(JOBS / "birch_lane_upstairs.toml"))
    assert not [key for key in outcome.basis.used() if key.startswith("norms/")]
    kinds = {row.origin.kind for row in LIBRARY.table("norms").values()}
    assert kinds == {Kind.PUBLISHED, Kind.DERIVED, Kind.JUDGMENT}


def hours_by_row(*, outdoors: bool = False) -> dict[str, float]:
    """Return the hours of every row that demo jobs look up for labor, indoors or outdoors."""
    found: dict[str, float] = {}
    jobs = [read_job(path) for path in sorted(JOBS.glob("*.toml"))]
    for job in jobs:
        if all(room.floor is Floor.OUTDOORS for room in job.rooms) is not outdoors:
            continue
        for line in estimate_job(job).estimate.section(Section.LABOR):
            if line.row:
                found[line.row] = found.get(line.row, 0.0) + line.quantity.value
    return found


def test_half_of_the_rows_and_two_thirds_of_the_hours_rest_on_something_published() -> None:
    """Indoors the row is published or derived from what is, or a published figure of the very work stands beside it."""
    hours, held = hours_by_row(), held_against_norms(LIBRARY)
    sourced = {Kind.PUBLISHED, Kind.DERIVED}
    rested = [key for key in hours if LIBRARY.named(key).origin.kind in sourced or key in held]
    assert len(rested) >= len(hours) / 2
    assert sum(hours[key] for key in rested) >= 2 / 3 * sum(hours.values())


def test_outdoors_two_thirds_of_the_hours_do_and_fewer_of_the_rows() -> None:
    """Of many small parts of decks and siding no published hours were found: a third of the rows, no more."""
    hours, held = hours_by_row(outdoors=True), held_against_norms(LIBRARY)
    sourced = {Kind.PUBLISHED, Kind.DERIVED}
    rested = [key for key in hours if LIBRARY.named(key).origin.kind in sourced or key in held]
    assert sum(hours[key] for key in rested) >= 2 / 3 * sum(hours.values())
    assert len(rested) >= len(hours) / 3


def test_at_each_of_those_lines_it_is_shown() -> None:
    """In the price line by line in words, in the job summary as a mark; elsewhere nothing is claimed."""
    outcome = estimate_job(read_job(JOBS / "birch_lane_upstairs.toml"))
    sure, held = estimate_ranges(outcome.estimate, points=64), held_against_norms(LIBRARY)
    page = lines_by_room(outcome, sure)
    rows = list(csv.DictReader(io.StringIO(summary_csv(outcome, sure), newline="")))
    for line, row in zip(outcome.estimate.lines, rows, strict=False):
        said = rate_words(LIBRARY, held, line.row) if line.section is Section.LABOR else ""
        assert row["origin"].endswith("+N") == ("beside it" in said) == (bool(said) and line.row in held)
        assert escape(said) in page
    assert "rate: derived (sinapi-2026-09" in page
    assert rate_words(LIBRARY, held, "production/paint_vent/brush/any") == "rate: judgment"
    assert rate_words(LIBRARY, held, "") == ""


def test_what_is_held_against_a_norm_is_said_of_its_row() -> None:
    """In one sentence for each task, with the reason where the two part; nothing where nothing is published."""
    assert beside(LIBRARY, "production/wash_wall/hand/any").startswith(
        "wall washed: published norms 211 ft²/h, ours 210"
    )
    assert "painters write of" in beside(LIBRARY, "production/wall_art/hand/any")
    assert beside(LIBRARY, "production/paint_vent/brush/any") == ""


def test_the_command_prints_the_norms(capsys: pytest.CaptureFixture[str]) -> None:
    """Task, norms, ours before and now, why; the ratios; and how many are beyond the factor without a reason."""
    main(["--norms"])
    said = capsys.readouterr().out
    assert all(line in said for line in table(LIBRARY))
    assert counts(LIBRARY)[0].endswith(", 0 without one")


def test_a_vacant_flat_stands_beside_the_one_account_of_it() -> None:
    """Ours is 26 to 36 hours, as the account has it by the clock if two work; of one it would be twice the account."""
    flat = next(each for task, each in BY_TASK.items() if task.startswith("vacant flat"))
    assert 26 <= 1 / flat.now <= 36
    assert flat.weak
    assert flat.apart
    assert "of two people" in flat.why
