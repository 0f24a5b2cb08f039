"""What can go wrong, in the user's words.

EstimatingError
├── InputError        one wrong field: its path, the value seen, what would be right
├── InputErrors       several of them, found in one reading
├── EvidenceError     a reference row that is missing, doubled or contradictory
└── RecordsError      the file of past jobs cannot be read, written or moved forward
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

Location: TypeAlias = tuple[str | int, ...]


class EstimatingError(Exception):
    """Anything this package refuses to do, said in one sentence."""


class InputError(EstimatingError, ValueError):
    """A field holds something that cannot be used."""

    def __init__(self, field: str, value: object, needed: str, location: Location = ()) -> None:
        self.field = field
        self.value = value
        self.needed = needed
        self.location = location  # the same field as steps into the job, for a form to find it by
        super().__init__(f"{field}: got {value!r}, needs {needed}")


class InputErrors(EstimatingError, ValueError):
    """Every wrong field of one reading, so that all can be put right at once."""

    def __init__(self, problems: Sequence[InputError]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


class EvidenceError(EstimatingError, LookupError):
    """A number was asked for that the reference tables cannot give."""


class RecordsError(EstimatingError, RuntimeError):
    """The records of past jobs cannot be used as they are."""
