"""Articles of a section before they have numbers, and the paragraphs in them."""

from __future__ import annotations

from dataclasses import dataclass, field

from speccheck.language.core import Table

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph: its text, the title and the label of its clause where it is one, its subparagraphs.

    `remarks` are reasons, notes and sources, which ask for nothing. `letter` is "" until it has one; `number` is that
    letter as a number, from 1.
    """

    text: str
    title: str = ""
    label: str = ""
    inner: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    letter: str = ""
    number: int = 0


@dataclass
class Draft:
    """An article before it has a number; `number` is the one that its writer gave it, 0 for none."""

    title: str
    paragraphs: list[Paragraph] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    number: int = 0


def lettered(number: int) -> str:
    """Return the letters of a paragraph by its number from 0: A to Z, then AA, AB, and so on."""
    letters = LETTERS[number % 26]
    return letters if number < 26 else lettered(number // 26 - 1) + letters
