"""Damaged text: never an exception, never a name of the parser's own, every place inside the file."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.language import parse_ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.resolve.vocabularies import resolve_vocabulary
from speccheck.language.syntax.parsing import clause_parser, parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import VocabularySyntax

HERE = Path(__file__).parent
LAYOUTS = HERE / "layouts"
RULESETS = Path(__file__).parents[2] / "rulesets"
TEXTS = sorted(
    [*RULESETS.rglob("*.clauses"), *LAYOUTS.glob("*.clauses"), *(HERE / "mistakes").glob("L[1-5]0[1-3]*.clauses")]
)
SNIPPETS = [
    '"',
    "|",
    ",",
    "(",
    ")",
    "--",
    "\n",
    "is",
    "to",
    "clause",
    "shall",
    "where",
    "1-1/2",
    '1"',
    ">=",
    "é",
    "\t",
    "¬",
]

damage = st.tuples(st.floats(0, 1, exclude_max=True), st.integers(0, 12), st.sampled_from(["", *SNIPPETS]))


@cache
def beginning_of(path: Path) -> str:
    """Return the first lines of a file, whole items of it, so that each run is quick."""
    lines = path.read_text(encoding="utf-8").split("\n")
    ends = [number for number, line in enumerate(lines) if not line and number <= 90]
    return "\n".join(lines[: (ends or [90])[-1]])


@cache
def terminal_names() -> re.Pattern[str]:
    """Return what the parser calls its tokens, but for words that a text may hold in capitals."""
    names = [terminal.name for terminal in clause_parser().terminals]
    return re.compile(rf"\b(?:{'|'.join(names)}|__\w+|[A-Z]+_[A-Z_]+)\b|<lark|Token\(|Tree\(")


def told(text: str) -> tuple[Diagnostic, ...]:
    """Return everything there is to say about a text, be it a ruleset or a vocabulary."""
    source = SourceText("text.clauses", text)
    syntax, diagnostics = parse(source)
    if isinstance(syntax, VocabularySyntax):
        return (*diagnostics, *resolve_vocabulary(syntax, source)[1])
    return parse_ruleset(text, "text.clauses", HERE / "mistakes").diagnostics


def assert_well_said(text: str) -> None:
    """Check that diagnostics of a text lie in it and speak of it in words of the language."""
    lines = text.split("\n")
    for found in told(text):
        if found.place.file != "text.clauses":
            continue
        place = found.place
        assert 1 <= place.line <= len(lines), found
        assert 1 <= place.column <= len(lines[place.line - 1]) + 1, found
        assert place.length >= 1, found
        assert place.column - 1 + place.length <= max(len(lines[place.line - 1]), place.column), found
        own_words = re.sub(r"`[^`]*`", "", f"{found.message} {found.help}")
        assert not terminal_names().search(own_words), found


@given(st.sampled_from(TEXTS), st.lists(damage, min_size=1, max_size=4))
@settings(deadline=None, max_examples=300, suppress_health_check=[HealthCheck.too_slow])
def test_damaged_characters(path: Path, wounds: list[tuple[float, int, str]]) -> None:
    """Characters taken out of a file, and others put in, give diagnostics in plain words with places in the file."""
    text = beginning_of(path)
    for share, length, snippet in wounds:
        start = int(share * len(text))
        text = text[:start] + snippet + text[start + length :]
    assert_well_said(text)


@given(st.sampled_from(TEXTS), st.lists(damage, min_size=1, max_size=3))
@settings(deadline=None, max_examples=200, suppress_health_check=[HealthCheck.too_slow])
def test_damaged_words(path: Path, wounds: list[tuple[float, int, str]]) -> None:
    """Whole words taken out of a file, put in or put in another's place give diagnostics in plain words as well."""
    words = re.findall(r"\s+|[^\s\w]|\w+", beginning_of(path))
    for share, length, snippet in wounds:
        start = int(share * len(words))
        words[start : start + length % 3] = [f" {snippet} "] if snippet else []
    assert_well_said("".join(words))


@given(st.text(alphabet='abis tohel\n"|,()-1/2"½clausewherethick', max_size=200))
@settings(deadline=None)
def test_any_text(text: str) -> None:
    """Text that has little to do with the language is told from it without an exception."""
    assert_well_said(text)
    assert_well_said(f'ruleset "a"\n  speaks plain terms\n\nclause 1 "b"\n  shall {text}')


@pytest.mark.parametrize("count", [70])
def test_errors_come_to_an_end(count: int) -> None:
    """A file in which nearly every line is wrong is given up after a while, with the errors found until then."""
    clauses = "\n".join(f'clause {number} "a"\n  shall ! {number}' for number in range(count))
    found = told(f'ruleset "a"\n  speaks plain terms\n{clauses}\n')
    assert len(found) == 60
    assert {one.code for one in found} == {"L101"}


def test_one_mistake_is_told_once() -> None:
    """What a part with a mistake would have brought is not told as a mistake of those that count on it."""
    text = (
        'ruleset "a"\n  speaks plain terms\n\n'
        "define cold\n  as operating temperature under 60 F\n\n"
        "table needed in in\n  by service\n  steam | 1 or 2\n\n"
        'clause 1 "b"\n  where cold\n  shall thickness be at least needed\n'
    )
    assert [(one.code, one.place.line) for one in told(text)] == [("L101", 5), ("L405", 9)]


def test_list_that_goes_on_is_no_misspelt_keyword() -> None:
    """A line that goes on behind a comma may begin with a word that is nearly a keyword."""
    text = (
        'ruleset "a"\n  speaks mechanical insulation\n\nclause 1 "b"\n'
        "  where service is one of chilled water,\n        heating hot water\n  shall thickness be at least 1 in\n"
    )
    assert told(text) == ()
