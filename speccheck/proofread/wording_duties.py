"""Duties in wording: `shall`, `should` and `may` checked against those of the rule; and references to clauses."""

from __future__ import annotations

import re
from collections.abc import Iterator

from speccheck.language.core import Clause, Ruleset

_SHOULD = re.compile(
    r"\b(?:should|ought to|(?:is|are) (?:recommended|advised|preferred)|recommend(?:ed)?|preferably)\b", re.IGNORECASE
)
_SHALL = re.compile(r"\b(?:shall|must|(?:is|are) (?:required|mandatory)|required)\b", re.IGNORECASE)
_MAY = re.compile(
    r"\b(?:may(?! (?:be )?(?:lowered|reduced|omitted|left|less|thinner))|(?:is|are) (?:permitted|allowed|optional)"
    r"|at the (?:contractor|installer)'s option)\b",
    re.IGNORECASE,
)
_BOUND = re.compile(r"\b(?:not|only|at least|at most|no)\b", re.IGNORECASE)
_REFERENCE = re.compile(
    r"\b(?:paragraphs?|articles?|clauses?|subparagraphs?|para\.|items?)\s+"
    r"((?:\d+(?:\.\w+)*|[A-Z]\.?\d+)(?:(?:\s*,\s*|\s+(?:and|or|to|through)\s+)\d+(?:\.\w+)*)*)"
    r"(?!\s+of\s+(?:the\s+)?(?!this)[A-Z\"])",
    re.IGNORECASE,
)
_SEE = re.compile(
    r"\b(?:see|per|under)\s+(\d{1,2}\.\d{1,2}(?:\.\w{1,2})*)(?![\w.]|\s*(?:[°%″\"']|[A-Za-z]+[/(.]))", re.IGNORECASE
)


def duty_faults(clause: Clause) -> Iterator[tuple[str, str]]:
    """Yield what the wording of a clause says of duty that its rule does not, with what to do."""
    text = clause.wording
    shall, should, may = _SHALL.search(text), _SHOULD.search(text), _MAY.search(re.split(r"[;.]", text)[0])
    if should and not shall and not clause.should:
        yield (
            f"`{should[0]}`, and its rule requires it with `shall`",
            "write the rule with `should`, or the wording as a requirement",
        )
    elif shall and not should and not clause.shall:
        yield (
            f"`{shall[0]}`, and its rule only advises it with `should`",
            "write the rule with `shall`, or the wording as advice",
        )
    elif may and not shall and clause.shall and not _BOUND.search(text):
        yield (
            f"`{may[0]}`, and its rule requires it with `shall`",
            "a permission is an exception or asks for nothing; write the rule so, or the wording as a requirement",
        )


def dead_references(clause: Clause, ruleset: Ruleset) -> Iterator[str]:
    """Yield the numbers of clauses that the wording of a clause refers to and that the ruleset does not have."""
    known = {one.name for one in ruleset.clauses}
    for found in (*_REFERENCE.finditer(clause.wording), *_SEE.finditer(clause.wording)):
        for number in re.findall(r"[A-Z]?\.?\d+(?:\.\w+)*", found[1]):
            if not any(
                name == number or name.startswith(f"{number}.") or name.endswith(f"-{number}") for name in known
            ):
                yield number
