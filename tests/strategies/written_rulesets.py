"""Random rulesets as texts, and random lines for them: well-typed clauses of every kind of node, and hostile values.

They are drawn from a `random.Random`, so that a seed gives the same ones on every machine, and millions of pairs can be
drawn; hypothesis can stand in for it. The texts go through the language like any other, so that all is well-typed.
Values lie at the limits that the clauses have, a hair's breadth on either side of them, and anywhere else.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise, product
from random import Random

# What clauses and lines say of each kind: round amounts in several units, and some within and beyond a tolerance.
LITERALS: dict[str, tuple[str, ...]] = {
    "length": (
        *("1/2 in", "3/4 in", "1 in", "1-1/2 in", "2 in", "3 in", "25 mm", "25.4 mm", "38 mm", "38.1 mm", "50 mm"),
        *("1.0000009 in", "1.0000011 in", "0.999999 in", "1.5015 in", "15 ft", "4.572 m", "0 in", "12 in"),
    ),
    "temperature": (
        "40 F",
        "60 F",
        "105 F",
        "140 F",
        "140.5 F",
        "141 F",
        "60 C",
        "5 C",
        "140.0005 F",
        "200 F",
        "-20 F",
    ),
    "difference": ("10 F difference", "5 K difference", "18 F difference", "0 F difference"),
    "conductivity": ("0.25 Btu.in/(h.ft2.F)", "0.27 Btu.in/(h.ft2.F)", "0.036 W/(m.K)", "0.04 W/(m.K)"),
    "resistance": ("4 h.ft2.F/Btu", "1 m2.K/W", "6 h.ft2.F/Btu"),
    "ratio": ("50 %", "80 %", "5 %"),
    "size": ("1/2 in", "1 in", "1-1/2 in", "2 in", "DN 50", "4 in", "6 in", "DN 200", "36 in"),
    "number": ("0", "2", "3", "25", "50", "0.5", "25.00001"),
}
DATES = ("2024-02-28", "2024-02-29", "2024-03-01", "2025-02-28", "2026-02-28", "2026-03-01")
DATE_TERMS = ("report date", "made")
AGES = ("24 months old", "1 year old", "52 weeks old", "730 days old")
TERMS: dict[str, tuple[str, ...]] = {
    "length": ("thickness", "jacket thickness", "spacing"),
    "temperature": ("operating temperature", "ambient temperature"),
    "difference": ("temperature drop",),
    "conductivity": ("conductivity", "listed conductivity"),
    "resistance": ("installed R-value",),
    "ratio": ("relative humidity", "glossiness"),
    "size": ("pipe size", "branch size", "drain size"),
    "number": ("fasteners", "rows", "flame spread", "smoke developed"),
}
WORKED_OUT = {
    "temperature": ("dew point",),
    "length": ("pipe outside diameter", "insulation outside diameter"),
    "number": ("strange number",),
}
COLORS = ("amber", "azure", "black", "blue", "green", "grey", "pink", "red", "ruby", "white")
COLORS_TOO = ("beige", "bronze", "brown", "coral", "cyan", "ebony", "gold", "indigo", "ivory", "khaki", "lime")
CHOICES: dict[str, tuple[str, ...]] = {
    "service": ("chilled water", "heating hot water", "steam", "refrigerant"),
    "insulation": ("cellular glass", "elastomeric foam", "fiberglass", "none"),
    "color": (*COLORS, *COLORS_TOO),
    "gauge": ("gauge-26", "gauge-24", "gauge-20", "gauge-16"),
}
FAMILIES = {"insulation": "closed cells"}
ORDERED = "gauge"
SETS: dict[str, tuple[str, ...]] = {
    "stops": ("valves", "flanges", "fittings", "hangers"),
    "rooms": ("aa", "ab", "bz", "ca", "cy", "cz"),
}
ANSWERS = ("outdoor", "heated")
TEXTS = ("product", "maker")
WORDS = ("Type 1", "Type 2", "as = is")

# Calculations by the kind that comes of them: how they are written, and the kinds of their amounts.
CALCULATIONS: dict[str, tuple[tuple[str, str, str], ...]] = {
    "length": (
        ("length", "plus", "length"),
        ("length", "minus", "length"),
        ("length", "times", "number"),
        ("length", "divided by", "number"),
        ("resistance", "times", "conductivity"),
    ),
    "temperature": (("temperature", "plus", "difference"), ("temperature", "minus", "difference")),
    "difference": (("temperature", "minus", "temperature"), ("difference", "times", "number")),
    "conductivity": (("length", "divided by", "resistance"), ("conductivity", "times", "number")),
    "resistance": (("length", "divided by", "conductivity"),),
    "number": (
        ("number", "plus", "number"),
        ("number", "minus", "number"),
        ("number", "times", "number"),
        ("number", "divided by", "number"),
        ("length", "divided by", "length"),
    ),
}
SPANS = {
    "length": ("25 mm", "2 in"),
    "temperature": ("40 F", "60 C"),
    "difference": ("5 K difference", "10 F difference"),
    "conductivity": ("0.036 W/(m.K)", "0.27 Btu.in/(h.ft2.F)"),
    "resistance": ("4 h.ft2.F/Btu", "6 h.ft2.F/Btu"),
    "ratio": ("5 %", "80 %"),
    "size": ("1 in", "4 in"),
    "number": ("2", "25"),
}
RELATIONS = ("is", "is not", "is at least", "is at most", "is less than", "is more than")
SHARES = ("10 %", "5 percent", "0.5", "33 %")
DISTANCES = {
    "length": ("1/2 in", "10 mm", "25 mm"),
    "temperature": ("5 F", "3 K", "10 F difference"),
    "difference": ("2 F difference", "2 K"),
    "conductivity": ("0.01 W/(m.K)",),
    "resistance": ("1 h.ft2.F/Btu",),
}
HEADS = (
    *("", "", "", "tolerance 0.1 %", "tolerance 5 %", "tolerance 25 %", "tolerance 0 %", "units metric"),
    *("lets nominal metric stand for inch", "lets nominal metric stand for inch\nunits metric"),
    "lets nominal metric stand for inch\ntolerance 1 %",
)
NAMES = ("alpha", "beta", "gamma", "delta")


@dataclass
class Writer:
    """Writes one random ruleset; what it has defined so far can be used by name."""

    chance: Random
    computing: bool = False
    tables: dict[str, list[str]] = field(default_factory=dict)
    amounts: dict[str, list[str]] = field(default_factory=dict)
    worded: dict[str, list[str]] = field(default_factory=dict)
    conditions: list[str] = field(default_factory=list)

    def ruleset(self, clauses: int) -> str:
        """Return the text of a ruleset with so many clauses."""
        parts = ['ruleset "written"', 'speaks "vocabulary"', self.chance.choice(HEADS)]
        parts += [self._table(number) for number in range(self.chance.randint(0, 3))]
        parts += [self._definition(name) for name in NAMES[: self.chance.randint(0, 4)]]
        parts += [self._assumption() for _ in range(self.chance.choice((0, 0, 1, 2)))]
        parts += [self._clause(number + 1) for number in range(clauses)]
        return "\n".join(part for part in parts if part) + "\n"

    # ---- clauses -------------------------------------------------------------------------------------------------

    def _clause(self, number: int) -> str:
        lines = [f'clause {number} "written"']
        lines += [f"  where {self.condition(2)}" for _ in range(self.chance.choice((0, 1, 1, 2)))]
        shall, should = self.chance.choice(((1, 0), (1, 0), (2, 0), (1, 1), (0, 1), (1, 2)))
        lines += [f"  shall {self._asked_by_clause(2)}" for _ in range(shall)]
        lines += [f"  should {self._asked_by_clause(1)}" for _ in range(should)]
        lines += [f"  except where {self.condition(1)}" for _ in range(self.chance.choice((0, 0, 1, 2)))]
        return "\n".join(lines)

    def _asked_by_clause(self, depth: int) -> str:
        """Return what a clause asks, now and then by a condition of its own, or in alternatives."""
        lot = self.chance.random()
        if lot < 0.05:
            return f"either {self.condition(depth - 1)} or {self.condition(depth - 1)}"
        if self.worded and 0.83 < lot < 0.93:
            kind = self.chance.choice([*self.worded])
            share = kind != "size" and self.chance.random() < 0.1
            relation = f"is within {self.reach(kind)} of" if share else self.chance.choice(RELATIONS)
            return f"{self._term(kind)} {relation} {self.chance.choice(self.worded[kind])}"
        if lot > 0.97:
            return f"{self._compared()} or by another reading {self._compared()}"
        if lot > 0.93:
            return f"{self._compared()} or approved equal"
        if lot > 0.2:
            return self.condition(depth)
        otherwise = f" otherwise {self._asked_by_clause(depth - 1)}" if self.chance.random() < 0.5 and depth else ""
        return f"{self.condition(depth - 1)} if {self.condition(1)}{otherwise}"

    def _definition(self, name: str) -> str:
        if self.chance.random() < 0.5:
            text = f"define {name}\n  as {self.condition(2)}"
            self.conditions.append(name)
            return text
        kind = self._kind()
        text = f"define {name}\n  equal to {self._term(kind) if kind == 'size' else self.sum(kind)}"
        self.amounts.setdefault(kind, []).append(name)
        return text

    def _assumption(self) -> str:
        if self.chance.random() < 0.3:
            term = self.chance.choice(list(CHOICES))
            value = self.chance.choice(CHOICES[term])
        else:
            kind = self.chance.choice(("length", "temperature", "size", "ratio"))
            term, value = self.chance.choice(TERMS[kind]), self.chance.choice(LITERALS[kind])
        where = f"\n  where {self._stated_condition()}" if self.chance.random() < 0.5 else ""
        return f"assume {term} is {value}{where}"

    def _stated_condition(self) -> str:
        """Return a condition that stands before what is assumed, and so uses no names."""
        plain = Writer(self.chance)
        return plain.condition(1)

    # ---- conditions ----------------------------------------------------------------------------------------------

    def condition(self, depth: int) -> str:
        """Return a condition; `depth` bounds how far others are inside it."""
        lot = self.chance.random()
        if depth > 0 and lot < 0.35:
            joint = self.chance.choice((" and ", " or "))
            return "(" + joint.join(self.condition(depth - 1) for _ in range(self.chance.choice((2, 2, 3)))) + ")"
        if depth > 0 and lot < 0.42:
            return f"not ({self.condition(depth - 1)})"
        if self.conditions and lot < 0.47:
            return self.chance.choice(self.conditions)
        kinds = (
            self._compared,
            self._compared,
            self._compared,
            self._one_of,
            self._chosen,
            self._included,
            self._asked,
        )
        return self.chance.choice(kinds)()

    def _compared(self) -> str:
        if self.chance.random() < 0.06:
            return self._dated()
        kind = self._kind()
        if self.chance.random() < 0.12:
            span = self.chance.choice(("is between {} and {}", "is from {} to under {}", "is over {} to {}"))
            return f"{self._term(kind)} {span.format(*SPANS[kind])}"
        left, right = self.sum(kind), self.sum(kind)
        if left in LITERALS[kind]:
            right = self._term(kind)
        if kind != "size" and self.chance.random() < 0.2:
            return f"{left} is {self.chance.choice(('', 'not '))}within {self.reach(kind)} of {right}"
        return f"{left} {self.chance.choice(RELATIONS)} {right}"

    def reach(self, kind: str) -> str:
        """Return how far an amount may be from another: a share of it, or an amount of its dimension."""
        shares = () if kind == "temperature" else SHARES
        return self.chance.choice((*shares, *DISTANCES.get(kind, ())))

    def _dated(self) -> str:
        """Return what is asked of a date: an age, another date, or that of another term."""
        term, other = self.chance.sample(DATE_TERMS, 2)
        if self.chance.random() < 0.5:
            return f"{term} {self.chance.choice(RELATIONS[2:])} {self.chance.choice(AGES)}"
        return f"{term} {self.chance.choice(RELATIONS)} {self.chance.choice((other, *DATES))}"

    def _one_of(self) -> str:
        kind = self._kind()
        options = ", ".join(self._literal(kind) for _ in range(self.chance.randint(1, 3)))
        return f"{self._term(kind)} is {self.chance.choice(('', 'not '))}one of {options}"

    def _chosen(self) -> str:
        term = self.chance.choice(list(CHOICES))
        negated = self.chance.choice(("", "not "))
        if self.chance.random() < 0.2:
            return f"{self.chance.choice(TEXTS)} is {negated}{self.chance.choice(TEXTS)}"
        if term == ORDERED and self.chance.random() < 0.6:
            # Less than the least and more than the most are refused.
            return f"{term} {self.chance.choice(RELATIONS)} {self.chance.choice(CHOICES[term][1:-1])}"
        if term in FAMILIES and self.chance.random() < 0.3:
            return f"{term} is {negated}{FAMILIES[term]}"
        if self.chance.random() < 0.5:
            most = min(len(CHOICES[term]), self.chance.choice((2, 3, 18)))
            return f"{term} is {negated}one of {', '.join(self.chance.sample(CHOICES[term], most))}"
        others = [self.chance.choice(CHOICES[term]), *self.tables.get(term, ())]
        return f"{term} is {negated}{self.chance.choice(others)}"

    def _included(self) -> str:
        term = self.chance.choice(list(SETS))
        options = self.chance.sample(SETS[term], self.chance.randint(1, 3))
        return f"{term} {self.chance.choice(('include', 'include any of', 'exclude'))} {', '.join(options)}"

    def _asked(self) -> str:
        if self.chance.random() < 0.4:
            return self.chance.choice(ANSWERS)
        if self.chance.random() < 0.3:
            return f'{self.chance.choice(TEXTS)} is {self.chance.choice(("", "not "))}"{self.chance.choice(WORDS)}"'
        terms = [name for names in TERMS.values() for name in names]
        term = self.chance.choice((*terms, *CHOICES, *SETS, *ANSWERS, *TEXTS))
        return f"{term} is {self.chance.choice(('', 'not '))}given"

    # ---- amounts -------------------------------------------------------------------------------------------------

    def _kind(self) -> str:
        return self.chance.choice(("length", "length", "temperature", "temperature", "size", *LITERALS))

    def _literal(self, kind: str) -> str:
        return self.chance.choice(LITERALS[kind])

    def _term(self, kind: str) -> str:
        more = WORKED_OUT.get(kind, ()) if self.computing else ()
        return self.chance.choice((*TERMS[kind], *more))

    def amount(self, kind: str) -> str:
        """Return an amount without calculation."""
        lot = self.chance.random()
        named: list[str] = [*self.tables.get(kind, ()), *self.amounts.get(kind, ())]
        if named and lot < 0.35:
            return self.chance.choice(named)
        return self._literal(kind) if lot < 0.6 else self._term(kind)

    def sum(self, kind: str) -> str:
        """Return an amount, with or without calculation."""
        lot = self.chance.random()
        if lot < 0.1 and kind != "difference":
            first = self._term(kind) if kind == "size" else self.amount(kind)
            return f"{self.chance.choice(('larger', 'smaller'))} of {first} and {self.amount(kind)}"
        if lot < 0.15 and kind == "length":
            parts = (self.amount(part) for part in ("length", "conductivity", "conductivity", "length"))
            return "{} adjusted from {} to {} around {}".format(*parts)
        if lot < 0.3 and kind in CALCULATIONS:
            left, joint, right = self.chance.choice(CALCULATIONS[kind])
            first = self._term(left) if left == "temperature" else self.amount(left)
            second = self._term(right) if joint == "minus" and right == "temperature" else self.amount(right)
            return f"{first} {joint} {second}"
        return self.amount(kind)

    # ---- tables --------------------------------------------------------------------------------------------------

    def _table(self, number: int) -> str:
        kind = self.chance.choice(("length", "length", "number", "size", "service", "insulation"))
        of = {"length": "in in", "number": "", "size": "of pipe size"}.get(kind, f"of {kind}")
        name = f"table {'abc'[number]}"
        axes = self.chance.sample(
            ("operating temperature", "pipe size", "thickness", "service", "fasteners", "dew point", "made", *ANSWERS),
            4,
        )
        if not self.computing:
            axes = [axis if axis != "dew point" else "ambient temperature" for axis in axes]
        axes = axes[: self.chance.choice((1, 2, 2, 3, 4))]
        down = [self._bands(axis) for axis in axes[: max(1, len(axes) - 1)]]
        columns = self._bands(axes[-1]) if len(axes) > 1 else [""]
        rows = [row for row in product(*down) if len(down) == 1 or self.chance.random() < 0.8] or [next(product(*down))]
        worded = self.chance.random() < 0.3 and kind in ("length", "number", "size")
        written = [f'table "{name}" {of}'.rstrip(), f"  by {', '.join(axes)}"]
        written += ["   " + " | " * len(down) + " | ".join(columns)] if len(axes) > 1 else []
        written += [f"  {' | '.join(row)} | " + " | ".join(self._cell(kind, worded) for _ in columns) for row in rows]
        (self.worded if worded else self.tables).setdefault(kind, []).append(f'"{name}"')
        if len(axes) > 1 and kind not in CHOICES:
            cut = f'"{name}" read as if {self._read_at(axes[0], [row[0] for row in rows])}'
            (self.worded if worded else self.tables)[kind].append(cut)
        return "\n".join(written)

    def _read_at(self, axis: str, bands: Sequence[str]) -> str:
        """Return at what an axis is read instead of at the line's value: a value of a list, or another term."""
        return f"{axis} is {_READ_AT.get(axis) or self.chance.choice(bands).split(', ')[0]}"

    def _cell(self, kind: str, worded: bool) -> str:
        if worded and self.chance.random() < 0.4:
            return self.chance.choice(("not permitted", "nothing required"))
        if self.chance.random() < 0.15:
            return "-"
        return self.chance.choice(CHOICES[kind] if kind in CHOICES else LITERALS[kind])

    def _bands(self, axis: str) -> list[str]:
        if axis == "service":
            names = self.chance.sample(CHOICES[axis], self.chance.randint(2, 4))
            return [", ".join(names[:2]), *names[2:]]
        if axis in ANSWERS:
            return self.chance.choice((["yes"], ["no"], ["no", "yes"]))
        marks = _MARKS[axis]
        most = self.chance.randint(1, min(4, len(marks)))
        chosen = [marks[place] for place in sorted(self.chance.sample(range(len(marks)), most))]
        return _bands_between(self.chance, chosen)


