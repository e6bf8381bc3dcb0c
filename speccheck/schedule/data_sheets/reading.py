"""A data sheet to rows of product data: what it shows of a product, each datum with its page and its words.

In: a PDF or Word file, and the names of the products that a schedule proposes. Out: a `Schedule` whose lines are rows
of product data, as a table of product data gives them: one with what holds at any condition, one for each condition.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place, has_errors
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.phrases.words import key_of
from speccheck.schedule.data_sheets.dates import dates_in
from speccheck.schedule.data_sheets.facts import SheetFact, facts_in
from speccheck.schedule.data_sheets.mentions import SheetNames
from speccheck.schedule.data_sheets.tables import TableFacts
from speccheck.schedule.formats.opening import FormatKind, open_schedule, read_within_limits
from speccheck.schedule.formats.pdf_texts import PROSE
from speccheck.schedule.formats.safety import check_file
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.lines import Datum, Line, Schedule
from speccheck.schedule.messages.settled import NO_PRODUCT_NAMED, NOTHING_FOUND_ON_SHEET, SEVERAL_PRODUCTS_NAMED

PRODUCT = "product"
_SENTENCE = re.compile(r"(?<=[.;!?])\s+(?=[A-Z•])|\s*[•▪■]\s*")
READ_ON_DATA_SHEET = "read on a data sheet"


def is_data_sheet(path: Path) -> bool:
    """Whether a file is of a kind in which data sheets come."""
    return path.suffix.lower() in (".pdf", ".docx")


def read_data_sheet(path: Path, vocabulary: Vocabulary, products: Sequence[str]) -> Schedule:
    """Return what a data sheet shows of one of the products of a schedule.

    Without lines, a diagnostic says why: no product is named, several are, or nothing was found.
    """
    grids, problems = _opened(path)
    if has_errors(problems):
        return Schedule(path.name, (), diagnostics=tuple(problems))
    product, problem = _product(path.name, grids, products)
    if product is None:
        return Schedule(path.name, (), diagnostics=(problem,) if problem else ())
    names, reader = SheetNames(vocabulary), HeaderReader(vocabulary)
    found = [*_numbers(grids, names, reader), *_words(grids, vocabulary, names)]
    if not found:
        note = NOTHING_FOUND_ON_SHEET.at(Place(path.name), product=product)
        return Schedule(path.name, (), diagnostics=(note,))
    return Schedule(path.name, tuple(_rows(path.name, product, found, names)))


def _opened(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the tables and the prose of a file."""
    refused = check_file(path)
    if refused is not None:
        return [], [refused]
    with path.open("rb") as file:
        start = file.read(1024)
    if b"%PDF-" in start:
        return read_within_limits(FormatKind.PDF_TEXTS, path)
    return open_schedule(path)


def _product(file: str, grids: Sequence[Grid], products: Sequence[str]) -> tuple[str | None, Diagnostic | None]:
    """Return the product that a data sheet is about: the one that its first text names that names any."""
    keys = {product: key_of(product) for product in dict.fromkeys(products)}
    texts = (grid.cells[at].text for grid in sorted(grids, key=_first_place) for at in sorted(grid.cells))
    for text in texts:
        words = key_of(text)
        named = [product for product, key in keys.items() if key and _holds(words, key)]
        longest = [one for one in named if not any(one != other and _holds(keys[other], keys[one]) for other in named)]
        if len(longest) == 1:
            return longest[0], None
        if longest:
            return None, SEVERAL_PRODUCTS_NAMED.at(Place(file), products=", ".join(longest))
    return None, NO_PRODUCT_NAMED.at(Place(file))


def _first_place(grid: Grid) -> tuple[int, float]:
    """Return what orders grids from the top of the first page: prose of documents comes as it stands."""
    spots = [(spot.page, spot.top) for spot in grid.spots.values()]
    return min(spots, default=(0, 0.0))


def _holds(words: Sequence[str], key: Sequence[str]) -> bool:
    return any(tuple(words[place : place + len(key)]) == tuple(key) for place in range(len(words) - len(key) + 1))


