"""Child processes from the outside: started, asked, followed, stopped.

A job is known by what it is asked and by the files that it reads. Asking again while it runs, or from another tab,
gives the same job; so long work survives a closed tab and is not done twice.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import sys
from collections import OrderedDict
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path
from typing import Any

from speccheck.desk.projects import files_of

PROCESSES = 2
SECONDS = 600.0
"""How long a job may take before its process is ended."""
LONGEST_ANSWER = 1 << 28
REMEMBERED = 24


@dataclass
class Job:
    """One piece of work: how far it is, and what came of it. `result`, `unusable` or `failed` is set at its end."""

    name: str
    key: str
    done: int = 0
    total: int = 0
    what: str = ""
    result: Any = None
    unusable: list[dict[str, Any]] | None = None
    failed: str = ""
    then: tuple[str, dict[str, Any]] | None = None
    """What is most likely asked for when this is done; it is begun then."""
    told: bool = False
    """Whether somebody was told that it failed; it is tried afresh then."""
    finished: asyncio.Event = field(default_factory=asyncio.Event)
    task: asyncio.Task[None] | None = None


class Worker:
    """One child process."""

    def __init__(self) -> None:
        self.process: asyncio.subprocess.Process | None = None

    async def start(self) -> asyncio.subprocess.Process:
        """Return the process, started if it does not run."""
        if self.process is None or self.process.returncode is not None:
            self.process = await asyncio.create_subprocess_exec(
                sys.executable,
                "-P",
                "-m",
                "speccheck.desk.worker",
                stdin=asyncio.subprocess.PIPE,
                stdout=asyncio.subprocess.PIPE,
                limit=LONGEST_ANSWER,
            )
        return self.process

    async def do(self, job: Job, asked: dict[str, Any]) -> None:
        """Do a job to its end, following how far it is."""
        process = await self.start()
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write((json.dumps({"do": job.name, "with": asked}) + "\n").encode())
        await process.stdin.drain()
        while line := await process.stdout.readline():
            told = json.loads(line)
            if "progress" in told:
                job.done, job.total, job.what = told["progress"]
            elif "ready" not in told:
                job.result, job.unusable = told.get("result"), told.get("unusable")
                job.failed = told.get("failed", "")
                return
        await self.finish()
        job.failed = "reading ended before its time: the file asks for more than a file may"

    def end(self) -> asyncio.subprocess.Process | None:
        """End the process, whatever it does, and return it."""
        process, self.process = self.process, None
        if process is not None and process.returncode is None:
            with contextlib.suppress(ProcessLookupError):
                process.kill()
        return process

    async def finish(self) -> None:
        """End the process, and wait until it is gone."""
        process = self.end()
        if process is not None:
            await process.wait()


class Workers:
    """All child processes of one desk, and the jobs that they do and did."""

    def __init__(self) -> None:
        self.idle: list[Worker] = [Worker() for _ in range(PROCESSES)]
        self.free = asyncio.Semaphore(PROCESSES)
        self.jobs: OrderedDict[str, Job] = OrderedDict()
        self.ended = False

    async def warm(self) -> None:
        """Start one process, so that the first paper does not wait for it."""
        await self.idle[-1].start()

    def ask(self, name: str, asked: dict[str, Any], then: tuple[str, dict[str, Any]] | None = None) -> Job:
        """Return the job, begun if it is not known; `then` is begun when it is done, whether anybody asks or not."""
        key = _key(name, asked)
        known = self.jobs.get(key)
        if self.ended and (known is None or known.told):
            known = Job(name, key, failed="stopped: the desk ends")
            known.finished.set()
            return known
        if known is None or known.told:
            known = self.jobs[key] = Job(name, key, then=then)
            known.task = asyncio.get_running_loop().create_task(self._run(known, asked))
        self.jobs.move_to_end(key)
        while len(self.jobs) > REMEMBERED and next(iter(self.jobs.values())).finished.is_set():
            self.jobs.popitem(last=False)
        return known

    async def _run(self, job: Job, asked: dict[str, Any]) -> None:
        async with self.free:
            worker = self.idle.pop()  # the one used last, which may still hold the matrix
            try:
                async with asyncio.timeout(SECONDS):
                    await worker.do(job, asked)
            except TimeoutError:
                await worker.finish()
                job.failed = f"stopped after {SECONDS:.0f} seconds"
            except asyncio.CancelledError:
                await worker.finish()
                job.failed, job.told = "stopped", True
            except (OSError, ValueError):
                await worker.finish()
                job.failed = "the process that reads files has ended"
            finally:
                self.idle.append(worker)
                job.finished.set()
                if not job.failed and job.then is not None and job.unusable is None and not self.ended:
                    self.ask(*job.then)

    def stop(self, key: str) -> bool:
        """Stop a running job; say whether there was one."""
        job = self.jobs.get(key)
        if job is None or job.task is None or job.finished.is_set():
            return False
        job.task.cancel()
        return True

    async def end(self) -> None:
        """End all jobs and all processes, and wait until they are gone."""
        self.ended = True
        tasks = [job.task for job in self.jobs.values() if job.task is not None]
        for task in tasks:
            task.cancel()
        await asyncio.gather(*tasks, return_exceptions=True)
        await asyncio.gather(*(worker.finish() for worker in self.idle))


def _key(name: str, asked: dict[str, Any]) -> str:
    """Return a name for a job that changes with what is asked and with the files that it reads."""
    content = sha256(json.dumps([name, asked], sort_keys=True).encode())
    for path in _paths(asked):
        with contextlib.suppress(OSError):
            content.update(sha256(path.read_bytes()).digest())
    return content.hexdigest()[:24]


def _paths(asked: Any) -> list[Path]:
    """Return the files among what is asked by their absolute paths: of a folder those in it, with clauses all there."""
    if isinstance(asked, dict):
        return [path for value in asked.values() for path in _paths(value)]
    if isinstance(asked, list):
        return [path for value in asked for path in _paths(value)]
    if not isinstance(asked, str) or len(asked) >= 4096 or "\n" in asked or "\0" in asked:
        return []
    path = Path(asked)
    if not path.is_absolute():
        return []
    return sorted(path.parent.glob("*.clauses")) if path.suffix == ".clauses" else list(files_of(path))
