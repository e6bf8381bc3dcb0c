"""Drafting: from the blocks of a section to the text of a ruleset that a person has to confirm.

Each paragraph becomes one of three: a clause, a document or a relation with the line `draft`, its wording kept to the
letter; a paragraph that is `not checked`, with the reason; or one with `todo`, where something was not understood. Each
table becomes a `table` where its headings and cells can be read, and otherwise a `todo`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from speccheck.language import parse_ruleset
from speccheck.language.core import UncheckedReason
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.phrases.worded_amounts import amounts_in
from speccheck.specification.amendments import AMENDS, is_amendment
from speccheck.specification.blocks import TITLE_WORDS, Block, Paragraph, SectionTable, is_title, with_leads
from speccheck.specification.conditions import conditions_in
from speccheck.specification.context import Context, clashing, inherited, narrows
from speccheck.specification.house import House
from speccheck.specification.papers_asked import paper_asked
from speccheck.specification.pieces import Piece
from speccheck.specification.plain_words import plain_words_of
from speccheck.specification.reasons import reason_of
from speccheck.specification.relations_asked import relation_asked
from speccheck.specification.sentences import Sentence, read_sentence, sentences_of
from speccheck.specification.tables import DraftedTables, drafted_tables

_ASKING = re.compile(
    r"\b(?:shall|must|should|provide|install|insulate|cover|apply|use|seal|furnish|not permitted|do not|protect|submit"
    r"|finish|wrap|secure|fasten|extend|support|maximum|minimum|max|min|not (?:less|more)|at (?:least|most))\b",
    re.IGNORECASE,
)
# Words by which a paragraph points to the table under it, and which say nothing else: all of it is asked as a minimum.
_TO_TABLE = re.compile(r"\b(?:follow|schedule|table|below|listed|tabulated)", re.IGNORECASE)
_OF_TABLE = re.compile(
    r"\b(?:following|follows|as|scheduled?|tables?|below|minimum|thickness(?:es)?|insulation|shall|be|not less than"
    r"|at least|listed|given|shown|indicated|tabulated|in|the|inches|to|with|provide|insulate|of|for|meet|have|value"
    r"|r-values?|resistance|m²\W?K/W|m2\W?K/W|h\W?ft2\W?F/Btu|installed|jackets?|materials?|according|accordance|and|an)\b|[:(),]",
    re.IGNORECASE,
)
# The number of a table is no amount of anything: "the thickness of Table 2".
_NUMBER_OF_TABLE = re.compile(r"\b(?:tables?|schedules?|figures?)\s+(?:no\.?\s*)?[A-Z]?\d[\w.-]*", re.IGNORECASE)
_LENGTH_UNIT = re.compile(r"\b(?:mm|inch(?:es)?|in|millimet(?:er|re)s?)\b\.?", re.IGNORECASE)

# A paragraph that says what the section is about, and asks nothing.
_ABOUT = re.compile(
    r"(?:this|the|work of this) (?:section|specification)\b|section includes\b|related (?:sections|documents)\b",
    re.IGNORECASE,
)
_FOLLOWING = re.compile(r"(?:submit|furnish|provide)\b.{0,30}\bfollowing\b", re.IGNORECASE)
_NOTE = re.compile(r"[¹²³⁴⁵⁶⁷⁸⁹*†‡]|notes?\s*\d*\s*[:.]", re.IGNORECASE)
# A raised figure behind a number or a word, and not behind the unit of an area or a volume.
_MARKED = re.compile(r"(?<=[\w.,)%])[*†‡]|(?:(?<=[\d.,;)])|(?<=[a-z]{3}))[¹²³⁴⁵⁶⁷⁸⁹]")
NOTE = "it is a note to what stands above; write into that what it changes"
_METRIC_SECTION = re.compile(r"\bDN ?\d|\d\s*mm\b|\(mm\)|°\s?C\b")
# Where a section speaks of these too, "piping" tells lines apart.
_OTHER_THAN_PIPE = re.compile(r"\b(?:ducts?|ductwork|tanks?|vessels?|equipment)\b", re.IGNORECASE)
# What gives no number to meet; where there is one, somebody has to look.
_WITHOUT_AMOUNTS = (UncheckedReason.VAGUE, UncheckedReason.MANUFACTURER)
_METRIC = re.compile(r"\bDN \d|\bmm\b|W/\(m\.K\)")
_INCH_POUND = re.compile(r"\bNPS \d|\bin in\b|\d in\b|\d F\b|\d ft\b|\bR-\d|Btu")
PIPING_CONDITION = "where piping"
PIPING_DEFINED = "define piping\n  as component is one of pipe, fitting, valve, flange\n"


@dataclass(frozen=True, slots=True)
class Drafted:
    """What a block became, its text in the language, and what is doubtful.

    `sort` is "clause", "document", "relation", "not checked", "todo", "table", "definition" or "heading".
    """

    block: Block
    sort: str
    text: str = ""
    doubts: tuple[str, ...] = ()


def draft(blocks: Iterable[Block], vocabulary: Vocabulary) -> tuple[Drafted, ...]:
    """Return what each block of a section becomes, in order."""
    return tuple(_Drafting(tuple(blocks), vocabulary).all())


def ruleset_text(title: str, vocabulary: Vocabulary, drafted: Sequence[Drafted]) -> str:
    """Return the text of the drafted ruleset, to be laid out by the formatter."""
    head = [f'ruleset "{_quoted(title)}"', f"  speaks {vocabulary.name}"]
    if any(_METRIC.search(one.text) for one in drafted) and not any(_INCH_POUND.search(one.text) for one in drafted):
        head.append("  units metric")
    head.append("")
    if any(PIPING_CONDITION in one.text for one in drafted):
        head.append(PIPING_DEFINED)
    return "\n".join([*head, *(f"{one.text}\n" for one in drafted if one.text)])


class _Drafting:
    """Drafts one section: what stands above a paragraph bears on it, and so does the table below."""

    def __init__(self, blocks: Sequence[Block], vocabulary: Vocabulary) -> None:
        self.blocks = with_leads(blocks)
        self.vocabulary = vocabulary
        self.piping = any(_OTHER_THAN_PIPE.search(text) for block in blocks for text in _texts(block))
        self.metric = any(_METRIC_SECTION.search(text) for block in blocks for text in _texts(block))
        self.context = Context(vocabulary, self.piping)
        self.numbers: set[str] = set()
        self.house = House.of(blocks, vocabulary)

    def all(self) -> Iterator[Drafted]:
        """Yield what each block becomes."""
        for position, block in enumerate(self.blocks):
            of_house = self._of_house(position, block)
            if of_house is not None:
                yield of_house
            elif isinstance(block, SectionTable):
                yield self._table(position, block)
            elif self._leads_to_table(position) or self._is_only_caption(position):
                yield Drafted(block, "heading")  # the table says it, with the words of this paragraph
            else:
                yield self._paragraph(block)

    def _of_house(self, position: int, block: Block) -> Drafted | None:
        """Return what a block of a section that was written from rules became, None where it is read as any other."""
        if self.house is None:
            return None
        if position in self.house.names:
            sort = "table" if isinstance(block, SectionTable) else "definition"
            return Drafted(block, sort, self.house.names[position])
        if not isinstance(block, Paragraph):
            return None
        if self.house.informs(block) or block.text.startswith("Caution: "):
            return Drafted(block, "heading")
        found = self.house.clause(block)
        if found is None:
            return None
        name, title, lines = found
        head = [
            f'clause {_free(name, self.numbers)} "{_quoted(title)}"',
            "  draft",
            f'  wording "{_quoted(block.text)}"',
        ]
        return Drafted(block, "clause", "\n".join([*head, *lines]))

    # ---- paragraphs ----------------------------------------------------------------------------------------------

    def _paragraph(self, paragraph: Paragraph) -> Drafted:
        """Draft one paragraph; one that asks nothing and is short, or leads to others, is a heading."""
        asks = _ASKING.search(paragraph.text) is not None
        sentences = sentences_of(paragraph.text)
        read = [read_sentence(sentence, self.vocabulary, piping=self.piping) for sentence in sentences]
        whole = all(one.is_understood for one in read)
        if not whole and (beside := self._papers(paragraph, sentences) or self._relations(paragraph, sentences)):
            return beside
        leads = paragraph.text.endswith(":") or is_title(paragraph.text) or not paragraph.number
        if (
            not whole
            and not is_note(paragraph)
            and (is_about(paragraph.text) or (leads and not asks) or asks_for_all(paragraph.text))
        ):
            self.context.lead(paragraph)
            return Drafted(paragraph, "heading")
        number = _free(paragraph.number or "0", self.numbers)
        above = self.context.of(paragraph)
        doubts = [*clashing(above.where, read), *(d for one in read for d in above.doubts_beside(one.where))]
        told = AMENDS if is_amendment(paragraph.text) else NOTE if is_note(paragraph) else ""
        if told:
            self.context.unread(paragraph)
            return _todo(paragraph, number, (told,))
        doubts += self.context.doubts_of_what(paragraph, [ask for one in read for ask in one.asks])
        marked = _MARKED.search(paragraph.text)
        doubts += [f"`{marked[0]}` marks it for a note"] if marked is not None else []
        if whole and not doubts:
            return self._clauses(paragraph, number, read, above.where)
        reason = reason_of(paragraph.text)
        if reason in _WITHOUT_AMOUNTS and any(amount.unit for amount in amounts_in(paragraph.text)):
            reason = None  # "suitable for temperatures up to 450 F" says something that can be checked
        if reason is not None and not _asks_what_can_be_checked(paragraph.text, read):
            mark = f"because {reason.value}"
            return Drafted(paragraph, "not checked", _item_text("not checked", number, mark, paragraph))
        self.context.unread(paragraph)
        return _todo(paragraph, number, (*_doubts(read), *dict.fromkeys(doubts)))

    def _papers(self, paragraph: Paragraph, sentences: Sequence[str]) -> Drafted | None:
        """Return the documents that a paragraph asks for, None where it asks for none."""
        asked = [paper_asked(one, self.vocabulary, submittals=self.context.submits(paragraph)) for one in sentences]
        if not any(asked) or paragraph.text.endswith(":"):
            return None
        items = [
            (f"  submit {kind} {one.lines[0]}".rstrip(), *one.lines[1:]) for one in asked if one for kind in one.kinds
        ]
        left = [
            words for one, text in zip(asked, sentences, strict=True) for words in (one.left_over if one else (text,))
        ]
        return self._items(paragraph, "document", items, [f"`{words}` was not understood" for words in left])

    def _relations(self, paragraph: Paragraph, sentences: Sequence[str]) -> Drafted | None:
        """Return the relations between lines that a paragraph of one sentence asks for, None where it asks for none."""
        asked = relation_asked(sentences[0], self.vocabulary) if len(sentences) == 1 else None
        if asked is None:
            return None
        items = [tuple(f"  {line}" for line in lines if line) for lines in asked.relations]
        return self._items(paragraph, "relation", items, asked.doubts)

    def _items(
        self, paragraph: Paragraph, word: str, items: Sequence[Sequence[str]], doubts: Sequence[str]
    ) -> Drafted | None:
        """Return documents or relations as drafts, or with what is left to do; None where the language refuses them."""
        above = self.context.of(paragraph)
        own = [line.strip().removeprefix("where ") for lines in items for line in lines if line.startswith("  where ")]
        doubts = tuple(dict.fromkeys((*doubts, *above.doubts_beside(own))))
        shared = [f"  where {one}" for one in above.where if not any(narrows(mine, one) for mine in own)]
        mark = _todo_mark(doubts) if doubts else "draft"
        names = [_free(paragraph.number or "0", self.numbers) for _ in items]
        texts: list[str] = []
        for name, lines in zip(names, items, strict=True):
            first = lines[:1] if word == "document" else ()
            texts.append(_item_text(word, name, mark, paragraph, (*first, *shared, *lines[len(first) :])))
        text = "\n\n".join(texts)
        if self._problem(text):
            self.numbers.difference_update(names)
            return None
        return Drafted(paragraph, "todo" if doubts else word, text, doubts)

    def _clauses(self, paragraph: Paragraph, number: str, read: Sequence[Sentence], above: tuple[str, ...]) -> Drafted:
        """Return the drafted clauses of a paragraph: sentences that speak of the same lines make one together."""
        by_lines: dict[tuple[frozenset[str], frozenset[str], str], list[Sentence]] = {}
        for one in read:
            by_lines.setdefault((frozenset(one.where), frozenset(one.excepts), one.keyword), []).append(one)
        names = [number, *(_free(number, self.numbers) for _ in range(1, len(by_lines)))]
        text = "\n\n".join(
            _item_text("clause", name, "draft", paragraph, _lines(together, above))
            for name, together in zip(names, by_lines.values(), strict=True)
        )
        problem = self._problem(text)
        if problem:
            self.numbers.difference_update(names[1:])
            return _todo(paragraph, number, (problem,))
        own = read[0].where if len(by_lines) == 1 else ()
        self.context.clause(paragraph, inherited(above, own, ()))
        return Drafted(paragraph, "clause", text)

    def _problem(self, text: str) -> str:
        """Return what the language says against drafted clauses, "" for nothing."""
        head = f'ruleset "draft"\n  speaks {self.vocabulary.name}\n\n{PIPING_DEFINED}\n'
        loaded = parse_ruleset(f"{head}{text}\n", drafts=True, vocabulary=self.vocabulary)
        return "" if loaded.usable else next(iter(one.message for one in loaded.diagnostics), "it means nothing")

    # ---- tables --------------------------------------------------------------------------------------------------

    def _leads_to_table(self, position: int) -> bool:
        """Whether the table that stands right below a paragraph is what it asks."""
        return position == self._lead_of(position + 1) and self._points(position)

    def _points(self, position: int) -> bool:
        block = self.blocks[position]
        return isinstance(block, Paragraph) and bool(_TO_TABLE.search(block.text) or is_title(block.text))

    def _lead_of(self, position: int) -> int | None:
        """Return the position of the numbered paragraph that a table stands under, captions between them aside."""
        if position >= len(self.blocks) or not isinstance(self.blocks[position], SectionTable):
            below = self.blocks[position] if position < len(self.blocks) else None
            if not (isinstance(below, Paragraph) and not below.number and is_caption(below.text)):
                return None
            return self._lead_of(position + 1) if position + 1 < len(self.blocks) else None
        at = position - 1
        while at >= 0 and isinstance(one := self.blocks[at], Paragraph) and not one.number and is_caption(one.text):
            at -= 1
        return at if at >= 0 and isinstance(self.blocks[at], Paragraph) else None

    def _is_only_caption(self, position: int) -> bool:
        """Whether a paragraph is the caption of the table below it and says nothing but what the table is of."""
        block = self.blocks[position]
        if not isinstance(block, Paragraph) or block.number or not is_caption(block.text):
            return False
        if self._lead_of(position + 1) is None:
            return False
        rest = conditions_in(_without_pointing(block.text), self.vocabulary, piping=self.piping)
        return not (rest.texts or rest.left_over or rest.doubts)

    def _table(self, position: int, table: SectionTable) -> Drafted:
        """Return a drafted table and the clauses that look it up.

        A table that was not understood is left to do, with its words. One that was, but not for which lines it is, is
        written with what is in doubt: its cells need no hand.
        """
        at = self._lead_of(position)
        lead = self.blocks[at] if at is not None else None
        paragraph = lead if isinstance(lead, Paragraph) else Paragraph(table.below, table.title, table.place)
        number = _free(paragraph.number or "0", self.numbers)
        drafted = drafted_tables(table, self.vocabulary, f"table of {number}", metric=self.metric)
        whole = (AMENDS,) if is_amendment(paragraph.text) else drafted.doubts
        if whole:
            return _todo(table, number, whole, paragraph=paragraph)
        words = _without_pointing(plain_words_of(paragraph.text))
        rest = conditions_in(words, self.vocabulary, piping=self.piping)
        doubts = self._doubts_of_lines(paragraph, rest, drafted)
        shared = inherited(self.context.of(paragraph).where, rest.texts, ())
        asks = [(one.where, one.ask) for one in drafted.tables] + list(drafted.chosen)
        names = [number, *(_free(number, self.numbers) for _ in asks[1:])]
        mark = _todo_mark(doubts) if doubts else "draft"
        texts = [one.text for one in drafted.tables]
        for name, (where, ask) in zip(names, asks, strict=False):
            wider = [one for one in shared if not any(narrows(other, one) for other in where)]
            lines = [*(f"  where {condition}" for condition in dict.fromkeys((*wider, *where))), f"  shall {ask}"]
            texts.append(_item_text("clause", name, mark, paragraph, lines))
        text = "\n\n".join(texts)
        problem = self._problem(text)
        if problem:
            self.numbers.difference_update(names[1:])
            return _todo(table, number, (problem,), paragraph=paragraph)
        return Drafted(table, "todo" if doubts else "table", text, doubts)

    def _doubts_of_lines(self, paragraph: Paragraph, rest: Piece, drafted: DraftedTables) -> tuple[str, ...]:
        """Return what is in doubt about the lines that a table is for, and the cells that a note says more of."""
        above = self.context.of(paragraph)
        doubts = [*rest.doubts]
        for where in [one.where for one in drafted.tables] or [()]:
            doubts += above.doubts_beside((*rest.texts, *where))
        doubts += [f"`{words}` was not understood" for words in rest.left_over]
        doubts += [f"the cell `{cell}` is marked for a note" for cell in drafted.notes]
        return tuple(dict.fromkeys(doubts))


def _asks_what_can_be_checked(text: str, read: Sequence[Sentence]) -> bool:
    """Whether a paragraph asks something of what is proposed, and more than that it be there.

    Then a word of the site or of papers in it is no reason to put it aside.
    """
    asked = any(not ask.endswith(" be not none") for one in read for ask in one.asks)
    return asked or any(amount.along == "thickness" for amount in amounts_in(text))


def _without_pointing(text: str) -> str:
    """Return the words of a paragraph without those by which it points to a table and says what the table is of."""
    plain = _LENGTH_UNIT.sub(" ", _NUMBER_OF_TABLE.sub(" ", text.rstrip(".:")))
    return re.sub(r"(?<!\S)[-–—]+(?!\S)", " ", _OF_TABLE.sub(" ", plain))


def is_note(paragraph: Paragraph) -> bool:
    """Whether a paragraph is a note to what stands above it: it changes what that says, in words of its own."""
    return paragraph.note or _NOTE.match(paragraph.text) is not None


def is_about(text: str) -> bool:
    """Whether words say what a section is about, and ask nothing."""
    return _ABOUT.match(text) is not None


def asks_for_all(text: str) -> bool:
    """Whether words only lead to what has to be submitted: "Submit the following:"."""
    return text.endswith(":") and _FOLLOWING.match(text) is not None


def is_caption(text: str) -> bool:
    """Whether words are the caption of a table: "Table 2 - Minimum thickness"."""
    return re.match(r"(?:table|schedule)\b", text, re.IGNORECASE) is not None


def _lines(read: Sequence[Sentence], above: Sequence[str]) -> list[str]:
    """Return the lines of a clause: where it applies, what its sentences ask, what they leave out."""
    own = dict.fromkeys(condition for one in read for condition in one.where)
    asks = [f"  {one.keyword} {ask}" for one in read for ask in one.asks]
    excepts = dict.fromkeys(f"  except where {condition}" for one in read for condition in one.excepts)
    where = inherited(above, tuple(own), [ask for one in read for ask in one.asks])
    return [*(f"  where {condition}" for condition in where), *asks, *excepts]


def _texts(block: Block) -> Iterator[str]:
    """Yield the words of a block."""
    if isinstance(block, Paragraph):
        yield block.text
    else:
        yield from (cell for row in block.rows for cell in row)


def _item_text(word: str, number: str, mark: str, paragraph: Paragraph, lines: Iterable[str] = ()) -> str:
    """Return an item of the language for a paragraph: its word, number and title, its mark, the wording, more lines."""
    head = f'{word} {number} "{_title(paragraph)}"'
    return "\n".join([head, f"  {mark}", f'  wording "{_quoted(paragraph.text)}"', *lines])


def _todo_mark(doubts: Iterable[str]) -> str:
    return f'todo "{_quoted("; ".join(doubts))}"'


def _todo(
    block: Block,
    number: str,
    doubts: tuple[str, ...],
    *,
    paragraph: Paragraph | None = None,
) -> Drafted:
    """Return a clause with what is left to do: the wording, and what was not understood."""
    paragraph = paragraph or (block if isinstance(block, Paragraph) else Paragraph(number, block.title, block.place))
    mark = _todo_mark(doubts or ["it was not understood what this asks"])
    text = _item_text("clause", number, mark, paragraph)
    return Drafted(block, "todo", text, doubts)


def _doubts(read: Sequence[Sentence]) -> tuple[str, ...]:
    """Return what was not understood of the sentences of a paragraph."""
    found: list[str] = []
    for one in read:
        found += [f"`{words}` was not understood" for words in one.left_over]
        found += one.doubts
        if not one.asks and not one.left_over:
            found.append("it was not understood what a sentence asks")
    return tuple(dict.fromkeys(found))


def _free(number: str, numbers: set[str]) -> str:
    """Return a number that no other paragraph of the draft has."""
    candidates = _candidates(number)
    free = next(one for one in candidates if one not in numbers)
    numbers.add(free)
    return free


def _candidates(number: str) -> Iterator[str]:
    yield number
    count = 2
    while True:
        yield f"{number}-{count}"
        count += 1


def _title(paragraph: Paragraph) -> str:
    words = paragraph.text.split()
    return _quoted(" ".join(words[:TITLE_WORDS]).rstrip(" .,;:") + (" ..." if len(words) > TITLE_WORDS else ""))


def _quoted(text: str) -> str:
    """Return words as they may stand in quotation marks: inch marks become their typographic form."""
    return text.replace('"', "″")
