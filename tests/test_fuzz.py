"""A short run of the standing attack; that it sees what it looks for; and that pricing asks no other machine."""

from __future__ import annotations

import socket
from pathlib import Path
from typing import Any

import fuzz
import pytest
from places import JOBS

from estimating.workbook import estimate_job, read_job

INPUTS = 400


def test_the_standing_attack_finds_nothing(tmp_path: Path) -> None:
    """Every input ends in a sound estimate or a refusal in words; the same inputs every time."""
    report = fuzz.Attack(20260301, tmp_path).run(inputs=INPUTS)
    assert not report.findings, report.findings[0]
    assert report.tried == INPUTS
    assert report.outcomes[f"job: {fuzz.SOUND}"] > INPUTS / 10


def test_the_attack_sees_a_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A traceback is a finding, with what makes it again."""

    def broken(_case: object) -> str:
        raise ZeroDivisionError

    monkeypatch.setattr(fuzz, "try_job", broken)
    assert any("ZeroDivisionError" in each for each in fuzz.Attack(1, tmp_path).run(inputs=20).findings)


def test_pricing_opens_no_connection(monkeypatch: pytest.MonkeyPatch) -> None:
    """Reading and pricing every demo job asks nothing of any machine, not even for a name."""

    def refused(*_arguments: Any, **_named: Any) -> None:
        raise AssertionError("a connection was opened")

    for name in ("connect", "connect_ex"):
        monkeypatch.setattr(socket.socket, name, refused)
    monkeypatch.setattr(socket, "getaddrinfo", refused)
    for path in sorted(JOBS.glob("*.toml")):
        assert estimate_job(read_job(path)).estimate.price > 0
