"""The times that the project watches, each beside its goal where it has one.

Without a name, what people wait for; a name, or several, runs those benchmarks, `all` runs all of them. Times are of
whole processes where that is what somebody waits for, and otherwise of calls; each benchmark says which. Before the
table stands what was measured on, and how quiet the machine was before and after: which share of a processor a process
got that only computes. Figures of a machine that gave less than 95 % are worth little.
"""

from __future__ import annotations

import argparse
import ast
import os
import platform
import time
from importlib import import_module
from pathlib import Path

PATHS = {path.stem: path for path in sorted(Path(__file__).parent.glob("[a-z]*.py"))}
NAMES = [name for name, path in PATHS.items() if "\ndef run(" in path.read_text("utf-8")]
USUAL = "waiting"


def main() -> None:
    """Run the benchmarks that the command line names, and print their tables."""
    told = "\n".join(f"  {name:14} {_told(name)}" for name in NAMES)
    parser = argparse.ArgumentParser(
        prog="python -m benchmarks",
        description=__doc__,
        epilog=f"benchmarks:\n{told}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("name", nargs="*", metavar="NAME", help=f"a benchmark, or all; `{USUAL}` without any")
    wanted = parser.parse_args().name or [USUAL]
    unknown = [name for name in wanted if name not in (*NAMES, "all")]
    if unknown:
        parser.error(f"no benchmark is called {', '.join(unknown)}")
    print(f"Python {platform.python_version()}, {os.cpu_count()} processors; {_quietness()}")
    for name in NAMES if "all" in wanted else wanted:
        print(_told(name))
        for what, result in import_module(f"benchmarks.{name}").run():
            print(f"  {what:62} {result}", flush=True)
    print(f"afterwards: {_quietness()}")


def _told(name: str) -> str:
    """Return the first line of what a benchmark says of itself."""
    return (ast.get_docstring(ast.parse(PATHS[name].read_text("utf-8"))) or name).splitlines()[0]


def _quietness() -> str:
    """Return how much of a processor a process gets that does nothing but compute for half a second, and the load."""
    begun, busy = time.perf_counter(), time.process_time()
    while time.perf_counter() - begun < 0.5:
        pass
    share = (time.process_time() - busy) / (time.perf_counter() - begun)
    return f"load {os.getloadavg()[0]:.1f}, a process that computes gets {share:.0%} of a processor"


if __name__ == "__main__":
    main()
