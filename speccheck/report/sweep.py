"""A sweep as an HTML page: a picture over two terms that reads without colour, and the counts by clause."""

from __future__ import annotations

from dataclasses import dataclass

from speccheck.english import count
from speccheck.judge.judgement import Verdict
from speccheck.report.html.small_page import render_small_page
from speccheck.report.portfolio.wording import OUTCOMES_HEADINGS
from speccheck.report.terminal.portfolio import extent, not_stated_words, outcome_words
from speccheck.report.wording import MARKS, cautions, clause_label, ruleset_heading
from speccheck.review.sweep.running import VERDICTS, Counts, Sweep

_SHADES = 4


@dataclass(frozen=True, slots=True)
class Square:
    """One cell of the picture: its mark, how many combinations have it, a class for its colour, a full account."""

    mark: str
    share: str
    style: str
    account: str


def render_sweep(found: Sweep) -> str:
    """Return the page."""
    down = found.terms[found.axes.down]
    across = None if found.axes.across is None else found.terms[found.axes.across]
    axes = (down, across) if across is not None else (down,)
    stated = [f"{one.term.name} {one.texts[0]}" for one in found.terms if len(one.texts) == 1 and one not in axes]
    others = [one.term.name for one in found.terms if len(one.texts) > 1 and one not in axes]
    return render_small_page(
        "sweep.html.j2",
        ruleset=ruleset_heading(found.ruleset),
        clause=None if found.clause is None else f"{clause_label(found.clause)} {found.clause.title}",
        heading=f"{count(found.count, 'combination')} of {extent(found)}.",
        outcome=" ".join(filter(None, (outcome_words(found), not_stated_words(found)))),
        down=down,
        across=across,
        stated=stated,
        others=others,
        rows=[[square(counts) for counts in row] for row in found.grid],
        clauses=found.clauses,
        verdicts=list(zip(VERDICTS, OUTCOMES_HEADINGS, strict=True)),
        label=clause_label,
        cautions=cautions(found.ruleset),
    )


def square(counts: Counts) -> Square:
    """Return the cell for the numbers of combinations by verdict: the gravest verdict and its share.

    The shade grows with the share of combinations that fail, in four steps; the words say the same.
    """
    total = int(counts.sum())
    number, verdict = next((number, verdict) for number, verdict in enumerate(VERDICTS) if counts[number])
    share = "" if counts[number] == total else f"{int(counts[number]):,} of {total:,}"
    told = [f"{int(one):,} {verdict}" for one, verdict in zip(counts, VERDICTS, strict=True) if one]
    style = ""
    if verdict is Verdict.FAILS:
        style = f"fail-{-(-_SHADES * int(counts[number]) // total)}"
    elif verdict is Verdict.CANNOT_TELL:
        style = "ask"
    return Square(MARKS[verdict], share, style, "; ".join(told))
