"""Parsing: every node has its place, and each construct comes to the node that says it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.language.format.house_style import format_syntax, format_text
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText, read_source
from speccheck.language.syntax.tree import (
    CalculationSyntax,
    ClauseSyntax,
    Compared,
    ConditionPart,
    ConditionSyntax,
    ExamplePart,
    FileSyntax,
    Including,
    Joined,
    Measure,
    Not,
    RulesetSyntax,
    SourcePart,
    Stated,
    TableSyntax,
    TermSyntax,
    VocabularySyntax,
    Words,
)
from tests.strategies.syntax import files, other_layouts

SHIPPED = sorted((Path(__file__).parents[2] / "rulesets").rglob("*.clauses"))


def tree_of(text: str) -> FileSyntax:
    """Return the tree of a text without mistakes."""
    syntax, diagnostics = parse(SourceText("text.clauses", text))
    assert not diagnostics, "\n".join(map(str, diagnostics))
    assert syntax is not None
    return syntax


def nodes_of(node: object) -> Iterator[Words | Measure]:
    """Yield the names, texts and quantities inside a node."""
    if isinstance(node, Words | Measure):
        yield node
    elif isinstance(node, tuple):
        for part in node:
            yield from nodes_of(part)
    elif is_dataclass(node):
        for one in fields(node):
            yield from nodes_of(getattr(node, one.name))


def assert_places(text: str) -> None:
    """Check that at the place of each name, text and quantity stands what the node says, up to the line's end."""
    lines = text.split("\n")
    for node in nodes_of(tree_of(text)):
        place = node.place
        there = lines[place.line - 1][place.column - 1 :][: place.length]
        said = node.text + (" difference" if isinstance(node, Measure) and node.difference else "")
        plain = " ".join(there.replace('"', " ").split())
        inch_marks_apart = " ".join(said.replace('"', " ").split())
        assert plain or not said.strip(), node
        assert inch_marks_apart.startswith(plain), (node, there)


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_places_in_shipped_files(path: Path) -> None:
    """In the shipped files every name, text and quantity stands where its node says."""
    source = read_source(path)
    assert isinstance(source, SourceText)
    assert_places(source.text)


@given(files, st.data())
@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
def test_places_in_any_layout(tree: FileSyntax, data: st.DataObject) -> None:
    """So it is in random files, however they are laid out."""
    text = data.draw(other_layouts(format_syntax(tree)))
    # A name in several pieces may have a comment between them, which its place covers.
    assert_places(text.replace(" -- a remark", "").replace("   -- indented", ""))


# ---- conditions --------------------------------------------------------------------------------------------------


def w(text: str) -> Words:
    """Return a name."""
    return Words(text)


def m(text: str) -> Measure:
    """Return a quantity."""
    return Measure(text)


CONDITIONS: dict[str, ConditionSyntax] = {
    "a": Stated(w("a")),
    "not a or b and c": Joined("or", (Not(Stated(w("a"))), Joined("and", (Stated(w("b")), Stated(w("c")))))),
    "not (a or b) and c": Joined("and", (Not(Joined("or", (Stated(w("a")), Stated(w("b"))))), Stated(w("c")))),
    "a b is c d": Compared(w("a b"), "is", (w("c d"),)),
    "a are not c": Compared(w("a"), "is not", (w("c"),)),
    "a be under 1 in": Compared(w("a"), "is less than", (m("1 in"),)),
    "a is more than 1 in": Compared(w("a"), "is more than", (m("1 in"),)),
    "a is over 1 in": Compared(w("a"), "is more than", (m("1 in"),)),
    "a is over 1 in to 2 in": Compared(w("a"), "is over to", (m("1 in"), m("2 in"))),
    "a is from 1 in to 2 in": Compared(w("a"), "is between", (m("1 in"), m("2 in"))),
    "a is from 1 in to under 2 in": Compared(w("a"), "is from to under", (m("1 in"), m("2 in"))),
    "a is between 1 in and 2 in and b": Joined(
        "and", (Compared(w("a"), "is between", (m("1 in"), m("2 in"))), Stated(w("b")))
    ),
    "a is one of b, 2 in, c d": Compared(w("a"), "is one of", (w("b"), m("2 in"), w("c d"))),
    "a is not one of b": Compared(w("a"), "is not one of", (w("b"),)),
    "a is given and b is not given": Joined(
        "and", (Compared(w("a"), "is given", ()), Compared(w("b"), "is not given", ()))
    ),
    "a includes any of b, c": Including(w("a"), "include any of", (w("b"), w("c"))),
    "a exclude b": Including(w("a"), "exclude", (w("b"),)),
    "a is b plus c minus d times e": Compared(
        w("a"),
        "is",
        (
            CalculationSyntax(
                "minus", CalculationSyntax("plus", w("b"), w("c")), CalculationSyntax("times", w("d"), w("e"))
            ),
        ),
    ),
    "a is larger of b and smaller of c and d": Compared(
        w("a"), "is", (CalculationSyntax("larger of", w("b"), CalculationSyntax("smaller of", w("c"), w("d"))),)
    ),
    "a minus b is at least 10 F difference": Compared(
        CalculationSyntax("minus", w("a"), w("b")), "is at least", (Measure("10 F", True),)
    ),
    '"is it" is "to be"': Compared(w("is it"), "is", (w("to be"),)),
    "a is none": Compared(w("a"), "is", (w("none"),)),
    "1-1/2 in is at most a": Compared(m("1-1/2 in"), "is at most", (w("a"),)),
    'a is 4"': Compared(w("a"), "is", (m('4"'),)),
}


