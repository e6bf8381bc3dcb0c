"""The conformance cases: what the clause language means, as data that any evaluator can be held against.

The files `01-kinds.toml` to `10-provenance.toml` stand for the numbered statements of what the language means:

    1 kinds         each value has a kind, and what does not fit is refused before any schedule is read
    2 quantities    comparisons convert first and hold to a stated relative tolerance
    3 missing       what is not given is its own value; conditions follow strong Kleene logic
    4 verdicts      five rules from scope and requirement to the verdict
    5 ranges        a line complies at every size and temperature that it covers, or says where it does not
    6 exceptions    they take lines out and are shown; replacing a clause is said, never silent
    7 total         an evaluation that goes wrong is cannot tell, with the cause
    8 tables        bands hold exactly as written; a value in no band is cannot tell, naming the gap
    9 should        advice is reported apart and decides nothing
    10 provenance   source, wording and reason are kept, with how sure a published value is

Each file is a list of groups. A group has `holds` (the number and the words of what its cases hold), and its cases
share `given` (lines of the ruleset before the clause), `clause` (the parts of clause 1) or `ruleset` (a whole text).
A case is a line of a schedule with the expected verdict and the whole reason, worked out by hand from the statements;
or, with `refused`, the code of the diagnostic, the text that it underlines and the name that it suggests.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from speccheck.language import LoadedRuleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.schedule.lines import Line
from tests.strategies.stated_lines import stated_line

FOLDER = Path(__file__).parent


@dataclass(frozen=True)
class Refusal:
    """What is said of a ruleset that cannot be used: the code, the underlined text, the name that the help suggests."""

    code: str
    underlined: str
    suggests: str = ""


@dataclass(frozen=True)
class ConformanceCase:
    """One line judged by one clause, and what has to come out.

    `line` has the text of a schedule cell for each term. `clause` is the name of the clause that judges. Everything
    expected is compared in full: a case that expects no notes expects that there are none. `sources`, `wording` and
    `because` (the reason that the clause gives) are those of the clause, looked at where a case states them.
    """

    name: str
    ruleset: str
    line: Mapping[str, str] = field(default_factory=dict)
    clause: str = "1"
    verdict: str = ""
    reason: str = ""
    basis: str = ""
    missing: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    advice: str = ""
    advice_reason: str = ""
    mandatory: bool = True
    sources: tuple[str, ...] = ()
    wording: str = ""
    because: str = ""
    refused: Refusal | None = None


def conformance_cases() -> tuple[ConformanceCase, ...]:
    """Return all cases, in the order of the files."""
    return tuple(case for path in sorted(FOLDER.glob("[0-9][0-9]-*.toml")) for case in _cases_of(path))


@cache
def load(text: str) -> LoadedRuleset:
    """Return the ruleset of a case; the rulesets and the vocabulary that it names lie in this folder."""
    return parse_ruleset(text, "case.clauses", FOLDER)


def line_of(case: ConformanceCase, ruleset: Ruleset) -> Line:
    """Return the line of a case."""
    return stated_line(case.line, ruleset)


VERDICTS = {"cannot tell": "cannot be determined"}
"""The cases are written in the words of the clause language; reports say some of them otherwise."""


def _cases_of(path: Path) -> Iterator[ConformanceCase]:
    for group in tomllib.loads(path.read_text(encoding="utf-8"))["group"]:
        for number, stated in enumerate(group["cases"], 1):
            yield _case(group, stated, f"{group['holds']}: {stated.get('shows', stated.get('line', number))}")


def _case(group: Mapping[str, Any], stated: Mapping[str, Any], name: str) -> ConformanceCase:
    lists: dict[str, Any] = {key: tuple(stated.get(key, ())) for key in ("missing", "at", "notes", "sources")}
    texts = ("verdict", "reason", "basis", "advice", "advice_reason", "wording", "because")
    words: dict[str, Any] = {key: VERDICTS.get(stated.get(key, ""), stated.get(key, "")) for key in texts}
    refused = Refusal(*stated["refused"]) if "refused" in stated else None
    return ConformanceCase(
        name=name,
        ruleset=_ruleset(group, stated),
        line=dict(_datum(part) for part in stated.get("line", "").split(";") if part.strip()),
        clause=stated.get("judged_by", "1"),
        mandatory=stated.get("mandatory", True),
        refused=refused,
        **lists,
        **words,
    )


def _ruleset(group: Mapping[str, Any], stated: Mapping[str, Any]) -> str:
    whole: str = stated.get("ruleset", group.get("ruleset", ""))
    if whole:
        return whole
    given, clause = (stated.get(key, group.get(key, "")).strip() for key in ("given", "clause"))
    head = 'ruleset "case"\nspeaks "vocabulary"\n'
    return f'{head}{given}\nclause 1 "case"\n{clause}\n'


def _datum(part: str) -> tuple[str, str]:
    name, _, text = part.partition("=")
    return name.strip(), text.strip()
