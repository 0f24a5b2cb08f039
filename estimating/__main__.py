"""Estimate a job from a terminal: python -m estimating JOB.toml --csv SUMMARY.csv --json ESTIMATE.json."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from estimating.terminal import run


def _estimate(arguments: Sequence[str] | None) -> int:
    from estimating.command import estimate  # slow to import: an interrupt meanwhile is answered in a line too

    return estimate(arguments)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; 0 when done, else a status and a line that says what is wrong."""
    return run(_estimate, arguments)


if __name__ == "__main__":
    sys.exit(main())
