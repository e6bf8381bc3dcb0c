"""Writing: whole or not at all, and never over what a report was made from."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from speccheck.disk_cache import cache_folder
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.all_codes import all_rules
from speccheck.report.writing import write_whole


def error(code: str, message: str, path: Path | str, help: str) -> Diagnostic:
    """Return the diagnostic that is expected."""
    assert code in all_rules(), "each code has its paragraph in the manual"
    return Diagnostic(code, Severity.ERROR, message, Place(str(path)), help)


def test_text_is_written_as_utf8(tmp_path: Path) -> None:
    """Text is written as UTF-8 with its line ends as they are, bytes as they are; nothing else is left."""
    assert write_whole(tmp_path / "a.csv", "1½\r\n") is None
    assert write_whole(tmp_path / "b.xlsx", b"\x00\x01") is None
    assert (tmp_path / "a.csv").read_bytes() == b"1\xc2\xbd\r\n"
    assert (tmp_path / "b.xlsx").read_bytes() == b"\x00\x01"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.csv", "b.xlsx"]


def test_an_older_report_is_replaced_and_keeps_its_permissions(tmp_path: Path) -> None:
    """A second run takes the place of the first, as long as the report is as it was written."""
    target = tmp_path / "report.html"
    assert write_whole(target, "old") is None
    target.chmod(0o640)
    assert write_whole(target, "new") is None
    assert (target.read_text(), target.stat().st_mode & 0o777) == ("new", 0o640)


@pytest.mark.parametrize("before", ["written by somebody else", "written by the program, and filled in"])
def test_work_of_others_is_not_replaced_untold(tmp_path: Path, before: str) -> None:
    """A file that the program did not write, or that somebody has changed since, stays until `replace` is said."""
    target = tmp_path / "schedule.xlsx"
    if before != "written by somebody else":
        assert write_whole(target, b"blank") is None
    work = f"a day of work in {tmp_path}".encode()
    target.write_bytes(work)
    message = f"`{target}` is there already, and it is not as speccheck last wrote it"
    help = "give the report another name, or add `--replace` to write over it"
    assert write_whole(target, b"blank again") == error("R107", message, target, help)
    assert target.read_bytes() == work
    assert write_whole(target, work) is None
    assert write_whole(target, b"blank again", replace=True) is None
    assert target.read_bytes() == b"blank again"


def test_without_a_cache_every_file_counts_as_the_work_of_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What was written is not remembered where keeping is turned off, and then nothing is replaced untold."""
    monkeypatch.setenv("SPECCHECK_CACHE", "")
    cache_folder.cache_clear()
    try:
        assert write_whole(tmp_path / "a.html", "old") is None
        found = write_whole(tmp_path / "a.html", "new")
        assert found is not None
        assert found.code == "R107"
    finally:
        cache_folder.cache_clear()


@pytest.mark.parametrize("how", ["same", "dotted", "link", "hard link"])
def test_an_input_is_not_overwritten(tmp_path: Path, how: str) -> None:
    """Whatever the file is called: by its name, over a detour, by a symbolic link or a hard link."""
    schedule = tmp_path / "schedule.xlsx"
    schedule.write_text("lines")
    target = tmp_path / "report.xlsx"
    match how:
        case "same":
            target = schedule
        case "dotted":
            (tmp_path / "sub").mkdir()
            target = tmp_path / "sub" / ".." / "schedule.xlsx"
        case "link":
            target.symlink_to(schedule)
        case "hard link":
            os.link(schedule, target)
    found = write_whole(target, "report", [schedule])
    message = f"`{target}` is a file that the report is made from"
    assert found == error("R102", message, target, "give the report another name")
    assert schedule.read_text() == "lines"


def test_a_missing_folder_is_not_made(tmp_path: Path) -> None:
    """A slip in the folder's name makes no folder."""
    target = tmp_path / "reprots" / "a.html"
    found = write_whole(target, "x")
    message = f"there is no folder for `{target}`"
    assert found == error("R103", message, target, "make the folder first, or write elsewhere")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_and_a_device_are_no_files(tmp_path: Path) -> None:
    """Neither a folder nor a device such as the null device is replaced by a report."""
    for target in (tmp_path, Path(os.devnull)):
        assert write_whole(target, "x") == error("R104", f"`{target}` is no file", target, "give the name of a file")
    assert not Path(os.devnull).is_file()


def test_a_name_that_the_system_refuses(tmp_path: Path) -> None:
    """The reason of the system is told, in its words."""
    target = tmp_path / ("x" * 300)
    found = write_whole(target, "x")
    help = "check the folder and the disk, or write elsewhere"
    assert found == error("R101", f"cannot write `{target}`: file name too long", target, help)
    with_null = write_whole("a\0b", "x")
    assert with_null == error("R101", "cannot write `a\0b`: embedded null byte", "a\0b", help)


def test_a_failure_on_the_way_leaves_the_old_report(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the disk fills up before the last step, the old file stays and no half file is left behind."""
    target = tmp_path / "report.html"
    assert write_whole(target, "old") is None

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    found = write_whole(target, "new")
    help = "check the folder and the disk, or write elsewhere"
    assert found == error("R101", f"cannot write `{target}`: no space left on device", target, help)
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [("report.html", "old")]


def test_half_a_character_is_written_as_a_question_mark(tmp_path: Path) -> None:
    """A lone surrogate, which UTF-8 does not have, does not stop a report."""
    assert write_whole(tmp_path / "a.txt", "a\ud800b") is None
    assert (tmp_path / "a.txt").read_text() == "a?b"


@pytest.mark.skipif(sys.platform == "win32", reason="Windows does not tell which processes run without asking more")
def test_what_a_killed_run_left_is_taken_away_by_the_next(tmp_path: Path) -> None:
    """A run that is killed between writing and putting in place leaves a hidden file; of a live one it is let be."""
    script = (
        "import os, signal, sys\n"
        "from speccheck.report.writing import write_whole\n"
        "os.replace = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        "write_whole(sys.argv[1], 'half')\n"
    )
    subprocess.run([sys.executable, "-c", script, str(tmp_path / "killed.txt")], check=False)
    left = [path.name for path in tmp_path.iterdir()]
    assert len(left) == 1
    assert left[0].startswith(".speccheck-")
    machine = left[0].split("-")[1]
    (tmp_path / f".speccheck-{machine}-{os.getppid()}-abcd").touch()
    assert write_whole(tmp_path / "next.txt", "whole") is None
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == [f".speccheck-{machine}-{os.getppid()}-abcd", "next.txt"]
