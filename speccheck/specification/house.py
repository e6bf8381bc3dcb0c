"""Sections that `speccheck prose` wrote, read back: their sentences say exactly what the rules behind them say.

Such a section says at its head that it was written from rules. Its definitions, design conditions, tables and clauses
are read to the letter; a paragraph that somebody changed, so that it cannot be, is read as any other section is.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.language import parse_ruleset
from speccheck.language.format.words import name_text
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.specification.blocks import Block, Paragraph, SectionTable
from speccheck.specification.house_words import conditions_of_house

WRITTEN_FROM_RULES = (
    "This text was written from rules that a program checks. Read it against the specification that it stands for: the "
    "contract documents govern."
)
_TITLED = re.compile(r"(?P<title>.+?)(?: \(clause (?P<label>[^()]+)\))?: (?P<rest>.+)", re.DOTALL)
_SENTENCES = re.compile(r"(?<=\.) (?=This (?:does not apply|is judged) |(?:[A-Z“][^.]*? should ))")
_WHERE = re.compile(r"Where (?P<where>.+?), (?P<rest>(?:(?!, ).)*? (?:shall|should) .+)")
_DEFINED = re.compile(r"“(?P<name>[^”]+)” means: (?P<meaning>.+)\.")
_ASSUMED = re.compile(
    r"(?:Where (?P<where>.+), t|T)ake (?P<term>.+?) as (?P<value>.+?) unless the schedule states it\."
)
_INFORMING = frozenset({"SUMMARY", "CAUTIONS", "REFERENCES", "NOTES"})


@dataclass
class House:
    """A section that was written from rules: what stands above its clauses, and the titles that only inform."""

    vocabulary: Vocabulary
    names: dict[int, str] = field(default_factory=dict)
    informing: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, blocks: Sequence[Block], vocabulary: Vocabulary) -> House | None:
        """Return the section, or None where it does not say that it was written from rules."""
        if not any(isinstance(one, Paragraph) and one.text == WRITTEN_FROM_RULES for one in blocks[:5]):
            return None
        house = cls(vocabulary)
        for position, block in enumerate(blocks):
            if isinstance(block, Paragraph) and block.text in _INFORMING:
                house.informing.add(block.number)
            text = house._named(blocks, position)
            if text:
                house.names[position] = text
        house._keep_what_holds()
        return house

    @property
    def preamble(self) -> str:
        """The definitions, design conditions and tables, which clauses stand on."""
        return "\n\n".join(self.names.values())

    def informs(self, paragraph: Paragraph) -> bool:
        """Whether a paragraph stands under a title that asks for nothing: references, cautions."""
        return any(paragraph.number.startswith(f"{number}.") for number in self.informing)

    def clause(self, paragraph: Paragraph) -> tuple[str, str, list[str]] | None:
        """Return the number, the title and the lines of the clause that a paragraph is to the letter, or None."""
        titled = _TITLED.fullmatch(paragraph.text)
        while titled is not None:
            lines = self._lines(titled["rest"])
            name = titled["label"] or paragraph.number
            if lines and self._holds(f'clause {name} "x"\n{"".join(lines)}'):
                return name, titled["title"], [line.rstrip("\n") for line in lines]
            further = _TITLED.fullmatch(titled["rest"])
            titled = further
        return None

    # ---- sentences -----------------------------------------------------------------------------------------------

    def _lines(self, text: str) -> list[str]:
        """Return the lines of a clause, none where a sentence is not as prose writes it."""
        lines: list[str] = []
        for sentence in _SENTENCES.split(text.strip()):
            plain = sentence.strip().removesuffix(".")
            excepted = re.fullmatch(r"This does not apply where (.+?)(?:, because (.+))?", plain, re.DOTALL)
            judged = re.fullmatch(r"This is judged only where (.+) (is|are) stated", plain)
            if excepted is not None:
                lines.append(f"  except where {self._words(excepted[1])}\n")
            elif judged is not None:
                names = ", ".join(name_text(one) for one in judged[1].split(" and "))
                lines.append(f"  judged only where {names} is stated\n")
            else:
                lines += self._asked(plain)
        return lines if any("  shall" in line or "  should" in line for line in lines) else []

    def _asked(self, text: str) -> list[str]:
        lines = []
        leading = _WHERE.fullmatch(text)
        if leading is not None:
            lines = [f"  where {self._words(one)}\n" for one in re.split(r", and where ", leading["where"])]
            text = leading["rest"]
        keyword = "should" if re.search(r"\bshould\b", text) and not re.search(r"\bshall\b", text) else "shall"
        asked = re.split(r"; and ", text)
        return [*lines, *(f"  {keyword} {self._words(_lowered(one))}\n" for one in asked)]

    def _words(self, text: str) -> str:
        return conditions_of_house(text, self.vocabulary)

    # ---- names ---------------------------------------------------------------------------------------------------

    def _named(self, blocks: Sequence[Block], position: int) -> str:
        """Return the definition, the design condition or the table that a block is, "" for none."""
        block = blocks[position]
        if isinstance(block, SectionTable):
            return self._table(block)
        defined = _DEFINED.fullmatch(block.text)
        if defined is not None:
            return f"define {name_text(defined['name'])}\n  as {self._words(defined['meaning'])}"
        assumed = _ASSUMED.fullmatch(block.text)
        if assumed is None:
            return ""
        where = re.split(r", and where ", assumed["where"]) if assumed["where"] else []
        lines = [f"assume {name_text(assumed['term'])} is {assumed['value']}"]
        return "\n".join([*lines, *(f"  where {self._words(one)}" for one in where)])

    def _table(self, block: SectionTable) -> str:
        """Return a table whose headings are terms and bands of the language."""
        titled = re.fullmatch(r"(?P<name>.+?)(?: \((?P<unit>[^()]*(?:\([^()]*\)[^()]*)*)\))?", block.title)
        rows = [list(row) for row in block.rows]
        if titled is None or len(rows) < 2:
            return ""
        over = "" if rows[0][0] else rows.pop(0)[1]
        head, *body = rows
        unit = titled["unit"] or ""
        kind = "" if not unit else f" of {name_text(unit)}" if unit in self.vocabulary.terms else f" in {unit}"
        lines = [f'table "{titled["name"]}"{kind}', f"  by {head[0]}{f', {over}' if over else ''}"]
        lines += [f"  | {' | '.join(head[1:])}"] if over else []
        lines += [f"  {row[0]} | {' | '.join('-' if cell == '–' else cell for cell in row[1:])}" for row in body]
        return "\n".join(lines)

    def _keep_what_holds(self) -> None:
        """Keep the names that the language reads, amounts among the definitions, and names as clauses write them."""
        for position, text in list(self.names.items()):
            if text.startswith("define ") and not self._alone(text):
                self.names[position] = text.replace("\n  as ", "\n  equal to ", 1)
        for _ in range(len(self.names)):
            bad = self._first_wrong()
            if bad is None:
                return
            del self.names[bad]

    def _alone(self, text: str) -> bool:
        """Whether a definition reads as a condition, whatever the names in it stand for."""
        return not any(one.code.startswith("L1") for one in self._loaded(text).diagnostics)

    def _loaded(self, text: str):  # type: ignore[no-untyped-def]
        head = f'ruleset "draft"\n  speaks {self.vocabulary.name}\n\n'
        return parse_ruleset(f"{head}{text}\n", drafts=True, vocabulary=self.vocabulary)

    def _first_wrong(self) -> int | None:
        """Return the position of a name whose text the language refuses, None where it refuses none."""
        stands_in = '\n\nclause 0 "stands in"\n  shall concealed\n'
        loaded = self._loaded(f"{self.preamble}{stands_in}")
        errors = [one for one in loaded.diagnostics if one.severity.value == "error"]
        if not errors or not self.names:
            return None
        line, at = errors[0].place.line or 0, 4
        for position, text in self.names.items():
            at += text.count("\n") + 2
            if line < at - 1:
                return position
        return next(iter(self.names))

    def _holds(self, text: str) -> bool:
        """Whether the language reads a clause on what stands above it."""
        return bool(self._loaded(f"{self.preamble}\n\n{text}").usable)


def _lowered(text: str) -> str:
    """Return a sentence with the small letter that a name begins with; names in quotation marks keep theirs."""
    return text[:1].lower() + text[1:] if not re.match(r"[A-Z]{2}|UV|VOC", text) else text
