"""The numbers in `rulesets/README.md`, counted from the shipped rulesets.

Run `python -m tests.tools.rulesets_page` after a clause, a table or an example was added; it takes about half a minute,
because it tries how good the examples are.
"""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from speccheck.language import load_ruleset, shipped_ruleset_names
from speccheck.language.core import Confidence, Ruleset
from speccheck.proofread.mutation import Adequacy, adequacy
from speccheck.proofread.proposing import answers
from speccheck.proofread.typing_errors import TypingError
from speccheck.review.catalogue import own_parts

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "rulesets" / "README.md"
BEGIN, END = "<!-- numbers -->\n", "<!-- end of numbers -->"
HEADING = "| ruleset | clauses | table cells | examples | sources |\n|---|---|---|---|---|\n"
TRIALS_BEGIN, TRIALS_END = "<!-- trials -->\n", "<!-- end of trials -->"
TRIALS_HEADING = "| ruleset | changes tried | noticed | same meaning | listed |\n|---|---|---|---|---|\n"


def numbers() -> str:
    """Return the table of numbers: a row for each shipped ruleset."""
    return HEADING + "".join(_row(name) for name in shipped_ruleset_names())


def _row(name: str) -> str:
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None, name
    own = [clause for clause in ruleset.clauses if clause.ruleset == ruleset.name]
    examples = sum(len(clause.examples) for clause in own)
    return f"| `{name}` | {len(own)} | {_cells(ruleset)} | {examples} | {_sureness(ruleset)} |\n"


def _cells(ruleset: Ruleset) -> int:
    """Return how many cells the ruleset's own tables have, dashes left out."""
    tables = [table for table in ruleset.tables.values() if table.ruleset == ruleset.name]
    return sum(cell is not None for table in tables for row in table.cells for cell in row)


def _sureness(ruleset: Ruleset) -> str:
    """Return how many sources of the ruleset's own clauses and tables have each mark, the surest first."""
    own = own_parts(ruleset)
    found = Counter(source.confidence for part in own for source in part.sources)
    return ", ".join(f"{found[mark]} {mark}" for mark in Confidence if found[mark])


def trials() -> str:
    """Return the table of deliberate changes: a row for each shipped ruleset."""
    return TRIALS_HEADING + "".join(_trials_of(name) for name in shipped_ruleset_names())


def _trials_of(name: str) -> str:
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None, name
    found = adequacy(ruleset)
    return trials_row(name, found, sum(means_the_same(ruleset, change) for change in found.unnoticed))


def means_the_same(ruleset: Ruleset, change: TypingError) -> bool:
    """Say whether it was proved that a change turns no verdict on any line that states what its clauses ask for."""
    (answer,) = answers(ruleset, [change], tries=0)
    return answer.same


def trials_row(name: str, found: Adequacy, same: int) -> str:
    """Return the row of one ruleset; `same` is how many of the unnoticed changes are proved to alter no verdict."""
    tried, missed = len(found.trials), len(found.unnoticed)
    return f"| `{name}` | {tried} | {tried - missed} ({found.share:.1%}) | {same} | {missed - same} |\n"


def renewed(text: str) -> str:
    """Return the page with its numbers counted anew."""
    return _between(text, BEGIN, END, numbers())


def tried_again(text: str) -> str:
    """Return the page with the deliberate changes tried anew."""
    return _between(text, TRIALS_BEGIN, TRIALS_END, trials())


def _between(text: str, begin: str, end: str, table: str) -> str:
    before, _, rest = text.partition(begin)
    _, _, after = rest.partition(end)
    return before + begin + table + end + after


if __name__ == "__main__":
    PAGE.write_text(tried_again(renewed(PAGE.read_text(encoding="utf-8"))), encoding="utf-8")
