"""The columns checked against the judge on pairs of a random ruleset and a random line.

`python -m tests.judge.columns.agreement [PAIRS [SEED]]` tries a million of them, or as many as it is told, from a
seed on.

Pairs come from seeds, one for each ruleset, so that each can be drawn again. What was tried is counted: every kind of
node, relation and operation, the verdicts, and the terms that lines left out.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from random import Random
from time import perf_counter

from speccheck.judge import Judge, Verdict
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.language import parse_ruleset
from speccheck.language.core import Arithmetic, Comparison, Includes, Relation, Ruleset, TermValue
from speccheck.language.core.walking import conditions_of, walk
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import Interval
from speccheck.schedule.lines import Line
from tests.strategies.stated_lines import stated_line
from tests.strategies.written_rulesets import Writer, line_texts

FOLDER = Path(__file__).parent
LINES = 200
"""Lines that each ruleset judges."""

Texts = Mapping[str, str]
Verdicts = tuple[Verdict, Verdict | None]


@dataclass(frozen=True)
class Disagreement:
    """A cell on which the two differ: the clause and the line made as small as they go, and what each says."""

    seed: int
    ruleset: str
    clause: str
    line: Texts
    judge: Verdicts
    columns: Verdicts


@dataclass
class Tally:
    """What was tried, and where the two differ."""

    pairs: int = 0
    cells: int = 0
    met: Counter[str] = field(default_factory=Counter)
    disagreements: list[Disagreement] = field(default_factory=list)


def hold_together(seeds: Iterable[int], lines: int = LINES) -> Tally:
    """Judge the rulesets of some seeds with so many lines each, both ways, and tell what was met."""
    tally = Tally()
    for seed in seeds:
        chance = Random(seed)
        text = Writer(chance, computing=chance.random() < 0.2).ruleset(chance.randint(1, 3))
        loaded = parse_ruleset(text, f"seed {seed}", FOLDER)
        assert loaded.ruleset is not None, text
        assert loaded.usable, [str(found) for found in loaded.diagnostics]
        # A judge takes long over a range in a calculation; most rulesets see few of them, some see many.
        ranges = chance.choice((0.0, 0.02, 0.02, 0.1))
        _try(tally, seed, text, loaded.ruleset, [line_texts(chance, ranges=ranges) for _ in range(lines)])
    return tally


def _try(tally: Tally, seed: int, text: str, ruleset: Ruleset, texts: list[dict[str, str]]) -> None:
    lines = [stated_line(line, ruleset) for line in texts]
    judged, found = by_judge(ruleset, lines), by_columns(ruleset, lines)
    tally.pairs += len(lines)
    tally.cells += len(lines) * len(ruleset.clauses)
    tally.met.update(_parts(ruleset))
    tally.met.update(name for line in lines for name in _data(line, ruleset.vocabulary))
    tally.met.update(str(verdict) for row in judged for verdict, _ in row)
    for row, (first, second) in enumerate(zip(judged, found, strict=True)):
        for number, (one, other) in enumerate(zip(first, second, strict=True)):
            if one != other:
                smallest = smaller(ruleset, number, texts[row])
                name = ruleset.clauses[number].name
                tally.disagreements.append(Disagreement(seed, text, name, smallest, one, other))


def by_judge(ruleset: Ruleset, lines: list[Line]) -> list[list[Verdicts]]:
    """Return the verdicts, and those on advice, of the judge."""
    judge = Judge(ruleset)
    return [[(cell.verdict, cell.advice) for cell in judge.row(line)] for line in lines]


def by_columns(ruleset: Ruleset, lines: list[Line]) -> list[list[Verdicts]]:
    """Return the verdicts, and those on advice, of the columns."""
    matrix = judge_columns(ruleset, columns_of(lines, ruleset))
    clauses = range(len(ruleset.clauses))
    return [
        [(matrix.verdict(row, clause), matrix.advice_on(row, clause)) for clause in clauses]
        for row in range(len(lines))
    ]


def smaller(ruleset: Ruleset, number: int, texts: Texts) -> dict[str, str]:
    """Return the fewest cells of a line on which the two still differ by one clause, left out one by one."""
    alone = replace(ruleset, clauses=(ruleset.clauses[number],))

    def differ(cells: Texts) -> bool:
        line = stated_line(cells, ruleset)
        return by_judge(alone, [line]) != by_columns(alone, [line])

    kept = dict(texts)
    for name in texts:
        without = {other: text for other, text in kept.items() if other != name}
        kept = without if differ(without) else kept
    return kept


def _parts(ruleset: Ruleset) -> Iterator[str]:
    """Yield what a ruleset is made of: its nodes with their relation, operation or form."""
    for clause in ruleset.clauses:
        for node in walk(conditions_of(clause)):
            yield type(node).__name__
            match node:
                case Comparison(left, Relation() as relation, _):
                    yield f"{left.kind.form} {relation}"
                case Comparison(left, relation, _):
                    yield f"{left.kind.form} {type(relation).__name__} {relation.denied}"
                case Arithmetic(operation):
                    yield f"{operation}"
                case Includes(_, inclusion):
                    yield f"{inclusion}"
                case TermValue(term) if term.computed:
                    yield "computed"
    yield f"nominal metric {ruleset.nominal_metric}"
    yield f"tolerance {ruleset.tolerance}"
    yield from ("assumption" for _ in ruleset.assumptions)


def _data(line: Line, vocabulary: Vocabulary) -> Iterator[str]:
    """Yield what is hostile about a line: terms not given, and ranges."""
    for name, term in vocabulary.terms.items():
        value = line.data[name].value if name in line.data else NotGiven()
        if isinstance(value, NotGiven):
            yield f"without {name}"
        elif isinstance(value, Interval):
            yield f"range of {term.kind.form}"


def main(pairs: int, seed: int) -> None:
    """Try so many pairs, the rulesets of seeds from this one on, and print what came of it."""
    start, total, step, end = perf_counter(), Tally(), 50, seed + pairs // LINES
    for first in range(seed, end, step):
        found = hold_together(range(first, min(first + step, end)))
        total.pairs += found.pairs
        total.cells += found.cells
        total.met += found.met
        total.disagreements += found.disagreements
        print(f"\r{total.pairs:,} pairs, {len(total.disagreements)} disagreements", end="", file=sys.stderr, flush=True)
    print(file=sys.stderr)
    for disagreement in total.disagreements[:5]:
        print(disagreement)
    seconds = perf_counter() - start
    print(f"{total.pairs:,} pairs, {total.cells:,} cells, {len(total.disagreements)} disagreements, {seconds:.0f} s")
    for what, count in sorted(total.met.items()):
        print(f"  {what:40} {count:>12,}")


if __name__ == "__main__":
    told = [int(text) for text in sys.argv[1:3]]
    main(*(told + [1_000_000, 0][len(told) :]))
