"""The columns in which words stand on a page of a PDF: words close together, and how columns grow line by line."""

from __future__ import annotations

import itertools
import re
import statistics
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from speccheck.schedule.formats.pdf_words import BLANK, Edges, PrintedLine, PrintedWord
from speccheck.schedule.messages.cells import UNSURE_CELL

_COLUMN_GAP = 0.6
_MONOSPACED_GAP = 0.9
_TOUCHING = 0.12
_SAME_PLACE = 0.045
"""Sizes of letters up to which raised figures stand behind a number, and within which words that begin under each other
do: sheets are printed at any scale."""
_NUMBER = re.compile(r"[-+]?\d+(?:[.,]\d+)?%?|[½¼¾⅛⅜⅝⅞]|\d+[½¼¾⅛⅜⅝⅞]")


@dataclass(frozen=True, slots=True)
class Chunk(Edges):
    """Words that stand close together on one line, or those of the lines of one cell."""

    words: tuple[PrintedWord, ...]


def chunks_of(line: PrintedLine, gap: float, blanks: bool = False) -> list[Chunk]:
    """Return the words of a line, parted where the gap is wider than `gap`, a ratio to the size of its letters.

    On a page that has `blanks` between words, words of one size are of two texts where it has none.
    """
    chunks: list[list[PrintedWord]] = []
    for word in line.words:
        other = bool(chunks) and blanks and _of_two_texts(chunks[-1][-1], word)
        if chunks and not other and word.left - max(one.right for one in chunks[-1]) <= gap * line.size:
            chunks[-1].append(word)
        else:
            chunks.append([word])
    return [Chunk(tuple(chunk)) for chunk in chunks]


def _of_two_texts(before: PrintedWord, word: PrintedWord) -> bool:
    """Whether no blank was drawn between two words, and the second is no raised figure behind a number."""
    gap, size = word.left - before.right, max(before.size, word.size)
    if word.behind_blank or gap <= _TOUCHING * size or word.trouble or before.trouble:
        return False
    return gap > BLANK * size or before.size < 1.1 * word.size or not before.text[-1:].isdigit()


def line_of(chunks: Sequence[Chunk]) -> PrintedLine:
    """Return the line of which these are the chunks."""
    return PrintedLine(tuple(word for chunk in chunks for word in chunk.words))


def column_gap(lines: Sequence[PrintedLine]) -> float:
    """Return how wide a gap between columns is, in sizes of letters: wider where all letters have one width."""
    words = [word for line in lines for word in line.words if len(word.text) > 1]
    widths = [(word.right - word.left) / len(word.text) / word.size for word in words]
    usual = statistics.median(widths) if widths else 0.0
    same = sum(abs(width - usual) < 0.02 for width in widths)  # not all: some may be printed over each other
    return _MONOSPACED_GAP if widths and same > 0.7 * len(widths) else _COLUMN_GAP


def blanks_are_drawn(lines: Sequence[PrintedLine]) -> bool:
    """Whether a page was drawn with blanks between words, so that where none is something else parts them."""
    close = [after for before, after in _pairs(lines) if after.left - before.right <= _MONOSPACED_GAP * after.size]
    spaced = sum(word.runs_on for line in lines for word in line.words)
    return spaced >= max(3, 0.2 * len(close))


def _pairs(lines: Sequence[PrintedLine]) -> Iterator[tuple[PrintedWord, PrintedWord]]:
    """Yield words beside each other, of letters of one size."""
    for line in lines:
        for before, after in itertools.pairwise(line.words):
            if _of_one_size(before, after):
                yield before, after


def _of_one_size(one: PrintedWord, other: PrintedWord) -> bool:
    """Whether two words have letters of one size, so that none is a raised figure beside the other."""
    return abs(one.size - other.size) < 0.1 * other.size


