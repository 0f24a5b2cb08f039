"""Put the state of the evidence into the README as it is now.

Run it after a change to reference/ or reference/printed/:
    .venv/bin/python tests/renew_readme.py
"""

from __future__ import annotations

import re
from pathlib import Path

from estimating.evidence import load_library
from estimating.evidence_report import standing

README = Path(__file__).resolve().parent.parent / "README.md"
HEADING = "## The state of the evidence\n"
BLOCK = re.compile(rf"(?<={HEADING})(?P<before>[^`]*`[^`]+`[^`]*```\n)(?P<state>.*?)(?=```)", re.DOTALL)


def renewed(text: str) -> str:
    """Return the text of the README with the state of the evidence as it is now."""
    return BLOCK.sub(lambda found: f"{found['before']}{standing(load_library())}\n", text)


if __name__ == "__main__":
    README.write_text(renewed(README.read_text(encoding="utf-8")), encoding="utf-8")
    print("README.md renewed")
