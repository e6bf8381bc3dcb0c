"""What a browser sends and what a child process does are limited: size, number, kind, names, memory, time."""

from __future__ import annotations

import asyncio
import io
import subprocess
import sys
from pathlib import Path

import pytest
from starlette.datastructures import FormData, UploadFile

from speccheck.desk import uploads, workers
from speccheck.desk.desk import Desk, Stopped, Unfinished
from speccheck.desk.projects import Projects
from speccheck.desk.uploads import MOST_FILES, Received, UploadRefused, all_received
from speccheck.desk.workers import Workers


def sent(*files: tuple[str, bytes]) -> FormData:
    """Return a form with files in the field "schedule"."""
    return FormData([("schedule", UploadFile(io.BytesIO(content), filename=name)) for name, content in files])


def take(form: FormData) -> list[Received]:
    """Return the files of a form."""
    return asyncio.run(all_received(form, "schedule"))


@pytest.mark.parametrize(
    ("name", "kept"),
    [
        ("North plant (rev 2).XLSX", "01-north-plant-rev-2.xlsx"),
        ("../../etc/passwd.csv", "01-passwd.csv"),
        ("C:\\Users\\x\\schedule.pdf", "01-schedule.pdf"),
        ("<img src=x>.csv", "01-img-src-x.csv"),
        ("日程.csv", "01-project.csv"),
        ("\x00a\n.csv", "01-a.csv"),
    ],
)
def test_files_stand_under_names_of_our_own(name: str, kept: str) -> None:
    """Letters, digits and hyphens are left of the name that came: no folder, no markup, no control character."""
    assert take(sent((name, b"x")))[0].numbered(1) == kept


@pytest.mark.parametrize(
    ("files", "why"),
    [
        ([], "choose a file first"),
        ([("", b"x")], "choose a file first"),
        ([("a.exe", b"x")], "`.exe` is not read here; give one of these: "),
        ([("a.csv", b"")], "this file is empty"),
        ([("a.csv", b"x" * 101)], "this file is larger than 0 MB"),
        ([("a.csv", b"x")] * (MOST_FILES + 1), "a submittal has at most 40 files"),
    ],
)
def test_what_is_not_taken_is_told(files: list[tuple[str, bytes]], why: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing, another kind of file, an empty one, one that is too large, too many: each with its reason."""
    monkeypatch.setattr(uploads, "LARGEST_FILE", 100)
    with pytest.raises(UploadRefused) as told:
        take(sent(*files))
    assert str(told.value).startswith(why)


def test_a_child_process_gets_no_more_than_its_memory() -> None:
    """What asks for 4 GB is told that there is no such memory, and the machine is not brought to a halt."""
    pytest.importorskip("resource")
    asks = "from speccheck.desk.worker import limit_memory; limit_memory(); bytearray(4_000_000_000)"
    done = subprocess.run([sys.executable, "-c", asks], capture_output=True, text=True, check=False)
    assert "MemoryError" in done.stderr


def test_a_job_that_takes_too_long_is_ended_and_the_next_is_done(monkeypatch: pytest.MonkeyPatch) -> None:
    """After its time the process is killed and the job says so; the desk goes on with a fresh process."""

    async def work() -> tuple[str, str, object]:
        desk = Workers()
        try:
            monkeypatch.setattr(workers, "SECONDS", 0.01)
            late = desk.ask("prose", {"against": "trade-practice"})
            await late.finished.wait()
            late.told = True  # a page has shown why
            monkeypatch.setattr(workers, "SECONDS", 600)
            next_one = desk.ask("prose", {"against": "trade-practice"})
            await next_one.finished.wait()
            return late.failed, next_one.failed, next_one.result
        finally:
            await desk.end()

    failed, then, result = asyncio.run(work())
    assert failed == "stopped after 0 seconds"
    assert then == ""
    assert isinstance(result, dict)
    assert "<html" in result["page"]


def test_a_process_that_dies_takes_no_other_with_it() -> None:
    """A file that brings its process down is told as one that asks for too much; the next job gets an answer."""

    async def work() -> tuple[str, str]:
        desk = Workers()
        try:
            await desk.warm()
            process = desk.idle[-1].process
            job = desk.ask("prose", {"against": "trade-practice"})
            await asyncio.sleep(0)
            assert process is not None
            process.kill()
            await job.finished.wait()
            job.told = True
            other = desk.ask("prose", {"against": "trade-practice"})
            await other.finished.wait()
            return job.failed, other.failed
        finally:
            await desk.end()

    failed, then = asyncio.run(work())
    assert failed in (
        "reading ended before its time: the file asks for more than a file may",
        "the process that reads files has ended",
    )
    assert then == ""


def test_work_that_fails_after_a_while_is_told_once_and_then_tried_afresh(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The page that followed it says why, and does not begin the same work again by itself; whoever asks again does."""
    monkeypatch.setattr(workers, "SECONDS", 0.3)

    async def work() -> list[str]:
        desk, came = Desk(Projects(tmp_path), patience=0.01), []
        try:
            for _ in range(3):
                try:
                    await desk.ask("prose", {"against": "trade-practice"})
                except Unfinished as still:
                    came.append("working")
                    await still.job.finished.wait()
                except Stopped as ended:
                    came.append(ended.told[0]["message"])
            return came
        finally:
            await desk.workers.end()

    assert asyncio.run(work()) == ["working", "stopped after 0 seconds", "working"]


def test_a_desk_that_ends_keeps_nobody_waiting(tmp_path: Path) -> None:
    """Who waits for work gets an answer when the desk ends, and so does whoever asks then: no process is begun."""

    async def work() -> list[str]:
        desk, came = Desk(Projects(tmp_path), patience=600), []

        async def asked() -> None:
            try:
                await desk.ask("prose", {"against": "trade-practice"})
            except Stopped as ended:
                came.append(ended.told[0]["message"])

        waiting = asyncio.create_task(asked())
        await asyncio.sleep(0.05)
        await desk.workers.end()
        await waiting
        await asked()
        assert [worker for worker in desk.workers.idle if worker.process is not None] == []
        return came

    assert asyncio.run(work()) == ["stopped", "stopped: the desk ends"]
