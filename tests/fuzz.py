"""Attack the workbook with jobs, readings, own values and records nobody meant: python tests/fuzz.py --seconds 600.

Each input must end in a sound estimate, finite and adding up to the cent, or in a refusal in words. Anything else is a
finding; it is printed with what makes it again. The same seed makes the same inputs on every machine.
"""

from __future__ import annotations

import argparse
import copy
import math
import random
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import tomli_w
from places import JOBS

from estimating.errors import EstimatingError
from estimating.evidence import OwnValue, load_library
from estimating.job.file import dump_job, plain_job
from estimating.records.own import check_own
from estimating.records.sent import list_estimates, list_jobs, save_job
from estimating.records.store import open_records
from estimating.units import read_length, read_quantity
from estimating.workbook import Outcome, build_job, estimate_job, parse_job, read_job

SOUND, REFUSED = "sound estimate", "refused in words"
HANGS = 10.0  # processor seconds; what an input may take is 2, and this leaves no doubt on any machine
LONGEST_WORDS = 20_000  # letters of one refusal
Step = str | int
Place = tuple[Step, ...]
Plain = dict[str, Any]

LENGTHS = (
    "0", "-3 ft", "1/64 in", "0.0001 in", "8 ft", "8' 2\"", "82 ft", "12'13\"", "6 3/2 in", "1/0 in", "9" * 39 + " ft",
    "99999 ft", "3 in", "1 mm", "60 ft", "200 ft", "4 ft", "2,5 m", "10,000 ft", "½ in", "٣ ft", "ft", "1e9 ft", "∞ ft",
    "12' 6\" 3", "- 1 in", "0 ft 0 in", "nan ft", "8 ft\x00", "８ ft", "20 m", "1 1 1/2 in",
)  # fmt: skip
QUANTITIES = (
    "68 degF", "-500 degF", "1e400 degF", "70 9**9**9**9", "70 1/0", "20 C", "70 degF**2", "__import__('os')", "$0",
    "50%", "$65/h", "9999999 dollar/hour", "70 " + "degF*" * 200 + "degF", "0", "-0", "1e-300 dollar/hour", "70 kelvin",
)  # fmt: skip
NUMBERS = (
    0, 1, 2, 3, 6, 7, 20, 21, 100, 299, 300, 2000, 2001, 10**6, 10**9, 2**63, 10**400, -1, -(2**63), 0.5, 1e308, 1e-308,
    math.nan, math.inf, -math.inf, True, False,
)  # fmt: skip
WORDS = (
    "unknown", "none", "", " ", "yes", "no", "\ud800", "\x00", "=1+1", "\u200b=1",
    "<script>alert(1)</script>", "x" * 5000,
    "rectangle", "polygon", "spray", "roll", "UNKNOWN", "🎨", "\u202e", "../../etc", "1", "ceiling", "a\nb", "gloss",
)  # fmt: skip
SHAPES: tuple[Any, ...] = (None, [], {}, [[]], [{}], {"kind": "x"}, [None] * 3, "none", [["0", "0"]] * 4)
POOLS: tuple[Sequence[Any], ...] = (LENGTHS, QUANTITIES, NUMBERS, WORDS, SHAPES)


@dataclass
class Report:
    """What came of the inputs tried, and every finding with what makes it again."""

    outcomes: Counter[str] = field(default_factory=Counter)
    findings: list[str] = field(default_factory=list)
    slowest: float = 0.0
    began: float = field(default_factory=time.monotonic)

    @property
    def tried(self) -> int:
        """How many inputs were tried."""
        return sum(self.outcomes.values())

    def closing(self) -> str:
        """Return the closing lines of a run."""
        counts = "; ".join(f"{name} {count:,}" for name, count in sorted(self.outcomes.items()))
        return (
            f"{self.tried:,} inputs in {time.monotonic() - self.began:.0f} s: {counts}\n"
            f"slowest {self.slowest:.2f} s of processor; findings {len(self.findings)}"
        )


def places(plain: Any, at: Place = ()) -> Iterator[Place]:
    """Yield the place of every part of a job, the whole not among them."""
    steps: Iterator[tuple[Step, Any]] = iter(())
    if isinstance(plain, dict):
        steps = iter(plain.items())
    elif isinstance(plain, list):
        steps = iter(enumerate(plain))
    for step, inner in steps:
        yield (*at, step)
        yield from places(inner, (*at, step))


def inside(plain: Any, place: Place) -> Any:
    """Return what stands at a place of a job."""
    for step in place:
        plain = plain[step]
    return plain


def mutated(job: Plain, dice: random.Random) -> Plain:
    """Return a job with one to five parts swapped, set to something odd, copied, or left out."""
    job = copy.deepcopy(job)
    for _ in range(dice.choice((1, 1, 1, 2, 3, 5))):
        known = list(places(job))
        if known:
            dice.choice(CHANGES)(job, dice.choice(known), known, dice)
    return job


def _set_odd(job: Plain, place: Place, _known: list[Place], dice: random.Random) -> None:
    inside(job, place[:-1])[place[-1]] = copy.deepcopy(dice.choice(dice.choice(POOLS)))


