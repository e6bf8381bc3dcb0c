"""A blank schedule: a workbook with the columns that the clauses of a ruleset need, for a contractor to fill in."""

from __future__ import annotations

import datetime
import io
from typing import TYPE_CHECKING

from speccheck.judge.computing import inputs_of
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.terminal.terms import kind_words
from speccheck.report.wording import ruleset_heading
from speccheck.report.workbook.report import without_clock
from speccheck.schedule.accounting import GUIDE_SENTENCES, LIST_HEADING, listed_values

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

LINE_MARK = "mark"
ROWS = 500
_ALWAYS = datetime.datetime(1980, 1, 1)


def needed_terms(ruleset: Ruleset) -> tuple[Term, ...]:
    """Return the terms that a schedule has to state for the clauses of a ruleset, in the vocabulary's order.

    Terms that are computed are not asked for. Those that are computed or stated, as the diameters of a pipe, are, and
    so is what they are worked out from: either can be filled in. The line's own mark comes first where the vocabulary
    has it.
    """
    drawn_on = {term.name: term for clause in ruleset.clauses for term in terms_of(conditions_of(clause))}
    either = [term for term in drawn_on.values() if term.computed_or_stated]
    used = {*drawn_on, *(term.name for term in inputs_of(either, ruleset.vocabulary))}
    terms = [term for term in ruleset.vocabulary.terms.values() if term.computed_or_stated or not term.computed]
    mark = [term for term in terms if term.name == LINE_MARK]
    return (*mark, *(term for term in terms if term.name in used and term.name != LINE_MARK))


def render_blank(ruleset: Ruleset, system: str) -> bytes:
    """Return the blank schedule as the bytes of an .xlsx file, with units of `system` in its header."""
    from openpyxl import Workbook

    from speccheck.report.workbook.cells import add_styles

    workbook = Workbook()
    add_styles(workbook)
    sheet = workbook.worksheets[0]
    sheet.title = "Schedule"
    terms = needed_terms(ruleset)
    _fill_header(sheet, terms, system)
    _fill_lists(workbook, sheet, terms)
    _fill_guide(workbook.create_sheet("Guide", 1), ruleset, terms, system)
    workbook.properties.creator = "speccheck"
    workbook.properties.created = _ALWAYS
    written = io.BytesIO()
    workbook.save(written)
    return without_clock(written.getvalue())


def header_text(term: Term, system: str) -> str:
    """Return the header of a term's column: its name, and its unit in brackets where it has one."""
    unit = term.metric if system == "metric" else term.inch_pound
    if term.kind.form is Form.SIZE:
        unit = "DN" if system == "metric" else "in"
    return f"{term.name} ({unit})" if unit else term.name


def _fill_header(sheet: Worksheet, terms: tuple[Term, ...], system: str) -> None:
    from openpyxl.utils import get_column_letter

    from speccheck.report.workbook.cells import HEADER, put

    for column, term in enumerate(terms, 1):
        text = header_text(term, system)
        put(sheet, 1, column, text, HEADER)
        sheet.column_dimensions[get_column_letter(column)].width = max(11, min(len(text), 18))
    sheet.row_dimensions[1].height = 45
    sheet.freeze_panes = "B2"
    sheet.page_setup.orientation = "landscape"
    sheet.print_title_rows = "1:1"


def _fill_lists(workbook: Workbook, sheet: Worksheet, terms: tuple[Term, ...]) -> None:
    """Give the columns with a closed list a drop-down; the lists stand on a sheet of their own.

    A set may hold several values, so that its list only helps and does not refuse others.
    """
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.datavalidation import DataValidation

    from speccheck.report.workbook.cells import put

    # By their headings and values the lists are known again, and not taken for a schedule that was hidden.
    lists = workbook.create_sheet("Lists")
    lists.sheet_state = "hidden"
    place = 0
    for column, term in enumerate(terms, 1):
        values = listed_values(term)
        if not values:
            continue
        place += 1
        letter = get_column_letter(place)
        for row, value in enumerate((f"{LIST_HEADING}{term.name}", *values), 1):
            put(lists, row, place, value)
        choose = DataValidation("list", formula1=f"Lists!${letter}$2:${letter}${len(values) + 1}", allow_blank=True)
        choose.showErrorMessage = False
        cells = get_column_letter(column)
        choose.add(f"{cells}2:{cells}{ROWS}")
        sheet.add_data_validation(choose)


def _fill_guide(sheet: Worksheet, ruleset: Ruleset, terms: tuple[Term, ...], system: str) -> None:
    """Say on a sheet of its own what each column asks for; no cell of it can be read as a schedule's header."""
    from speccheck.report.workbook.cells import put, set_widths

    set_widths(sheet, (110.0,))
    introduction = (
        f"Schedule for {ruleset_heading(ruleset)}.",
        GUIDE_SENTENCES[system],
        *STANDING_CAUTIONS,
    )
    explained = (f"{term.name}: {kind_words(term, system)}. {term.meaning}".strip() for term in terms)
    for row, text in enumerate((*introduction, *explained), 1):
        put(sheet, row, 1, text)
