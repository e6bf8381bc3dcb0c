"""Random rulesets, small enough that every line that differs in anything a clause asks for can be judged.

`GRID` has, for each term, one value for every part of its axis that a clause of such a ruleset can tell apart: each
value that a clause may name, and values below, between and above them. None is that it is not given.
"""

from __future__ import annotations

import os
import random
import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from pathlib import Path

from speccheck.judge import Verdict
from speccheck.judge.judgement import Judgement
from speccheck.judge.judging import judge_case
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language import parse_ruleset
from speccheck.language.core import Clause, Given, Ruleset
from speccheck.language.core.walking import conditions_of, terms_of, walk
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Single, read_value
from speccheck.quantities import Interval, Misread

FOLDER = Path(__file__).parent
BATCH = 40
GRID: Mapping[str, tuple[str | None, ...]] = {
    "service": ("chilled water", "steam", "refrigerant", None),
    "operating temperature": ("40 F", "50 F", "75 F", "100 F", "125 F", "150 F", "160 F", None),
    "ambient temperature": ("45 F", "50 F", "60 F", "100 F", "120 F", None),
    "pipe size": ("3/4 in", "1 in", "1-1/4 in", "2 in", "3 in", None),
    "outdoors": ("yes", "no", None),
    "thickness": ("1/2 in", "1 in", "1-1/2 in", "2 in", "3 in", None),
    "jacket": ("aluminum", "PVC", "none", None),
    "fasteners": ("0", "1", "3", "4", "5", None),
    "vapor stops": ("none", "valves", "flanges", "valves, flanges", None),
}
MARKS: Mapping[str, tuple[str, ...]] = {
    "operating temperature": ("50 F", "100 F", "150 F"),
    "pipe size": ("1 in", "2 in"),
    "thickness": ("1 in", "2 in"),
    "fasteners": ("1", "4"),
}
CHOICES: Mapping[str, tuple[str, ...]] = {"service": ("chilled water", "steam"), "jacket": ("aluminum", "PVC", "none")}
SITUATIONS = ("service", "operating temperature", "pipe size", "outdoors")
DEMANDS = ("thickness", "jacket", "fasteners", "vapor stops")
RELATIONS = ("at least {}", "at most {}", "less than {}", "more than {}", "{}", "not {}")
BANDS = (
    ("under 50 F", "50 F to 100 F", "over 100 F"),
    ("50 F to 100 F", "over 100 F to under 150 F"),
    ("up to 50 F", "100 F to 150 F", "over 150 F"),
)


def batches(usual: int) -> list[range]:
    """Return the numbers of the rulesets to try, in batches.

    `SPECCHECK_RANDOM_RULESETS` says how many there are (2,000 for a release), `usual` where it says nothing: few enough
    for the suite to stay fast.
    """
    count = int(os.environ.get("SPECCHECK_RANDOM_RULESETS", usual))
    return [range(start, min(start + BATCH, count)) for start in range(0, count, BATCH)]