_MARKS = {
    "operating temperature": ("40 F", "60 F", "105 F", "140 F", "60.000001 C", "141 F", "200 F"),
    "ambient temperature": ("40 F", "60 F", "105 F"),
    "dew point": ("0 F", "40 F", "50 F", "60 F"),
    "pipe size": ("1/2 in", "1 in", "1-1/2 in", "2 in", "4 in", "6 in"),
    "thickness": ("1/2 in", "25 mm", "1 in", "1-1/2 in", "2 in"),
    "fasteners": ("1", "2", "3", "25"),
    "made": DATES,
}


# Other terms at whose values an axis of numbers is read.
_READ_AT = {
    "operating temperature": "ambient temperature",
    "ambient temperature": "operating temperature",
    "dew point": "ambient temperature",
    "pipe size": "branch size",
    "thickness": "jacket thickness",
    "fasteners": "rows",
    "made": "report date",
}


def _bands_between(chance: Random, marks: Sequence[str]) -> list[str]:
    """Return bands that do not overlap, rising, with gaps here and there."""
    bands: list[str] = []
    taken = chance.random() < 0.5
    if chance.random() < 0.6:
        bands.append(f"{marks[0]} and under" if taken else f"under {marks[0]}")
    else:
        taken = False
    for low, high in pairwise(marks):
        to_end = chance.random() < 0.5
        over = taken or chance.random() < 0.2
        taken = False
        if chance.random() < 0.85:
            bands.append(f"{'over ' if over else ''}{low} to {'' if to_end else 'under '}{high}")
            taken = to_end
    if chance.random() < 0.6 or not bands:
        bands.append(f"over {marks[-1]}" if taken or chance.random() < 0.5 else f"{marks[-1]} and over")
    return bands


