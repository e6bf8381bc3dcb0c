"""The packages as a newcomer meets them: each says what every file in it is for."""

from __future__ import annotations

import ast
import re
from fnmatch import fnmatch
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "speccheck"
FOLDERS = sorted(path.parent for path in PACKAGE.rglob("__init__.py") if path.parent != PACKAGE)


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.relative_to(PACKAGE).as_posix())
def test_a_package_says_what_each_of_its_files_is_for(folder: Path) -> None:
    """The docstring of a package names all modules and packages in it; a star stands for several alike."""
    words = ast.get_docstring(ast.parse((folder / "__init__.py").read_text("utf-8"))) or ""
    named = re.findall(r"[\w*]+", words)
    files = [path.stem for path in folder.glob("*.py") if path.stem != "__init__"]
    packages = [path.parent.name for path in folder.glob("*/__init__.py")]
    assert [name for name in (*files, *packages) if not any(fnmatch(name, one) for one in named)] == []
