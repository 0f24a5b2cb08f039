"""Options: other versions of the job, offered beside it in one proposal."""

from __future__ import annotations

from pydantic import Field

from estimating.job.values import Listed, Notes


class Option(Notes):
    """Another version of the job: rooms left out, and answers that are another, by their place in the file.

    changes: such as "work.0.walls.coats" = 1; places count the work and rooms of the job as it is.
    """

    name: str
    leave_out: Listed[str] = ()
    changes: dict[str, str | int | float] = Field(default_factory=dict)
