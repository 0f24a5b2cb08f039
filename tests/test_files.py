import hashlib
import os
import stat
from pathlib import Path

import pytest

from estimating.errors import InputError
from estimating.files import write_aside, write_together


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
    """Half a surrogate pair is no text: that is said, and costs nobody a file."""
    target = tmp_path / "job.toml"
    target.write_text("old", encoding="utf-8")
    with pytest.raises(InputError, match="without half characters"):
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
    with pytest.raises(InputError, match="an ordinary file"):
        write_aside(tmp_path / "jobs", "new")
    assert [each.name for each in tmp_path.iterdir()] == ["jobs"]


def test_an_input_is_never_written_over(tmp_path: Path) -> None:
    """Neither by its name, nor by another path to it, nor by a link; and nothing else of the run is written."""
    job, link = tmp_path / "job.toml", tmp_path / "summary.csv"
    job.write_text("notes", encoding="utf-8")
    link.symlink_to(job)
    for place in (job, tmp_path / "x" / ".." / "job.toml", link):
        with pytest.raises(InputError, match="is read by this run"):
            write_together({tmp_path / "other.json": "{}", place: "csv"}, inputs=[job])
    assert job.read_text(encoding="utf-8") == "notes"
    assert not (tmp_path / "other.json").exists()


def test_two_outputs_do_not_share_a_place(tmp_path: Path) -> None:
    """A place reached by two paths is asked for once."""
    with pytest.raises(InputError, match="another output of this run"):
        write_together({tmp_path / "a.csv": "1", tmp_path / "." / "b" / ".." / "a.csv": "2"})


def test_what_is_no_ordinary_file_is_refused(tmp_path: Path) -> None:
    """A pipe, a device and a folder are left as they are."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    for place in (pipe, Path("/dev/null"), tmp_path):
        with pytest.raises(InputError, match="not a folder or a device"):
            write_aside(place, "new")
    assert stat.S_ISFIFO(pipe.stat().st_mode)


def test_a_link_and_a_mode_are_kept(tmp_path: Path) -> None:
    """Who made the file private, or keeps it elsewhere, finds it so."""
    kept, link = tmp_path / "kept.csv", tmp_path / "link.csv"
    kept.write_text("old", encoding="utf-8")
    kept.chmod(0o600)
    link.symlink_to(kept)
    write_aside(link, "new")
    assert link.is_symlink()
    assert kept.read_text(encoding="utf-8") == "new"
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600


def test_the_longest_name_there_can_be_is_written(tmp_path: Path) -> None:
    """The part written aside has a short name of its own."""
    target = tmp_path / ("n" * 251 + ".csv")
    write_aside(target, "new")
    assert target.read_text(encoding="utf-8") == "new"


def test_all_or_none_is_written(tmp_path: Path) -> None:
    """One text that cannot be written keeps all the others back."""
    with pytest.raises(InputError):
        write_together({tmp_path / "a.csv": "1", tmp_path / "b.csv": "\ud800"})
    assert list(tmp_path.iterdir()) == []


def test_what_a_killed_run_left_is_swept(tmp_path: Path) -> None:
    """A part that is old goes at the next writing of its file; a fresh one may be somebody's, and stays."""
    target = tmp_path / "a.csv"
    write_aside(target, "1")
    names = [f".{hashlib.sha256(b'a.csv').hexdigest()[:12]}.{age}.part" for age in ("old", "new")]
    for name in names:
        (tmp_path / name).write_text("half", encoding="utf-8")
    os.utime(tmp_path / names[0], (0, 0))
    write_aside(target, "2")
    assert sorted(each.name for each in tmp_path.iterdir()) == sorted([names[1], "a.csv"])
