import os
import stat
from pathlib import Path

import pytest

from estimating.errors import InputError
from estimating.files import write_aside


def test_a_file_is_written_as_it_is_given(tmp_path: Path) -> None:
    """Text in UTF-8, line ends untouched, readable by others, and nothing else left in the folder."""
    target = tmp_path / "summary.csv"
    write_aside(target, "ft², 12′\r\n½\n")
    assert target.read_bytes() == "ft², 12′\r\n½\n".encode()
    assert stat.S_IMODE(target.stat().st_mode) == 0o644
    assert list(tmp_path.iterdir()) == [target]


def test_an_old_file_is_replaced_whole(tmp_path: Path) -> None:
    """A shorter text leaves nothing of a longer one."""
    target = tmp_path / "job.toml"
    target.write_text("a long old text", encoding="utf-8")
    write_aside(target, "new")
    assert target.read_text(encoding="utf-8") == "new"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_an_old_file_is_untouched_when_writing_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    """A full disk, or a place that cannot be taken: the old file stays, and no half file with it."""

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    target = tmp_path / "job.toml"
    target.write_text("old", encoding="utf-8")
    if step == "fsync":
        monkeypatch.setattr(os, "fsync", fail)
    else:
        monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(InputError, match="No space left") as refused:
        write_aside(target, "new")
    assert refused.value.value == str(target)
    assert target.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_text_that_cannot_be_encoded_leaves_the_old_file(tmp_path: Path) -> None:
    """Half a surrogate pair is no text: it is an error of ours, and still costs nobody a file."""
    target = tmp_path / "job.toml"
    target.write_text("old", encoding="utf-8")
    with pytest.raises(UnicodeEncodeError):
        write_aside(target, "new \ud800")
    assert target.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    """In one sentence, with the path."""
    with pytest.raises(InputError, match="a folder that can be written to"):
        write_aside(tmp_path / "nowhere" / "job.toml", "new")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    """It is not replaced by one, and nothing is left beside it."""
    (tmp_path / "jobs").mkdir()
    with pytest.raises(InputError, match="a place that can be written to"):
        write_aside(tmp_path / "jobs", "new")
    assert [each.name for each in tmp_path.iterdir()] == ["jobs"]
