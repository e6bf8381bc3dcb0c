"""Which files are schedules: one list of endings, which everything that asks goes by."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from speccheck.schedule.formats import endings
from speccheck.schedule.formats.opening import open_schedule

PACKAGE = Path(__file__).parents[3] / "speccheck"


@pytest.mark.parametrize("ending", endings.READ)
def test_a_file_of_each_ending_has_a_reader(ending: str, tmp_path: Path) -> None:
    """Nobody says of a listed ending that schedules are not read from such files, in capitals or not."""
    path = tmp_path / f"schedule{ending.upper()}"
    path.write_bytes(b"Mark,Service\nA,chilled water\n")
    told = open_schedule(path)[1]
    assert not [one for one in told if "is not a kind of file" in one.message]


def test_what_is_looked_for_or_marked_can_be_read() -> None:
    """A folder, and a marked copy, ask for no file that could not be opened; mapping files are no schedules."""
    assert set(endings.IN_FOLDERS) < set(endings.READ)
    assert set(endings.MARKED) < set(endings.READ)
    assert ".toml" not in endings.IN_FOLDERS


def test_no_other_module_lists_endings_of_schedules() -> None:
    """Three endings in a row that schedules have would be a second list."""
    for path in PACKAGE.rglob("*.py"):
        if path.name == "endings.py" or path.parent.name == "specification":  # sections are other files
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Tuple | ast.List | ast.Set):
                named = {one.value for one in node.elts if isinstance(one, ast.Constant)}
                assert len(named & set(endings.READ)) < 3, (path, node.lineno)
