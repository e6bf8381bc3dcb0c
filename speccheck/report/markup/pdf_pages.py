"""Pages of text for the end of a PDF: headings and paragraphs set in Helvetica, with where each of them stands.

Helvetica and its widths are among the 14 standard fonts that every viewer has (ISO 32000-1, 9.6.2.2, from memory).
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, field

REGULAR, BOLD = "Helvetica", "Helvetica-Bold"
FONT_NAMES = {REGULAR: "F1", BOLD: "F2"}
MARGIN = 54.0
_LEADING = 1.3
_LIKE = str.maketrans({"″": '"', "′": "'", "≤": "<", "≥": ">", "⁄": "/", "−": "-", "×": "x"})


def written(text: str) -> str:
    """Return a text in signs that the standard fonts have: others by what they are made of, else by `?`."""
    found = []
    for sign in text.translate(_LIKE):
        for one in sign if _is_there(sign) else unicodedata.normalize("NFKD", sign).translate(_LIKE):
            found.append(one if _is_there(one) else "" if unicodedata.combining(one) else "?")
    return "".join(found)


def _is_there(sign: str) -> bool:
    return sign == "?" or (sign.isprintable() and sign.encode("cp1252", errors="replace") != b"?")


def literal(text: str) -> bytes:
    """Return a text as a string of a content stream, in the encoding WinAnsi."""
    data = written(text).encode("cp1252", errors="replace")
    return b"(" + data.replace(b"\\", b"\\\\").replace(b"(", b"\\(").replace(b")", b"\\)") + b")"


def width_of(text: str, font: str, size: float) -> float:
    """Return how wide a text is, in points; letters with accents are as wide as those without."""
    from pdfminer.fontmetrics import FONT_METRICS

    widths = FONT_METRICS[font][1]
    plain = (unicodedata.normalize("NFKD", sign)[:1] for sign in written(text))
    return sum(widths.get(sign, 556) for sign in plain) * size / 1000


def wrapped(text: str, font: str, size: float, width: float) -> list[str]:
    """Return a text in lines that are no wider than `width` (points); a word that is wider is broken."""
    lines, line = [], ""
    for word in text.split():
        while width_of(word, font, size) > width:
            fits = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or width_of(word[:n], font, size) <= width)
            lines += [one for one in (line, word[:fits]) if one]
            line, word = "", word[fits:]
        longer = f"{line} {word}" if line else word
        if line and width_of(longer, font, size) > width:
            lines.append(line)
            longer = word
        line = longer
    return [*lines, line] if line else lines


@dataclass
class Pages:
    """Pages while they are written, from the top down: `contents` has the content stream of each."""

    width: float
    height: float
    foot: str = ""
    contents: list[bytearray] = field(default_factory=list)
    y: float = 0.0

    def __post_init__(self) -> None:
        self._turn()

    def _turn(self) -> None:
        """Begin a page."""
        self.contents.append(bytearray())
        self.y = self.height - MARGIN
        number = f"{self.foot}, sheet {len(self.contents)}" if self.foot else ""
        if number:
            self._draw(number, REGULAR, 8, MARGIN, MARGIN / 2)

    def _draw(self, text: str, font: str, size: float, x: float, y: float) -> None:
        words = literal(text)
        self.contents[-1] += b"BT /%s %.1f Tf %.2f %.2f Td %s Tj ET\n" % (FONT_NAMES[font].encode(), size, x, y, words)

    def space(self, points: float) -> None:
        """Leave a space, in points."""
        self.y -= points

    def rule(self) -> None:
        """Draw a thin rule across the page."""
        self.y -= 4
        line = (MARGIN, self.y, self.width - MARGIN, self.y)
        self.contents[-1] += b"0.5 w %.2f %.2f m %.2f %.2f l S\n" % line
        self.y -= 4

    def paragraph(
        self, text: str, *, font: str = REGULAR, size: float = 9.5, indent: float = 0, head: str = ""
    ) -> tuple[int, float, float]:
        """Write a paragraph with `head` in bold left of it; return its page, from 0, its top and first base line.

        Lengths are in points. A paragraph is kept whole where it fits on a page.
        """
        lines = wrapped(text, font, size, self.width - 2 * MARGIN - indent) or [""]
        pitch = _LEADING * size
        fits = len(lines) * pitch <= self.height - 2 * MARGIN
        if self.y - (len(lines) if fits else 1) * pitch < MARGIN and self.y < self.height - MARGIN:
            self._turn()
        place = (len(self.contents) - 1, self.y, self.y - size)
        if head:
            self._draw(head, BOLD, size, MARGIN, self.y - size)
        for line in lines:
            if self.y - pitch < MARGIN:
                self._turn()
            self._draw(line, font, size, MARGIN + indent, self.y - size)
            self.y -= pitch
        return place