def doubted(chunk: Chunk, blanks: bool) -> Chunk:
    """Return a chunk, its words marked as unsure where it may be two cells that stand close together.

    It may where words were not drawn one after another, or without a blank between on a page that has them.
    """
    for before, after in itertools.pairwise(chunk.words):
        next_to = before.last < after.first <= before.last + 2
        apart = blanks and not after.behind_blank and after.left - before.right > _TOUCHING * before.size
        if (not next_to or apart) if _of_one_size(before, after) else apart:
            return unsure(chunk)
    return chunk


def unsure(chunk: Chunk) -> Chunk:
    """Return a chunk of which every word is unsure."""
    return Chunk(tuple(replace(one, trouble=one.trouble or UNSURE_CELL.code) for one in chunk.words))


def numbers_parted(rows: Sequence[Sequence[Chunk]]) -> list[list[Chunk]]:
    """Return the chunks of lines, each number parted from the text of the next column where the other lines tell that.

    Spreadsheets set numbers on the right of their column, as close to the texts of the next one as words to words.
    """
    tabled = [row for row in rows if len(row) > 1]
    return [[part for chunk in row for part in _parted(chunk, row, tabled)] for row in rows]


def _parted(chunk: Chunk, row: Sequence[Chunk], rows: Sequence[Sequence[Chunk]]) -> Iterator[Chunk]:
    """Yield a chunk, or the number at its beginning and what stands behind it in the next column."""
    first, rest = chunk.words[0], chunk.words[1:]
    if len(row) > 1 and rest and _NUMBER.fullmatch(first.text) and _begins_column(first, Chunk(rest), rows):
        yield Chunk((first,))
        yield Chunk(rest)
    else:
        yield chunk


def _begins_column(number: PrintedWord, text: Chunk, rows: Sequence[Sequence[Chunk]]) -> bool:
    """Whether texts of a column begin on other lines just where a text begins, its number being of the column before.

    No word stands across that place, the texts end at different places, so that they are not set on the right, and
    what stands before one of them stands over the number, or lets it stand in the gap before a word.
    """
    place, near = text.left, _SAME_PLACE * number.size
    if any(w.left < place - near and w.right > place + near for row in rows for c in row for w in c.words):
        return False
    pairs = [
        (before, after) for row in rows for before, after in itertools.pairwise(row) if abs(after.left - place) <= near
    ]
    ends = {round(10 * chunk.right / number.size) for chunk in (text, *(after for _, after in pairs))}
    over = any(before.left < number.right and number.left < before.right for before, _ in pairs)
    in_gap = text.words[0].text[0].isalpha() and any(before.right <= number.left for before, _ in pairs)
    return len(ends) > 1 and (over or in_gap)


def perhaps_of_two(
    words: Sequence[PrintedWord],
    column: int,
    row: Mapping[int, tuple[Sequence[PrintedWord], bool]],
    header: Mapping[int, tuple[Sequence[PrintedWord], bool]],
) -> bool:
    """Whether the words of a cell may be those of two columns: a number on the right of one, and the next one's text.

    Two numbers are, but for a whole one with a fraction. A number before a text is where it ends left of the header and
    the column before has a header and no words of its own. What runs on from the number is of one text with it.
    """
    first, *rest = [word for word in words if word.top < words[0].bottom]
    if not rest or rest[0].runs_on or not _NUMBER.fullmatch(first.text):
        return False
    if _NUMBER.fullmatch(rest[0].text) and rest[0].text.isascii():
        return True
    headers = header.get(column, ((), False))[0]
    alone = column - 1 in row or column - 1 not in header
    return bool(headers) and not alone and first.right <= headers[0].left