def random_ruleset(seed: int, *, orders: bool = False, shares: bool = False) -> Ruleset:
    """Return a ruleset of two to five clauses.

    With `orders`, some compare one temperature with another; with `shares`, some limits of thickness are shares, and
    some requirements have conditions of their own.
    """
    chance = random.Random(seed)
    text = ruleset_text(chance, orders=orders)
    if shares:
        where = re.findall(r"^  (?:where|except where) (.+)$", text, re.MULTILINE)
        text = re.sub(r"^  shall .+$", lambda found: _only_if(chance, found[0], where), text, flags=re.MULTILINE)
        text = re.sub(r"(?<=thickness )(be|is) (?:at least|at most)", lambda found: _share(chance, found), text)
    loaded = parse_ruleset(text, "random.clauses", FOLDER)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def scoped_ruleset(seed: int) -> Ruleset:
    """Return a ruleset that says with `scope` which systems the clauses of a subject govern, as most clauses are."""
    chance = random.Random(seed)
    terms = _terms(chance)
    head, table, clauses = _parts(chance, terms)
    scope = [f"  where {_condition(chance, chance.choice(terms), terms)}" for _ in range(chance.randint(0, 2))]
    if chance.random() < 0.4:
        scope.append(f"  except where {_condition(chance, chance.choice(terms), terms)}")
    if not scope:
        scope.append(f"  where {_atom(chance, terms[0])}")
    subjects = ["  subject kept\n" if chance.random() < 0.75 else "" for _ in clauses]
    written = [f'clause {at} "c"\n{subjects[at - 1]}{clause}' for at, clause in enumerate(clauses, 1)]
    text = "\n".join([head, "scope kept", *scope, table, *written])
    loaded = parse_ruleset(text, "random.clauses", FOLDER)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def random_pair(seed: int, *, orders: bool = False) -> tuple[Ruleset, Ruleset]:
    """Return two rulesets over the same terms: the second has some clauses of the first and some of its own.

    With `orders`, some clauses of both compare one temperature with another.
    """
    chance = random.Random(seed)
    terms = _terms(chance)
    head, table, first = _parts(chance, terms)
    _, _, second = _parts(chance, terms)
    if orders:
        first, second = ([_compared(chance, clause) for clause in clauses] for clauses in (first, second))
    mixed = [chance.choice(pair) for pair in zip(first, second, strict=False)] + second[len(first) :]
    found = []
    for clauses in (first, mixed):
        text = "\n".join([head, table, *(f'clause {at} "c"\n{clause}' for at, clause in enumerate(clauses, 1))])
        loaded = parse_ruleset(text, "random.clauses", FOLDER)
        assert loaded.ruleset is not None, loaded.diagnostics
        found.append(loaded.ruleset)
    return found[0], found[1]


def ruleset_text(chance: random.Random, *, orders: bool) -> str:
    """Return the text of a ruleset."""
    terms = _terms(chance)
    head, table, clauses = _parts(chance, terms)
    if orders:
        clauses[0] = _compared(chance, clauses[0], always=True)
    return "\n".join([head, table, *(f'clause {at} "c"\n{clause}' for at, clause in enumerate(clauses, 1))])


def _compared(chance: random.Random, clause: str, *, always: bool = False) -> str:
    """Return a clause that applies only where one temperature is below, or above, another one; or as it was."""
    if not always and chance.random() < 0.5:
        return clause
    return f"  where operating temperature is {chance.choice(('less', 'more'))} than ambient temperature\n{clause}"


def _only_if(chance: random.Random, asked: str, where: Sequence[str]) -> str:
    """Return a requirement with a condition that stands elsewhere in the ruleset, or as it is."""
    return f"{asked} if {chance.choice(where)}" if where and chance.random() < 0.3 else asked


def _share(chance: random.Random, found: re.Match[str]) -> str:
    """Return a limit as a share, or as it is."""
    return f"{found[1]} within {chance.choice((20, 50))} % of" if chance.random() < 0.5 else found[0]


def _terms(chance: random.Random) -> tuple[str, ...]:
    return (*chance.sample(SITUATIONS, 2), chance.choice(DEMANDS))


def _parts(chance: random.Random, terms: Sequence[str]) -> tuple[str, str, list[str]]:
    """Return the header, a table where the terms allow one, and the parts of each clause."""
    tabled = "operating temperature" in terms and terms[-1] == "thickness"
    bands = chance.choice(BANDS)
    columns, across = (["no", "yes"], ", outdoors\n      | no | yes") if "outdoors" in terms else ([""], "")
    rows = "\n".join(f"  {band} | {' | '.join(_cell(chance, band != bands[0]) for _ in columns)}" for band in bands)
    table = f"table scheduled in inches\n  by operating temperature{across}\n{rows}" if tabled else ""
    clauses = [_clause(chance, terms, tabled) for _ in range(chance.randint(2, 5))]
    return 'ruleset "random"\n  speaks "vocabulary"', table, clauses


def _cell(chance: random.Random, may_be_empty: bool) -> str:
    words = ("not permitted", "nothing required", "-") if may_be_empty else ("1",)
    return chance.choice(("1", "2", "2", chance.choice(words)))


