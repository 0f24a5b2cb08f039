from __future__ import annotations

from renew_readme import BLOCK, CHECKS, DEVELOPERS, README, checks, renewed, renewed_checks

from estimating.evidence import load_library
from estimating.evidence_report import report


def test_the_numbers_in_the_readme_are_true() -> None:
    """The state of the evidence is what the report says now; tests/renew_readme.py puts it there."""
    text = README.read_text(encoding="utf-8")
    assert text == renewed(text)


def test_the_readme_shows_the_beginning_of_the_report() -> None:
    """What stands there is what the command beside it prints first."""
    found = BLOCK.search(README.read_text(encoding="utf-8"))
    assert found
    assert "python -m estimating.evidence" in found["before"]
    assert report(load_library()).startswith(found["state"].strip())


def test_a_number_that_is_out_of_date_is_put_right() -> None:
    """Renewing takes whatever stood there away, and touches nothing else."""
    text = README.read_text(encoding="utf-8")
    old = text.replace("printed figures from", "printed figures and 1 more from")
    assert old != text
    assert renewed(old) == renewed(text)


def test_developers_read_the_checks_as_they_come_out() -> None:
    """The table without the source asked, the aims with met or missed, and the rates beside norms."""
    text = DEVELOPERS.read_text(encoding="utf-8")
    found = CHECKS.search(text)
    assert found
    assert found["state"].strip() == checks()
    assert renewed_checks(text) == text
    assert "coverage, interval score by source" in found["state"]
    assert "tasks and ratios against" in found["state"]
