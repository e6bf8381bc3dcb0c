"""Blocks of a section: its paragraphs, each with the number that a reader sees, and its tables where they stand."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph: its whole number ("2.1.A.1", "" where it has none), its words on one line, and where it stands."""

    number: str
    text: str
    place: str


@dataclass(frozen=True, slots=True)
class SectionTable:
    """A table: its rows of cell texts, the number and the words of the paragraph above it, and where it stands."""

    rows: tuple[tuple[str, ...], ...]
    below: str
    title: str
    place: str


Block = Paragraph | SectionTable

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


def typed_label(text: str) -> tuple[int, str, str] | None:
    """Return the level (0 for a part), the label and the words of a paragraph whose number was typed, or None."""
    for level, pattern in enumerate(_TYPED):
        found = pattern.fullmatch(text)
        if found is not None:
            return level, found["label"], " ".join(found["words"].split())
    return None


class Outline:
    """The numbers of the paragraphs so far, so that each is given its whole number: "B" under "2.1" is "2.1.B"."""

    def __init__(self) -> None:
        self._open: list[str] = []

    def number(self, level: int, label: str) -> str:
        """Return the whole number of a paragraph; `level` counts from 0 for a part, 1 for an article."""
        whole = label if level <= ARTICLE_LEVEL else ".".join([*self._above(level), label])
        del self._open[level:]
        self._open += [""] * (level - len(self._open))
        self._open.append(whole)
        return whole

    def _above(self, level: int) -> list[str]:
        """Return the number of the nearest paragraph above a level, as a list of one or none."""
        return next(([number] for number in reversed(self._open[:level]) if number), [])


def blocks_of(lines: Iterable[str], where: str, outline: Outline | None = None) -> Iterator[Block]:
    """Yield the blocks of plain text: paragraphs, and tables whose cells are parted by bars or tabs.

    A line without a label goes on with the paragraph above, and a blank line ends it.
    """
    outline = outline or Outline()
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
    lines: Iterable[str], where: str, outline: Outline | None = None, first: int = 1
) -> Iterator[Paragraph]:
    """Yield the paragraphs of plain text; a line without a label goes on with the paragraph above, a blank ends it.

    `outline` has the numbers so far, where the lines go on with a section; `first` is the number of the first line.
    """
    outline, number, words, start = outline or Outline(), "", "", 0
    for row, line in enumerate([*lines, ""], start=first):
        text = " ".join(line.split())
        label = typed_label(text)
        if words and (label is not None or not text):
            yield Paragraph(number, words, f"{where} line {start}")
            number, words = "", ""
        if label is not None:
            number, words, start = outline.number(*label[:2]), label[2], row
        elif text:
            start = start if words else row
            words = f"{words} {text}".strip()
