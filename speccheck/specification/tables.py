"""Tables of a section as tables of the language: sizes across or down, temperatures or services on the other side."""

from __future__ import annotations

import re
from collections.abc import Sequence

from speccheck.language import parse_ruleset
from speccheck.language.vocabulary.terms import Vocabulary, fold
from speccheck.phrases.bands import read_size_band
from speccheck.quantities import Interval, Misread, NominalSize
from speccheck.specification.amounts import amounts_in
from speccheck.specification.blocks import SectionTable

_CLAUSE = '\nclause 0 "stands in for the rest of the ruleset"\n  draft\n  shall concealed\n'
_EMPTY = frozenset({"", "-", "–", "—", "n/a", "na", "none", "not required", "nr"})


def drafted_table(table: SectionTable, vocabulary: Vocabulary, name: str) -> tuple[str, tuple[str, ...]]:
    """Return a table in the language, or "" and why it could not be read: every cell is kept, or nothing is drafted."""
    rows = [row for row in table.rows if any(cell.strip() for cell in row)]
    if len(rows) < 2 or len({len(row) for row in rows}) != 1 or len(rows[0]) < 2:
        return "", ("the table has no plain rows and columns",)
    header, body = rows[0], rows[1:]
    columns = [_size(cell) for cell in header[1:]]
    if any(column is None for column in columns):
        return "", (
            f"the heading `{next(c for c, b in zip(header[1:], columns, strict=True) if b is None)}` is no band",
        )
    axis, bands = _row_axis([row[0] for row in body], vocabulary)
    if axis is None:
        return "", bands
    cells = [[_cell(cell) for cell in row[1:]] for row in body]
    odd = next(
        (row[at + 1] for row, read in zip(body, cells, strict=True) for at, one in enumerate(read) if one is None), None
    )
    if odd is not None:
        return "", (f"the cell `{odd}` is no thickness",)
    lines = ["  | " + " | ".join(str(column) for column in columns)]
    lines += [f"  {band} | {' | '.join(str(one) for one in row)}" for band, row in zip(bands, cells, strict=True)]
    text = "\n".join([f"table {name} in in", f"  by {axis}, pipe size", *lines])
    loaded = parse_ruleset(f'ruleset "draft"\n  speaks {vocabulary.name}\n\n{text}\n{_CLAUSE}', drafts=True)
    errors = [found.message for found in loaded.diagnostics if found.severity.value == "error"]
    return ("", tuple(errors[:1])) if errors else (text, ())


def _size(text: str) -> str | None:
    """Return the band of sizes of a heading in the words of the language."""
    band = read_size_band(text, "inch-pound")
    if isinstance(band, Misread) or band.term != "pipe size":
        return None
    value = band.value
    if isinstance(value, NominalSize):
        return str(value)
    if not isinstance(value, Interval):
        return None
    low, high = value.low, value.high
    if low is None and high is None:
        return None
    if low is None:
        return f"{'up to' if value.high_closed else 'under'} {high}"
    if high is None:
        return f"{low} and over" if value.low_closed else f"over {low}"
    start = f"{low} to" if value.low_closed else f"over {low} to"
    return f"{start} {'' if value.high_closed else 'under '}{high}"


def _row_axis(labels: Sequence[str], vocabulary: Vocabulary) -> tuple[str | None, tuple[str, ...]]:
    """Return the term of the row headings and their bands: temperatures, or values of the service."""
    temperatures = [_temperature(label) for label in labels]
    if all(temperatures):
        return "operating temperature", tuple(str(one) for one in temperatures)
    names = {
        fold(spelling): choice.name
        for term in ("service",)
        for choice in vocabulary.terms[term].choices
        for spelling in (choice.name, *choice.also)
    }
    services = [
        names.get(fold(label)) or names.get(fold(re.sub(r"\s+(?:piping|pipes?|systems?)$", "", label, flags=re.I)))
        for label in labels
    ]
    if all(services) and len(set(services)) == len(services):
        return "service", tuple(str(one) for one in services)
    odd = next(label for label, t, s in zip(labels, temperatures, services, strict=True) if not t and not s)
    return None, (f"the heading `{odd}` is no temperature and no service",)


def _temperature(text: str) -> str | None:
    """Return a band of temperatures in the words of the language: "105 F to 140 F", "over 350 F", "under 40 F"."""
    plain = " ".join(text.replace("–", "-").replace("°", " ").split())
    found = re.fullmatch(
        r"(-?\d+)\s*[FC]?\s*(?:-|to|through)\s*(-?\d+)\s*(?:deg(?:rees)?\.?)?\s*([FC])", plain, re.IGNORECASE
    )
    if found is not None:
        return f"{found[1]} {found[3].upper()} to {found[2]} {found[3].upper()}"
    amounts = amounts_in(plain)
    if len(amounts) != 1 or amounts[0].unit not in ("F", "C") or (amounts[0].start, amounts[0].end) != (0, len(plain)):
        return None
    words = {"at least": "{} and over", "at most": "{} and under", "more than": "over {}", "less than": "under {}"}
    return words[amounts[0].relation].format(amounts[0].text) if amounts[0].relation else None


def _cell(text: str) -> str | None:
    """Return a cell: a thickness in inches, or a dash; None for anything else. "None" may be a thickness of nothing."""
    plain = text.strip().casefold()
    if plain == "none":
        return None
    if plain in _EMPTY:
        return "-"
    amounts = amounts_in(text.strip())
    if len(amounts) != 1 or amounts[0].relation or (amounts[0].start, amounts[0].end) != (0, len(text.strip())):
        return None
    return amounts[0].text.removesuffix(" in") if amounts[0].unit in ("in", "") else None
