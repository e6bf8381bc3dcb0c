"""Questions: what reading a schedule left open, grouped by cause, with the cells that an answer settles.

Each kind of question has its answer in a mapping file: a column that names no term, words that are no value, numbers
without a unit, remarks for a person to read, sheets that hold no table, rows that are hidden.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.choices import DISAGREEMENTS
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value, write_value
from speccheck.phrases import read_cell, read_size_band
from speccheck.quantities import SYSTEMS, Misread
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.lines import Datum, UnreadKind
from speccheck.schedule.messages.cells import PARTLY_READ
from speccheck.schedule.messages.tables import HEADER_REST, HEADER_UNIT, HIDDEN_CELLS, HIDDEN_SHEET, SHEET_LEFT
from speccheck.schedule.sentences import NOTE as SENTENCES
from speccheck.schedule.what_was_read import ColumnRead, WhatWasRead, header_key, is_open

MOST_LIKELY = 3
LEAST_LIKENESS = 0.75
FEWEST_CELLS_OF_A_HEADER = 3
FEWEST_LETTERS_OF_A_WORD = 2
FIRST_ROWS = 60


class QuestionKind(StrEnum):
    """What is open, by the key of a mapping file under which its answer stands."""

    UNITS = "units"
    HEADER_ROW = "header-row"
    COLUMN = "columns"
    HEADER = "headers"
    WORDS = "values"
    SAME_TERM = "ignore"
    SHEET = "ignore-sheets"
    HIDDEN = "read-hidden"
    REMARK = "seen"


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that is open: `key` is what the answer stands under, `term` the term that is asked, "" for none.

    `why` is one sentence; `places` are the cells that the answer settles, `lines` how many lines they stand on;
    `likely` are answers, likeliest first, none where nothing is likely; `texts` are examples of what the cells say.
    """

    kind: QuestionKind
    key: str
    why: str
    places: tuple[Place, ...]
    lines: int
    term: str = ""
    likely: tuple[str, ...] = ()
    texts: tuple[str, ...] = ()


def questions_of(read: WhatWasRead) -> tuple[Question, ...]:
    """Return what a reading left open, the question first whose answer settles most lines."""
    found = [
        *(_no_table(read) if not read.tables else ()),
        *_columns(read),
        *_headers(read),
        *_words(read),
        *_two_columns(read),
        *_sheets(read),
        *_hidden(read),
        *_remarks(read),
    ]
    kinds = list(QuestionKind)
    return tuple(sorted(found, key=lambda one: (-one.lines, kinds.index(one.kind), -len(one.places))))


def together(questions: Sequence[Question]) -> tuple[Question, ...]:
    """Return the questions of several files that one mapping file answers: each once, with the cells of all files."""
    found: dict[tuple[QuestionKind, str, str], Question] = {}
    for one in questions:
        one = replace(one, places=tuple(replace(place, among_files=True) for place in one.places))
        same = found.get((one.kind, one.key, one.term))
        if same is not None:
            texts = tuple(dict.fromkeys((*same.texts, *one.texts)))
            one = replace(same, places=(*same.places, *one.places), lines=same.lines + one.lines, texts=texts)
        found[one.kind, one.key, one.term] = one
    return tuple(sorted(found.values(), key=lambda one: -one.lines))


def _columns(read: WhatWasRead) -> Iterator[Question]:
    """Yield the columns that name no term and hold anything."""
    for table in read.tables:
        for column in table.columns:
            if column.column.term or not column.filled or _settled(column):
                continue
            key = header_key(column, table)
            texts = tuple(dict.fromkeys(text for text, _ in column.texts))
            why = f"the header `{column.column.header}` names no term" if column.column.header else "no header"
            if column.column.note.startswith(("hidden", "struck")):
                why = f"the column `{column.column.header or key}` is {column.column.note}"
            likely = tuple(_likely_terms(column.column.header, texts, read.vocabulary))
            places = tuple(place for _, place in column.texts)
            yield Question(QuestionKind.COLUMN, key, why, places, column.filled, "", likely, texts)


def _no_table(read: WhatWasRead) -> Iterator[Question]:
    """Yield, where no row reads as a header, the row with most words, and each of its cells as a column."""
    best: tuple[int, Grid, int] | None = None
    for grid in read.grids:
        for row, columns in list(grid.columns_by_row.items())[:FIRST_ROWS]:
            words = sum(any(map(str.isalpha, grid.text(row, column))) for column in columns)
            if words >= FEWEST_CELLS_OF_A_HEADER and (best is None or words > best[0]):
                best = words, grid, row
    if best is None:
        return
    _, grid, row = best
    below = [other for other in grid.columns_by_row if other > row]
    places = tuple(grid.place(row, column) for column in grid.columns_by_row[row])
    why = f"no row reads as a header; row {row + 1} has most words"
    yield Question(QuestionKind.HEADER_ROW, str(row + 1), why, places, len(below))
    for column in grid.columns_by_row[row]:
        header = " ".join(grid.text(row, column).split())
        texts = tuple(dict.fromkeys(text for other in below if (text := grid.text(other, column))))
        filled = tuple(grid.place(other, column) for other in below if (other, column) in grid.cells)
        match = HeaderReader(read.vocabulary).match(header)
        named = (match.name,) if match is not None and match.term is not None else ()
        likely = named or tuple(_likely_terms(header, texts, read.vocabulary))
        why = f"the column of `{header}`"
        yield Question(QuestionKind.COLUMN, header, why, filled, len(filled), "", likely, texts)


