"""What the paragraphs above say of the lines that a paragraph is for: "C. Piping exposed to weather:", then 1, 2, 3.

A title or a leading paragraph whose words name a service, a place, an insulation speaks for all that stands under it.
Where it names one and other words besides, nobody knows how far it reaches: that is a doubt of each of them.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.specification.blocks import Paragraph
from speccheck.specification.conditions import conditions_in


@dataclass(frozen=True, slots=True)
class Above:
    """The conditions that hold for what stands under a paragraph, and what is in doubt about them."""

    where: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


@dataclass
class Context:
    """The paragraphs so far that others stand under, by their number."""

    vocabulary: Vocabulary
    _above: dict[str, Above] = field(default_factory=dict)

    def of(self, paragraph: Paragraph) -> Above:
        """Return what the paragraphs above one say of its lines, from the article down."""
        found = [self._above[number] for number in _ancestors(paragraph.number) if number in self._above]
        where = dict.fromkeys(condition for one in found for condition in one.where)
        return Above(tuple(where), tuple(doubt for one in found for doubt in one.doubts))

    def lead(self, paragraph: Paragraph) -> None:
        """Take in a title or a leading paragraph."""
        if not paragraph.number:
            return
        piece = conditions_in(paragraph.text.rstrip(":. "), self.vocabulary)
        if not piece.texts:
            return
        odd = [f"`{words}` above, in {paragraph.number}, was not understood" for words in piece.left_over]
        self._above[paragraph.number] = Above(tuple(piece.texts), (*odd, *piece.doubts))

    def clause(self, paragraph: Paragraph, where: tuple[str, ...]) -> None:
        """Take in a requirement: what stands under it is for the same lines."""
        if paragraph.number and where:
            self._above[paragraph.number] = Above(where)

    def unread(self, paragraph: Paragraph) -> None:
        """Take in a paragraph that was not understood: nobody knows for which lines that is which stands under it."""
        if paragraph.number:
            self._above[paragraph.number] = Above((), (f"{paragraph.number} above it was not understood",))


def _ancestors(number: str) -> list[str]:
    """Return the numbers of the paragraphs above one, from the article: 2.1 and 2.1.A of 2.1.A.3."""
    parts = number.split(".")
    return [".".join(parts[:count]) for count in range(2, len(parts))]
