"""Write resubmittal.xlsx from ../schedule.txt and changes.toml: `python .../second-round/make_resubmittal.py`.

In: the picture of the first schedule, and what the contractor changed in it. Out: resubmittal.xlsx beside this file,
the same bytes at every run of the same libraries.
"""

from __future__ import annotations

import importlib.util
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

HERE = Path(__file__).parent
PRODUCT = "Product"


def main() -> int:
    """Write the workbook beside this file and say so."""
    (HERE / "resubmittal.xlsx").write_bytes(workbook_bytes())
    print("resubmittal.xlsx written")
    return 0


def workbook_bytes() -> bytes:
    """Return the workbook of the second round."""
    picture = (HERE.parent / "schedule.txt").read_text(encoding="utf-8")
    changes = tomllib.loads((HERE / "changes.toml").read_text(encoding="utf-8"))
    made = make_schedule().workbook_bytes(changed(picture, changes))
    assert isinstance(made, bytes)
    return made


def make_schedule() -> ModuleType:
    """Return the module that draws pictures as workbooks."""
    spec = importlib.util.spec_from_file_location("make_schedule", HERE.parent / "make_schedule.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def changed(picture: str, changes: dict[str, Any]) -> str:
    """Return the picture with the changes made in it."""
    for old, new in changes["words"].items():
        assert picture.count(old) == 1, old
        picture = picture.replace(old, new)
    unused = {*changes["lines"], *changes["renamed"], *changes["dropped"], *changes["added"]}
    rows = list(rows_of(picture.split("\n"), changes, unused))
    assert not unused, f"no line is called {sorted(unused)}"
    return "\n".join(rows)


def rows_of(rows: list[str], changes: dict[str, Any], unused: set[str]) -> Iterator[str]:
    """Yield the rows of the picture, changed, added and dropped; `unused` loses the marks that were met."""
    columns: list[str] = []
    for number, row in enumerate(rows):
        cells = [cell.strip() for cell in row.split("|")]
        if len(cells) < 10:
            yield row
        elif cells[0] in ("System", "Tag"):
            below = [cell.strip() for cell in rows[number + 1].split("|")]
            columns = header(cells, below if below[0] == "^" else ["^"] * len(cells))
            yield f"{row} | {PRODUCT}"
        elif "Type" in cells and cells[0] == "^":
            yield f"{row} | ^"
        else:
            yield from line_of(dict(zip(columns, cells, strict=True)), changes, unused)


def header(upper: list[str], lower: list[str]) -> list[str]:
    """Return the names of the columns: "Size (NPS)", or "Jacket / Type" where a group stands above it."""
    names: list[str] = []
    group = ""
    for above, below in zip(upper, lower, strict=True):
        group = group if above == "<" else above
        names.append(group if below == "^" else f"{group} / {below}")
    return names


def line_of(cells: dict[str, str], changes: dict[str, Any], unused: set[str]) -> Iterator[str]:
    """Yield a line as it is in the second round, and the line that was added below it."""
    mark = cells.get("Mark") or cells["Tag"]
    products = {line: product for product, lines in changes["products"].items() for line in lines.split()}
    if mark in changes["dropped"]:
        unused.remove(mark)
        return
    for column, value in changes["lines"].get(mark, {}).items():
        assert cells[column] != value, (mark, column)
        cells[column] = value
    unused.discard(mark)
    name = "Mark" if "Mark" in cells else "Tag"
    new_mark = cells[name] = changes["renamed"].get(mark, mark)
    yield " | ".join([*cells.values(), products.get(new_mark, "")])
    if mark in changes["added"]:
        added = {**cells, **changes["added"][mark]}
        yield " | ".join([*added.values(), products.get(added[name], "")])


if __name__ == "__main__":
    sys.exit(main())
