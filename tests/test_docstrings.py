"""What the docstrings of functions say that take or give numbers: in what unit, in what shape, and what goes wrong."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from speccheck import physics, quantities

PACKAGE = Path(__file__).parents[1] / "speccheck"
FLOORS = ("quantities", "physics", "language", "schedule", "judge", "proofread", "review", "report")
NUMERIC = re.compile(r"\b(float|Array|Numbers|Quantity|NDArray|Flags)\b")
"""The types of numbers and of arrays of them."""

UNIT = re.compile(
    r"\b(SI|m|mm|K|Pa|s|[Mm]etres?|[Mm]illimet\w+|kelvins?|inch(es)?|seconds?|hours?|°C|°F|"
    r"ratio|share|tolerance|per ?cent|number of|counts?|plain numbers?|whole numbers?|units?|dimensions?|nominal|"
    r"lines?|yes or no|points?|pixels?|rows?|columns?|index)\b|W/|kg/|J/|/K\b|%|0 to 1|°"
)
"""How a docstring says in what its numbers are: a unit, that they have none, or what it is that is counted."""

SOURCE = re.compile(
    r"ASHRAE|ISO|ASTM|DIN|EN \d|ASME|Incropera|Churchill|Chandrupatla|IAPWS|Hyland|McAdams|from memory|"
    r"common practice|no source|definition|arithmetic|`tables/|numpy|chapter \d|SI constants"
)


def public_functions(floor: str) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Yield each public function and method of a floor with its place."""
    for path in sorted((PACKAGE / floor).rglob("*.py")):
        for top in ast.parse(path.read_text(encoding="utf-8")).body:
            inner = top.body if isinstance(top, ast.ClassDef) and not top.name.startswith("_") else [top]
            for one in inner:
                if isinstance(one, ast.FunctionDef) and not one.name.startswith("_"):
                    yield f"{path.relative_to(PACKAGE)}:{one.lineno} {one.name}", one


def _types(function: ast.FunctionDef) -> str:
    """Return the annotations of a function in one text."""
    arguments = [*function.args.args, *function.args.kwonlyargs]
    annotations = [*(one.annotation for one in arguments), function.returns]
    return " ".join(ast.unparse(one) for one in annotations if one is not None)


@pytest.mark.parametrize("floor", FLOORS)
def test_functions_of_numbers_say_in_what_unit(floor: str) -> None:
    """A number without its unit is the oldest fault of engineering; a plain number is said to be one."""
    found = [(place, one) for place, one in public_functions(floor) if NUMERIC.search(_types(one))]
    assert found
    assert [place for place, one in found if not UNIT.search(ast.get_docstring(one) or "")] == []


def test_formulas_name_their_source() -> None:
    """Each module of physics names, beside its formulas, the book or the standard that they come from."""
    modules = sorted((PACKAGE / "physics").rglob("*.py"))
    named = {path.stem for path in modules if SOURCE.search(path.read_text(encoding="utf-8"))}
    without_formulas = {"__init__", "calculation", "all", "ranges", "systems", "working", "numerics", "weather_words"}
    assert {path.stem for path in modules} - named <= without_formulas


def test_floors_say_what_shape_arrays_have_and_what_cannot_be_had() -> None:
    """What holds for every function of a floor is said once, where the floor is described."""
    for words in ("arrays of the same shape", "SI inside", "NaN, never a guess"):
        assert words in " ".join((physics.__doc__ or "").split())
    for words in ("SI inside", "Nothing here raises for a text that a user wrote"):
        assert words in " ".join((quantities.__doc__ or "").split())


@pytest.mark.parametrize("floor", FLOORS)
def test_functions_that_raise_say_so(floor: str) -> None:
    """Who calls a function learns from its docstring which errors it raises of its own."""
    silent = []
    for place, function in public_functions(floor):
        raised = {name for name in map(_raised, ast.walk(function)) if name}
        silent += [f"{place}: {name}" for name in raised if name not in (ast.get_docstring(function) or "")]
    assert silent == []


def _raised(node: ast.AST) -> str:
    """Return the name of the error that a statement raises, "" where it raises none or the one it has."""
    if not isinstance(node, ast.Raise) or node.exc is None:
        return ""
    error = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
    name = ast.unparse(error)
    return name if name[0].isupper() else ""
