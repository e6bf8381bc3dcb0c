"""Data: what the words of a line mean, term by term, with a diagnostic for all that cannot be read."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.choices import COLUMN_BLANK, COLUMNS_DISAGREE, DASH
from speccheck.language.vocabulary.terms import DATE, Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NO_UNITS, NotGiven, Value, read_value, write_value
from speccheck.phrases.listed_sizes import sizes_listed
from speccheck.quantities import Misread
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.doubtful import doubt
from speccheck.schedule.fill_down import Filled, Fillings
from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.lines import Datum
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.cells import (
    CELL_NOT_READ,
    CELL_OF_TERM_NOT_READ,
    COLUMNS_SAY_OTHERWISE,
    DATE_IN_CELL,
    END_NOT_CERTAIN,
    FORMULA_WITHOUT_RESULT,
    HELD_AND_NOT_SHOWN,
    IS_A_DATE,
    MORE_FIELDS_THAN_HEADER,
    ONE_COLUMN_SILENT,
    SHOWN_FAR_FROM_HELD,
    SHOWS_AN_ERROR,
    STRETCHES_OVER_COLUMN,
    STRUCK_THROUGH,
    WORDS_LEFT_IN_CELL,
)
from speccheck.schedule.note_marks import without_mark
from speccheck.schedule.phrases_of_cells import phrase_value
from speccheck.schedule.range_columns import range_of
from speccheck.schedule.two_units import read_in_two_units
from speccheck.schedule.unstated_units import states_no_unit

_MONTHS = "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
_DATE = re.compile(
    rf"\d{{1,2}}[- ](?:{_MONTHS})[a-z]*(?:[- ]\d{{2,4}})?"
    rf"|(?:{_MONTHS})[a-z]*[- ]\d{{1,4}}"
    r"|\d{1,4}([-/.])\d{1,2}\1\d{1,4}",
    re.IGNORECASE,
)
_TROUBLE: Mapping[str, Wording] = {
    said.rule.code: said
    for said in (
        IS_A_DATE,
        FORMULA_WITHOUT_RESULT,
        STRUCK_THROUGH,
        HELD_AND_NOT_SHOWN,
        SHOWN_FAR_FROM_HELD,
        MORE_FIELDS_THAN_HEADER,
        END_NOT_CERTAIN,
        SHOWS_AN_ERROR,
    )
}
"""What is said of a cell in trouble, by the code of the rule that its format names."""

Found = tuple[Datum, list[Diagnostic]]


def read_data(
    grid: Grid,
    row: int,
    uses: Sequence[ColumnUse],
    fillings: Fillings,
    mapping: ScheduleMapping,
    vocabulary: Vocabulary | None = None,
) -> tuple[dict[str, Datum], list[Diagnostic]]:
    """Return the data of the line in `row` by term name, and what could not be read.

    With a vocabulary, cells that hold more than one value are read by phrases.

    A blank cell is a datum that is not given, so that a report can point to it.
    """
    stated: dict[str, list[Datum]] = {}
    ends: dict[str, list[tuple[str, Datum]]] = {}
    texts = {use.term.name for use in uses if use.term is not None and use.term.kind.form is Form.TEXT}
    problems: list[Diagnostic] = []
    for use in uses:
        if use.term is None or use.across is not None:
            continue
        datum, found = _datum(grid, (row, use.index), use, use.term, fillings, mapping, vocabulary)
        if use.end:
            ends.setdefault(use.term.name, []).append((use.end, datum))
        else:
            stated.setdefault(use.term.name, []).append(datum)
        problems += found
    data = {name: range_of(some) for name, some in ends.items()}
    for name, several in stated.items():
        data[name], problem = _one_of(name, several, joined=name in texts)
        problems += [problem] if problem is not None else []
    for use in uses:
        if use.condition is not None and use.term is not None and not isinstance(data[use.term.name].value, NotGiven):
            term, value, text = use.condition
            place = use.column.place
            at = Datum(value, text, place, f"from the header in {place.cell}", inferred=True)
            data.setdefault(term.name, at)
    return data, problems


def read_across(
    grid: Grid, row: int, use: ColumnUse, fillings: Fillings, mapping: ScheduleMapping, vocabulary: Vocabulary
) -> tuple[dict[str, Datum], list[Diagnostic]]:
    """Return what one cell of a cross table says: what is measured there, and what its column stands for."""
    across = use.across
    if across is None:
        return {}, []
    measured, problems = _datum(grid, (row, use.index), use, across.measured, fillings, mapping, vocabulary)
    place = grid.place(*across.origin)
    axis = Datum(across.value, across.text, place, f"from the header in {place.cell}", inferred=True)
    return {across.measured.name: measured, across.axis.name: axis}, problems


def _datum(
    grid: Grid,
    place: tuple[int, int],
    use: ColumnUse,
    term: Term,
    fillings: Fillings,
    mapping: ScheduleMapping,
    vocabulary: Vocabulary | None = None,
) -> Found:
    """Return what one cell says about a term."""
    filled = fillings.get(place)
    if filled is None:
        return Datum(NotGiven(), "", grid.place(*place)), []
    cell = grid.cells[filled.origin]
    if filled.empty_ditto and mapping.replaced(cell.text.strip(), term) is None:
        mark = cell.text.strip()
        return Datum(
            NotGiven(mark, "a ditto mark with nothing above"), mark, grid.place(*filled.origin), filled.note
        ), []
    if filled.across:
        return _across(grid, place, filled, cell, term)
    return _read(grid, filled, cell, use, term, mapping, vocabulary)


def _read(
    grid: Grid,
    filled: Filled,
    cell: GridCell,
    use: ColumnUse,
    term: Term,
    mapping: ScheduleMapping,
    vocabulary: Vocabulary | None = None,
) -> Found:
    """Read the words of a cell."""
    place = grid.place(*filled.origin)
    text = cell.text.strip()
    replaced = mapping.replaced(text, term)
    if cell.trouble and replaced is None and not (cell.trouble == DATE_IN_CELL.code and _may_be_date(term)):
        problem = _TROUBLE[cell.trouble].at(place, text=text, term=term.name)
        return Datum(NotGiven(text, problem.message), text, place, filled.note), [problem]
    by_cells = use.match is not None and use.match.by_cells
    notes = (filled.note, _read_as(replaced, mapping.whose_words(text)), _unit_note(text, use, term, mapping))
    note = "; ".join(filter(None, (*notes, f"the column was read as `{term.name}` by its cells" if by_cells else "")))
    written, mark = text, ""
    if replaced is None and term.kind.form is not Form.TEXT:
        text, mark = without_mark(text, grid.sheet, mapping.note_marks)
    value = read_value(text if replaced is None else replaced, term, use.bare)
    assumed = _units_assumed(text, use, term, mapping) if replaced is None else ""
    problems: list[Diagnostic] = []
    said = phrase_value(text, term, vocabulary, use.bare) if vocabulary is not None and replaced is None else None
    if isinstance(value, Misread) and replaced is None and use.two_units is not None:
        value = read_in_two_units(text, term, use.two_units)
        note = note if isinstance(value, Misread) else "; ".join(filter(None, (note, _one_of_two(value, term, use))))
    elif isinstance(value, Misread) and said is not None:
        value, told, left = said
        note = "; ".join(filter(None, (note, told)))
        problems += [_partly(text, left, place)] if left else []
        if left and not term.tells_apart and not mapping.has_seen(text):
            message = problems[-1].message  # the words may change what is proposed: "PVC (at valves)"
            return Datum(NotGiven(text, message), text, place, filled.note), problems
    text = written
    problems += [_partly(text, f"`{mark}`", place)] if mark and not problems and not isinstance(value, Misread) else []
    if isinstance(value, Misread):
        problem = _unreadable(value, text, term, place)
        why = value.message if f"`{text}`" in value.message else f"`{text}` was not read: {value.message}"
        listed = sizes_listed(text, use.bare) if replaced is None and term.kind.form is Form.SIZE else ()
        return Datum(NotGiven(text, why), text, place, note, units_assumed=assumed, listed=listed), [problem]
    doubtful = doubt(text, value, term, unit_assumed=bool(assumed)) if replaced is None else None
    if doubtful is not None:
        problem = doubtful.at(place)
        return Datum(NotGiven(text, problem.message), text, place, note, units_assumed=assumed), [problem]
    inferred = bool(filled.note) or by_cells
    return Datum(value, text, place, note, inferred=inferred, units_assumed=assumed), problems


def _one_of_two(value: Value, term: Term, use: ColumnUse) -> str:
    """Note in which of the two units of its header a number was read."""
    return f"read as {write_value(value, term)}, of the units {' and '.join(use.two_units or ())} of the column"


def _partly(text: str, left: str, place: Place) -> Diagnostic:
    """Return the warning that brackets in a cell hold words that were not read."""
    return WORDS_LEFT_IN_CELL.at(place, left=left, were="were" if " and " in left else "was", text=text)


def _read_as(replaced: str | None, whose: str) -> str:
    """Note that the mapping file, or a legend, says what the words stand for."""
    return f"read as `{replaced}` by {whose}" if replaced is not None else ""


def _unit_note(text: str, use: ColumnUse, term: Term, mapping: ScheduleMapping) -> str:
    """Note where the unit of a bare number came from."""
    if use.bare == NO_UNITS:
        return ""
    alone = read_value(text, term)
    if not isinstance(alone, Misread) or isinstance(read_value(text, term, use.bare), Misread):
        return ""
    if use.bare.unit:
        return f"unit {use.bare.unit} from the column"
    return f"unit of the {use.bare.system} {mapping.units_of}"


def _units_assumed(text: str, use: ColumnUse, term: Term, mapping: ScheduleMapping) -> str:
    """Return the system of units of a number where neither its cell, nor its header, nor a person states any."""
    if use.bare.unit or mapping.units_of != "ruleset" or not states_no_unit(text, term):
        return ""
    return use.bare.system


def _may_be_date(term: Term) -> bool:
    """Whether the values of a term can be dates: it is one, or free text."""
    return term.kind == DATE or term.kind.form is Form.TEXT


def _unreadable(value: Misread, text: str, term: Term, place: Place) -> Diagnostic:
    """Return the warning about words that are no value."""
    if _DATE.fullmatch(text) and not _may_be_date(term):
        return IS_A_DATE.at(place, text=text, term=term.name)
    if f"`{term.name}`" in value.message:
        return CELL_NOT_READ.at(place, sentence=value.message, advice=value.help)
    return CELL_OF_TERM_NOT_READ.at(place, term=term.name, sentence=value.message, advice=value.help)


def _across(grid: Grid, place: tuple[int, int], filled: Filled, cell: GridCell, term: Term) -> Found:
    """Return what a cell that stands in another column and stretches over this one says: only that nothing is given."""
    text = cell.text.strip()
    at = grid.place(*filled.origin)
    value = read_value(text, term) if not cell.trouble else None
    if isinstance(value, NotGiven):
        return Datum(value, text, at, filled.note), []
    problem = STRETCHES_OVER_COLUMN.at(at, text=" ".join(text.split()), term=term.name)
    return Datum(NotGiven(text, "stands in a cell merged over several columns"), text, at, filled.note), [problem]


def _one_of(name: str, several: Sequence[Datum], joined: bool) -> tuple[Datum, Diagnostic | None]:
    """Return the one datum that several columns state together; not given, with a warning, where they disagree.

    Texts that differ do not disagree: they are `joined`.
    """
    if len(several) == 1:
        return several[0], None
    saying = [datum for datum in several if not (isinstance(datum.value, NotGiven) and _is_silent(datum.value))]
    if not saying or (joined and len(saying) == 1):
        return (saying or several)[0], None
    if len(saying) < len(several):
        return _partly_silent(name, saying, several)
    if all(datum.value == saying[0].value for datum in saying):
        others = [f"also {_said(datum)}" for datum in several[1:] if datum.text]
        return replace(saying[0], note="; ".join(filter(None, (saying[0].note, *others)))), None
    said = " and ".join(map(_said, saying))
    if joined:
        text = "; ".join(datum.text for datum in saying)
        return replace(saying[0], value=text, text=text, note=f"put together: {said}"), None
    problem = COLUMNS_SAY_OTHERWISE.at(saying[1].place, term=name, values=said)
    text = " / ".join(datum.text for datum in saying)
    return Datum(NotGiven(text, COLUMNS_DISAGREE), text, saying[0].place, said), problem


def _partly_silent(name: str, saying: Sequence[Datum], several: Sequence[Datum]) -> tuple[Datum, Diagnostic | None]:
    """Return a datum that is not given: nothing says that one of several columns speaks for a blank in another."""
    silent = next(datum for datum in several if datum not in saying)
    said = " and ".join(map(_said, saying))
    problem = ONE_COLUMN_SILENT.at(silent.place, term=name, value=said, cell=silent.place.cell)
    text = " / ".join(datum.text for datum in saying)
    return Datum(NotGiven(text, COLUMN_BLANK), text, silent.place, said), problem


def _said(datum: Datum) -> str:
    """Write the words of a datum, their cell, and how they came to the line."""
    return f"`{datum.text}` in {datum.place.cell}" + (f" ({datum.note})" if datum.note else "")


def _is_silent(value: NotGiven) -> bool:
    """Whether nothing at all, or only a dash, stands where a value should."""
    return not value.text or value.why == DASH
