"""Layers: "2 layers of 1 in", `(2) layers 1-1/2"`, `2 x 2"`: how thick an insulation is in all, and in how many."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import NamedTuple

from speccheck.english import NUMBER_WORDS
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Value, read_value
from speccheck.phrases.lexicon import Lexicon
from speccheck.quantities import Quantity

THICKNESS, LAYERS = "thickness", "layers"
MOST_LAYERS = 5
_NUMBERS = {"single": 1, "double": 2, "triple": 3}
_NUMBERS |= {word: number for word, number in NUMBER_WORDS.items() if 1 < number <= MOST_LAYERS}
_LAYERS = re.compile(
    rf"\(?(?P<count>[1-{MOST_LAYERS}]|{'|'.join(_NUMBERS)})\)?\s*[- ]?"
    r"(?:(?:layers?|lyrs?\.?)(?!\w)|(?P<times>[x×])(?=\s*\d))"
    r"(?:\s*(?:of|at|@|-|,)?\s*(?P<each>\d[\d/. -]*(?:\"|''|″|in\b\.?|inch\b|mm\b))"
    r"(?:\s*(?:thick|each|ea\.?)(?!\w))*)?",
    re.IGNORECASE,
)


class Layers(NamedTuple):
    """What words say of layers, by term, and how many characters they are."""

    values: tuple[tuple[Term, Value], ...]
    length: int


def layers_at(text: str, start: int, lexicon: Lexicon) -> Layers | None:
    """Return what is said of layers at a place of a cell of thicknesses or of insulations, or None.

    The thickness is that of all layers together; where only their number is said, nothing is said of it.
    """
    terms = {term.name: term for term in (lexicon.term, *lexicon.beside)}
    found = _LAYERS.match(text, start) if THICKNESS in terms and text[start : start + 1] != "-" else None
    if found is None or (found["times"] and not found["each"]):
        return None
    count = _NUMBERS.get(found["count"].casefold()) or int(found["count"])
    values: list[tuple[Term, Value]] = []
    if found["each"]:
        each = read_value(found["each"].strip(), terms[THICKNESS])
        if not isinstance(each, Quantity):
            return None
        values.append((terms[THICKNESS], replace(each, value=count * each.value)))
    if LAYERS in terms:
        values.append((terms[LAYERS], float(count)))
    return Layers(tuple(values), found.end() - start)