def _set_alike(job: Plain, place: Place, _known: list[Place], dice: random.Random) -> None:
    """Set something of the same type, so that more of it is accepted."""
    before = inside(job, place)
    if isinstance(before, bool) or not isinstance(before, int | float | str):
        return
    if isinstance(before, str):
        pool: Sequence[Any] = LENGTHS if any(unit in before for unit in ("ft", "'", " in")) else WORDS
        pool = QUANTITIES if "deg" in before else pool
    else:
        pool = [each for each in NUMBERS if isinstance(each, int)]
    inside(job, place[:-1])[place[-1]] = dice.choice(pool)


def _scale(job: Plain, place: Place, _known: list[Place], dice: random.Random) -> None:
    before = inside(job, place)
    times = dice.choice((0.1, 0.5, 2, 3, 10, 12, 1 / 12))
    if isinstance(before, int) and not isinstance(before, bool):
        inside(job, place[:-1])[place[-1]] = int(before * times)
    elif isinstance(before, str):
        try:
            feet = read_length(before).value * times
        except EstimatingError:
            return
        inside(job, place[:-1])[place[-1]] = f"{feet:.4f} ft"


def _swap(job: Plain, place: Place, known: list[Place], dice: random.Random) -> None:
    other = dice.choice(known)
    if place[: len(other)] == other or other[: len(place)] == place:
        return
    one, two = copy.deepcopy(inside(job, place)), copy.deepcopy(inside(job, other))
    inside(job, place[:-1])[place[-1]] = two
    inside(job, other[:-1])[other[-1]] = one


def _leave_out(job: Plain, place: Place, _known: list[Place], _dice: random.Random) -> None:
    del inside(job, place[:-1])[place[-1]]


def _unknown(job: Plain, place: Place, _known: list[Place], _dice: random.Random) -> None:
    inside(job, place[:-1])[place[-1]] = "unknown"


def _twice(job: Plain, place: Place, _known: list[Place], dice: random.Random) -> None:
    here = inside(job, place[:-1])
    if isinstance(here, list):
        here += [copy.deepcopy(here[place[-1]]) for _ in range(dice.choice((1, 1, 3)))]  # type: ignore[call-overload]


def _add_field(job: Plain, place: Place, known: list[Place], dice: random.Random) -> None:
    here = inside(job, place)
    if isinstance(here, dict):
        name = dice.choice([step for each in known for step in each if isinstance(step, str)])
        here[name] = copy.deepcopy(dice.choice(dice.choice(POOLS)))


CHANGES = (_set_odd, _set_alike, _set_alike, _scale, _scale, _swap, _leave_out, _unknown, _twice, _add_field)


def sound(outcome: Outcome) -> str:
    """Return what is wrong with an estimate; empty when it is finite and adds up, in money, hours and paint."""
    estimate = outcome.estimate
    if not estimate.price.is_finite() or estimate.price < 0:
        return f"a price of {estimate.price}"
    if sum(line.cost for line in estimate.lines) != estimate.price:
        return "lines that do not add up to the price"
    if not all(math.isfinite(line.quantity.value) and line.quantity.value >= 0 for line in estimate.lines):
        return "a quantity that is not finite, or below nothing"
    if not math.isfinite(estimate.hours.value) or estimate.hours.value < 0:
        return f"hours of {estimate.hours.value}"
    if any(order.leftover < -1e-6 for order in estimate.paint):
        return "paint left over below nothing"
    return ""


def try_job(job: Plain) -> str:
    """Price a job, write it and read it again; return what came of it."""
    outcome = estimate_job(build_job(job))
    wrong = sound(outcome)
    if wrong:
        return wrong
    again = parse_job(dump_job(outcome.job))
    return SOUND if again == outcome.job else "a job that its own file does not give back"


def try_text(text: str) -> str:
    """Read a text as a job file and price it."""
    return try_job(plain_job(parse_job(text)))


def try_reading(text: object) -> str:
    """Read a text as a length and as a temperature."""
    for reader in (read_length, lambda typed: read_quantity(typed, "degF")):
        try:
            reading = reader(text)
        except EstimatingError:
            continue
        if not math.isfinite(reading.value):
            return f"a reading of {reading.value}"
        return SOUND
    return REFUSED


def try_own(case: tuple[str, OwnValue, Plain]) -> str:
    """Put an own value in place of a row, and price a job with it where it is taken."""
    key, own, job = case
    check_own(load_library().named(key), own)
    return sound(estimate_job(build_job(job), own={key: own})) or SOUND


def try_records(path: Path) -> str:
    """Open a records file and read and write it."""
    with open_records(path) as records:
        list_jobs(records), list_estimates(records)
        save_job(records, "one more", "title = 'one more'")
    return SOUND


class HangError(Exception):
    """An input took longer than any may."""


def _stop(_number: int, _frame: object) -> None:
    raise HangError(f"more than {HANGS:g} s of processor")


