"""The reviewer's own notes to lines and clauses, kept from round to round; with empty ones for comments that have none
yet.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.english import nearest
from speccheck.judge.operations import Rules
from speccheck.language.clause_names import clauses_by_name
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic, in_order
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value, write_value
from speccheck.quantities import Misread
from speccheck.review.messages.registers import BAD_NOTES, NOTE_ENTRY, NOTE_NOT_READ, NOTE_OF_NO_CLAUSE, NOTE_OF_NO_TERM
from speccheck.review.products import same
from speccheck.review.system_extent import SystemTerms
from speccheck.schedule.lines import Line
from speccheck.toml_files import FileKind, TomlText, read_toml_file

if TYPE_CHECKING:
    from speccheck.review.file_shapes import NoteEntry

TRANSMITTAL = ("project", "submittal", "round", "from", "to", "date", "action")
_KIND = FileKind(BAD_NOTES, NOTE_ENTRY, "write a table [transmittal] and a table [[note]] for each note")


@dataclass(frozen=True, slots=True)
class Note:
    """One note: its text, the values that its line states and their words, the clause ("" for the whole line).

    `round` says in which round it was written, "" where that is not said; `status` is a word of the reviewer's own.
    """

    text: str
    line: Mapping[str, Value | NotGiven]
    words: Mapping[str, str]
    clause: str = ""
    round: str = ""
    status: str = ""

    def is_for(self, line: Line, ruleset: Ruleset) -> bool:
        """Say whether a line states all that the note says of its line."""
        rules = Rules.of(ruleset)
        return all(
            name in line.data and same(value, line.data[name].value, ruleset.vocabulary.terms[name], rules)
            for name, value in self.line.items()
        )


@dataclass(frozen=True)
class Notes:
    """A file of notes, and what the reply says of itself."""

    name: str = ""
    notes: tuple[Note, ...] = ()
    transmittal: Mapping[str, str] = field(default_factory=dict)

    def of(self, line: Line, clause: str, ruleset: Ruleset) -> tuple[Note, ...]:
        """Return the notes to a clause on a line, "" for the line as a whole, in the order of the file."""
        return tuple(note for note in self.notes if note.clause == clause and note.is_for(line, ruleset))


def read_notes(path: Path, ruleset: Ruleset) -> tuple[Notes | None, tuple[Diagnostic, ...]]:
    """Return the notes of a file, None where it cannot be used, and what is wrong with it."""
    from speccheck.review.file_shapes import NotesFile

    file, problems = read_toml_file(path, NotesFile, _KIND)
    if file is None:
        return None, problems
    faults: list[Diagnostic] = []
    found: list[Note] = []
    for index, entry in enumerate(file.entries.note):
        note = _note(entry, index, file.source, ruleset)
        if isinstance(note, Note):
            found.append(note)
        else:
            faults += note
    if faults:
        return None, in_order(faults)
    transmittal = file.entries.transmittal
    stated = transmittal.model_dump(by_alias=True, exclude_none=True) if transmittal else {}
    return Notes(path.name, tuple(found), stated), ()


def _note(entry: NoteEntry, index: int, source: TomlText, ruleset: Ruleset) -> Note | list[Diagnostic]:
    """Return the note of an entry, or what is wrong with it."""
    problems: list[Diagnostic] = []
    clauses = clauses_by_name(ruleset.clauses)
    if entry.clause and entry.clause not in clauses:
        place = source.place("note", index, "clause", value=True)
        problems.append(NOTE_OF_NO_CLAUSE.at(place, source, near=nearest(entry.clause, clauses), clause=entry.clause))
    line: dict[str, Value | NotGiven] = {}
    for name, words in entry.line.items():
        read = _stated(name, words, index, source, ruleset)
        if isinstance(read, Diagnostic):
            problems.append(read)
        else:
            line[read[0].name] = read[1]
    if problems:
        return problems
    label = clauses[entry.clause].label if entry.clause else ""
    return Note(entry.text, line, entry.line, label, entry.round, entry.status)


def _stated(
    name: str, words: str, index: int, source: TomlText, ruleset: Ruleset
) -> tuple[Term, Value | NotGiven] | Diagnostic:
    """Return a term and what a note says of it, read as a cell of a schedule is."""
    term = ruleset.vocabulary.find(name)
    if term is None:
        place = source.place("note", index, "line", name)
        return NOTE_OF_NO_TERM.at(place, source, near=nearest(name, ruleset.vocabulary.terms), term=name)
    value = read_value(words, term, BareUnits(system=ruleset.units))
    if isinstance(value, Misread):
        place = source.place("note", index, "line", name, value=True)
        return NOTE_NOT_READ.at(place, source, sentence=value.message, advice=value.help)
    return term, value


MARK = "mark"
# What a line is called by in any case, as far as it states it.
FIRST = ("component", "service", "pipe size", "location")
_HEAD = "# Notes of the reviewer, kept from round to round. A note is for each line that states what its `line` states."


def keep_notes(notes: Notes, commented: Iterable[tuple[Line, str]], lines: Sequence[Line], ruleset: Ruleset) -> str:
    """Return the text of a notes file: all old notes, then an empty one for each commented line and clause without.

    `commented` are the lines and the labels of the clauses that the reply comments on, `lines` all of the schedule.
    """
    parts = [_HEAD, *_transmittal(notes.transmittal)]
    parts += [_note_table(note.words, note.clause, note.round, note.text, note.status) for note in notes.notes]
    for line, clause in commented:
        if not notes.of(line, clause, ruleset):
            parts.append(
                _note_table(what_a_line_is(line, lines, ruleset), clause, notes.transmittal.get("round", ""), "")
            )
    return "\n\n".join(parts) + "\n"


def what_a_line_is(line: Line, lines: Sequence[Line], ruleset: Ruleset) -> Mapping[str, str]:
    """Return what tells a line from all others: as little as does, and its mark only where nothing else does.

    What is not needed for that may change from round to round, and the notes stay with the line.
    """
    words: dict[str, str] = {}
    least = len(dict(_words(line, FIRST, ruleset)))
    for name, stated in _words(line, dict.fromkeys((*FIRST, *SystemTerms.of(ruleset.vocabulary).names)), ruleset):
        words[name] = stated
        note = Note("", {one: line.data[one].value for one in words}, words)
        if len(words) >= least and sum(note.is_for(other, ruleset) for other in lines) == 1:
            return words
    if MARK in line.data and not isinstance(line.data[MARK].value, NotGiven):
        return {MARK: line.data[MARK].text, **words}
    return words or dict(_words(line, line.data, ruleset))


def _words(line: Line, names: Iterable[str], ruleset: Ruleset) -> Iterator[tuple[str, str]]:
    """Yield what a line states for terms, in words that are read back as the same."""
    for name in names:
        datum = line.data.get(name)
        if datum is not None and not isinstance(datum.value, NotGiven) and name in ruleset.vocabulary.terms:
            yield name, write_value(datum.value, ruleset.vocabulary.terms[name], ruleset.units)


def _transmittal(stated: Mapping[str, str]) -> list[str]:
    rows = [f"{key} = {_text(stated[key])}" for key in TRANSMITTAL if key in stated]
    return ["\n".join(["[transmittal]", *rows])] if rows else []


def _note_table(line: Mapping[str, str], clause: str, round: str, text: str, status: str = "") -> str:
    rows = ["[[note]]", f"line = {{ {', '.join(f'{_key(name)} = {_text(words)}' for name, words in line.items())} }}"]
    rows += [f"clause = {_text(clause)}"] if clause else []
    rows += [f"round = {_text(round)}"] if round else []
    rows += [f"status = {_text(status)}"] if status else []
    return "\n".join([*rows, f"text = {_text(text)}"])


def _key(name: str) -> str:
    return name if name.isascii() and name.replace("-", "").isalnum() else _text(name)


def _text(text: str) -> str:
    """Return a text as TOML writes it; JSON escapes the same characters in the same way, but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
