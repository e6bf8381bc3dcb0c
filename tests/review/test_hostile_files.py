"""Registers, design lists and product data with anything in them: diagnostics, and never an exception."""

from __future__ import annotations

import string
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.review.conditions import read_condition
from speccheck.review.deviations import Register, read_register
from speccheck.review.reviewing import review_matrix
from speccheck.schedule import read_schedule
from tests.review.rounds import matrix_of, plant, ruleset

SOME_WORDS = """pipe size is at least one of most 2 in 44 F glycol cold and or not ( ) , service thickness location
outdoor given between from to shall where clause define table -- " \\ = == | TBD none 1/2 -3 ½ ″ ruleset NaN 1e9"""
WORDS = st.sampled_from(SOME_WORDS.split())
CONDITIONS = st.lists(WORDS, max_size=12).map(" ".join) | st.text(max_size=40)
TOML_VALUES = st.recursive(
    st.sampled_from(['"text"', '""', "3", "-1.5", "true", "2026-02-28", "2026-02-28T10:00:00", "nan", "inf"])
    | st.text(string.ascii_letters + " '=<|", max_size=12).map(lambda text: f'"{text}"'),
    lambda inner: (
        st.lists(inner, max_size=2).map(lambda parts: f"[{', '.join(parts)}]")
        | inner.map(lambda part: f"{{ name = {part} }}")
    ),
    max_leaves=3,
)
KEYS = st.sampled_from(["name", "clause", "lines", "reason", "reference", "until", "Until", "product", "conductivity"])


@settings(max_examples=300, deadline=None)
@given(CONDITIONS)
def test_any_text_is_a_condition_or_is_told_why_not(text: str) -> None:
    """Whatever stands for a condition, it is one, or there is at least one error in the file at its line."""
    found = read_condition(text, ruleset(), Place("deviations.toml", 4, 10))
    if isinstance(found, tuple):
        assert found
        assert all(isinstance(one, Diagnostic) and one.place.file == "deviations.toml" for one in found)
        assert all(one.place.line == 4 and one.place.column >= 10 for one in found)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.dictionaries(KEYS, TOML_VALUES, max_size=6), max_size=3), st.sampled_from(["deviation", "product"]))
def test_any_toml_is_a_register_or_is_told_why_not(entries: list[dict[str, str]], name: str) -> None:
    """Whatever the tables hold, there is a register or there are errors, and product data never raise either."""
    blocks = ("\n".join([f"[[{name}]]", *(f"{key} = {value}" for key, value in one.items())]) for one in entries)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "any.toml"
        path.write_text("\n\n".join(blocks), encoding="utf-8")
        register, problems = read_register(path, ruleset())
        assert isinstance(register, Register) is not bool(problems)
        sheet = read_schedule(path, ruleset().vocabulary)
        if sheet.lines:
            review_matrix(matrix_of(plant()[:2]), design=sheet, products=sheet, register=register)
        else:
            assert sheet.diagnostics
