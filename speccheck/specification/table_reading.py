"""The shape of a section's table: how many rows are headings, which columns name systems, which hold what is asked.

In: the rows of a table as they stand in the document, merged cells repeated. Out: records, one for each cell of what
is asked: the terms that its row and its column speak of, what it is an amount of, and the cell. Several rows of
headings, bands across or down and columns of materials come to the same records.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from speccheck.language.core import CellWord
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.phrases.worded_amounts import amounts_in
from speccheck.specification.blocks import SectionTable
from speccheck.specification.plain_words import plain_words_of
from speccheck.specification.table_labels import Label, choice_term, choices_of, read_label

_DASHES = frozenset({"", "-", "–", "—", "n/a", "na", "not applicable"})
_NOTHING_ASKED = frozenset({"none", "not required", "nr", "none required", "no insulation required"})
_NOT_PERMITTED = frozenset({"not permitted", "not allowed", "np", "prohibited", "do not use"})
_RSI = "m2.K/W"
NOT_COVERED = "-"


@dataclass(frozen=True, slots=True)
class Record:
    """One cell of what is asked: where it applies by term, the cell in the words of the language, and its row."""

    where: tuple[tuple[str, str], ...]
    cell: str
    row: int


@dataclass
class Shape:
    """A table as it was understood: what its cells are amounts of, its records, and what its columns of words ask.

    `chosen` has, for each row, the term and the values of a column of materials or jackets. `doubts` say why the
    table was not understood; then nothing else counts. `notes` has the cells that are marked for a note.
    """

    term: str = "thickness"
    unit: str = "in"
    records: list[Record] = field(default_factory=list)
    chosen: list[tuple[tuple[tuple[str, str], ...], str, str]] = field(default_factory=list)
    doubts: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    said: bool = True


def read_table(table: SectionTable, vocabulary: Vocabulary, *, metric: bool = False) -> Shape:
    """Return a table as it is understood: every cell of it, or the doubts that keep it from being drafted.

    `metric` says that the section has metric units, so that a table without any may be in those.
    """
    shape = Shape()
    rows = [row for row in table.rows if any(cell.strip() for cell in row)]
    while rows and len(rows[0]) > 1 and len({cell.strip() for cell in rows[0]}) == 1:
        rows = rows[1:]  # a title over the whole width
    if len(rows) < 2 or len({len(row) for row in rows}) != 1 or len(rows[0]) < 2:
        shape.doubts.append("the table has no plain rows and columns")
        return shape
    heads = _heading_rows(rows, vocabulary)
    body = [tuple(" ".join(cell.split()) for cell in row) for row in rows[heads:]]
    headings = [_heading(rows[:heads], column) for column in range(len(rows[0]))]
    if not heads or not body:
        shape.doubts.append("it is not clear which rows of the table are headings")
        return shape
    _fill(shape, headings, body, plain_words_of(table.title), vocabulary)
    if metric and not shape.said:
        shape.doubts.append("it is not said in which unit its cells are")
    return shape


def _heading_rows(rows: Sequence[Sequence[str]], vocabulary: Vocabulary) -> int:
    """Return how many rows stand above the first one whose first cell is a size, a temperature or a name."""
    above = ""
    for count, row in enumerate(rows):
        label = read_label(row[0], above, vocabulary) if row[0].strip() else None
        if label is not None and count:
            return count
        above = f"{above} {row[0]}"
    return 0


def _heading(heads: Sequence[Sequence[str]], column: int) -> tuple[str, ...]:
    """Return the headings of a column from above, each once."""
    texts = (plain_words_of(row[column]) for row in heads)
    return tuple(dict.fromkeys(text for text in texts if text))


def _fill(
    shape: Shape, headings: Sequence[tuple[str, ...]], body: Sequence[Sequence[str]], title: str, vocabulary: Vocabulary
) -> None:
    """Tell the columns apart, and fill in the records; `title` has the words above the table."""
    names, chosen, values = _columns(shape, headings, body, vocabulary)
    if shape.doubts:
        return
    if not values and not chosen:
        shape.doubts.append("no column of the table says what is asked")
    plain = f"{title} {' '.join(' '.join(one) for one in headings)}".casefold()
    over_values = " ".join(" ".join(headings[column]) for column in values).casefold()
    of_jackets = any(choice_term(" ".join(headings[column]), vocabulary) == "jacket" for column in names)
    shape.term = _measured(title.casefold(), over_values, of_jackets=of_jackets)
    if not shape.term:
        shape.doubts.append("it is not said whether it has the thickness of insulations or of jackets")
    shape.unit = _unit(shape.term, plain)
    shape.said = _UNIT_SAID.search(plain) is not None or any(
        amount.unit or amount.mark for row in body for column in values for amount in amounts_in(row[column])
    )
    for number, row in enumerate(body):
        where: Label = {}
        for column in names:
            label = read_label(_above(body, number, column), " ".join(headings[column]), vocabulary) or {}
            if set(label) & set(where):
                shape.doubts.append(f"the row `{row[column]}` says one thing twice")
            where |= label
        for column, term in chosen.items():
            asked = _choices(row[column], term, vocabulary)
            if asked:
                shape.chosen.append((tuple(where.items()), term, asked))
        for column, label in values.items():
            text, mark = _without_mark(row[column])
            if mark:
                shape.notes.append(row[column])
            cell = _cell(text, shape.unit)
            if cell is None:
                shape.doubts.append(f"the cell `{row[column]}` is no {shape.term}")
            else:
                shape.records.append(Record(tuple({**where, **label}.items()), cell, number))


_UNIT_SAID = re.compile(r"\bmm\b|millim|\bin\b(?!\s+(?:the|accordance))|\binch|[\"″]|m[²2]\W?k/w|ft2|\br-\d")
_METRIC_RESISTANCE = re.compile(r"m[²2]\W?\s?k/w|\brsi\b")
# What marks a cell for a note below the table: "40¹", "40 (a)", "40*".
_MARK = re.compile(r"(?<=[\w\"″%.])\s*(?:[¹²³⁴⁵⁶⁷⁸⁹⁰*†‡]+|\((?:[a-z]|\d)\))$")


def _unit(term: str, plain: str) -> str:
    """Return the unit of the cells of a table, by the words around it."""
    if term == "installed R-value":
        return _RSI if _METRIC_RESISTANCE.search(plain) else "R"
    return "mm" if re.search(r"\bmm\b|millim", plain) else "in"


def _without_mark(cell: str) -> tuple[str, str]:
    """Return a cell without the mark of a note, and that mark."""
    found = _MARK.search(cell)
    return (cell, "") if found is None else (cell[: found.start()].rstrip(), found[0])


def _measured(title: str, over_values: str, *, of_jackets: bool) -> str:
    """Return what the cells of a table are amounts of, by the words over their columns and then by its title.

    `of_jackets` says that its rows are those of jackets. "" where the words speak of insulations and of jackets.
    """
    if re.search(r"\br-?\s?values?\b|resistance", f"{title} {over_values}"):
        return "installed R-value"
    for words in (over_values, title):
        jackets, insulations = "jacket" in words, re.search(r"insulat", words) is not None
        if jackets is not insulations:
            return "jacket thickness" if jackets else "thickness"
        if jackets and insulations:
            return ""
    return "jacket thickness" if of_jackets else "thickness"


def _above(body: Sequence[Sequence[str]], row: int, column: int) -> str:
    """Return a cell of a column of names; a blank one goes on with the cell above."""
    return next((body[at][column] for at in range(row, -1, -1) if body[at][column]), "")


def _columns(
    shape: Shape, headings: Sequence[tuple[str, ...]], body: Sequence[Sequence[str]], vocabulary: Vocabulary
) -> tuple[list[int], dict[int, str], dict[int, Label]]:
    """Return the columns that name systems, those of chosen materials with their term, and those of amounts."""
    names: list[int] = []
    chosen: dict[int, str] = {}
    values: dict[int, Label] = {}
    for column, heading in enumerate(headings):
        cells = [row[column] for row in body]
        whole = " ".join(heading)
        banded = _banded(heading, vocabulary)
        term = choice_term(whole, vocabulary)
        term = term if term and vocabulary.terms[term].proposed else ""
        if banded is not None and (column or all(_cell(_without_mark(cell)[0], "in") for cell in cells)):
            values[column] = banded
        elif term and all(_choices(cell, term, vocabulary) is not None for cell in cells):
            chosen[column] = term
        elif not (_is_amounts(whole) and column) and _names_lines(column, whole, body, vocabulary):
            names.append(column)
        elif _is_amounts(whole):
            values[column] = {}
        else:
            filled = [cell for cell in cells if cell]
            odd = next((cell for cell in filled if read_label(cell, whole, vocabulary) is None), (*filled, "")[0])
            shape.doubts.append(f"the column `{whole or column + 1}` was not understood: `{odd}`")
    if names and len({tuple(_above(body, row, column) for column in names) for row in range(len(body))}) < len(body):
        names += [column for column in chosen if chosen[column] == "insulation"]  # it alone tells some rows apart
        chosen = {column: term for column, term in chosen.items() if column not in names}
    if not names and chosen and not any(values.values()):
        first = min(chosen)  # "Jacket | Thickness": the jacket tells the lines apart
        names.append(first)
        del chosen[first]
    if len({frozenset(label) for label in values.values()}) > 1:
        shape.doubts.append("its columns of amounts do not speak of the same things")
    return names, chosen, values


# Headings of columns that name systems, whatever their values are.
_NAMING = re.compile(
    r"\b(?:services?|systems?|applications?|uses?|fluids?|locations?|spaces?|areas?|where|components?|items?|types?|kinds?"
    r"|pip(?:e|es|ing)|ducts?|tanks?|equipment|insulations?|materials?|jackets?|descriptions?)\b",
    re.IGNORECASE,
)
_SIZES = re.compile(r"\b(?:sizes?|NPS|DN|diameters?|pip(?:e|es|ing)|nominal|bore|tub(?:e|es|ing))\b", re.IGNORECASE)


def _names_lines(column: int, heading: str, body: Sequence[Sequence[str]], vocabulary: Vocabulary) -> bool:
    """Whether the cells of a column say of which lines a row is, each of them.

    A bare number is a size only under a heading that says so, and not under "Item" or "Outdoors"; a value behind the
    first column names lines only where its heading does, and not under "Remarks".
    """
    cells = [_above(body, row, column) for row in range(len(body))]
    labels = [read_label(cell, heading, vocabulary) for cell in cells]
    if not all(labels):
        return False
    if any("pipe size" in label and _is_bare(cell) for cell, label in zip(cells, labels, strict=True) if label):
        return _SIZES.search(heading) is not None
    measured = all(set(label) <= {"pipe size", "operating temperature"} for label in labels if label)
    named = choice_term(heading, vocabulary) in {term for label in labels if label for term in label}
    return not column or measured or named or not heading or _NAMING.search(heading) is not None


def _is_bare(cell: str) -> bool:
    """Whether a cell has a number alone, without what it is a number of."""
    return re.fullmatch(r"[\d\s./-]+", cell) is not None


def _is_amounts(heading: str) -> bool:
    return re.search(r"\bthickness(?:es)?\b|\br-?\s?values?\b|\bthk\b", heading, re.IGNORECASE) is not None


def _banded(heading: Sequence[str], vocabulary: Vocabulary) -> Label | None:
    """Return what the headings of a column of amounts speak of, its units and "nominal pipe size" set aside."""
    found: Label = {}
    for position, text in enumerate(heading):
        above = " ".join(heading[:position])
        words = re.sub(r"\(\s*(?:in\.?|inches|NPS)\s*\)", "", text, flags=re.IGNORECASE)
        label = read_label(words, above, vocabulary)
        if label is not None and not set(label) & set(found):
            found |= label
        elif not _is_caption(text, vocabulary):
            return None
    return found or None


_CAPTION = frozenset(
    {
        *("nominal", "pipe", "piping", "size", "sizes", "thickness", "insulation", "minimum", "in", "inches", "inch"),
        *(
            "of",
            "for",
            "the",
            "diameter",
            "required",
            "nps",
            "fluid",
            "operating",
            "temperature",
            "range",
            "f",
            "degrees",
            "dn",
            "mm",
        ),
    }
)


def _is_caption(text: str, vocabulary: Vocabulary) -> bool:
    """Whether a heading says only that sizes, temperatures or thicknesses stand below it."""
    return all(word in _CAPTION for word in re.findall(r"[a-z]+", text.casefold()))


def _choices(cell: str, term: str, vocabulary: Vocabulary) -> str | None:
    """Return the values of a term that a cell names, "" where it asks nothing, None where it was not understood."""
    plain = cell.strip().casefold()
    if plain in _DASHES:
        return ""
    if plain in _NOTHING_ASKED:
        return ""  # "None" beside a service: nothing has to be there, and something may
    return None if re.search(r"\band\b|&", plain) else choices_of(cell, term, vocabulary)


def _cell(text: str, unit: str) -> str | None:
    """Return a cell as the language writes it: an amount in the unit of the table, or words; None for no cell.

    A dash is what the table says nothing of ("N/A"), `nothing required` what it asks nothing of ("None"), and `not
    permitted` what nothing meets ("NP").
    """
    plain = text.strip().casefold()
    if plain in _DASHES:
        return NOT_COVERED
    if plain in _NOTHING_ASKED:
        return CellWord.NOTHING_REQUIRED
    if plain.rstrip(".") in _NOT_PERMITTED:
        return CellWord.NOT_PERMITTED
    amounts = amounts_in(text.strip())
    if len(amounts) != 1 or amounts[0].relation or (amounts[0].start, amounts[0].end) != (0, len(text.strip())):
        return None
    amount = amounts[0]
    if unit == "R":
        return amount.text if amount.text.startswith("R") else f"R-{amount.text}" if not amount.unit else None
    return amount.text.removesuffix(f" {unit}") if amount.unit in (unit, "") and amount.text[0].isdigit() else None


def groups(shape: Shape) -> Iterator[tuple[tuple[tuple[str, str], ...], list[Record]]]:
    """Yield the records that make up a table each: those whose other terms, beside two that it is read by, agree."""
    outer = outer_terms(shape)
    found: dict[tuple[tuple[str, str], ...], list[Record]] = {}
    for record in shape.records:
        key = tuple((term, band) for term, band in record.where if term in outer)
        found.setdefault(key, []).append(record)
    yield from found.items()


_INNER = ("pipe size", "operating temperature", "thickness", "duct size", "service", "location", "insulation")


def outer_terms(shape: Shape) -> frozenset[str]:
    """Return the terms that part a table into several, where it has more than the two that the language reads by."""
    terms = {term for record in shape.records for term, _ in record.where}
    ragged = {term for term in terms if any(term not in dict(record.where) for record in shape.records)}
    inner = [term for term in _INNER if term in terms and term not in ragged][:2]
    inner += [term for term in sorted(terms - ragged) if term not in inner][: 2 - len(inner)]
    return frozenset(terms - set(inner))