def _numbers(grids: Sequence[Grid], names: SheetNames, reader: HeaderReader) -> Iterator[tuple[Place, SheetFact]]:
    """Yield the facts with numbers, each with its place."""
    tables = TableFacts(names, reader)
    for grid in grids:
        prose = {row for row in grid.columns_by_row if grid.sheet == PROSE or row not in grid.table_rows}
        for row in sorted(prose):
            for column in grid.columns_by_row[row]:
                if not grid.cells[row, column].trouble:
                    for sentence in _SENTENCE.split(grid.text(row, column)):
                        yield from ((grid.place(row, column), fact) for fact in facts_in(sentence, names))
        if len(prose) < len(grid.columns_by_row):
            yield from ((grid.place(row, column), fact) for row, column, fact in tables.facts(_without(grid, prose)))


def _without(grid: Grid, rows: set[int]) -> Grid:
    """Return a table without the paragraphs around it."""
    from dataclasses import replace

    return replace(grid, cells={at: cell for at, cell in grid.cells.items() if at[0] not in rows}) if rows else grid


def _words(grids: Sequence[Grid], vocabulary: Vocabulary, names: SheetNames) -> Iterator[tuple[Place, SheetFact]]:
    """Yield the standards, types and grades that the first text names that names any, and dates of reports."""
    chosen = [term for term in vocabulary.terms.values() if term.needs_evidence and term.kind.form is Form.CHOICE]
    done: set[str] = set()
    for grid in sorted(grids, key=_first_place):
        for row, columns in grid.columns_by_row.items():
            text = " ¦ ".join(grid.text(row, column) for column in columns if not grid.cells[row, column].trouble)
            place = grid.place(row, columns[0])
            for sentence in _SENTENCE.split(text):
                standard = any(
                    term.of and term.name.endswith("standard") for term in chosen if _choices(sentence, term)
                )
                for term in chosen:
                    found = _choices(sentence, term)
                    if term.name in done or len(found) != 1 or (term.name.startswith("standard ") and not standard):
                        continue
                    done.add(term.name)
                    name, words = next(iter(found.items()))
                    yield place, SheetFact(term, name, words)
                yield from ((place, fact) for fact in dates_in(sentence, vocabulary, names))


def _choices(text: str, term: Term) -> dict[str, str]:
    """Return the choices of a term that a text names by a spelling of four letters or more, with the spelling."""
    words = key_of(text)
    found: dict[str, str] = {}
    for choice in term.choices:
        for spelling in (choice.name, choice.name.replace("-", " "), *choice.also):
            key = key_of(spelling)
            if len("".join(key)) >= 4 and _holds(words, key):
                found.setdefault(choice.name, spelling)
    longest = {
        name: spelling
        for name, spelling in found.items()
        if not any(
            other != name and len(key_of(longer)) > len(key_of(spelling)) and _holds(key_of(longer), key_of(spelling))
            for other, longer in found.items()
        )
    }
    return {name: spelling for name, spelling in longest.items() if name != "none"}


def _rows(file: str, product: str, found: Sequence[tuple[Place, SheetFact]], names: SheetNames) -> Iterator[Line]:
    """Yield the rows of product data: what is shown several times has several rows, and alike ones one."""
    properties = names.vocabulary.terms
    rows: list[dict[str, Datum]] = []
    for place, fact in found:
        datum = Datum(fact.value, fact.text, place, READ_ON_DATA_SHEET)
        data = {fact.term.name: datum}
        if fact.at is not None:
            data[fact.term.stated_at] = Datum(fact.at, fact.at_text, place, READ_ON_DATA_SHEET)
        alone = fact.term.stated_at != "" or fact.at is not None
        fits = None if alone else next((row for row in rows if not _is_apart(row, properties, fact.term.name)), None)
        if fits is None:
            rows.append(data)
        else:
            fits |= data
    for number, data in enumerate(rows, start=1):
        place = next(iter(data.values())).place
        yield Line(f"{file} {number}", {PRODUCT: Datum(product, product, place, READ_ON_DATA_SHEET), **data}, place)


def _is_apart(row: Mapping[str, Datum], terms: Mapping[str, Term], name: str) -> bool:
    """Whether a row is about one condition, or states a term already."""
    return name in row or any(terms[one].stated_at for one in row)
