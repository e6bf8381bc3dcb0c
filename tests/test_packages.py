"""The packages as a newcomer meets them: each says what every file in it is for."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from fnmatch import fnmatch
from pathlib import Path

import pytest

import speccheck

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


def test_a_check_that_computes_nothing_loads_no_heavy_library(tmp_path: Path) -> None:
    """Start-up is paid by every command: pint, numpy, openpyxl, jinja2 and pydantic come when they are used.

    Where the file was read before, what reads rulesets, schedules, registers and data sheets is not loaded either.
    """
    (tmp_path / "small.clauses").write_text(
        'ruleset "Small"\n  speaks mechanical insulation\nclause 1 "Steam"\n  shall   service be steam\n',
        encoding="utf-8",
    )
    (tmp_path / "schedule.csv").write_text("Mark,Service\nA-1,steam\n", encoding="utf-8")
    heavy = "{'numpy', 'pint', 'openpyxl', 'jinja2', 'pydantic', 'python_calamine', 'rich'}"
    spared = "language.syntax.tree schedule.schedule schedule.data_sheets judge.examples toml_files report.sections"
    program = (
        "import sys; from speccheck.cli import speccheck;"
        "speccheck(['check', 'schedule.csv', '--against', 'small.clauses', '--quiet'], standalone_mode=False);"
        f"print(sorted({heavy} & set(sys.modules)));"
        f"print([one for one in {spared.split()} if 'speccheck.' + one in sys.modules])"
    )
    surroundings = {**os.environ, "SPECCHECK_CACHE": str(tmp_path / "cache")}
    for _ in range(2):
        ended = subprocess.run(
            [sys.executable, "-c", program], cwd=tmp_path, env=surroundings, capture_output=True, text=True, check=True
        )
        assert ended.stdout.splitlines()[-2] == "[]", ended.stdout
    assert ended.stdout.splitlines()[-1] == "[]", ended.stdout


WAITING = {
    "freezing_time",
    "least_count",
    "pipe_layer_permeance",
    "radiative_flux",
    "vapor_flux",
    "PERM",
    "PERM_INCH",
}
"""Formulas of moisture, freezing and radiation that stand ready, tested against their sources, for terms to come."""

BY_NAME = {"command", "routes", "bring_along"}
"""What is asked of modules that are themselves named in a list: commands, screens of the desk; and what the build of a
wheel calls."""


def test_nothing_public_is_there_for_tests_alone() -> None:
    """Each function, class and constant that a module offers is used in the package, beyond its own definition."""
    trees = {path: ast.parse(path.read_text("utf-8")) for path in sorted(PACKAGE.rglob("*.py"))}
    used = set(BY_NAME | WAITING | set(speccheck.__all__))
    for tree in trees.values():
        for top in tree.body:
            if _name_of(top) != "__all__":
                used |= _names_in(top) - {_name_of(top)}
    unused = [(path.stem, _name_of(top)) for path, tree in trees.items() for top in tree.body if _name_of(top)]
    assert [name for name in unused if name[1] not in used and not name[1].startswith("__")] == []


def _name_of(top: ast.stmt) -> str:
    """Return what a statement of a module defines, "" for nothing."""
    if isinstance(top, ast.FunctionDef | ast.ClassDef):
        return top.name
    targets = top.targets if isinstance(top, ast.Assign) else [top.target] if isinstance(top, ast.AnnAssign) else []
    return next((target.id for target in targets if isinstance(target, ast.Name)), "")


def _names_in(top: ast.stmt) -> set[str]:
    """Return the names that a statement reads; a text that is a name may be asked for by `getattr`."""
    found = {node.id for node in ast.walk(top) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load)}
    found |= {node.attr for node in ast.walk(top) if isinstance(node, ast.Attribute)}
    texts = {str(node.value) for node in ast.walk(top) if isinstance(node, ast.Constant)}
    return found | {text for text in texts if text.isidentifier()}


def test_what_a_test_says_of_all_it_says_of_some() -> None:
    """`all` of nothing is true: a test says it of a list written out, of a constant, or of `some` (`tests/some.py`).

    Tests of what is drawn, by hypothesis or by seeds, are free: of one draw there may be nothing to say.
    """
    found = [
        f"{path.name}:{call.lineno}"
        for path in sorted(Path(__file__).parent.rglob("test_*.py"))
        for test in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(test, ast.FunctionDef) and test.name.startswith("test_") and not _draws(test)
        for node in ast.walk(test)
        if isinstance(node, ast.Assert) and isinstance(call := node.test, ast.Call)
        if ast.unparse(call.func) == "all" and not _of_some(call.args[0], test)
    ]
    assert found == []


def _draws(test: ast.FunctionDef) -> bool:
    """Whether a test is called with what hypothesis or a seed has drawn."""
    given = any("given" in ast.unparse(decorator) for decorator in test.decorator_list)
    return given or any(argument.arg in ("seed", "seeds") for argument in test.args.args)


def _of_some(argument: ast.expr, test: ast.FunctionDef) -> bool:
    """Whether what `all` is asked of has something in it, as far as a look at the words shows."""
    if not isinstance(argument, ast.GeneratorExp):
        return True
    first = argument.generators[0]
    where = first.iter
    for node in ast.walk(test):
        if isinstance(node, ast.Assign) and isinstance(where, ast.Name) and ast.unparse(node.targets[0]) == where.id:
            where = node.value
    named = isinstance(where, ast.Name | ast.Attribute) and ast.unparse(where).split(".")[-1].strip("_").isupper()
    written = isinstance(where, ast.Tuple | ast.List | ast.Set | ast.Dict)
    called = isinstance(where, ast.Call) and ast.unparse(where.func) == "some"
    of_constant = isinstance(where, ast.Call) and ast.unparse(where.func).split(".")[0].isupper()
    return (named or written or called or of_constant) and not first.ifs


SHARED_NAMES = {"Attached", "ChangeKind", "Finding", "Reading", "Rules", "Source"}
"""Names of public classes that two modules still have."""


def test_names_of_public_classes_are_those_of_one_module() -> None:
    """One word, one thing: whoever reads a name of a class knows of which module it is."""
    modules: dict[str, set[str]] = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                modules.setdefault(node.name, set()).add(path.relative_to(PACKAGE).as_posix())
    assert {name for name, found in modules.items() if len(found) > 1} <= SHARED_NAMES
