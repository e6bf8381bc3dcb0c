"""Notes for the next round: the old ones as they are, and an empty one for each comment that has none yet."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence

from speccheck.language.core import Ruleset
from speccheck.language.values import NotGiven, write_value
from speccheck.review.notes import TRANSMITTAL, Note, Notes
from speccheck.review.system_terms import SystemTerms
from speccheck.submittal.lines import Line

MARK = "mark"
# What a line is called by in any case, as far as it states it.
FIRST = ("component", "service", "pipe size", "location")
_HEAD = "# Notes of the reviewer, kept from round to round. A note is for each line that states what its `line` states."


def keep_notes(notes: Notes, commented: Iterable[tuple[Line, str]], lines: Sequence[Line], ruleset: Ruleset) -> str:
    """Return the text of a notes file: all old notes, then an empty one for each commented line and clause without.

    `commented` are the lines and the labels of the clauses that the reply comments on, `lines` all of the schedule.
    """
    parts = [_HEAD, *_transmittal(notes.transmittal)]
    parts += [_note(note.words, note.clause, note.round, note.text) for note in notes.notes]
    for line, clause in commented:
        if not notes.of(line, clause, ruleset):
            parts.append(_note(what_a_line_is(line, lines, ruleset), clause, notes.transmittal.get("round", ""), ""))
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


def _note(line: Mapping[str, str], clause: str, round: str, text: str) -> str:
    rows = ["[[note]]", f"line = {{ {', '.join(f'{_key(name)} = {_text(words)}' for name, words in line.items())} }}"]
    rows += [f"clause = {_text(clause)}"] if clause else []
    rows += [f"round = {_text(round)}"] if round else []
    return "\n".join([*rows, f"text = {_text(text)}"])


def _key(name: str) -> str:
    return name if name.isascii() and name.replace("-", "").isalnum() else _text(name)


def _text(text: str) -> str:
    """Return a text as TOML writes it; JSON escapes the same characters in the same way, but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