class Attack:
    """Makes inputs from a seed, tries them, and keeps what came of them."""

    def __init__(self, seed: int, folder: Path) -> None:
        self.dice = random.Random(seed)
        self.seed = seed
        self.jobs = [plain_job(read_job(path)) for path in sorted(JOBS.glob("*.toml"))]
        self.small = [job for job in self.jobs if len(job["work"]) <= 4] or self.jobs
        self.rows = [row for table in load_library().tables.values() for row in table.values()]
        self.file = folder / "records.sqlite"
        with open_records(self.file) as records:
            for number in range(20):
                save_job(records, f"job {number}", "title = 'x'\n" * 50)
        self.whole = self.file.read_bytes()
        self.report = Report()
        signal.signal(signal.SIGVTALRM, _stop)

    def run(self, *, seconds: float = math.inf, inputs: float = math.inf) -> Report:
        """Try inputs until so much processor time or so many of them are used up."""
        end = time.process_time() + seconds
        while time.process_time() < end and self.report.tried < inputs:
            self.once()
        return self.report

    def once(self) -> None:
        """Try one input of any kind."""
        kind = self.dice.choices(("job", "text", "reading", "own", "records"), weights=(60, 8, 20, 8, 4))[0]
        number = self.report.tried
        attempt, shown = getattr(self, f"_{kind}")()
        began = time.process_time()
        signal.setitimer(signal.ITIMER_VIRTUAL, HANGS)
        try:
            came = attempt()
        except EstimatingError as refused:
            came = REFUSED if 0 < len(str(refused)) <= LONGEST_WORDS else f"a refusal of {len(str(refused))} letters"
        except Exception:
            came = traceback.format_exc(limit=-6)
        finally:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        took = time.process_time() - began
        self.report.slowest = max(self.report.slowest, took)
        fine = came in (SOUND, REFUSED)
        self.report.outcomes[f"{kind}: {came}" if fine else f"{kind}: finding"] += 1
        if not fine:
            self.report.findings.append(f"seed {self.seed}, input {number}, {kind}: {came}\n{shown()}")

    def _some_job(self) -> Plain:
        return mutated(self.dice.choice(self.small if self.dice.random() < 0.97 else self.jobs), self.dice)

    def _job(self) -> tuple[Callable[[], str], Callable[[], str]]:
        job = self._some_job()
        return lambda: try_job(job), lambda: repr(job)

    def _text(self) -> tuple[Callable[[], str], Callable[[], str]]:
        try:
            text = tomli_w.dumps(self._some_job())
        except (TypeError, ValueError):  # nothing that a file could hold
            text = tomli_w.dumps(self.dice.choice(self.small))
        for _ in range(self.dice.choice((0, 1, 3))):
            at = self.dice.randrange(len(text))
            text = text[:at] + self.dice.choice(('"', "[", "=", "9" * 5000, "[" * 3000, "\\u0000", "#")) + text[at:]
        return lambda: try_text(text), lambda: repr(text)

    def _reading(self) -> tuple[Callable[[], str], Callable[[], str]]:
        signs = "0123456789 '\"/.-½ft inmc,degF*()％eE+\t\u200b"
        made = "".join(self.dice.choices(signs, k=self.dice.randrange(1, 14)))
        text = self.dice.choice((self.dice.choice(LENGTHS), self.dice.choice(QUANTITIES), made, made, made))
        return lambda: try_reading(text), lambda: repr(text)

    def _own(self) -> tuple[Callable[[], str], Callable[[], str]]:
        row = self.dice.choice(self.rows)
        times = self.dice.choice((0.0, -1.0, 1e-3, 0.1, 0.5, 1.0, 2.0, 10.0, 999.0, 1e6, math.inf, math.nan))
        likely = row.likely * times if row.likely else times
        ends = self.dice.choice(((None, None), (likely / 2, likely * 2), (likely * 2, likely / 2), (0.0, likely)))
        unit = row.unit if self.dice.random() < 0.9 else self.dice.choice(("ft", "dollar", "9**9**9", "degC", ""))
        case = (row.key, OwnValue(likely, unit, *ends), self.dice.choice(self.small))
        return lambda: try_own(case), lambda: repr(case[:2])

    def _records(self) -> tuple[Callable[[], str], Callable[[], str]]:
        rotten = bytearray(self.whole)
        for _ in range(self.dice.choice((1, 10, 400))):
            rotten[self.dice.randrange(len(rotten))] = self.dice.randrange(256)
        whole = bytes(rotten[: self.dice.choice((len(rotten), len(rotten), self.dice.randrange(len(rotten))))])

        def attempt() -> str:
            for each in self.file.parent.iterdir():
                each.unlink()
            self.file.write_bytes(whole)
            return try_records(self.file)

        return attempt, lambda: f"{sum(a != b for a, b in zip(whole, self.whole, strict=False))} bytes of {len(whole)}"


def main(words: Sequence[str] | None = None) -> int:
    """Run the attack and print its closing lines; 1 where there was a finding."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60.0, help="processor time to spend")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args(words)
    with tempfile.TemporaryDirectory() as folder:
        report = Attack(options.seed, Path(folder)).run(seconds=options.seconds)
    for finding in report.findings[:20]:
        print(finding[:4000], end="\n\n")
    print(report.closing())
    return 1 if report.findings else 0


if __name__ == "__main__":
    sys.exit(main())
