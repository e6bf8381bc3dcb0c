"""A line stated in words, as examples of clauses state theirs: terms and values, parted by commas or semicolons."""

from __future__ import annotations

import re

from speccheck.english import nearest
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.messages.tables import DATUM_BEGINS_WITH_NO_TERM, VALUE_NOT_READ
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread, Quantity
from speccheck.schedule.lines import Datum, Line

_INCH_POUND = re.compile(
    r"(?<![A-Za-z])(in2?|inHg|inH2O|ft\d?|yd|mil|F|R|Btu|psi[ag]?|mph|fpm|cfm|gpm|gal|lb|oz|perm)(?![A-Za-z])"
)
"""What the units of inches and pounds have in them; every other unit is metric."""


def line_in_words(text: str, vocabulary: Vocabulary, units: str = "") -> tuple[Line, tuple[Diagnostic, ...]]:
    """Return the line that a text states ("pipe size 4 in, thickness 1 in"), and what of it cannot be read.

    `units` is the system of numbers without a unit, "" for none.
    """
    data: dict[str, Datum] = {}
    diagnostics: list[Diagnostic] = []
    for piece in re.finditer(r"[^,;\n]+(?:,(?=\d{3}\b)[^,;\n]+)*", text):
        words = piece.group().strip()
        if not words:
            continue
        start = piece.start() + len(piece.group()) - len(piece.group().lstrip())
        place = Place("the line", 1, start + 1, len(words))
        found = _stated(words, vocabulary)
        if found is None:
            diagnostics.append(_unknown(words, vocabulary, place, text))
            continue
        term, value_text = found
        value = read_value(value_text, term, BareUnits(system=units))
        if isinstance(value, Misread):
            diagnostics.append(VALUE_NOT_READ.at(place, text, sentence=value.message, advice=value.help))
        else:
            data[term.name] = Datum(value, value_text, place)
    return Line("the line", data), tuple(diagnostics)


def units_written_in(text: str, vocabulary: Vocabulary) -> str:
    """Return the system in which most amounts of a line are written, "metric" or "inch-pound".

    Units that both systems have, such as the percent, count for neither; a line without any is inch-pound.
    """
    line, _ = line_in_words(text, vocabulary)
    metric = 0
    for name, datum in line.data.items():
        term = vocabulary.terms[name]
        if term.kind.form is Form.SIZE:
            metric += 1 if "DN" in datum.text.upper() else -1
        elif isinstance(datum.value, Quantity) and term.metric != term.inch_pound:
            metric += -1 if _INCH_POUND.search(datum.value.unit) else 1
    return "metric" if metric > 0 else "inch-pound"


def _stated(words: str, vocabulary: Vocabulary) -> tuple[Term, str] | None:
    """Return the term that the longest run of words at the start names, and the rest."""
    pieces = words.split()
    for count in range(len(pieces), 0, -1):
        term = vocabulary.find(" ".join(pieces[:count]))
        if term is not None:
            return term, " ".join(pieces[count:])
    return None


def _unknown(words: str, vocabulary: Vocabulary, place: Place, text: str) -> Diagnostic:
    near = nearest(" ".join(words.split()[:2]), vocabulary.terms)
    return DATUM_BEGINS_WITH_NO_TERM.at(place, text, near=near and f"{near} ...", datum=words)