# ---- lines -----------------------------------------------------------------------------------------------------------

CELLS: dict[str, tuple[str, ...]] = {
    **{
        term: tuple(text.replace(" difference", "") for text in LITERALS[kind])
        for kind, terms in TERMS.items()
        for term in terms
    },
    **CHOICES,
    "stops": ("valves", "valves, flanges", "fittings, hangers", "none", "valves, flanges, fittings, hangers"),
    "rooms": ("aa", "aa, cz", "bz, ca", "none", "ab, cy, cz"),
    "outdoor": ("yes", "no"),
    "heated": ("yes", "no"),
    "product": WORDS,
    "maker": (*WORDS, "Type 3"),
    "fasteners": ("0", "1", "2", "3", "25", "50"),
    "rows": ("0", "2", "3", "4"),
    "dew point": ("50 F", "60 F"),
    "pipe outside diameter": ("2 in", "2.375 in"),
    "pipe material": ("steel", "copper"),
    **dict.fromkeys(DATE_TERMS, DATES),
    "day of the review": ("2026-02-28", "2026-03-01"),
}
"""Single values of each term, as cells of a schedule."""

RANGES: dict[str, tuple[str, ...]] = {
    "pipe size": ("1 in to 2 in", "2 in & smaller", "4 in and over", "2-1/2 in through 6 in"),
    "branch size": ("1/2 in to 4 in", "1 in and under"),
    "drain size": ("1/2 in to 36 in", "2 in to 4 in"),
    "operating temperature": ("100 F to 141 F", "40-60 F", "over 140 F", "up to 105 F"),
    "ambient temperature": ("40 F to 60 F", "60 F to 105 F"),
    "thickness": ("1 in to 2 in", "25 mm to 50 mm"),
    "spacing": ("12 in to 15 ft",),
    "relative humidity": ("50 % to 80 %",),
    "fasteners": ("2 to 3", "1 to 25"),
    "flame spread": ("0 to 25", "25 to 50"),
    "conductivity": ("0.25 to 0.27 Btu.in/(h.ft2.F)",),
}
"""Ranges of values of some terms."""

MISSING = ("", "TBD")


def line_texts(chance: Random, *, ranges: float = 0.12) -> dict[str, str]:
    """Return the cells of a random line by term: in every column data are missing now and then.

    `ranges` is how often a line covers a range of one term or of two.
    """
    texts: dict[str, str] = {}
    missing = chance.choice((0.0, 0.1, 0.3))
    for name, cells in CELLS.items():
        lot = chance.random()
        if lot >= missing:
            texts[name] = chance.choice(cells)
        elif lot < missing / 2:
            texts[name] = chance.choice(MISSING)
    if chance.random() < ranges:
        for name in chance.sample(list(RANGES), chance.choice((1, 1, 2))):
            texts[name] = chance.choice(RANGES[name])
    return texts
