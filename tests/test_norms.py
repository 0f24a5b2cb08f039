"""Our rates of work stand beside published norms; where the two part by more than half, the table says why."""

from __future__ import annotations

from dataclasses import replace

import pytest
from places import JOBS

from estimating.estimate.pricing.lines import Section
from estimating.evidence import load_library
from estimating.evidence_report import main
from estimating.norms import APART, Comparison, compared, rests_on_a_norm, table
from estimating.origins import Kind
from estimating.workbook import estimate_job, read_job

LIBRARY = load_library()
COMPARED = compared(LIBRARY)
BY_TASK = {each.task: each for each in COMPARED}


@pytest.mark.parametrize("each", COMPARED, ids=lambda each: each.task)
def test_no_rate_parts_from_the_norms_without_saying_why(each: Comparison) -> None:
    """By more than half, faster or slower than the middle of the norms."""
    assert each.why or not each.apart, f"{each.now:.0f} against {each.norms}"


@pytest.mark.parametrize("each", COMPARED, ids=lambda each: each.task)
def test_a_reason_is_given_only_where_one_is_needed(each: Comparison) -> None:
    """A reason beside a rate that agrees would outlive its use."""
    assert each.apart or not each.why


def test_a_rate_let_go_is_seen() -> None:
    """Twice the middle of the norms is apart, and so is half."""
    each = BY_TASK["wall sprayed, one coat"]
    assert replace(each, now=each.middle * APART * 1.01).apart
    assert replace(each, now=each.middle / APART / 1.01).apart


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


def test_norms_price_nothing() -> None:
    """They are looked at, never looked up."""
    outcome = estimate_job(read_job(JOBS / "birch_lane_upstairs.toml"))
    assert not [key for key in outcome.basis.used() if key.startswith("norms/")]
    assert all(row.origin.kind is Kind.PUBLISHED for row in LIBRARY.table("norms").values())


def test_half_of_the_hours_rest_on_something_published() -> None:
    """Of the hours that demo jobs pay for by a row, half and more rest on a row with a source or a norm beside it."""
    held = rests_on_a_norm(LIBRARY)
    rested, every = 0.0, 0.0
    for path in sorted(JOBS.glob("*.toml")):
        for line in estimate_job(read_job(path)).estimate.section(Section.LABOR):
            if line.row:
                every += line.quantity.value
                rested += line.quantity.value * (line.row in held or bool(LIBRARY.named(line.row).origin.source))
    assert rested >= 0.5 * every


def test_the_command_prints_the_norms(capsys: pytest.CaptureFixture[str]) -> None:
    """Task, norms, ours before and now, why."""
    main(["--norms"])
    said = capsys.readouterr().out
    assert all(line in said for line in table(LIBRARY))
