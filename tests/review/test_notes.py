"""Notes of the reviewer: read, found again by what a line is, and kept from round to round."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.review.notes import Notes, keep_notes, read_notes, what_a_line_is
from speccheck.schedule.lines import Line
from speccheck.schedule.words import line_in_words

CLAUSES = """ruleset "small"
  speaks mechanical insulation

clause 1 "thick"
  shall thickness be at least 1 in

clause 2 "stops"
  shall vapor stop spacing be at most 15 ft
"""
NOTES = """[transmittal]
project = "An invented plant"
round = "2"
action = "the reviewer's word"

[[note]]
line = { service = "CHW", "pipe size" = "DN 50" }
clause = "1"
round = "1"
text = "Agreed \\"by telephone\\"."

[[note]]
line = { service = "chilled water", "pipe size" = "2 in" }
text = "See the riser."
"""


@pytest.fixture(scope="module")
def ruleset() -> Ruleset:
    """Return a ruleset of two clauses."""
    found = parse_ruleset(CLAUSES).ruleset
    assert found is not None
    return found


def line(words: str, ruleset: Ruleset) -> Line:
    """Return the line that states these words."""
    found, problems = line_in_words(words, ruleset.vocabulary, "inch-pound")
    assert problems == ()
    return found


def read(text: str, folder: Path, ruleset: Ruleset) -> Notes:
    """Return the notes that a text holds, which has to be usable."""
    path = folder / "notes.toml"
    path.write_text(text, encoding="utf-8")
    notes, problems = read_notes(path, ruleset)
    assert problems == ()
    assert notes is not None
    return notes


def test_notes_follow_what_a_line_is(tmp_path: Path, ruleset: Ruleset) -> None:
    """A note finds its line in other words, in other units and under another mark, and no other line."""
    notes = read(NOTES, tmp_path, ruleset)
    renamed = line("mark X-9, service chilled water, pipe size NPS 2, thickness 1/2 in", ruleset)
    other = line("mark P-1, service chilled water, pipe size 3 in", ruleset)
    assert [note.text for note in notes.of(renamed, "1", ruleset)] == ['Agreed "by telephone".']
    assert [note.text for note in notes.of(renamed, "", ruleset)] == ["See the riser."]
    assert notes.of(other, "1", ruleset) == ()


def test_kept_notes_are_the_old_ones_and_empty_new_ones(tmp_path: Path, ruleset: Ruleset) -> None:
    """What was noted is kept word for word; a comment without a note gets an empty one; read back it says the same."""
    notes = read(NOTES, tmp_path, ruleset)
    lines = [line(f"service chilled water, pipe size {size} in", ruleset) for size in (2, 3)]
    text = keep_notes(notes, [(lines[0], "1"), (lines[1], "2")], lines, ruleset)
    again = read(text, tmp_path, ruleset)
    assert again.notes[:2] == notes.notes
    assert again.transmittal == notes.transmittal
    assert [(note.text, note.clause, dict(note.words)) for note in again.notes[2:]] == [
        ("", "2", {"service": "chilled water", "pipe size": "3 in"})
    ]
    assert keep_notes(again, [(lines[0], "1"), (lines[1], "2")], lines, ruleset) == text


def test_mark_is_named_only_where_nothing_else_tells_lines_apart(ruleset: Ruleset) -> None:
    """Two lines for one system are told apart by their marks, others by what they are."""
    twins = [line(f"mark {mark}, service steam, pipe size 2 in", ruleset) for mark in ("A", "B")]
    alone = line("mark C, service steam, pipe size 3 in", ruleset)
    assert what_a_line_is(twins[0], [*twins, alone], ruleset) == {"mark": "A", "service": "steam", "pipe size": "2 in"}
    assert "mark" not in what_a_line_is(alone, [*twins, alone], ruleset)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "note = 1",
            "error[V402]: `note` cannot be `1`\n  at notes.toml:1:8\n  | note = 1\n  |        ^\n"
            "  help: write a table [[note]] for each note",
        ),
        (
            '[[note]]\nclause = "1"\ntext = "x"',
            "error[V402]: the key `note.line` is missing\n  at notes.toml:1:1\n  | [[note]]\n  | ^^^^^^^^\n"
            '  help: write `line`, what tells the line from others: line = { mark = "P-1" }',
        ),
        (
            '[[note]]\nline = { servise = "CHW" }\ntext = "x"',
            "error[V402]: the vocabulary has no term `servise`\n  at notes.toml:2:10\n"
            '  | line = { servise = "CHW" }\n  |          ^^^^^^^\n  help: did you mean `service`?',
        ),
        (
            '[[note]]\nline = { service = "CHW" }\nclause = "3"\ntext = "x"',
            "error[V402]: the ruleset has no clause `3`\n  at notes.toml:3:10\n"
            '  | clause = "3"\n  |          ^^^\n  help: name a clause by its number in the matrix',
        ),
        (
            '[[note]]\nline = { service = "CHW" }\ntxt = "x"',
            "error[V402]: there is no key `note.txt`\n  at notes.toml:3:1\n"
            '  | txt = "x"\n  | ^^^\n  help: did you mean `text`?',
        ),
        (
            "[transmittal]\ndate = 2026-03-04",
            "error[V402]: `transmittal.date` cannot be `2026-03-04`\n  at notes.toml:2:8\n"
            "  | date = 2026-03-04\n  |        ^^^^^^^^^^\n"
            '  help: write it in quotation marks: "2026-03-04"',
        ),
    ],
)
def test_mistakes_are_told(text: str, told: str, tmp_path: Path, ruleset: Ruleset) -> None:
    """A file of notes that cannot be used is refused with what to write instead."""
    path = tmp_path / "notes.toml"
    path.write_text(text, encoding="utf-8")
    notes, problems = read_notes(path, ruleset)
    assert notes is None
    assert "\n\n".join(map(str, problems)) == told


def test_file_that_cannot_be_read(tmp_path: Path, ruleset: Ruleset) -> None:
    """Text that is no TOML, no text at all, and a file that is not there are refused, never a traceback."""
    for name, content in (("a.toml", b"[[note"), ("b.toml", b"\xff\xfe\x00")):
        (tmp_path / name).write_bytes(content)
    for name in ("a.toml", "b.toml", "c.toml"):
        notes, problems = read_notes(tmp_path / name, ruleset)
        assert notes is None
        assert [problem.code for problem in problems] == ["V401"]


def test_byte_order_mark_is_no_part_of_the_notes(tmp_path: Path, ruleset: Ruleset) -> None:
    """A file that an editor has saved with a byte-order mark holds the same notes."""
    assert read("\ufeff" + NOTES, tmp_path, ruleset) == read(NOTES, tmp_path, ruleset)


def test_kept_file_is_toml_whatever_the_notes_say(tmp_path: Path, ruleset: Ruleset) -> None:
    """Quotation marks, backslashes, line ends and control codes in a note do not break the file."""
    nasty = 'a "b" \\ c\nd\x07\x7f'
    text = f'[[note]]\nline = {{ service = "CHW" }}\ntext = {_toml(nasty)}'
    notes = read(text, tmp_path, ruleset)
    kept = keep_notes(notes, [], [], ruleset)
    assert tomllib.loads(kept)["note"][0]["text"] == nasty


def _toml(text: str) -> str:
    return '"' + "".join(f"\\u{ord(character):04x}" for character in text) + '"'


@pytest.mark.parametrize(
    "value",
    ["2026-02-30", "0000-01-01", "99999-01-01", "1979-05-27T25:00:00", "1979-05-27T07:32:00+99:00", "07:32:00", "nan",
     "9" * 400, "-1", "[2026-01-01]", '"\\ud800"'],
)  # fmt: skip
def test_odd_dates_and_numbers_are_told(value: str, tmp_path: Path, ruleset: Ruleset) -> None:
    """Days that no calendar has, times, numbers of 400 digits and halves of signs are told."""
    path = tmp_path / "notes.toml"
    path.write_text(f'[transmittal]\ndate = {value}\n\n[[note]]\nclause = "1"\ntext = {value}\n', encoding="utf-8")
    notes, problems = read_notes(path, ruleset)
    assert notes is None
    assert problems[0].code in ("V401", "V402")
    assert problems[0].place.line == 2
