"""The child process: jobs come in on standard input, one JSON object a line, and go out on standard output.

Papers of strangers are opened only here. Memory is limited where the system can limit it; time is limited by the
parent, which ends the process. A job that goes wrong answers so, and the process goes on with the next.
"""

from __future__ import annotations

import contextlib
import gc
import json
import os
import sys
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

MEMORY = 3_000_000_000
"""Address space of the child process, in bytes; libraries map much that they never use."""


def limit_memory() -> None:
    """Limit the address space of this process, where the system knows how (not on Windows)."""
    try:
        import resource
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def answer(job: dict[str, Any], tell: Callable[[dict[str, Any]], None]) -> None:
    """Do one job and tell what came of it, or why nothing did."""
    from speccheck.desk.papers import why_unusable
    from speccheck.desk.work import WORK
    from speccheck.inputs import UnusableInput

    def progress(done: int, total: int, what: str) -> None:
        tell({"progress": [done, total, what]})

    try:
        tell({"result": WORK[job["do"]](job["with"], progress)})
    except UnusableInput as problem:
        tell({"unusable": why_unusable(problem)})
    except MemoryError:
        tell({"failed": "this needs more memory than the desk gives a file"})
    except RecursionError:
        tell({"failed": "this is nested too deeply to be read"})
    except Exception as fault:  # a fault of ours must not end the desk; it is told as one
        tell({"failed": f"the program made a mistake here ({type(fault).__name__}); nothing was judged"})
        print(f"speccheck desk: {type(fault).__name__}: {fault}", file=sys.stderr, flush=True)


def warm_up() -> None:
    """Load what the first paper will need, by drawing the matrix of one invented line while nobody waits."""
    from speccheck.desk.work import WORK
    from speccheck.quantities.conversion import registry

    registry()  # the units of which few papers say one, and most a word that may be one

    with TemporaryDirectory() as folder, contextlib.suppress(Exception):
        path = Path(folder) / "schedule.csv"
        path.write_text("Mark,Service,Thickness\nA,chilled water,1 in\n", encoding="utf-8")
        papers = {"schedule": str(path), "against": "condensation", "units": ""}
        WORK["page"]({"papers": papers, "title": "", "navigation": ""}, lambda done, total, what: None)


def main() -> None:
    """Answer jobs until the parent closes the pipe."""
    out = os.fdopen(os.dup(sys.stdout.fileno()), "w", encoding="utf-8")
    sys.stdout = sys.stderr  # what a library prints must not be read as an answer
    sys.stdin.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    limit_memory()
    gc.set_threshold(200_000, 50, 50)  # a review makes much and lets go of little, as in the commands
    import speccheck.desk.work  # noqa: F401  # ready before the first job comes

    def tell(message: dict[str, Any]) -> None:
        out.write(json.dumps(message) + "\n")
        out.flush()

    tell({"ready": True})
    warm_up()
    for line in sys.stdin:
        answer(json.loads(line), tell)


if __name__ == "__main__":
    main()