def numbers_joined(
    columns: Sequence[tuple[float, float]], rows: Sequence[Sequence[Chunk]]
) -> list[tuple[float, float]]:
    """Return columns; one of numbers alone that has no header is joined with the column that it is set on the right of.

    That is the one before, where that is blank in every line that has such a number, and the one behind is filled, or
    has a header and the numbers end at one place.
    """
    for index in range(1, len(columns)):
        filled = [{column_of(columns, chunk) for chunk in row} for row in rows]
        own = [chunk for row in rows for chunk in row if column_of(columns, chunk) == index]
        numbers = all(len(chunk.words) == 1 and _NUMBER.fullmatch(chunk.words[0].text) for chunk in own)
        with_it = [row for row in filled if index in row]
        behind = index == len(columns) - 1 or all(index + 1 in row for row in with_it)
        behind = behind or (index + 1 in filled[0] and _are_set_right(own))
        headed = filled[0] & {index - 1, index} == {index - 1}
        if own and numbers and headed and behind and not any(index - 1 in row for row in with_it):
            joined = (columns[index - 1][0], columns[index][1])
            return numbers_joined([*columns[: index - 1], joined, *columns[index + 1 :]], rows)
    return list(columns)


def _are_set_right(numbers: Sequence[Chunk]) -> bool:
    """Whether numbers of several widths end below each other."""
    near = _SAME_PLACE * numbers[0].words[0].size
    rights, lefts = [one.right for one in numbers], [one.left for one in numbers]
    return max(rights) - min(rights) <= near < max(lefts) - min(lefts)


def touched(columns: Sequence[tuple[float, float]], chunk: Chunk) -> list[int]:
    """Return the columns over which a chunk stands."""
    return [index for index, (left, right) in enumerate(columns) if chunk.left < right and left < chunk.right]


def stretched_over(headers: Sequence[Chunk], chunks: Sequence[Chunk]) -> list[tuple[float, float]] | None:
    """Return the columns of a line under headers, of which at least one stretches over several and no two over one."""
    columns = [(chunk.left, chunk.right) for chunk in chunks]
    over = [touched(columns, header) for header in headers]
    if all(len(one) < 2 for one in over) or any(set(a) & set(b) for a, b in itertools.combinations(over, 2)):
        return None
    return grown(columns, [header for header, one in zip(headers, over, strict=True) if len(one) < 2])


def grown(
    columns: Sequence[tuple[float, float]], chunks: Sequence[Chunk], rows: Sequence[Sequence[Chunk]] = ()
) -> list[tuple[float, float]] | None:
    """Return columns that also hold the chunks of a line; None where a chunk reaches over two, or two into one.

    Columns of which no one of `rows` fills more than one are one column: its texts stand left, its numbers right.
    """
    wider = list(columns)
    used: set[int] = set()
    for chunk in chunks:
        over = touched(wider, chunk)
        if len(over) > 1:
            if (
                used & set(over)
                or not rows
                or any(_fills_several(row, [wider[index] for index in over]) for row in rows)
            ):
                return None
            wider[over[0] : over[-1] + 1] = [(wider[over[0]][0], wider[over[-1]][1])]
            used = {one if one < over[0] else one - len(over) + 1 for one in used}
            over = over[:1]
        if over:
            index = over[0]
            if index in used:
                return None
            wider[index] = min(wider[index][0], chunk.left), max(wider[index][1], chunk.right)
        else:
            index = sum(left < chunk.left for left, _ in wider)
            wider.insert(index, (chunk.left, chunk.right))
            used = {one + (one >= index) for one in used}
        used.add(index)
    if any(after[0] <= before[1] for before, after in itertools.pairwise(wider)):
        return None
    return wider


def _fills_several(row: Sequence[Chunk], columns: Sequence[tuple[float, float]]) -> bool:
    """Whether chunks of a row stand in more than one of some columns."""
    return len({index for chunk in row for index in touched(columns, chunk)}) > 1


def column_of(columns: Sequence[tuple[float, float]], chunk: Chunk) -> int:
    """Return the column in which a chunk begins: the first that it touches, else the one behind which it stands."""
    for index, (left, right) in enumerate(columns):
        if chunk.left < right and left < chunk.right:
            return index
    return max(sum(left < chunk.left for left, _ in columns) - 1, 0)
