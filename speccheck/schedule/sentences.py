"""Sentences: columns whose cells propose one or several systems in words, or describe one as lists of quantities do."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from speccheck.language.diagnostics import Diagnostic
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven
from speccheck.phrases import Proposed, read_description, read_systems
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.columns_by_cells import says_nothing
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_spellings import heads_something_else, heads_what_is_proposed
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.lines import Datum, Line
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.cells import SENTENCE_CONTRADICTED, SENTENCE_NOT_UNDERSTOOD

FROM_SENTENCE = "from the sentence"
NOTE = "read as sentences that propose systems"
MEASURED, INSULATION, SERVICE = "thickness", "insulation", "service"


def with_sentences(
    grid: Grid,
    rows: Sequence[int],
    uses: Sequence[ColumnUse],
    reader: HeaderReader,
    mapping: ScheduleMapping,
    told: Container[str] = (),
) -> list[ColumnUse]:
    """Return the columns, with the one that names no term and whose cells mostly propose systems marked as sentences.

    What is specified or existing proposes nothing, and of several such columns that are not told apart none does.
    Beside a column of thicknesses it is one called a description, of which each cell says the service and more, where
    no heading says it (the terms `told`).
    """
    stated = {use.term.name for use in uses if use.term is not None}
    likely: list[ColumnUse] = []
    for use in uses:
        open_ = not use.is_read and not use.ignored and not use.left and not heads_something_else(use.column.header)
        if MEASURED in stated:
            is_one = open_ and SERVICE not in stated and SERVICE not in told and _all_describe(grid, rows, use, reader)
        else:
            is_one = open_ and _mostly_propose(grid, rows, use, reader.vocabulary, mapping)
        likely += [use] if is_one else []
    likely = [use for use in likely if heads_what_is_proposed(use.column.header)] or likely
    one = likely[0] if len(likely) == 1 else None
    return [replace(use, sentences=True, column=replace(use.column, note=NOTE)) if use is one else use for use in uses]


def _all_describe(grid: Grid, rows: Sequence[int], use: ColumnUse, reader: HeaderReader) -> bool:
    """Whether a column called a description has cells that say the service and something beside it, all of them."""
    texts = [text for row in rows if (text := grid.text(row, use.index).strip())]
    if not says_nothing(use.column.header) or not texts:
        return False
    said = [reader.headings.said(text) for text in texts]
    return all(SERVICE in each for each in said) and any(INSULATION in each for each in said)


def _mostly_propose(
    grid: Grid, rows: Sequence[int], use: ColumnUse, vocabulary: Vocabulary, mapping: ScheduleMapping
) -> bool:
    texts = [text for row in rows if (text := grid.text(row, use.index).strip())]
    systems = (systems_in(text, vocabulary, BareUnits(system=mapping.units)) for text in texts)
    good = sum(bool(found) and all(INSULATION in one.values for one in found) for found in systems)
    return good > 0 and good * 2 >= len(texts)


def systems_in(text: str, vocabulary: Vocabulary, bare: BareUnits) -> tuple[Proposed, ...]:
    """Return the systems that a sentence proposes, or the one that it describes; none where it is not understood."""
    described = read_description(text, vocabulary, bare)
    return (described,) if described is not None else read_systems(text, vocabulary, bare)


def in_sentences(
    line: Line,
    grid: Grid,
    row: int,
    uses: Sequence[ColumnUse],
    reader: HeaderReader,
    mapping: ScheduleMapping,
    problems: list[Diagnostic],
) -> Iterator[Line]:
    """Yield the lines that the sentences of a row propose beside its other cells; the line itself where it has none.

    A sentence that is not understood, or that another cell of the row contradicts, proposes nothing, with a warning.
    """
    for use in uses:
        text = grid.text(row, use.index).strip() if use.sentences else ""
        if not text:
            continue
        at = (row, use.index)
        systems = systems_in(text, reader.vocabulary, BareUnits(system=mapping.units))
        if not systems and MEASURED in line.data and (said := reader.headings.said(text)):
            systems = (Proposed(said, text),)
        if systems and not any(_contradicts(system, line) for system in systems):
            yield from lines_of_sentence(line, systems, grid, at)
            return
        wording = SENTENCE_CONTRADICTED if systems else SENTENCE_NOT_UNDERSTOOD
        problem = wording.at(grid.place(*at), text=text)
        problems.append(problem)
        unread = Datum(NotGiven(text, problem.message), text, grid.place(*at))
        line = replace(line, data={**line.data, (SERVICE if MEASURED in line.data else MEASURED): unread})
    yield line


def _contradicts(system: Proposed, line: Line) -> bool:
    """Whether a cell of the line states another value of a term than the sentence does."""
    stated = ((line.data[name], value) for name, value in system.values.items() if name in line.data)
    return any(datum.text and datum.value != value for datum, value in stated)


def lines_of_sentence(line: Line, systems: Sequence[Proposed], grid: Grid, at: tuple[int, int]) -> Iterator[Line]:
    """Yield a line for each system of a sentence; what other cells of the row state comes first."""
    place = grid.place(*at)
    text = grid.text(*at).strip()
    for number, system in enumerate(systems, start=1):
        said = {
            name: Datum(value, system.text, place, f"{FROM_SENTENCE} `{text}`", inferred=True)
            for name, value in system.values.items()
            if name not in line.data or not line.data[name].text
        }
        name = line.name or f"row {at[0] + 1}"
        called = f"{name}, {system.text}" if len(systems) > 1 else line.name
        yield replace(line, name=called, data={**line.data, **said}, place=line.place if number == 1 else place)
