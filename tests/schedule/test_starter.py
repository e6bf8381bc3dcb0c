"""Open questions and the starter of a mapping file: each question once, and answered it is settled."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from speccheck.schedule import read_mapping
from speccheck.schedule.questions import Question, QuestionKind, questions_of
from speccheck.schedule.starter import UNANSWERED, starter_mapping
from speccheck.schedule.what_was_read import WhatWasRead, what_was_read
from tests.schedule.building import small_vocabulary, write_workbook

ENTRY = re.compile(r'^(\s*)# (?=[\w"-])', re.MULTILINE)
"""Where an entry of a starter is commented: a single number sign before a key or a text."""

ROWS = """
Piping schedule
Mark | Svc | Thk | Size | Weight | Finish (see A-1) | Jacket | Jacket
A | CHW | 1 | 2 in | heavy | PVC | PVC | PVC
B | Chilled Wtr | 1 | 3 in | heavy | PVC | PVC | aluminum
C | Chilled Wtr | 2 | 4 in | light | PVC | PVC | PVC
All valves by others"""


def read(path: Path, mapping: Path | None = None) -> WhatWasRead:
    """Read a file with the small vocabulary."""
    settled, problems = read_mapping(mapping, small_vocabulary()) if mapping is not None else (None, ())
    assert problems == ()
    return what_was_read(path, small_vocabulary(), settled)


def answered(starter: str, answers: dict[str, str]) -> str:
    """Return a starter with every entry uncommented, and the answers that are not likely ones put in."""
    text = ENTRY.sub(r"\1", starter)
    for key, answer in answers.items():
        text = text.replace(f'"{key}" = "{UNANSWERED}"', f'"{key}" = "{answer}"')
    return text


def book(tmp_path: Path, rows: str = ROWS) -> Path:
    """Write a workbook that leaves one question of most kinds open."""
    path = tmp_path / "book.xlsx"
    old = {"name": "Old list", "rows": "just | some | words\nand | more | words"}
    write_workbook(path, [{"name": "Lines", "rows": rows.strip("\n")}, old])
    return path


def short(question: Question) -> tuple[str, str, int]:
    """Return what a question is about in short."""
    return question.kind, question.key, question.lines


def test_questions_by_cause_most_lines_first(tmp_path: Path) -> None:
    """Each cause is one question with the lines that its answer settles, however many cells it has."""
    assert [short(one) for one in questions_of(read(book(tmp_path)))] == [
        ("units", "units", 3),
        ("columns", "Weight", 3),
        ("columns", "Finish (see A-1)", 3),
        ("values", "Chilled Wtr", 2),
        ("ignore", "H", 1),
        ("ignore-sheets", "Old list", 0),
        ("seen", "All valves by others", 0),
    ]


def test_a_starter_by_itself_settles_nothing(tmp_path: Path) -> None:
    """As it is written the starter is a mapping file that changes nothing."""
    path = book(tmp_path)
    before = questions_of(read(path))
    (tmp_path / "map.toml").write_text(starter_mapping("book.xlsx", before), encoding="utf-8")
    after = read(path, tmp_path / "map.toml")
    assert questions_of(after) == before
    assert after.schedule.cells == read(path).schedule.cells


def test_an_answered_starter_settles_everything(tmp_path: Path) -> None:
    """The entries uncommented and answered leave no question, round by round as more is read."""
    path, mapping = book(tmp_path), tmp_path / "map.toml"
    starter = starter_mapping("book.xlsx", questions_of(read(path)))
    text = answered(starter, {"Weight": "notes"})
    for column in ("Weight", "Finish (see A-1)"):  # of which more is said below
        text = text.replace(f'    "{column}",\n', "")
    mapping.write_text(text, encoding="utf-8")
    second = questions_of(read(path, mapping))
    assert [short(one) for one in second] == [("seen", "heavy", 2), ("seen", "light", 1)]
    more = re.search(r"seen = \[(.*?)\]", answered(starter_mapping("book.xlsx", second), {}), re.DOTALL)
    assert more is not None
    mapping.write_text(text.replace("seen = [", f"seen = [{more[1]}"), encoding="utf-8")
    assert questions_of(read(path, mapping)) == ()


def test_a_file_without_a_header_is_asked_for_one(tmp_path: Path) -> None:
    """Where no row reads as a header, the starter asks which it is, and what each of its columns is."""
    path, mapping = tmp_path / "lines.csv", tmp_path / "map.toml"
    path.write_text("Leitung,Wanddicke,Lage\nCHW,1 in,outdoor\nHHW,2 in,outdoor\n", encoding="utf-8")
    questions = questions_of(read(path))
    assert [short(one) for one in questions] == [
        ("header-row", "1", 2),
        ("columns", "Leitung", 2),
        ("columns", "Wanddicke", 2),
        ("columns", "Lage", 2),
    ]
    assert [one.likely for one in questions] == [(), ("service",), (), ("location",)]
    text = answered(starter_mapping("lines.csv", questions), {"Wanddicke": "thickness"})
    mapping.write_text(re.sub(r"ignore = \[.*?\]", "", text, flags=re.DOTALL), encoding="utf-8")
    after = read(path, mapping)
    assert questions_of(after) == ()
    assert [str(line.data["thickness"].value) for line in after.schedule.lines] == ["1 in", "2 in"]


def test_hidden_rows_are_asked_for(tmp_path: Path) -> None:
    """`read-hidden` is the answer to rows that are hidden."""
    path, mapping = tmp_path / "book.xlsx", tmp_path / "map.toml"
    rows = "Mark | Service | Thk (in)\nA | CHW | 1\nB | HHW | 2"
    write_workbook(path, [{"name": "Lines", "rows": rows, "hidden_rows": [3]}])
    questions = questions_of(read(path))
    assert [short(one) for one in questions] == [("read-hidden", "true", 0)]
    mapping.write_text(answered(starter_mapping("book.xlsx", questions), {}), encoding="utf-8")
    after = read(path, mapping)
    assert (questions_of(after), len(after.schedule.lines)) == ((), 2)


def test_wants_of_the_clauses_stand_among_the_constants() -> None:
    """Terms that clauses ask for and no line states are offered as constants, without an answer."""
    assert starter_mapping("lines.csv", (), ("location",)).endswith(
        '[constants]\n# "location" = "?"\n\n## Nothing is open: every cell was read.\n'
    )


_TEXTS = st.text(st.characters(codec="utf-8", exclude_characters="|\r\x00"), min_size=1, max_size=30).map(str.strip)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
@given(st.lists(_TEXTS, min_size=1, max_size=4, unique=True))
def test_whatever_a_contractor_writes_the_starter_can_be_answered(tmp_path: Path, texts: list[str]) -> None:
    """Quotation marks, number signs, line breaks and stars in a cell come back as they are in the entry for it."""
    path, mapping = tmp_path / "lines.json", tmp_path / "map.toml"
    import json

    path.write_text(json.dumps([{"mark": "A", "service": text, "thk (in)": 1} for text in texts]), encoding="utf-8")
    questions = [one for one in questions_of(read(path)) if one.kind is QuestionKind.WORDS]
    text = answered(starter_mapping("lines.json", questions), {})
    text = re.sub(r'= "(?:\?|[a-z ]+)"$', '= "chilled water"', text, flags=re.MULTILINE)
    mapping.write_text(text, encoding="utf-8")
    settled, problems = read_mapping(mapping, small_vocabulary())
    if settled is None:  # a text that is hardly more than stars is told to be too wide
        assert all("nearly every text" in problem.message for problem in problems)
        return
    after = what_was_read(path, small_vocabulary(), settled)
    assert [one for one in questions_of(after) if one.kind is QuestionKind.WORDS] == []


@pytest.mark.parametrize("text", ['# = "x"', "a\nb", 'say "yes"', "C:\\x", "*", "\x7f"])
def test_odd_texts_are_quoted(text: str) -> None:
    """A text comes back from TOML as it went in."""
    import tomllib

    from speccheck.schedule.starter import quoted

    assert tomllib.loads(f"x = {quoted(text)}") == {"x": text}
