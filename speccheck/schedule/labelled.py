"""Labels with their values, as title blocks have them: "Service: Glycol", "Location:" before "Outdoors"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import BareUnits, Value
from speccheck.phrases import read_cell, values_of
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader

_LABELLED = re.compile(r"[^:]{1,40}:\s*\S.{0,80}")


class Label(NamedTuple):
    """A label with its value: the columns in which they stand, and the words of both."""

    columns: tuple[int, ...]
    text: str


def labels_of(grid: Grid, row: int) -> Iterator[Label]:
    """Yield the texts of a row: a label that ends in a colon goes with the next cell, any other text stands alone."""
    columns = list(grid.columns_by_row.get(row, ()))
    while columns:
        column = columns.pop(0)
        text = " ".join(grid.text(row, column).split())
        if text.endswith(":") and columns and ":" not in grid.text(row, columns[0]):
            other = columns.pop(0)
            yield Label((column, other), f"{text} {' '.join(grid.text(row, other).split())}")
        else:
            yield Label((column,), text)


def is_title_block(grid: Grid, row: int) -> bool:
    """Whether each text of a row is a label with its value: "Service: | Glycol | | Location: | Outdoors"."""
    return all(is_labelled(label.text) for label in labels_of(grid, row))


def is_labelled(text: str) -> bool:
    """Whether a text is a label with what it is a label of."""
    return _LABELLED.fullmatch(text) is not None


def labelled_values(text: str, reader: HeaderReader, bare: BareUnits) -> Mapping[str, Value] | None:
    """Return what stands behind the name of its term: "Jacket: PVC"; None where no label names a term of values."""
    label, colon, rest = text.partition(":")
    match = reader.match(label) if colon and rest.strip() else None
    if match is None or match.term is None or match.rest or match.misfit or match.term.kind.form is Form.TEXT:
        return None
    bare = BareUnits(match.unit, bare.system)
    return values_of(read_cell(rest.strip(), match.term, reader.vocabulary, bare)) or {}
