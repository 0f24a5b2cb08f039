"""How a method stands: what is agreed in writing first, and the one that leaves things as they are."""

from hazard_table import LIBRARY, demo

from estimating.estimate.pricing.plan import Suitability
from estimating.evidence import Basis
from estimating.scopes.registry import KINDS
from estimating.scopes.shared.standing import agreed_first
from estimating.workbook import build_job


def test_what_is_agreed_first_is_a_condition() -> None:
    """It opens nothing and closes nothing."""
    found = agreed_first("chalk is washed off")
    assert found.suitability is Suitability.CONDITIONS
    assert found.text == "chalk is washed off; agreed in writing first"


def test_every_kind_can_leave_things_as_they_are() -> None:
    """Nothing is done, bought or charged, the finish asked for is not reached, and the client hears what to do."""
    for kind in sorted(KINDS):
        job = build_job(demo(kind))
        *_, declined = KINDS[kind].plans(job.work[0], job, Basis(LIBRARY))
        assert declined.method == "decline"
        assert not [*declined.tasks, *declined.materials, *declined.supplies, *declined.charges]
        assert not declined.finishes
        assert declined.client_requirements
        assert any(note.startswith("the honest last resort where ") for note in declined.notes)
