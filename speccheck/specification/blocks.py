"""Blocks of a section: its paragraphs, each with the number that a reader sees, and its tables where they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from speccheck.quantities import listed_unit


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph: its whole number ("2.1.A.1", "" where it has none), its words on one line, and where it stands.

    `note` says that it is a footnote of the paragraph with this number.
    """

    number: str
    text: str
    place: str
    note: bool = False


@dataclass(frozen=True, slots=True)
class SectionTable:
    """A table: its rows of cell texts, the number and the words of the paragraph above it, and where it stands."""

    rows: tuple[tuple[str, ...], ...]
    below: str
    title: str
    place: str


Block = Paragraph | SectionTable

# A number with the words behind it: "2.1.3 The cladding ...", "4 DUCTWORK". Its level is how many points it has.
_DECIMAL = re.compile(r"(?P<label>\d{1,2}(?:\.\d{1,2}){2,4})\.?\s+(?P<words>.+)", re.DOTALL)
_CHAPTER = re.compile(r"(?P<label>\d{1,2})\s+(?P<words>[A-Z][^.;:]*)", re.DOTALL)
# A caption on a line of its own, and not the end of a sentence that points to a table.
_CAPTION = re.compile(r"(?:table|schedule)\s+\w+\s*[-–—:]\s+\w", re.IGNORECASE)
# How paragraphs of a section are numbered, from the part down. Each pattern has the label, then the words.
_TYPED = (
    re.compile(r"PART\s+(?P<label>\d)\b\s*[-–—:.]?\s*(?P<words>.*)", re.IGNORECASE | re.DOTALL),
    re.compile(r"(?P<label>\d{1,2}\.\d{1,2})\.?\s+(?P<words>.*)", re.DOTALL),
    re.compile(r"(?P<label>[A-Z]{1,2})\.\s+(?P<words>.*)", re.DOTALL),
    re.compile(r"(?P<label>\d{1,2})\.\s+(?P<words>.*)", re.DOTALL),
    re.compile(r"(?P<label>[a-z]{1,2})\.\s+(?P<words>.*)", re.DOTALL),
    re.compile(r"(?P<label>\d{1,2})\)\s+(?P<words>.*)", re.DOTALL),
    re.compile(r"(?P<label>[a-z]{1,2})\)\s+(?P<words>.*)", re.DOTALL),
)
ARTICLE_LEVEL = 1
# What is raised above the line is a power or the mark of a note, and no more of the number before it.
RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
TITLE_WORDS = 6


def is_title(text: str) -> bool:
    """Whether the words of a paragraph are a heading: few, or all in capitals, and without a full stop."""
    return (len(text.split()) <= TITLE_WORDS or text.isupper()) and not text.endswith(".")


