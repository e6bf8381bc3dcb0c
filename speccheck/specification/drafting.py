"""Drafting: from the blocks of a section to the text of a ruleset that a person has to confirm.

Each paragraph becomes one of three: a clause with the line `draft`, its wording kept to the letter; a paragraph that is
`not checked`, with the reason; or a clause with `todo`, where something was not understood. Each table becomes a
`table` where its headings and cells can be read, and otherwise a `todo`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from speccheck.language import parse_ruleset
from speccheck.language.core import UncheckedReason
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.specification.blocks import Block, Paragraph, SectionTable
from speccheck.specification.sentences import Sentence, read_sentence, sentences_of
from speccheck.specification.tables import drafted_table

TITLE_WORDS = 6
_REASONS = (
    (
        UncheckedReason.DOCUMENT,
        r"\bsubmit|\bsubmittals?\b|\bcertificat|\btest reports?\b|\bsamples?\b|\bproduct data\b",
    ),
    (UncheckedReason.QUALIFICATION, r"\bqualif|\bexperience|\binstaller shall\b|\blicensed\b"),
    (UncheckedReason.ORDER_OF_WORK, r"\bbefore\b|\bafter\b|\buntil\b|\bprior to\b|\bsequence\b|\bcoordinate\b"),
    (
        UncheckedReason.ACT_ON_SITE,
        r"\bexamine|\binspect|\bverify|\bclean\b|\brepair|\bstore\b|\bdeliver|\bprotect from damage",
    ),
    (
        UncheckedReason.MANUFACTURER,
        r"\bmanufacturer'?s?\b.*\b(?:instructions|recommendations)|\baccording to manufacturer",
    ),
    (UncheckedReason.OTHER_SECTION, r"\bsection \d|\bdivision \d|\bspecified elsewhere"),
    (
        UncheckedReason.VAGUE,
        r"\bneat\b|\bworkmanlike|\bas required\b|\bas necessary\b|\bas directed\b|\bwhere possible",
    ),
)
_ASKING = re.compile(
    r"\b(?:shall|must|should|provide|install|insulate|cover|apply|use|seal|furnish|not permitted|do not|protect)\b",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Drafted:
    """What a block became: "clause", "not checked", "todo", "table" or "heading", its text in the language, and why."""

    block: Block
    sort: str
    text: str = ""
    doubts: tuple[str, ...] = ()


def draft(blocks: Iterable[Block], vocabulary: Vocabulary) -> tuple[Drafted, ...]:
    """Return what each block of a section becomes, in order."""
    drafted: list[Drafted] = []
    numbers: set[str] = set()
    for block in blocks:
        if isinstance(block, SectionTable):
            drafted.append(_table(block, vocabulary, len(drafted)))
        else:
            drafted.append(_paragraph(block, vocabulary, numbers))
    return tuple(drafted)


def ruleset_text(title: str, vocabulary: Vocabulary, drafted: Sequence[Drafted]) -> str:
    """Return the text of the drafted ruleset, to be laid out by the formatter."""
    head = [f'ruleset "{_quoted(title)}"', f"  speaks {vocabulary.name}", ""]
    return "\n".join([*head, *(f"{one.text}\n" for one in drafted if one.text)])


def _paragraph(paragraph: Paragraph, vocabulary: Vocabulary, numbers: set[str]) -> Drafted:
    """Draft one paragraph; one that asks nothing and is short is a heading."""
    sentences = sentences_of(paragraph.text)
    if not _ASKING.search(paragraph.text) and (is_title(paragraph.text) or not paragraph.number):
        return Drafted(paragraph, "heading")
    number = _free(paragraph.number or "0", numbers)
    reason = next((why for why, words in _REASONS if re.search(words, paragraph.text, re.IGNORECASE)), None)
    read = [read_sentence(sentence, vocabulary) for sentence in sentences]
    understood = [one for one in read if one.is_understood]
    if len(understood) == len(read) and _same_lines(understood):
        return _clause(paragraph, number, understood, vocabulary)
    if reason is not None and not understood:
        head = f'not checked {number} "{_title(paragraph)}"\n  because {reason.value}'
        return Drafted(paragraph, "not checked", f'{head}\n  wording "{_quoted(paragraph.text)}"')
    return _todo(paragraph, number, _doubts(read))


def is_title(text: str) -> bool:
    """Whether the words of a paragraph are a heading: few, and without a full stop."""
    return len(text.split()) <= TITLE_WORDS and not text.endswith(".")


def _same_lines(sentences: Sequence[Sentence]) -> bool:
    """Whether all sentences speak of the same lines, so that one clause can say them."""
    return len({frozenset(one.where) for one in sentences}) == 1


def _clause(paragraph: Paragraph, number: str, read: Sequence[Sentence], vocabulary: Vocabulary) -> Drafted:
    """Return a drafted clause, or a `todo` where its text means nothing to the language."""
    where = [f"  where {condition}" for condition in read[0].where]
    asks = [f"  {one.keyword} {ask}" for one in read for ask in one.asks]
    head = f'clause {number} "{_title(paragraph)}"'
    text = "\n".join([head, "  draft", f'  wording "{_quoted(paragraph.text)}"', *where, *asks])
    loaded = parse_ruleset(f'ruleset "draft"\n  speaks {vocabulary.name}\n\n{text}\n', drafts=True)
    if loaded.usable:
        return Drafted(paragraph, "clause", text)
    return _todo(paragraph, number, tuple(found.message for found in loaded.diagnostics[:1]))


def _todo(paragraph: Paragraph, number: str, doubts: tuple[str, ...]) -> Drafted:
    words = "; ".join(doubts) or "it was not understood what this asks"
    text = f'clause {number} "{_title(paragraph)}"\n  todo "{_quoted(words)}"\n  wording "{_quoted(paragraph.text)}"'
    return Drafted(paragraph, "todo", text, doubts)


def _doubts(read: Sequence[Sentence]) -> tuple[str, ...]:
    """Return what was not understood of the sentences of a paragraph."""
    found: list[str] = []
    for one in read:
        found += [f"`{words}` was not understood" for words in one.left_over]
        found += one.doubts
        if not one.asks and not one.left_over:
            found.append("it was not understood what a sentence asks")
    if not found:
        found.append("its sentences speak of different lines; write a clause for each")
    return tuple(dict.fromkeys(found))


def _table(table: SectionTable, vocabulary: Vocabulary, count: int) -> Drafted:
    """Return a drafted table, or a remark where its headings or cells cannot be read."""
    text, doubts = drafted_table(table, vocabulary, f"section table {_letters(count)}")
    return Drafted(table, "table" if text else "todo", text, doubts)


def _letters(count: int) -> str:
    """Return letters that tell the tables of one section apart: names have no digits of their own."""
    return chr(ord("A") + count // 26 % 26) + chr(ord("A") + count % 26)


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
