"""Cautions as a crew or an estimator reads them: the fact that raises each, what is usually done, what it rests on."""

from __future__ import annotations

import re

from estimating.estimate.pricing.plan import Caution
from estimating.reports.documents.notices import TAIL, cautions_taken
from estimating.reports.format import UnitSystem, in_words, quantity
from estimating.workbook import Outcome

__all__ = ["TAIL", "caution_text", "cautions_taken"]
_SPOKEN_OF = re.compile(r"\bthis far\b|\b(above|below|than|under) this\b", re.IGNORECASE)


def caution_text(caution: Caution, outcome: Outcome, shown: UnitSystem) -> str:
    """Return the fact that raises a caution and what is usually done."""
    return f"{in_words(caution.because, shown)}. {advice_text(caution, outcome, shown)}"


def advice_text(caution: Caution, outcome: Outcome, shown: UnitSystem) -> str:
    """Return what is usually done about a caution; a limit spoken of as `this` is put in."""
    row = outcome.basis.library.row("cautions", caution.key)
    limit = quantity(row.likely, row.unit, shown)
    return _SPOKEN_OF.sub(lambda found: f"{found[1]} {limit}" if found[1] else limit, in_words(caution.advice, shown))
