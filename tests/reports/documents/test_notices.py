"""What a client is told: every caution of the table that is for everyone has its sentence for the client."""

from __future__ import annotations

from estimating.estimate.pricing.plan import Audience
from estimating.evidence import load_library
from estimating.reports.documents.notices import NOTICES


def test_every_caution_for_everyone_is_told_in_a_sentence() -> None:
    """A new caution fails here until it has its sentence; one for the crew alone has none."""
    rows = load_library().tables["cautions"]
    told = {key[0] for key, row in rows.items() if row.words["audience"] == Audience.EVERYONE}
    assert set(NOTICES) == told