def with_leads(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """Return blocks with the number and words of the paragraph above a captioned table before those of its caption."""
    found: list[Block] = []
    lead = Paragraph("", "", "")
    for block in blocks:
        if isinstance(block, Paragraph):
            lead = block if block.number else lead
        elif not block.below and lead.number:
            block = replace(block, below=lead.number, title=f"{lead.text} {block.title}")
        found.append(block)
    return tuple(found)


def typed_label(text: str, outline: ParagraphNumbers) -> tuple[int, str, str] | None:
    """Return the level (0 for a part), the label and the words of a paragraph whose number was typed, or None.

    A line that begins with an amount ("1.5 inches of ...") has no label: a number counts where it goes on from those of
    `outline`, or has a word with a capital behind it.
    """
    found = _DECIMAL.fullmatch(text)
    if found is not None and outline.is_below(found["label"]):
        return found["label"].count("."), found["label"], " ".join(found["words"].split())
    found = _CHAPTER.fullmatch(text)
    if found is not None and outline.is_next_chapter(found["label"]) and is_title(text):
        return 0, found["label"], " ".join(found["words"].split())
    for level, pattern in enumerate(_TYPED):
        found = pattern.fullmatch(text)
        if found is not None and (level != ARTICLE_LEVEL or outline.is_article(found["label"], found["words"])):
            return level, found["label"], " ".join(found["words"].split())
    return None


class ParagraphNumbers:
    """The numbers of the paragraphs so far, so that each is given its whole number: "B" under "2.1" is "2.1.B"."""

    def __init__(self) -> None:
        self._open: list[str] = []

    def number(self, level: int, label: str) -> str:
        """Return the whole number of a paragraph; `level` counts from 0 for a part, 1 for an article."""
        whole = label if level <= ARTICLE_LEVEL or "." in label else ".".join([*self._above(level), label])
        del self._open[level:]
        self._open += [""] * (level - len(self._open))
        self._open.append(whole)
        return whole

    def is_below(self, label: str) -> bool:
        """Whether a number of several parts stands under one of those so far: "2.1.3" under "2.1"."""
        return label.rpartition(".")[0] in self._open or label.rpartition(".")[0].rpartition(".")[0] in self._open

    def is_next_chapter(self, label: str) -> bool:
        """Whether a number without points is the first one, or follows the last one of its level."""
        last = self._open[0] if self._open else "0"
        return last.isdigit() and int(label) == int(last) + 1

    def is_article(self, label: str, words: str) -> bool:
        """Whether a number is that of an article, and no amount at the start of a line: "1.5 inches of ..."."""
        if not words[:1].islower():
            return True
        part, _, number = label.partition(".")
        last = self._open[ARTICLE_LEVEL] if len(self._open) > ARTICLE_LEVEL else f"{part}.0"
        follows = part in self._open[:1] and last == f"{part}.{int(number) - 1}"
        return follows and listed_unit(words.split()[0]) is None

    def _above(self, level: int) -> list[str]:
        """Return the number of the nearest paragraph above a level, as a list of one or none."""
        return next(([number] for number in reversed(self._open[:level]) if number), [])


def blocks_of(lines: Iterable[str], where: str, outline: ParagraphNumbers | None = None) -> Iterator[Block]:
    """Yield the blocks of plain text: paragraphs, and tables whose cells are parted by bars or tabs.

    A line without a label goes on with the paragraph above, and a blank line ends it.
    """
    outline = outline or ParagraphNumbers()
    last = Paragraph("", "", where)
    rows: list[tuple[str, ...]] = []
    waiting: list[str] = []
    start = 1
    for row, line in enumerate([*lines, ""], start=1):
        cells = cells_of_line(line)
        if cells and not rows:
            for last in paragraphs_of(waiting, where, outline, start):
                yield last
            waiting = []
        if cells:
            rows.append(cells)
            continue
        if rows:
            yield SectionTable(tuple(rows), last.number, last.text, f"{where} line {row - len(rows)}")
            rows, start = [], row
        waiting.append(line)
    yield from paragraphs_of(waiting, where, outline, start)


def cells_of_line(line: str) -> tuple[str, ...]:
    """Return the cells of a line of plain text that is a row of a table, none for other lines."""
    if line.count("|") > 1:
        return tuple(cell.strip() for cell in line.strip().strip("|").split("|"))
    return tuple(cell.strip() for cell in line.strip().split("\t")) if line.strip().count("\t") > 1 else ()


def paragraphs_of(
    lines: Iterable[str], where: str, outline: ParagraphNumbers | None = None, first: int = 1
) -> Iterator[Paragraph]:
    """Yield the paragraphs of plain text; a line without a label goes on with the paragraph above, a blank ends it.

    `outline` has the numbers so far, where the lines go on with a section; `first` is the number of the first line.
    """
    outline, number, words, start = outline or ParagraphNumbers(), "", "", 0
    for row, line in enumerate([*lines, ""], start=first):
        text = " ".join(line.split())
        label = typed_label(text, outline)
        if words and (label is not None or not text or _CAPTION.match(text)):
            yield Paragraph(number, words, f"{where} line {start}")
            number, words = "", ""
        if label is not None:
            number, words, start = outline.number(*label[:2]), label[2], row
        elif text:
            start = start if words else row
            words = f"{words} {text}".strip()
