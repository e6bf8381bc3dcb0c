"""The words of a page of a PDF, with what befalls them: struck through by a line, white on white, raised.

Coordinates are points from the upper left corner of the page as it is shown, rotation included.
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, NamedTuple, Protocol

from speccheck.schedule.formats.pdf_slanted_texts import without_slanted_texts
from speccheck.schedule.messages.cells import NOT_SHOWN, STRUCK, UNSURE_CELL

SMALL = 0.85
"""Sizes of the letters of a line up to which others are small: raised or lowered (common practice, no source)."""
BLANK = 0.25
"""The width of a blank, in sizes of letters (common practice, no source)."""
THIN = 1.5
"""Points up to which a rectangle is a rule."""
_WORD_GAP = 0.12
_AGAIN = 0.12
_OVER = 0.15
_NEAR_BLANK = 0.6
_NEXT = 0.06
"""Sizes of letters: from the first a gap parts words, up to the second a sign is printed again at its place, from the
third signs lie over each other, up to the next they stand behind a blank, and up to the last they follow each other;
kerning moves them less far (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class PrintedWord:
    """One word: its text, its rectangle, the size of its letters, and the code of what is wrong with it.

    `first` and `last` are the places of its letters among all signs of the page in the order in which they were drawn;
    `spaced` is whether a blank was drawn before it, `behind_blank` whether that stands there on its line, and `runs_on`
    whether it reaches from the word before to this one, so that both are of one text.
    """

    text: str
    left: float
    top: float
    right: float
    bottom: float
    size: float
    trouble: str = ""
    first: int = -1
    last: int = -1
    spaced: bool = True
    behind_blank: bool = False
    runs_on: bool = False

    @property
    def middle(self) -> tuple[float, float]:
        """The middle of the rectangle, in points."""
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2


def around(words: Sequence[PrintedWord]) -> tuple[float, float, float, float]:
    """Return the rectangle around words: left, top, right and bottom, in points."""
    return (
        min(word.left for word in words),
        min(word.top for word in words),
        max(word.right for word in words),
        max(word.bottom for word in words),
    )


class _HasWords(Protocol):
    @property
    def words(self) -> Sequence[PrintedWord]: ...


class Edges:
    """The edges of what has words."""

    __slots__ = ()

    @property
    def left(self: _HasWords) -> float:
        """The left edge, in points."""
        return min(word.left for word in self.words)

    @property
    def top(self: _HasWords) -> float:
        """The upper edge, in points."""
        return min(word.top for word in self.words)

    @property
    def right(self: _HasWords) -> float:
        """The right edge, in points."""
        return max(word.right for word in self.words)

    @property
    def bottom(self: _HasWords) -> float:
        """The lower edge, in points."""
        return max(word.bottom for word in self.words)


@dataclass(frozen=True, slots=True)
class PrintedLine(Edges):
    """Words that stand beside each other, from left to right; `is_row` where the order of drawing tells it a row."""

    words: tuple[PrintedWord, ...]
    is_row: bool = False

    @property
    def last_top(self) -> float:
        """The upper edge of the last line of print, where several were put together, in points."""
        return max(word.top for word in self.words if word.size > SMALL * self.size)

    @property
    def size(self) -> float:
        """The size of most letters, in points."""
        return statistics.median_high([word.size for word in self.words])


class PageWords(NamedTuple):
    """The upright words of a page, whether others run up or down it, and the texts that run across it at a slant."""

    words: list[PrintedWord]
    sideways: bool
    slanted: tuple[str, ...]


def words_of(page: Any) -> PageWords:
    """Return the words of a page."""
    page, slanted = without_slanted_texts(page)
    page = _once(page)
    drawn = page.chars
    places = {id(sign): place for place, sign in enumerate(drawn)}
    found = page.extract_words(
        x_tolerance_ratio=_WORD_GAP, y_tolerance_ratio=0.12, return_chars=True,
        extra_attrs=["upright", "size", "non_stroking_color"],
    )  # fmt: skip
    strikes = [rule for rule in _rules(page) if rule[2] - rule[0] > 2]
    grounds = [rect for rect in page.rects if rect.get("fill") and not _is_white(rect.get("non_stroking_color"))]
    words = []
    for one in found:
        if one["upright"]:
            signs = [places[id(sign)] for sign in one["chars"]]
            word = _printed(one, drawn, min(signs), max(signs))
            trouble = _trouble(word, one["non_stroking_color"], strikes, grounds) or _overprinted(one["chars"], signs)
            words.append(replace(word, trouble=trouble))
    return PageWords(_not_over_each_other(words), any(not one["upright"] for one in found), slanted)


def _printed(one: Any, drawn: Sequence[Any], first: int, last: int) -> PrintedWord:
    """Return a word that was drawn from its `first` to its `last` sign, whatever may be wrong with it."""
    spaced = first == 0 or drawn[first - 1]["text"].isspace()
    behind = spaced and _is_behind_blank(drawn, first)
    return PrintedWord(
        one["text"],
        one["x0"],
        one["top"],
        one["x1"],
        one["bottom"],
        one["size"],
        first=first,
        last=last,
        spaced=spaced,
        behind_blank=behind,
        runs_on=behind and _runs_on(drawn, first),
    )


def _is_behind_blank(drawn: Sequence[Any], first: int) -> bool:
    """Whether a blank was drawn before a sign on its line, near on the left of it."""
    blank, sign = drawn[first - 1], drawn[first]
    near = blank["x0"] < sign["x0"] < blank["x1"] + _NEAR_BLANK * sign["size"]
    return bool(first and near and _are_beside(blank, sign))


def _runs_on(drawn: Sequence[Any], first: int) -> bool:
    """Whether blanks were drawn before a sign that reach from the one before them to it, as within one text."""
    after, place = drawn[first], first - 1
    while place >= 0 and drawn[place]["text"].isspace() and _next_to(drawn[place], after):
        after, place = drawn[place], place - 1
    return 0 <= place < first - 1 and not drawn[place]["text"].isspace() and _next_to(drawn[place], after)


def _next_to(sign: Any, after: Any) -> bool:
    """Whether a sign ends where another begins, on one line of print; one of them may be raised or lowered."""
    size = max(sign["size"], after["size"])
    return _are_beside(sign, after) and bool(abs(after["x0"] - sign["x1"]) < _NEXT * size)


def _are_beside(one: Any, other: Any) -> bool:
    """Whether some of the height of two signs is the same."""
    return bool(min(one["bottom"], other["bottom"]) > max(one["top"], other["top"]))


def _once(page: Any) -> Any:
    """Return a page without the signs that are printed again at the same place, as some programs make letters bold.

    Blanks over which a sign is printed go too: words that might have been hyphenated have such.
    """
    seen: dict[tuple[str, float, int], list[Any]] = {}
    again = set()
    for sign, following in itertools.zip_longest(page.chars, page.chars[1:]):
        if sign["text"].isspace():
            if following is not None and _is_over(following, sign):
                again.add(id(sign))
            continue
        near, size = _AGAIN * sign["size"], round(sign["size"], 1)
        row = round(sign["top"] / max(sign["size"], 0.1))
        before = [one for at in (row - 1, row, row + 1) for one in seen.get((sign["text"], size, at), ())[-40:]]
        if any(abs(one["x0"] - sign["x0"]) < near and abs(one["top"] - sign["top"]) < near for one in before):
            again.add(id(sign))
        else:
            seen.setdefault((sign["text"], size, row), []).append(sign)
    return page.filter(lambda one: id(one) not in again) if again else page


def _is_over(sign: Any, blank: Any) -> bool:
    """Whether a sign is printed where a blank was drawn."""
    return _are_beside(blank, sign) and bool(abs(sign["x0"] - blank["x0"]) < _NEXT * sign["size"])


def _overprinted(signs: Sequence[Any], places: Sequence[int]) -> str:
    """Return the code of a doubt where letters of a word lie over each other, or were drawn in another order.

    A text that is too wide for its cell runs over the next one so, and the letters of both stand mixed.
    """
    for (before, sign), (place, following) in zip(itertools.pairwise(signs), itertools.pairwise(places), strict=True):
        if following < place or sign["x0"] < before["x1"] - _OVER * sign["size"]:
            return UNSURE_CELL.code
    return ""


def _not_over_each_other(words: Sequence[PrintedWord]) -> list[PrintedWord]:
    """Return words, those that are printed over another one on their line marked as unsure."""
    over: set[int] = set()
    for line in lines_of(words):
        widest = line.words[0]
        for word in line.words[1:]:
            if word.left < widest.right - _OVER * min(word.size, widest.size):
                over |= {word.first, widest.first}
            widest = max(widest, word, key=lambda one: one.right)
    return [replace(word, trouble=word.trouble or UNSURE_CELL.code) if word.first in over else word for word in words]


def _rules(page: Any) -> Iterator[tuple[float, float, float]]:
    """Yield the level rules of a page: left, height, right."""
    for one in (*page.lines, *page.rects):
        if abs(one["bottom"] - one["top"]) <= THIN:
            yield one["x0"], (one["top"] + one["bottom"]) / 2, one["x1"]


def _trouble(
    word: PrintedWord, colour: Any, strikes: Sequence[tuple[float, float, float]], grounds: Sequence[Any]
) -> str:
    """Return the code of what is wrong with a word: a rule through its middle, or white letters on a white ground."""
    height = word.bottom - word.top
    for left, level, right in strikes:
        within = word.top + 0.3 * height < level < word.bottom - 0.22 * height
        if within and min(right, word.right) - max(left, word.left) > 0.6 * (word.right - word.left):
            return STRUCK.code
    if _is_white(colour) and not any(_covers(ground, word) for ground in grounds):
        return NOT_SHOWN.code
    return ""


def _covers(ground: Any, word: PrintedWord) -> bool:
    """Whether a rectangle lies under the middle of a word."""
    x, y = word.middle
    return bool(ground["x0"] <= x <= ground["x1"] and ground["top"] <= y <= ground["bottom"])


def _is_white(colour: Any) -> bool:
    """Whether a colour is white: one part grey, three parts light, or four parts ink."""
    if colour is None:
        return False
    parts = tuple(colour) if isinstance(colour, tuple | list) else (colour,)
    if not all(isinstance(part, int | float) for part in parts):
        return False
    if len(parts) == 4:
        return all(part <= 0.02 for part in parts)
    return bool(parts) and all(part >= 0.98 for part in parts)


def lines_of(words: Sequence[PrintedWord]) -> list[PrintedLine]:
    """Return the lines in which words stand, from above; a raised or lowered word joins the line that it touches."""
    lines: list[list[PrintedWord]] = []
    by_sign: dict[int, set[int]] = {}
    for word in sorted(words, key=lambda word: (-word.size, word.top)):
        near = (word.first - 2, word.first - 1, word.last + 1, word.last + 2)
        # lines of which a word was drawn right before or after: a long page has too many to ask them all
        drawn_next = sorted(set().union(*(by_sign.get(sign, ()) for sign in near)))
        # the first word of a line is its largest, and sets how high the line is
        number = next((number for number in drawn_next if _hangs_on(lines[number], word)), None)
        if number is None:
            number = next((number for number, line in enumerate(lines) if _is_on(line[0], word)), len(lines))
        if number == len(lines):
            lines.append([])
        lines[number].append(word)
        for sign in (word.first, word.last):
            by_sign.setdefault(sign, set()).add(number)
    found = [PrintedLine(tuple(sorted(line, key=lambda word: word.left))) for line in lines]
    return sorted(found, key=lambda line: line.top)


def _is_on(first: PrintedWord, word: PrintedWord) -> bool:
    """Whether a word stands on the line of another."""
    return first.top - 0.1 * first.size <= word.middle[1] <= first.bottom + 0.1 * first.size


def _hangs_on(line: Sequence[PrintedWord], word: PrintedWord) -> bool:
    """Whether a word stands beside one of a line that was drawn before or after it, higher or lower than that.

    It is small, or touches that one, as the two figures of a fraction do.
    """
    most = _NEAR_BLANK if word.size <= SMALL * line[0].size else _NEXT
    return any(_follows(one, word, most) or _follows(word, one, most) for one in line)


def _follows(one: PrintedWord, word: PrintedWord, most: float) -> bool:
    """Whether a word was drawn after another and stands right of it, a gap of `most` sizes of letters between."""
    beside = min(word.bottom, one.bottom) > max(word.top, one.top) and 0 < word.first - one.last <= 2
    return beside and -_NEXT < (word.left - one.right) / max(one.size, word.size) < most