def clause_of(parts: str) -> ClauseSyntax:
    """Return the only clause of a ruleset."""
    tree = tree_of(f'ruleset "a"\nclause 1 "b"\n{parts}\n')
    assert isinstance(tree, RulesetSyntax)
    (clause,) = tree.items
    assert isinstance(clause, ClauseSyntax)
    return clause


@pytest.mark.parametrize("written", CONDITIONS)
def test_condition(written: str) -> None:
    """Each way to say a condition comes to one node; `and` binds before `or`, products before sums."""
    assert clause_of(f"where {written}").parts == (ConditionPart("where", CONDITIONS[written]),)


@pytest.mark.parametrize(
    ("written", "confidence"),
    [
        ("", ""),
        ("seen", "seen"),
        ("second hand", "second hand"),
        ("seen second hand", "second hand"),
        ("from memory", "from memory"),
        ("common practice", "common practice"),
        ("common practice, no source", "common practice"),
        ("computed", "computed"),
    ],
)
def test_source(written: str, confidence: str) -> None:
    """A source says how sure it is, in the words that a specification writer would use."""
    assert clause_of(f'source "b" {written}').parts == (SourcePart(w("b"), confidence),)


@pytest.mark.parametrize("verdict", ["complies", "complies against advice", "fails", "does not apply", "cannot tell"])
@pytest.mark.parametrize("space", [" ", "\n   "])
def test_example(verdict: str, space: str) -> None:
    """An example has its verdict and its data, on its own line or on the next, running on behind a comma."""
    clause = clause_of(
        f'example "t" {verdict}{space}thickness 1-1/2 in, vapor stop locations a and b,\n  mark "A" (old)'
    )
    data = ("thickness 1-1/2 in", "vapor stop locations a and b", 'mark "A" (old)')
    assert clause.parts == (ExamplePart(w("t"), verdict, tuple(map(w, data))),)


def test_strings_run_over_lines() -> None:
    """White space in a text counts as one blank, so that texts can be wrapped."""
    clause = clause_of('wording "one\n      two   three"')
    assert [node.text for node in nodes_of(clause.parts)] == ["one two three"]


BANDS = {
    "under 2 in": ("under", "2 in"),
    "up to 2 in": ("up to", "2 in"),
    "2 in and under": ("up to", "2 in"),
    "2 in": ("only", "2 in"),
    "2 in to 4 in": ("to", "2 in", "4 in"),
    "2 in through 4 in": ("to", "2 in", "4 in"),
    "2 in to under 4 in": ("to under", "2 in", "4 in"),
    "over 2 in to 4 in": ("over to", "2 in", "4 in"),
    "over 2 in to under 4 in": ("over to under", "2 in", "4 in"),
    "2 in and over": ("and over", "2 in"),
    "over 2 in": ("over", "2 in"),
    "steam ,chilled water": ("choices", "steam", "chilled water"),
    'under 4"': ("under", '4"'),
    '"in, out"': ("choices", "in, out"),
}


@pytest.mark.parametrize("written", BANDS)
def test_band(written: str) -> None:
    """Each way to head a row comes to its form and its values, inch marks and quotation marks included."""
    tree = tree_of(f'ruleset "a"\ntable b in in\n  by c\n  {written} | 1 -- a comment\n')
    assert isinstance(tree, RulesetSyntax)
    (table,) = tree.items
    assert isinstance(table, TableSyntax)
    (row,) = table.rows
    assert (row.bands[0].form, *(value.text for value in row.bands[0].values)) == BANDS[written]
    assert row.cells == (m("1"),)


def test_choices_by_commas_and_by_lines() -> None:
    """Values of a list are parted by commas, or by what is said of them."""
    tree = tree_of('vocabulary "a"\nterm b one of c d, e,\n  f also "g", "h" means "i"\n  none\n')
    assert isinstance(tree, VocabularySyntax)
    (term,) = tree.items
    said = [(choice.name.text, [also.text for also in choice.also]) for choice in term.choices]  # type: ignore[union-attr]
    assert said == [("c d", []), ("e", []), ("f", ["g", "h"]), ("none", [])]


def test_values_on_lines_of_their_own_need_no_comma() -> None:
    """Each line of a list of values is a value, with a comma behind it or without, and is written with one."""
    text = 'vocabulary "v"\n\nterm jacket\n  one of\n'
    text += '    stainless steel\n    PVC,\n    aluminum\n      also "alu"\n    none\n'
    syntax, diagnostics = parse(SourceText("v", text))
    assert diagnostics == ()
    assert isinstance(syntax, VocabularySyntax)
    (term,) = syntax.items
    assert isinstance(term, TermSyntax)
    assert [one.name.text for one in term.choices] == ["stainless steel", "PVC", "aluminum", "none"]
    place = term.choices[0].name.place
    assert (place.line, place.column, place.length) == (5, 5, 15)
    formatted = format_text(SourceText("v", text))
    assert isinstance(formatted, str)
    assert parse(SourceText("v", formatted))[0] == syntax
