"""The starter of a mapping file: an entry for each question that reading left open, to be answered and uncommented.

As it is written it settles nothing. Lines with two number signs explain: what is open, the cells that the answer
settles, the likely answers. A line with one is an entry, with the likeliest answer or "?": take the sign away.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from itertools import groupby
from textwrap import wrap

from speccheck.english import capitalized, count, first_of
from speccheck.language.diagnostics import Place
from speccheck.schedule.questions import Question, QuestionKind

WIDTH = 100
MOST_PLACES = 8
MOST_TEXTS = 4
UNANSWERED = "?"
_LISTS = (
    (QuestionKind.SAME_TERM, "ignore", "columns to leave out, by header or letter"),
    (QuestionKind.SHEET, "ignore-sheets", "sheets that hold no part of the schedule"),
    (QuestionKind.REMARK, "seen", "remarks, notes and pictures that a person has read, and that change nothing"),
)


def starter_mapping(name: str, questions: Sequence[Question], wanted: Sequence[str] = ()) -> str:
    """Return the text of a starter of a mapping file for the schedule of a name.

    `wanted` are the names of terms that clauses ask for and no line states: constants that a person may know.
    """
    of = {kind: [one for one in questions if one.kind is kind] for kind in QuestionKind}
    lines = list(
        _explained(
            f"Starter of a mapping file for {name}. Lines with ## explain. A line with a single # is an entry: "
            "write the right answer, and take the # away. Then give this file with --mapping. A * stands for any words."
        )
    )
    lines += _single(of[QuestionKind.UNITS], "units")
    lines += _single(of[QuestionKind.HIDDEN], "read-hidden")
    lines += _single(of[QuestionKind.HEADER_ROW], "header-row")
    for kind, key, about in _LISTS:
        asked = [*of[kind], *(of[QuestionKind.COLUMN] if kind is QuestionKind.SAME_TERM else ())]
        lines += _list(key, about, asked) if asked else ()
    if of[QuestionKind.COLUMN] or of[QuestionKind.HEADER]:
        lines += ["", "[columns]"]
        for question in (*of[QuestionKind.COLUMN], *of[QuestionKind.HEADER]):
            lines += [*_about(question), f"# {quoted(question.key)} = {_column_answer(question)}"]
    by_term = sorted(of[QuestionKind.WORDS], key=lambda one: one.term)
    for term, group in groupby(by_term, key=lambda one: one.term):
        lines += ["", f"[values.{quoted(term)}]"]
        for question in group:
            lines += [*_about(question), f"# {quoted(question.key)} = {quoted(_answer(question))}"]
    if wanted:
        lines += ["", *_explained("What clauses ask for and no line states: what holds for all lines.")]
        lines += ["[constants]", *(f"# {quoted(name)} = {quoted(UNANSWERED)}" for name in wanted)]
    if not questions:
        lines += ["", *_explained("Nothing is open: every cell was read.")]
    return "\n".join(lines) + "\n"


def quoted(text: str) -> str:
    """Return a text as TOML writes it, between quotation marks."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _answer(question: Question) -> str:
    return question.likely[0] if question.likely else UNANSWERED


def _column_answer(question: Question) -> str:
    """Return the entry of a column: its term, with the unit where one is known."""
    if question.kind is QuestionKind.HEADER and len(question.likely) > 1:
        return f"{{ term = {quoted(question.likely[0])}, unit = {quoted(question.likely[1])} }}"
    return quoted(_answer(question))


def _single(questions: Sequence[Question], key: str) -> Iterator[str]:
    for question in questions:
        answer = _answer(question) if question.likely else question.key
        yield ""
        yield from _about(question)
        yield f"# {key} = {quoted(answer) if key == 'units' else answer}"


def _list(key: str, about: str, questions: Sequence[Question]) -> Iterator[str]:
    """Yield a list whose entries are commented: what is uncommented counts."""
    yield ""
    yield from _explained(capitalized(about) + ":")
    yield f"{key} = ["
    for question in questions:
        if question.kind is not QuestionKind.COLUMN:  # of which more is said below
            yield from (f"    {line}" for line in _about(question))
        yield f"    # {quoted(question.key)},"
    yield "]"


def _about(question: Question) -> Iterator[str]:
    """Yield what is open, the cells that an answer settles, and the likely answers."""
    yield from _explained(f"{question.why}: {where(question)}")
    if question.texts:
        said = [f"`{' '.join(text.split())}`" for text in question.texts]
        yield from _explained(f"the cells say {first_of(said, MOST_TEXTS)}")
    if question.likely and question.kind not in (QuestionKind.HEADER, QuestionKind.SAME_TERM):
        yield from _explained(f"likely: {', '.join(question.likely)}")


def where(question: Question) -> str:
    """Return how many cells an answer settles, and which."""
    cells = [place.cell for place in question.places if place.cell]
    sheets = list(dict.fromkeys(sheet for place in question.places if (sheet := _sheet(place))))
    if not cells:
        named = (f"sheet {place.sheet}" if place.sheet else "" for place in question.places)
        files = (place.file if place.among_files else "" for place in question.places)
        whole = [" of ".join(filter(None, parts)) for parts in zip(named, files, strict=True)]
        return ", ".join(dict.fromkeys(filter(None, whole))) or "the file"
    on = f" on {', '.join(sheets)}" if sheets else ""
    if len(cells) == 1:
        return f"{cells[0]}{on}"
    return f"{count(len(cells), 'cell')}, {first_of(cells, MOST_PLACES)}{on}"


def _sheet(place: Place) -> str:
    """Return the sheet of a place, and its file where several were submitted together."""
    return " of ".join(filter(None, (place.sheet, place.file if place.among_files else "")))


def _explained(text: str) -> Iterator[str]:
    shown = "".join(character if character.isprintable() else " " for character in text)
    yield from (f"## {line}" for line in wrap(shown, WIDTH, break_long_words=False))
