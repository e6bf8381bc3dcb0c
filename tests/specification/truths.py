"""What a careful writer makes of each paragraph of a section, and how a draft of it stands beside that.

A truth is a TOML file: `paragraphs` says what each is (`is`), with the clauses that say what it asks, or the lines of a
document or relation; `cells` has what lines each cell of its tables decides. A draft is right where its clauses mean
what the truth means, as the comparison of editions sees it, wrong in silence where it is anything else, and left to do
where it is a `todo`.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from speccheck.judge.examples import example_line
from speccheck.judge.judgement import Verdict
from speccheck.judge.judging import Judge
from speccheck.language import parse_ruleset
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.values import read_value
from speccheck.proofread.clause_meaning import part_meanings
from speccheck.quantities import Quantity
from speccheck.specification import Drafted, draft
from speccheck.specification.blocks import Block, Paragraph
from speccheck.specification.drafting import PIPING_DEFINED
from tests.specification.shipped import vocabulary

HEAD = f'ruleset "x"\n  speaks mechanical insulation\n\n{PIPING_DEFINED}\n'


def ruleset_of(text: str) -> Ruleset:
    """The clauses of a text, drafts and all."""
    loaded = parse_ruleset(f"{HEAD}{text}\n", drafts=True, vocabulary=vocabulary())
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def meaning(clause: Clause) -> tuple[object, ...]:
    """What a clause means, part by part."""
    return tuple(part_meanings(clause).values())


def meanings(text: str) -> Counter[object]:
    """What clauses mean, each counted."""
    return Counter(meaning(clause) for clause in ruleset_of(text).clauses)


def beside(text: str) -> list[object]:
    """What documents and relations ask, without what they are called and say of themselves."""
    ruleset = ruleset_of(text)
    plain = {"name": "", "title": "", "wording": "", "is_draft": False, "todo": ()}
    return [replace(one, **plain) for one in (*ruleset.documents, *ruleset.relations)]


@dataclass(frozen=True)
class Truth:
    """The truth about one section, and what was drafted of it by the number of its paragraphs."""

    paragraphs: Mapping[str, Any]
    cells: tuple[Mapping[str, Any], ...]
    drafted: Mapping[str, Drafted]

    @classmethod
    def of(cls, path: Path, blocks: tuple[Block, ...]) -> Truth:
        """The truth in a file, and the drafts of a section."""
        told = tomllib.loads(path.read_text(encoding="utf-8"))
        return cls(told["paragraphs"], tuple(told.get("cells", ())), drafted_of(blocks))

    def standing(self, number: str) -> str:
        """How the draft of a paragraph stands beside the truth: "right", "left" to do, or "wrong" in silence."""
        truth, one = self.paragraphs[number], self.drafted[number]
        if one.sort == "todo":
            return "left"
        match truth["is"]:
            case "checked" if one.sort == "clause":
                right = [meanings(f'clause {number} "x"\n{text}') for text in truth["clauses"]]
                return "right" if meanings(one.text) in right else "wrong"
            case "table" if one.sort == "table":
                return "right" if all(self.cells_of(number)) else "wrong"
            case "beside" if one.sort in ("document", "relation"):
                return "right" if beside(one.text) == beside(truth["lines"]) else "wrong"
            case "not checked" if one.sort == "not checked":
                (unchecked,) = ruleset_of(f'{one.text}\n\nclause 9 "x"\n  shall concealed').unchecked
                return "right" if unchecked.reason.value in truth.get("because", (unchecked.reason.value,)) else "wrong"
            case "heading" if one.sort == "heading":
                return "right"
        return "wrong"

    def checkable(self, *kinds: str) -> list[str]:
        """The numbers of the paragraphs that are of some kinds."""
        return [number for number, one in self.paragraphs.items() if one["is"] in kinds]

    def cells_of(self, number: str) -> list[bool]:
        """Whether each cell of a table, and each material beside it, decides lines as the truth has it."""
        (cells,) = (one for one in self.cells if one["paragraph"] == number)
        ruleset = ruleset_of(self.drafted[number].text)
        found = [_cell_is_right(ruleset, cells["term"], data, least) for data, least in cells["at"]]
        for data, *allowed in cells.get("materials", ()):
            for name in ("elastomeric foam", "cellular glass", "fiberglass", "polyisocyanurate", "expanded perlite"):
                verdict = verdict_of(ruleset, f"{data}, insulation {name}", "insulation")
                found.append(verdict is (Verdict.COMPLIES if name in allowed else Verdict.FAILS))
        return found


def drafted_of(blocks: tuple[Block, ...]) -> dict[str, Drafted]:
    """What each numbered paragraph became; a paragraph above a table is what the table became."""
    found: dict[str, Drafted] = {}
    for one in draft(blocks, vocabulary()):
        found[one.block.number if isinstance(one.block, Paragraph) else one.block.below] = one
    return found


def _cell_is_right(ruleset: Ruleset, term: str, data: str, least: str) -> bool:
    """Whether the least value of a cell complies, and a hundredth less does not."""
    if least == "open":
        return verdict_of(ruleset, f"{data}, {term} 99 in", term) is Verdict.CANNOT_TELL
    if least == "none":
        return verdict_of(ruleset, f"{data}, {term} none", term) is Verdict.COMPLIES
    if least == "not permitted":
        return verdict_of(ruleset, f"{data}, {term} 99 in", term) is Verdict.FAILS
    value = read_value(least, ruleset.vocabulary.terms[term])
    assert isinstance(value, Quantity)
    less = f"{float(value.in_unit(value.unit)) * 0.99:.6f} {value.unit}"
    return (
        verdict_of(ruleset, f"{data}, {term} {least}", term) is Verdict.COMPLIES
        and verdict_of(ruleset, f"{data}, {term} {less}", term) is Verdict.FAILS
    )


def verdict_of(ruleset: Ruleset, data: str, term: str) -> Verdict:
    """The gravest verdict on a line by the clauses that ask about a term first."""
    stated = f'{HEAD}clause 9 "x"\n  shall concealed\n  example "line" complies\n    {data}\n'
    example = parse_ruleset(stated, vocabulary=ruleset.vocabulary).ruleset.clauses[0].examples[0]  # type: ignore[union-attr]
    cells = Judge(ruleset).row(example_line(example, ruleset.units))
    asked = [terms_of(clause.shall)[0].name for clause in ruleset.clauses]
    verdicts = [cell.verdict for name, cell in zip(asked, cells, strict=True) if name == term]
    order = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
    return min(verdicts, key=order.index)
