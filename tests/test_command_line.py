"""The terminal: what is printed and written, and what is said when something is wrong."""

from __future__ import annotations

import csv
import io
import json
import re
import subprocess
import sys
import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import tomli_w

from estimating.__main__ import main
from estimating.workbook import estimate_job, read_job

ROOT = Path(__file__).parents[1]
JOBS = sorted((ROOT / "notebooks" / "jobs").glob("*.toml"))
DEMO = ROOT / "notebooks" / "jobs" / "alder_row_sitting_room.toml"

Said = pytest.CaptureFixture[str]


def plain_demo() -> dict[str, Any]:
    return tomllib.loads(DEMO.read_text(encoding="utf-8"))


def written(folder: Path, plain: dict[str, Any]) -> str:
    path = folder / "job.toml"
    path.write_text(tomli_w.dumps(plain), encoding="utf-8")
    return str(path)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_a_job_is_priced_and_written(path: Path, tmp_path: Path, capsys: Said) -> None:
    """Exit 0; the price on the screen is the price in both files."""
    summary, data = tmp_path / "summary.csv", tmp_path / "estimate.json"
    assert main([str(path), "--csv", str(summary), "--json", str(data)]) == 0
    said = capsys.readouterr()
    price = estimate_job(read_job(path)).estimate.price
    assert f"price offered ${price:,.2f}  (fixed)\ncost to do it $" in said.out
    assert said.err == ""
    assert json.loads(data.read_text(encoding="utf-8"))["price_offered"]["value"] == str(price)
    assert summary.read_bytes().decode("utf-8").split("\r\n")[-2].startswith("total,price offered,")
    assert sorted(each.name for each in tmp_path.iterdir()) == ["estimate.json", "summary.csv"]


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_file_of_a_job_comes_to_one_price(path: Path, tmp_path: Path, capsys: Said) -> None:
    """The rows of the summary add up to its total, to the lines of the other file and to the price on the proposal."""
    summary, data, folder = tmp_path / "summary.csv", tmp_path / "estimate.json", tmp_path / "documents"
    assert main([str(path), "--csv", str(summary), "--json", str(data), "--documents", str(folder)]) == 0
    *rows, total = csv.DictReader(io.StringIO(summary.read_bytes().decode("utf-8"), newline=""))
    price = Decimal(total["cost"])
    assert sum(Decimal(row["cost"]) for row in rows) == price
    estimate = json.loads(data.read_text(encoding="utf-8"))
    assert Decimal(estimate["price_offered"]["value"]) == price
    assert sum(Decimal(line["cost"]["likely"]) for line in estimate["lines"]) == price
    assert len(estimate["work"]) == len(read_job(path).work)
    assert f"price offered ${price:,.2f} " in capsys.readouterr().out
    names = ("proposal", "before_you_send", "crew_sheet", "shopping_list", "invoice_1")
    assert {each.name for each in folder.iterdir()} == {f"{name}.{form}" for name in names for form in ("html", "pdf")}
    assert f"${price:,.2f}" in (folder / "proposal.html").read_text(encoding="utf-8")


def test_every_way_of_the_demo_is_on_the_screen(capsys: Said) -> None:
    """With its hours, gallons, price and chance of release, and where two ways cost the same."""
    assert main([str(DEMO)]) == 0
    out = capsys.readouterr().out
    for method in ("roll", "spray", "seal_roll", "seal_spray", "scrape", "overlay", "decline"):
        (line,) = [line for line in out.splitlines() if line.split()[:1] == [method]]
        assert " h " in line
        assert " gal " in line
        assert ("texture comes down: " in line) is (method in ("roll", "spray", "seal_roll", "seal_spray"))
    assert "; below " in out
    assert "(invented)" in out


