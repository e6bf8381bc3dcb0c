"""Facts in a table of a data sheet: names left of their values, or above them, with conditions in rows and columns."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.words import words_of
from speccheck.quantities import Misread
from speccheck.schedule.data_sheets.facts import SheetFact, facts_in
from speccheck.schedule.data_sheets.mentions import SheetNames, ends_of, quantities_in
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader, header_unit, split_brackets

Cells = Sequence[tuple[int, str]]
_NUMBER_FIRST = re.compile(r"[<>≤≥±~]?\s*[-−+]?\.?\d")
_METHOD = re.compile(r"[,;(]?\s*(?:per |to |by )?\b(?:ASTM|ISO|EN|UL|CAN/ULC|NFPA|DIN)\b.*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SheetLabel:
    """What a cell names: the terms, the unit of bare numbers beside it, and the condition that it states."""

    terms: tuple[Term, ...]
    unit: str = ""
    at: tuple[Value, str] | None = None


class TableFacts:
    """Reads the tables of a data sheet against one vocabulary."""

    def __init__(self, names: SheetNames, reader: HeaderReader) -> None:
        self.names, self.reader = names, reader
        terms = names.vocabulary.terms
        self.conditions = {term.stated_at: terms[term.stated_at] for term in names.properties if term.stated_at}

    def facts(self, grid: Grid) -> Iterator[tuple[int, int, SheetFact]]:
        """Yield the facts of a table, each with the row and column of its value."""
        above: dict[int, tuple[Value, str]] = {}
        heads: dict[int, SheetLabel] = {}
        carried: SheetLabel | None = None
        for row, columns in grid.columns_by_row.items():
            cells = [(column, grid.text(row, column)) for column in columns if not grid.cells[row, column].trouble]
            labels = {column: label for column, text in cells if (label := self.label(text)) is not None}
            own = list(self._by_row(cells, labels, above))
            if own:
                yield from ((row, column, fact) for column, fact in own)
                heads, carried = {}, None
                continue
            over = self._temperatures(cells, labels)
            if over:
                above = over
                continue
            if len(labels) >= 2:
                heads, carried = labels, None
            elif labels:
                carried = next(iter(labels.values()))
            elif carried is not None and (found := list(self._under(cells, carried))):
                yield from ((row, column, fact) for column, fact in found)
            elif heads:
                yield from ((row, column, fact) for column, fact in self._by_column(cells, heads))

    # ---- what cells are ------------------------------------------------------------------------------------------

    def label(self, text: str) -> SheetLabel | None:
        """Return what a cell names, None where it names nothing that has a value."""
        text = " ".join(_METHOD.sub("", " ".join(text.split())).split()).strip(" :,;")
        if not text or _NUMBER_FIRST.match(text):
            return None
        outside, brackets = split_brackets(text)
        name, at = self._without_condition(outside)
        terms = self.names.whole(text) or self.names.whole(name)
        unit = ""
        match = self.reader.match(name) or self.reader.match(text)
        if not terms and match is not None and match.term is not None and match.term.kind.form.value in _MEASURED:
            terms, unit = (match.term,), match.unit
        if not terms:
            mentions = self.names.within(words_of(name))
            rest = words_of(name)
            if len(mentions) == 1 and mentions[0].last - mentions[0].first >= len(rest) - 3:
                terms = mentions[0].terms
        if not terms:
            return None
        for part in (*brackets, *re.split(r",\s*", outside)[1:], text.partition(",")[2].strip()):
            unit = unit or header_unit(part, terms[0])
            at = at or self._condition(part)
        return SheetLabel(terms, unit, at)

    def _without_condition(self, text: str) -> tuple[str, tuple[Value, str] | None]:
        """Return a name without the condition at its end, and that condition: "k at 75 °F mean"."""
        found = re.search(r"(?:,\s*|\s+)(?:@|at\b)\s*(?P<at>[-−]?\d.*)$", text, re.IGNORECASE)
        if found is None:
            return re.split(r",\s*", text)[0], None
        at = self._condition(found["at"])
        return (text[: found.start()].strip(" ,"), at) if at is not None else (text, None)

    def _condition(self, text: str) -> tuple[Value, str] | None:
        """Return the value of a condition that a text states and hardly anything else: "75 °F mean"."""
        for term in self.conditions.values():
            words = words_of(text)
            found = quantities_in(text, words, term)
            if len(found) == 1 and len(words) - (found[0].last - found[0].first) <= 4:
                return found[0].value, found[0].text
        return None

    def _temperatures(self, cells: Cells, labels: Mapping[int, SheetLabel]) -> dict[int, tuple[Value, str]]:
        """Return the conditions that stand over columns, by column, in a row that has nothing else."""
        named = [label for label in labels.values() if label.terms[0].name in self.conditions]
        unit = named[0].unit if named else ""
        term = next(iter(self.conditions.values()), None)
        found: dict[int, tuple[Value, str]] = {}
        for column, text in cells[1:] if term is not None else ():
            value = read_value(_mean(text), term, BareUnits(unit)) if term is not None else None
            if column in labels or value is None or isinstance(value, Misread | NotGiven):
                continue
            found[column] = (value, text)
        enough = len(found) >= 2 or (named and found)
        return found if enough and len(found) >= len(cells) - 3 else {}

    # ---- where values stand --------------------------------------------------------------------------------------

    def _by_row(
        self, cells: Cells, labels: Mapping[int, SheetLabel], above: Mapping[int, tuple[Value, str]]
    ) -> Iterator[tuple[int, SheetFact]]:
        """Yield the facts of a row in which names stand left of values."""
        label: SheetLabel | None = None
        inside = {column: found for column, text in cells if (found := self._inside(text, column in labels))}
        conditions = [at for _, text in cells if (at := self._marked(text)) is not None]
        for column, text in cells:
            if column in inside:
                yield from ((column, fact) for fact in inside[column])
                label = None
            elif column in labels:
                label = labels[column]
            elif label is not None and label.terms[0].name not in self.conditions:
                at = label.at or above.get(column) or (conditions[0] if conditions else None)
                yield from ((column, fact) for fact in self._of(label, text, cells, at))

    def _inside(self, text: str, is_label: bool) -> list[SheetFact]:
        """Return the facts of a cell that holds name and value alike: "Density: 3 pcf"."""
        if is_label or not re.search(r"\d", text):
            return []
        return facts_in(text, self.names)

    def _marked(self, text: str) -> tuple[Value, str] | None:
        """Return a condition that a cell is marked as: "@ 75 °F", "75 °F mean"."""
        return self._condition(text) if re.search(r"@|\bat\b|\bmean\b", text, re.IGNORECASE) else None

    def _under(self, cells: Cells, label: SheetLabel) -> Iterator[tuple[int, SheetFact]]:
        """Yield the facts of a row that begins with a condition, under a row that names the property."""
        at = self._condition(cells[0][1])
        if at is None:
            return
        for column, text in cells[1:]:
            yield from ((column, fact) for fact in self._of(label, text, cells[1:], at))

    def _by_column(self, cells: Cells, heads: Mapping[int, SheetLabel]) -> Iterator[tuple[int, SheetFact]]:
        """Yield the facts of a row in which values stand under names."""
        at = None
        for column, text in cells:
            head = heads.get(column)
            if head is not None and head.terms[0].name in self.conditions:
                value = read_value(_mean(text), head.terms[0], BareUnits(head.unit))
                at = (value, text) if not isinstance(value, Misread | NotGiven) else None
        for column, text in cells:
            head = heads.get(column)
            if head is not None and head.terms[0].name not in self.conditions:
                yield from ((column, fact) for fact in self._of(head, text, (), head.at or at))

    def _of(self, label: SheetLabel, text: str, cells: Cells, at: tuple[Value, str] | None) -> Iterator[SheetFact]:
        """Yield what a cell says of a label: the cell, a bare number in the unit beside it, or a text with both."""
        properties = {term.name for term in self.names.properties}
        if not any(term.name in properties for term in label.terms):
            return
        term = label.terms[0]
        at = at if term.stated_at else None
        if self.names.second_of_pair(term) is not None and re.fullmatch(r"\s*\d+\s*/\s*\d+\s*", text):
            yield from facts_in(text, self.names, label.terms)
            return
        units = [label.unit, *(header_unit(part, term) for _, other in cells for part in (other, *_bracketed(other)))]
        for bare in (BareUnits(unit) if unit else NO_UNITS for unit in ("", *filter(None, units))):
            value = read_value(text, term, bare)
            if isinstance(value, Misread | NotGiven):
                found = quantities_in(text, words_of(text), term, bare)
                if not found or (not term.kind.dimension and len(words_of(text)) > 4):
                    continue
                inner = facts_in(text, self.names, label.terms)
                if inner and not bare.unit:
                    yield from (_at(fact, at) for fact in inner)
                    return
                value = found[0].value
            for each, end in ends_of(value, label.terms):
                yield SheetFact(each, end, text, *(at or (None, "")))
            return


_MEASURED = ("quantity", "number")


def _at(fact: SheetFact, at: tuple[Value, str] | None) -> SheetFact:
    if fact.at is not None or at is None:
        return fact
    return SheetFact(fact.term, fact.value, fact.text, *at)


def _bracketed(text: str) -> tuple[str, ...]:
    return split_brackets(text)[1]


def _mean(text: str) -> str:
    """Return a temperature without the words that say that it is a mean one."""
    return re.sub(r"(?:@|\bat\b|\bmean\b|\btemp(?:erature)?\b\.?)", " ", text, flags=re.IGNORECASE).strip(" ,:")
