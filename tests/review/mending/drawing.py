"""Small random rulesets and lines, in words, over the vocabulary beside this file, for proposals to be tried on."""

from __future__ import annotations

import random
from collections.abc import Sequence
from pathlib import Path

from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import read_value
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line

HERE = Path(__file__).parent
THICKNESSES = ("1/2 in", "3/4 in", "1 in", "1-1/2 in", "2 in", "3 in")
HEADER = f'ruleset "drawn"\n  speaks "vocabulary"\n  stocked thickness is one of {", ".join(THICKNESSES)}\n'
TABLE = """table thick in inches
  by material
  foam  | 1
  glass | 1-1/2
  wool  | 2
"""
BUILDING = "building"
ASKED = {
    "material": ("material {be} one of foam, glass", "material {be} glass", "material {be} not foam"),
    "thickness": (
        *("thickness {be} at least 1 in", "thickness {be} at most 1-1/2 in", "thickness {be} at least 2 in"),
        *("thickness {be} at least thick", "thickness {be} less than 2 in"),
    ),
    "jacket": (
        *("jacket {be} one of aluminum, steel", "jacket {be} not PVC", "jacket {be} not one of PVC, paper"),
        *("jacket {be} steel", "jacket {be} given"),
    ),
    "stops": ("stops include valves, flanges", "stops include any of flanges, hangers", "stops exclude hangers"),
    "sealed": ("sealed", "not sealed"),
    "spacing": ("spacing {be} at most 15 ft", "spacing {be} less than 10 ft", "spacing {be} at least 6 ft"),
    "layers": ("layers {be} at least 2", "layers {be} at most 2", "layers {be} 3"),
    "conductivity": ("conductivity {be} at most 0.27", "conductivity {be} less than 0.3"),
    BUILDING: ("service {be} hot", "operating temperature {be} at least 100 F"),
}
STATED = {
    "service": ("hot", "cold"),
    "operating temperature": ("180 F", "40 F", "TBD"),
    "material": ("foam", "glass", "wool", "none", "TBD"),
    "thickness": ("1/2 in", "1 in", "1-1/4 in", "2 in", "38 mm", "", "TBD"),
    "jacket": ("aluminum", "PVC", "paper", "none", "TBD"),
    "stops": ("valves", "flanges, hangers", "none", "TBD"),
    "sealed": ("yes", "no", ""),
    "spacing": ("18 ft", "5 ft", "none", "12 ft", "TBD"),
    "layers": ("1", "2", "4", ""),
    "conductivity": ("0.25", "0.3", "TBD"),
}


def drawn_ruleset(chance: random.Random) -> tuple[Ruleset, tuple[str, ...]]:
    """Return a ruleset whose clauses draw on at most four terms that may be changed, and the names of these terms."""
    names = chance.sample([name for name in ASKED if name != BUILDING], chance.randint(2, 4))
    clauses = "\n".join(_clause(chance, number, names) for number in range(chance.randint(1, 6)))
    order = chance.sample(names, chance.randint(0, len(names)))
    cheap = f"  changes cheapest first {', '.join(order)}\n" if order else ""
    return ruleset_of(f"{cheap}\n{TABLE}\n{clauses}"), tuple(names)


def ruleset_of(text: str) -> Ruleset:
    """Return the ruleset with this text behind its header."""
    loaded = parse_ruleset(HEADER + text, folder=HERE)
    assert loaded.usable, [str(one) for one in loaded.diagnostics]
    assert loaded.ruleset is not None
    return loaded.ruleset


def _clause(chance: random.Random, number: int, names: Sequence[str]) -> str:
    lines = [f'clause {number} "drawn"']
    lines += [f"  where {_condition(chance, names, 'is')}" for _ in range(chance.randint(0, 2))]
    lines += [f"  shall {_condition(chance, names, 'be')}" for _ in range(chance.randint(1, 2))]
    lines += [f"  except where {_condition(chance, names, 'is')}" for _ in range(chance.random() < 0.3)]
    return "\n".join(lines)


def _condition(chance: random.Random, names: Sequence[str], be: str) -> str:
    pool = [*names, *([BUILDING] if be == "is" else [])]
    parts = [chance.choice(ASKED[chance.choice(pool)]).format(be=be) for _ in range(chance.choice((1, 1, 2)))]
    return chance.choice((" and ", " or ")).join(parts)


def drawn_line(chance: random.Random, ruleset: Ruleset, names: Sequence[str]) -> Line:
    """Return a line that states something for the named terms and for some others."""
    kept = (*names, "service", "operating temperature")
    stated = {name: chance.choice(texts) for name, texts in STATED.items() if name in kept or chance.random() < 0.5}
    return line_of(ruleset, stated)


def line_of(ruleset: Ruleset, stated: dict[str, str]) -> Line:
    """Return the line that states these words."""
    terms = ruleset.vocabulary.terms
    return Line("a line", {name: _datum(text, terms[name]) for name, text in stated.items()})


def _datum(text: str, term: Term) -> Datum:
    value = read_value(text, term)
    assert not isinstance(value, Misread), value
    return Datum(value, text)
