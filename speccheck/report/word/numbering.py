"""The list of Word that numbers a section: PART 1, 1.1, A, 1, counted by Word itself (ECMA-376, part 1, 17.9)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from docx.document import Document

# The text before a paragraph of each level, where %1 is the count of the first, and how it counts.
LEVELS = (("PART %1 - ", "decimal"), ("%1.%2", "decimal"), ("%3.", "upperLetter"), ("%4.", "decimal"))
_LIST = "90"


class Numbering:
    """The one list of a document. Paragraphs are numbered in their order; a gap restarts the list where it goes on."""

    def __init__(self, document: Document) -> None:
        from docx.oxml import parse_xml
        from docx.oxml.ns import nsdecls

        part: Any = document.part
        self._element = part.numbering_part.element
        self._declared = nsdecls("w")
        self._counts = [0] * len(LEVELS)
        levels = "".join(
            f'<w:lvl w:ilvl="{at}"><w:start w:val="1"/><w:numFmt w:val="{form}"/><w:lvlText w:val="{text}"/>'
            '<w:lvlJc w:val="left"/></w:lvl>'
            for at, (text, form) in enumerate(LEVELS)
        )
        self._element.insert(
            0, parse_xml(f'<w:abstractNum {self._declared} w:abstractNumId="{_LIST}">{levels}</w:abstractNum>')
        )
        self._next = int(_LIST)
        self._plain = self._instance("")

    def number(self, paragraph: Any, level: int, number: int) -> None:
        """Let Word number a paragraph at a level from 0; it is to show `number`."""
        from docx.oxml import parse_xml

        expected = self._counts[level] + 1
        self._counts[level:] = [number, *[0] * (len(LEVELS) - level - 1)]
        start = f'<w:lvlOverride w:ilvl="{level}"><w:startOverride w:val="{number}"/></w:lvlOverride>'
        instance = self._plain if number == expected else self._instance(start)
        xml = f'<w:numPr {self._declared}><w:ilvl w:val="{level}"/><w:numId w:val="{instance}"/></w:numPr>'
        paragraph._p.get_or_add_pPr().append(parse_xml(xml))

    def _instance(self, start: str) -> int:
        """Add an instance of the list, and return its number."""
        from docx.oxml import parse_xml

        number, self._next = self._next, self._next + 1
        inside = f'<w:abstractNumId w:val="{_LIST}"/>{start}'
        self._element.append(parse_xml(f'<w:num {self._declared} w:numId="{number}">{inside}</w:num>'))
        return number