def _clause(chance: random.Random, terms: Sequence[str], tabled: bool) -> str:
    situations = terms[:-1]
    lines = [
        f"  where {_condition(chance, chance.choice(situations), situations)}" for _ in range(chance.randint(0, 2))
    ]
    if chance.random() < 0.15:
        lines.append(f"  where {_atom(chance, terms[-1])}")
    if tabled and chance.random() < 0.5:
        lines.append(f"  shall thickness be {chance.choice(('at least', 'at most'))} scheduled")
    else:
        lines.append(f"  shall {_condition(chance, terms[-1], [terms[-1]], 'be')}")
    if chance.random() < 0.3:
        lines.append(f"  except where {_condition(chance, chance.choice(terms), terms)}")
    return "\n".join(lines)


def _condition(chance: random.Random, term: str, terms: Sequence[str], verb: str = "is") -> str:
    first = _atom(chance, term, verb)
    if chance.random() < 0.35:
        return f"{first} {chance.choice(('and', 'or'))} {_atom(chance, chance.choice(terms), verb)}"
    return first


def _atom(chance: random.Random, term: str, verb: str = "is") -> str:
    if chance.random() < 0.1:
        return f"{term} {verb} {chance.choice(('given', 'not given'))}"
    if term == "outdoors":
        return chance.choice(("outdoors", "not outdoors"))
    if term == "vapor stops":
        way = chance.choice(("include", "include any of", "exclude"))
        return f"{term} {way} {chance.choice(('valves', 'flanges', 'valves, flanges'))}"
    if term in CHOICES:
        values = CHOICES[term]
        ways = (values[0], f"not {values[1]}", f"one of {', '.join(values[:2])}", values[-1])
        return f"{term} {verb} {chance.choice(ways)}"
    return f"{term} {verb} {chance.choice(RELATIONS).format(chance.choice(MARKS[term]))}"


# ---- every line --------------------------------------------------------------------------------------------------

Case = Mapping[str, Single | NotGiven]


def _stated(text: str | None, term: Term) -> Single | NotGiven:
    value = NotGiven() if text is None else read_value(text, term)
    assert not isinstance(value, Misread | Interval), value
    return value


class EveryLine:
    """All lines of the grid over the terms of some rulesets, judged by whichever clause is asked for."""

    def __init__(self, *rulesets: Ruleset) -> None:
        terms = {t.name: t for r in rulesets for c in r.clauses for t in terms_of(conditions_of(c))}
        self.names = tuple(terms)
        values = [[_stated(text, terms[name]) for text in GRID[name]] for name in self.names]
        self.cases: list[Case] = [dict(zip(self.names, chosen, strict=True)) for chosen in product(*values)]
        self._judged: dict[int, list[Judgement]] = {}

    def judged(self, clause: Clause) -> list[Judgement]:
        """Return the judgement of every line by a clause; each by what the clause asks for alone."""
        if id(clause) not in self._judged:
            names = [term.name for term in terms_of(conditions_of(clause))]
            known: dict[tuple[object, ...], Judgement] = {}
            conditions = Outcomes(Rules())
            found = []
            for case in self.cases:
                key = tuple(case[name] for name in names)
                if key not in known:
                    known[key] = judge_case(clause, case, conditions)
                found.append(known[key])
            self._judged[id(clause)] = found
        return self._judged[id(clause)]

    def verdicts(self, clause: Clause) -> list[Verdict]:
        """Return the verdict on every line."""
        return [judgement.verdict for judgement in self.judged(clause)]

    def complete(self, *clauses: Clause, strictly: bool = False) -> Iterator[int]:
        """Yield the numbers of the lines that state all that clauses ask for, but for what they ask whether given."""
        names = {term.name for clause in clauses for term in terms_of(conditions_of(clause))}
        asked = {n.term.name for c in clauses for n in walk(conditions_of(c)) if isinstance(n, Given)}
        needed = names if strictly else names - asked
        for number, case in enumerate(self.cases):
            if not any(isinstance(case[name], NotGiven) for name in needed):
                yield number
