"""`python -m benchmarks [NAME ...]`: run the benchmarks, or those named, and print a table."""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path

NAMES = sorted(path.stem for path in Path(__file__).parent.glob("[a-z]*.py") if "\ndef run(" in path.read_text("utf-8"))


def main(wanted: list[str]) -> None:
    """Run the benchmarks with the wanted names, all for none."""
    for name in wanted or NAMES:
        print(name.replace("_", " "))
        for what, result in import_module(f"benchmarks.{name}").run():
            print(f"  {what:60} {result}")


if __name__ == "__main__":
    main(sys.argv[1:])
