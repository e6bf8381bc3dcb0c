"""English in sentences: numbers with their nouns, lists, and the name that was meant."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from speccheck.english import NUMBER_WORDS, agree, capitalized, count, did_you_mean, first_of, listed, noun

PACKAGE = Path(__file__).parents[1] / "speccheck"


@pytest.mark.parametrize(
    ("number", "words"), [(0, "0 lines were"), (1, "1 line was"), (2, "2 lines were"), (12_000, "12,000 lines were")]
)
def test_a_noun_and_its_verb_go_with_the_number(number: int, words: str) -> None:
    """Only one is singular, thousands are grouped."""
    assert f"{count(number, 'line')} {agree(number, 'was', 'were')}" == words


def test_an_irregular_plural_is_given() -> None:
    """No rule of spelling is guessed."""
    assert [noun(number, "this line", "these lines") for number in (1, 2)] == ["this line", "these lines"]


def test_lists_have_a_word_before_the_last() -> None:
    """And a list of many names the first and says how many more; one more is named instead."""
    assert [listed(words) for words in ((), "a", "ab", "abc")] == ["", "a", "a and b", "a, b and c"]
    assert listed("ab", "or") == "a or b"
    assert [first_of("abcd", most) for most in (2, 3, 4)] == ["a, b and 2 more", "a, b, c and d", "a, b, c and d"]


def test_a_sentence_begins_with_a_capital_letter() -> None:
    """The first letter alone is changed, and a text of nothing stays one."""
    assert [capitalized(words) for words in ("", "a", "an ASTM standard", "über", "1 line")] == [
        "", "A", "An ASTM standard", "Über", "1 line"
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("word", "number"),
    [
        *(("one", 1), ("nine", 9), ("ten", 10), ("twelve", 12), ("fifteen", 15), ("eighteen", 18), ("nineteen", 19)),
        *(("twenty", 20), ("twenty-four", 24), ("thirty-six", 36), ("forty", 40), ("ninety-nine", 99)),
    ],
)
def test_a_number_word_is_its_number(word: str, number: int) -> None:
    """Words that sections write for numbers, as English spells them."""
    assert NUMBER_WORDS[word] == number


def test_each_number_to_ninety_nine_has_one_word() -> None:
    """No number from 1 to 99 is missing, and none has two words."""
    assert sorted(NUMBER_WORDS.values()) == list(range(1, 100))


def test_the_name_that_was_meant() -> None:
    """The nearest is asked for; where none is near, the help says something else."""
    assert did_you_mean("thicknes", ["service", "thickness"]) == "did you mean `thickness`?"
    assert did_you_mean("thicknes", ["thickness"], shown="{} ...") == "did you mean `thickness ...`?"
    assert did_you_mean("color", ["service", "thickness"], "name a term") == "name a term"


def _is_number_of_one(node: ast.AST) -> bool:
    """Whether a choice between two texts is made by whether something is one."""
    match node:
        case ast.IfExp(body, ast.Compare(_, [ast.Eq()], [ast.Constant(value=1)]), orelse):
            return all(isinstance(one, ast.JoinedStr | ast.Constant) for one in (body, orelse)) and (
                isinstance(getattr(body, "value", ""), str) and isinstance(getattr(orelse, "value", ""), str)
            )
    return False


def test_no_other_module_forms_plurals_or_asks_what_was_meant() -> None:
    """Each sentence with a number or a near name draws on this one module."""
    for path in PACKAGE.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        if path.name == "english.py":
            continue
        assert "did you mean" not in text, path
        assert [node.lineno for node in ast.walk(ast.parse(text)) if _is_number_of_one(node)] == [], path