def _settled(column: ColumnRead) -> bool:
    return column.column.note in ("left out by the mapping file", "names the lines", SENTENCES)


def _likely_terms(header: str, texts: Sequence[str], vocabulary: Vocabulary) -> Iterator[str]:
    """Yield the names of terms that a column may state: those of which most of its texts are values, then by name."""
    from difflib import get_close_matches

    found: dict[str, None] = dict.fromkeys(_likely_across(header, texts, vocabulary))
    words = [text for text in texts if sum(map(str.isalpha, text)) >= FEWEST_LETTERS_OF_A_WORD]
    if words:
        shares = {
            term.name: sum(_reads_as(text, term) for text in words) / len(texts)
            for term in vocabulary.terms.values()
            if term.kind.form is Form.CHOICE and not term.computed
        }
        found |= {name: None for name, share in sorted(shares.items(), key=lambda one: -one[1]) if share > 0.5}
    near = get_close_matches(fold(header), list(vocabulary.spellings), n=MOST_LIKELY, cutoff=LEAST_LIKENESS)
    by_name = dict.fromkeys(vocabulary.spellings[spelling] for spelling in near)
    yield from list({**by_name, **found} if header and by_name else found)[:MOST_LIKELY]


def _likely_across(header: str, texts: Sequence[str], vocabulary: Vocabulary) -> Iterator[str]:
    """Yield the names of the terms of which the numbers under a range of sizes may be values."""
    band = read_size_band(header.rpartition(" / ")[2], "inch-pound")
    for term in vocabulary.tabulated if not isinstance(band, Misread) else ():
        values = [read_value(text, term, BareUnits(system="inch-pound")) for text in texts]
        if values and not any(isinstance(value, Misread) for value in values):
            yield term.name


def _reads_as(text: str, term: Term) -> bool:
    return fold(text) in term.choice_names


def _headers(read: WhatWasRead) -> Iterator[Question]:
    """Yield the headers of which some words, or a unit that does not fit, were not used."""
    by_place = {column.column.place: (column, table) for table in read.tables for column in table.columns}
    for found in read.schedule.diagnostics:
        if found.code in (HEADER_REST.code, HEADER_UNIT.code) and found.place in by_place:
            column, table = by_place[found.place]
            why = f"the header `{column.column.header}` says more than was used"
            likely = (column.column.term, column.column.unit) if column.column.unit else (column.column.term,)
            places = tuple(place for _, place in column.texts)
            texts = tuple(dict.fromkeys(text for text, _ in column.texts))
            key = header_key(column, table)
            yield Question(QuestionKind.HEADER, key, why, places, column.filled, column.column.term, likely, texts)


def _words(read: WhatWasRead) -> Iterator[Question]:
    """Yield the words in cells that were not read, or not as a whole: each once for a term; bare numbers together."""
    by_words: dict[tuple[str, str], list[tuple[Datum, str]]] = defaultdict(list)
    bare: list[tuple[Datum, str]] = []
    partly = {found.place for found in read.schedule.diagnostics if found.code == PARTLY_READ.code}
    for line in read.schedule.lines:
        for name, datum in line.data.items():
            term = read.vocabulary.terms[name]
            if is_open(datum) and _disagrees(datum):
                continue
            if is_open(datum) and _lacks_a_unit(datum.text, term):
                bare.append((datum, line.name))
            elif is_open(datum) or (datum.place in partly and not datum.inferred):
                by_words[name, datum.text].append((datum, line.name))
    if bare:
        texts = tuple(dict.fromkeys(datum.text for datum, _ in bare))
        why = "numbers without a unit, for which nothing states the system of units"
        likely = SYSTEMS
        yield _question(QuestionKind.UNITS, "units", why, bare, likely=likely, texts=texts)
    for (name, text), found in by_words.items():
        term = read.vocabulary.terms[name]
        why = _why(found[0][0], text, name)
        yield _question(
            QuestionKind.WORDS, text, why, found, term=name, likely=_likely_values(text, term, read.vocabulary)
        )