def test_metric_changes_the_units_and_not_the_price(capsys: Said) -> None:
    """Liters for gallons, the same dollars."""
    assert main([str(DEMO)]) == main([str(DEMO), "--metric"]) == 0
    both = capsys.readouterr().out.splitlines()
    us, metric = both[: len(both) // 2], both[len(both) // 2 :]
    assert us[1] == metric[1]
    assert any(" L " in line for line in metric)
    assert not any(" gal " in line for line in metric)


def test_a_line_is_explained(capsys: Said) -> None:
    """To its formula, values, units and origins; nothing is written."""
    assert main([str(DEMO), "--explain", "ceiling_1"]) == 0
    out = capsys.readouterr().out
    assert "cost = hours · loaded wage" in out
    assert "production/roll_ceiling/roll/popcorn" in out


def test_the_way_is_explained(capsys: Said) -> None:
    """Why it is recommended, and what would overturn it."""
    assert main([str(DEMO), "--explain", "method"]) == 0
    out = capsys.readouterr().out
    assert "is recommended" in out
    assert re.search(r"[\d.]+% now; below [\d.]+% .+, above [\d.]+% ", out)


def test_what_is_no_line_lists_those_there_are(capsys: Said) -> None:
    """Exit 2, one sentence."""
    assert main([str(DEMO), "--explain", "plumbing"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "--explain: got 'plumbing', needs method, price, or one of the lines: " in said.err
    assert "mask_edge" in said.err


def test_every_wrong_field_is_said_at_once(tmp_path: Path, capsys: Said) -> None:
    """One line each, with its path; nothing is printed as if it were an answer, nothing is written."""
    plain = plain_demo()
    plain["site"]["year_built"] = "old"
    plain["site"]["yearbuilt"] = 1974
    plain["rooms"][0]["height"] = "8'13\""
    plain["work"][0]["history"] = "dunno"
    assert main([written(tmp_path, plain), "--csv", str(tmp_path / "summary.csv")]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    lines = said.err.splitlines()
    assert {line.split(": got")[0] for line in lines} == {
        "site · year_built",
        "site · yearbuilt",
        'rooms[0] "sitting room" · height',
        'work[0] "sitting room" · history',
    }
    assert len(lines) == 4
    assert not (tmp_path / "summary.csv").exists()


def own(plain: dict[str, Any], key: str, **values: object) -> None:
    plain["own"] = {key: values}


WRONG = {
    "a height nobody measured": lambda plain: plain["rooms"][0].update(height="unknown"),
    "a tip that is none": lambda plain: plain["work"][0].update(tip="999"),
    "a way that is none": lambda plain: plain["work"][0].update(method="whitewash"),
    "nobody to do it": lambda plain: plain["crew"].update(people=0),
    "an outline that crosses itself": lambda plain: plain["rooms"][0].update(
        shape={"kind": "polygon", "corners": [["0", "0"], ["9 ft", "9 ft"], ["9 ft", "0"], ["0", "9 ft"]]}
    ),
    "a room too low to drape": lambda plain: plain["rooms"][0].update(height="6 in"),
    "a soffit of three sides": lambda plain: plain["rooms"][0]["soffits"][0].update(faces=3),
    "an own figure in no unit": lambda plain: own(plain, "business/wage", likely=30, unit="florin"),
    "an own figure in brackets": lambda plain: own(plain, "business/wage", likely=30, unit=")("),
    "an own figure in another unit": lambda plain: own(plain, "business/wage", likely=30, unit="hour"),
    "an own figure of no row": lambda plain: own(plain, "business/wages", likely=30, unit="dollar/hour"),
    "an own figure without end": lambda plain: own(plain, "business/wage", likely=float("inf"), unit="dollar/hour"),
    "an own figure that is none": lambda plain: own(plain, "business/wage", likely=float("nan"), unit="dollar/hour"),
    "a rate of nothing": lambda plain: own(
        plain, "production/roll_ceiling/roll/popcorn", likely=0, unit="ft**2/hour", low=0, high=0
    ),
    "a range no curve fits": lambda plain: own(
        plain, "business/wage", likely=30, low=29.9, high=90, unit="dollar/hour"
    ),
}


@pytest.mark.parametrize("change", WRONG.values(), ids=WRONG)
def test_whatever_is_wrong_is_one_sentence_and_no_traceback(change: Any, tmp_path: Path, capsys: Said) -> None:
    """Found while reading or while working it out: exit 2, and what is needed."""
    plain = plain_demo()
    change(plain)
    assert main([written(tmp_path, plain)]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert ": got " in said.err
    assert ", needs " in said.err
    assert "Traceback" not in said.err
    assert len(said.err.splitlines()) == 1


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (None, "No such file"),
        (b"- not: toml", "valid TOML"),
        (b"\xff\xfe", "text in UTF-8"),
        (b"", "title: got 'nothing'"),
    ],
)
def test_a_file_that_is_no_job_is_refused(content: bytes | None, sentence: str, tmp_path: Path, capsys: Said) -> None:
    """Not there, not TOML, not text, empty."""
    path = tmp_path / "job.toml"
    if content is not None:
        path.write_bytes(content)
    assert main([str(path)]) == 2
    assert sentence in capsys.readouterr().err


def test_a_folder_is_no_job(tmp_path: Path, capsys: Said) -> None:
    """One sentence for that too."""
    assert main([str(tmp_path)]) == 2
    assert "a file that can be read" in capsys.readouterr().err


@pytest.mark.parametrize("option", ["--csv", "--json"])
def test_a_place_that_cannot_be_written_is_refused(option: str, tmp_path: Path, capsys: Said) -> None:
    """A folder that is not there, or a folder where the file should be."""
    assert main([str(DEMO), option, str(tmp_path / "nowhere" / "out")]) == 2
    assert "a folder that can be written to" in capsys.readouterr().err
    assert main([str(DEMO), option, str(tmp_path)]) == 2
    assert "an ordinary file" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("option", ["--csv", "--json"])
def test_an_old_file_is_kept_when_the_job_cannot_be_priced(option: str, tmp_path: Path, capsys: Said) -> None:
    """And when the new one cannot be put in its place."""
    old = tmp_path / "summary"
    old.write_text("old", encoding="utf-8")
    plain = plain_demo()
    plain["rooms"][0]["height"] = "unknown"
    assert main([written(tmp_path, plain), option, str(old)]) == 2
    assert old.read_text(encoding="utf-8") == "old"
    assert main([str(DEMO), option, str(old)]) == 0
    assert old.read_text(encoding="utf-8") != "old"
    capsys.readouterr()


def test_an_old_file_is_kept_when_the_disk_is_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Said
) -> None:
    """Exit 2, with the reason the system gives, and no half file beside it."""

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    old = tmp_path / "summary.csv"
    old.write_text("old", encoding="utf-8")
    monkeypatch.setattr(Path, "replace", fail)
    assert main([str(DEMO), "--csv", str(old)]) == 2
    assert "No space left on device" in capsys.readouterr().err
    assert old.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [old]


@pytest.mark.parametrize("arguments", [[], ["--cvs", "x", str(DEMO)], [str(DEMO), "--explain"]])
def test_a_command_that_is_none_says_how_it_is_used(arguments: list[str], capsys: Said) -> None:
    """Exit 2, as for everything else."""
    with pytest.raises(SystemExit) as left:
        main(arguments)
    assert left.value.code == 2
    assert "usage: python -m estimating" in capsys.readouterr().err


def test_help_says_what_there_is(capsys: Said) -> None:
    """Exit 0."""
    with pytest.raises(SystemExit) as left:
        main(["--help"])
    assert left.value.code == 0
    out = capsys.readouterr().out
    assert all(option in out for option in ("--csv", "--json", "--explain", "--metric"))


def test_the_module_runs_as_a_command(tmp_path: Path) -> None:
    """For real, once: priced from another folder, with nothing on the error stream."""
    run = subprocess.run(
        [sys.executable, "-W", "error", "-m", "estimating", str(DEMO), "--csv", "summary.csv"],
        cwd=tmp_path,
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=180,
    )
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.startswith("Sitting room ceiling, 14 Alder Row (invented)\nprice offered $")
    assert (tmp_path / "summary.csv").exists()


def test_the_price_for_a_chance_of_loss_is_said(capsys: Said) -> None:
    """A smaller chance asks for a higher price; what is no chance is refused in a line."""
    prices = []
    for percent in ("10", "5"):
        assert main([str(JOBS[0]), "--risk", percent]) == 0
        said = capsys.readouterr().out
        prices.append(
            float(said.split(f"for a chance of loss of {percent}%: price $")[1].split(", expected")[0].replace(",", ""))
        )
    assert prices[0] < prices[1]
    assert main([str(JOBS[0]), "--risk", "often"]) == 2
    assert "chance of loss" in capsys.readouterr().err
