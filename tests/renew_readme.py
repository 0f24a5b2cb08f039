"""Put the state of the evidence into the README and DEVELOPERS.md as it is now.

Run it after a change to reference/ or reference/printed/:
    .venv/bin/python tests/renew_readme.py
"""

from __future__ import annotations

import re
from pathlib import Path

from estimating.evidence import load_library
from estimating.evidence_report import standing
from estimating.leave_one_out_report import report as left_out
from estimating.norms import counts

README = Path(__file__).resolve().parent.parent / "README.md"
DEVELOPERS = README.parent / "DEVELOPERS.md"
CHECKS = re.compile(r"(?<=## How far the tables can be trusted\n)(?P<before>.*?```\n)(?P<state>.*?)(?=```)", re.DOTALL)
HEADING = "## The state of the evidence\n"
BLOCK = re.compile(rf"(?<={HEADING})(?P<before>[^`]*`[^`]+`[^`]*```\n)(?P<state>.*?)(?=```)", re.DOTALL)


def renewed(text: str) -> str:
    """Return the text of the README with the state of the evidence as it is now."""
    return BLOCK.sub(lambda found: f"{found['before']}{standing(load_library())}\n", text)


def checks() -> str:
    """Return what DEVELOPERS.md shows: both checks without the source asked, and how the rates stand beside norms."""
    library = load_library()
    return "\n".join([*left_out(library), "", *counts(library)])


def renewed_checks(text: str) -> str:
    """Return the text of DEVELOPERS.md with the checks as they come out now."""
    return CHECKS.sub(lambda found: f"{found['before']}{checks()}\n", text)


if __name__ == "__main__":
    for path, renew in ((README, renewed), (DEVELOPERS, renewed_checks)):
        path.write_text(renew(path.read_text(encoding="utf-8")), encoding="utf-8")
        print(f"{path.name} renewed")