def _question(
    kind: QuestionKind,
    key: str,
    why: str,
    found: Sequence[tuple[Datum, str]],
    *,
    term: str = "",
    likely: tuple[str, ...] = (),
    texts: tuple[str, ...] = (),
) -> Question:
    places = tuple(dict.fromkeys(datum.place for datum, _ in found))
    return Question(kind, key, why, places, len({line for _, line in found}), term, likely, texts)


def _why(datum: Datum, text: str, name: str) -> str:
    if isinstance(datum.value, NotGiven):
        return datum.value.why if f"`{text}`" in datum.value.why else f"`{text}` is no value of `{name}`"
    return f"`{text}` was read in part"


def _disagrees(datum: Datum) -> bool:
    return isinstance(datum.value, NotGiven) and datum.value.why in DISAGREEMENTS


def _lacks_a_unit(text: str, term: Term) -> bool:
    """Whether a text is a value as soon as its numbers have a unit."""
    if term.kind.form not in (Form.QUANTITY, Form.SIZE) or not isinstance(read_value(text, term), Misread):
        return False
    return not isinstance(read_value(text, term, BareUnits(system="inch-pound")), Misread | NotGiven)


def _likely_values(text: str, term: Term, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return the values that words may mean: those that they may stand for, those among them, those spelled alike."""
    from difflib import get_close_matches

    if term.kind.form is Form.TEXT:
        return ()
    phrase = read_cell(text, term, vocabulary)
    asked = [value for question in phrase.questions if question.term is term for value in question.values]
    said = [write_value(value, term) for value in phrase.values_of(term.name)]
    near = get_close_matches(fold(text), list(term.choice_names), n=MOST_LIKELY, cutoff=LEAST_LIKENESS)
    return tuple(dict.fromkeys([*asked, *said, *(term.choice_names[one] for one in near)]))[:MOST_LIKELY]


def _two_columns(read: WhatWasRead) -> Iterator[Question]:
    """Yield the columns of one term that disagree on some lines: one of them is to be left out."""
    for table in read.tables:
        open_terms: dict[str, set[str]] = defaultdict(set)
        for line in table.lines:
            for name, datum in line.data.items():
                if is_open(datum) and _disagrees(datum):
                    open_terms[name].add(line.name)
        for name, lines in open_terms.items():
            columns = [column for column in table.columns if column.column.term == name]
            if len(columns) > 1:
                keys = tuple(header_key(column, table) for column in columns)
                why = f"the columns {' and '.join(f'`{key}`' for key in keys)} disagree on `{name}`"
                places = tuple(column.column.place for column in columns)
                yield Question(QuestionKind.SAME_TERM, keys[-1], why, places, len(lines), name, keys)


def _sheets(read: WhatWasRead) -> Iterator[Question]:
    """Yield the sheets of which nothing was read although they hold something."""
    left = [one for one in read.schedule.unread if one.kind is UnreadKind.HIDDEN_SHEET]
    hidden = {one.text for one in left}
    tables = {table.sheet for table in read.tables}
    for found in read.schedule.diagnostics:
        if found.code not in (SHEET_LEFT.code, HIDDEN_SHEET.code) or not found.place.sheet:
            continue
        if "was not asked for" in found.message or found.place.sheet in tables:
            continue
        if found.code == HIDDEN_SHEET.code and found.place.sheet not in hidden:
            continue
        why = _without_counts(found)
        yield Question(QuestionKind.SHEET, found.place.sheet, why, (found.place,), 0)


def _without_counts(found: Diagnostic) -> str:
    return found.message.split(", and its ")[0]


def _hidden(read: WhatWasRead) -> Iterator[Question]:
    """Yield hidden rows, and what of hidden columns was not read."""
    found = [
        one
        for one in read.schedule.diagnostics
        if one.code == HIDDEN_CELLS.code and one.severity is Severity.WARNING and not one.message.startswith("column ")
    ]
    if found:
        why = "; ".join(one.message for one in found)
        yield Question(QuestionKind.HIDDEN, "true", why, tuple(one.place for one in found), 0)


def _remarks(read: WhatWasRead) -> Iterator[Question]:
    """Yield the texts that a person has to read, each once."""
    by_text: dict[str, list[tuple[Place, tuple[str, ...]]]] = defaultdict(list)
    kinds: dict[str, UnreadKind] = {}
    partly = {found.place for found in read.schedule.diagnostics if found.code == PARTLY_READ.code}
    for one in read.schedule.unread:
        if one.kind is not UnreadKind.HIDDEN_SHEET and one.place not in partly:
            by_text[one.text].append((one.place, one.lines))
            kinds.setdefault(one.text, one.kind)
    for text, found in by_text.items():
        lines = {line for _, names in found for line in names}
        places = tuple(dict.fromkeys(place for place, _ in found))
        yield Question(QuestionKind.REMARK, text, f"{kinds[text]} to be read: `{text}`", places, len(lines))
