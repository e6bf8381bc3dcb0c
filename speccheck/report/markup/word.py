"""The contractor's Word document with its comments: at the cells, and as a numbered list at the end.

Nothing of the document is written anew: comments, the marks of their ranges and the list are inserted into its parts
(ISO/IEC 29500-1, 17.13.4, from memory), and everything else stays byte for byte.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.sax.saxutils import escape, quoteattr

from speccheck.report.escaping import plain
from speccheck.report.markup.marks import Comments, Mark
from speccheck.report.markup.package_copy import PackageCopy, root_of, walk
from speccheck.report.markup.word_cells import Cells, WordParagraph
from speccheck.schedule.formats.package_parts import OpenPackage

_KIND = "application/vnd.openxmlformats-officedocument.wordprocessingml.comments+xml"
_TABLE = re.compile(r"table \d+")
_NAMESPACE = re.compile(rb"xmlns(?::[\w.-]+)?=[\"']([^\"']*/wordprocessingml/(?:2006/)?main)[\"']")
_NOBODY = "reviewer"
"""The author of comments whose author was not given, for a document has to name one."""


def mark_word(path: Path, comments: Comments) -> bytes:
    """Return the document of `path` with comments. Raises `Refused` where it is damaged."""
    with OpenPackage(path) as package:
        return _Document(PackageCopy(path, package), package.main_part(), comments).marked()


class _Document:
    """A document while it is marked."""

    def __init__(self, copy: PackageCopy, main: str, comments: Comments) -> None:
        self.copy, self.main, self.comments = copy, main, comments
        text = copy.part(main)
        self.cells = Cells()
        walk(text, self.cells.hear)
        found = _NAMESPACE.search(text, root_of(text))
        self.space = f"xmlns:w={quoteattr(found[1].decode() if found else '')}"
        self.part = self._part_of_comments()
        self.first = max(self.cells.identities | self._taken(), default=0) + 1

    def marked(self) -> bytes:
        """Put the comments into the parts of the document, and return the copy."""
        edits = [
            edit
            for number, mark in enumerate(self.comments.marks, start=self.first)
            if (paragraph := self._paragraph(mark)) is not None
            for edit in self._around(paragraph, number, mark)
        ]
        there = {mark.number for mark in self.comments.marks if self._paragraph(mark) is not None}
        self.copy.edit(self.main, [*edits, (self.cells.end, self.cells.end, self._list(there).encode())])
        written = "".join(
            self._comment(number, mark)
            for number, mark in enumerate(self.comments.marks, start=self.first)
            if mark.number in there
        )
        if written:
            self.copy.append(self.part, written.encode())
        return self.copy.written()

    def _part_of_comments(self) -> str:
        """Return the part that holds the comments of the document; a new one where there is none."""
        for relation in self.copy.relations(self.main):
            if relation.kind == "comments" and self.copy.has(relation.target):
                return relation.target
        name = self.copy.free_name("word/comments{}.xml")
        if self.comments.marks:
            start = f'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<w:comments {self.space}></w:comments>'
            self.copy.add(name, start.encode(), _KIND)
            self.copy.relate(self.main, "comments", name)
        return name

    def _taken(self) -> set[int]:
        """Return the numbers that comments of the document have already."""
        found: set[int] = set()

        def hear(what: str, name: str, attributes: object, at: int, after: int) -> None:
            number = attributes.get("id", "") if isinstance(attributes, dict) else ""
            if what == "start" and name.endswith("comment") and number.isdecimal():
                found.add(int(number))

        if self.copy.has(self.part):
            walk(self.copy.part(self.part), hear)
        return found

    def _paragraph(self, mark: Mark) -> WordParagraph | None:
        """Return the paragraph at which a mark goes, None where the document has no such cell."""
        table = _TABLE.search(mark.place.sheet)
        if table is None or mark.place.sheet.startswith("text around"):
            return None
        return self.cells.cells.get((table[0], mark.place.cell))

    # ---- elements ------------------------------------------------------------------------------------------------

    def _around(self, paragraph: WordParagraph, number: int, mark: Mark) -> Iterator[tuple[int, int, bytes]]:
        """Yield what goes before and behind the words of a paragraph."""
        s = self.space
        anchor = quoteattr(_cell_name(mark))
        before = f'<w:bookmarkStart {s} w:id="{number}" w:name={anchor}/><w:commentRangeStart {s} w:id="{number}"/>'
        behind = (
            f'<w:commentRangeEnd {s} w:id="{number}"/><w:bookmarkEnd {s} w:id="{number}"/>'
            f'<w:r {s}><w:commentReference w:id="{number}"/></w:r>'
        )
        if paragraph.is_empty_element:  # `<w:p/>` is opened, and closed by a tag of its own
            name = paragraph.name.encode()
            yield paragraph.end - 2, paragraph.end, b">" + (before + behind).encode() + b"</" + name + b">"
        else:
            yield paragraph.begin, paragraph.begin, before.encode()
            yield paragraph.end, paragraph.end, behind.encode()

    def _comment(self, number: int, mark: Mark) -> str:
        """Return a comment, with a link to its entry in the list."""
        author = plain(self.comments.author) or _NOBODY
        initials = "".join(word[0] for word in author.split() if word[0].isalnum())[:4]
        date = f' w:date="{self.comments.date}T00:00:00Z"' if self.comments.date else ""
        attributes = f'w:id="{number}" w:author={quoteattr(author)}{date} w:initials={quoteattr(initials)}'
        link = f'<w:hyperlink w:anchor="{_entry_name(mark)}">{_run("To the list.", _UNDER)}</w:hyperlink>'
        words = _run(f"{mark.tag}. {mark.whole.partition('. ')[2]} ")
        return f"<w:comment {self.space} {attributes}><w:p>{words}{link}</w:p></w:comment>"

    def _list(self, there: set[int]) -> str:
        """Return the list at the end: what is asked, each comment with a link to its cell, the cautions."""
        comments = self.comments
        parts = [f'<w:p {self.space}><w:r><w:br w:type="page"/></w:r></w:p>', self._said(comments.title, _LARGE)]
        parts += [self._said(text, "", f"{heading}: ") for heading, text in comments.heads]
        parts += [self._said(sentence) for sentence in comments.summary]
        if comments.legend:
            parts.append(self._said(f"Marks: {comments.legend}."))
        parts += [self._entry(mark, linked=mark.number in there) for mark in comments.marks]
        if not comments.marks:
            parts.append(self._said("There are no comments."))
        parts += [self._said(caution, _SMALL) for caution in comments.cautions]
        return "".join(parts)

    def _said(self, text: str, look: str = "", head: str = "") -> str:
        """Return a paragraph."""
        first = _run(head, _BOLD) if head else ""
        return f"<w:p {self.space}>{_SPACING}{first}{_run(text, look)}</w:p>"

    def _entry(self, mark: Mark, *, linked: bool) -> str:
        """Return an entry of the list, its number a link to the cell."""
        number = 10_000_000 + mark.number
        name = _run(mark.tag, _BOLD)
        if linked:
            name = f'<w:hyperlink w:anchor="{_cell_name(mark)}">{_run(mark.tag, _BOLD + _UNDER)}</w:hyperlink>'
        about = ", ".join(one for one in (mark.line, mark.clause and f"clause {mark.clause}") if one)
        where = f" ({mark.place.sheet}, {mark.place.cell})" if mark.place.cell else ""
        return (
            f'<w:p {self.space}>{_SPACING}<w:bookmarkStart w:id="{number}" w:name="{_entry_name(mark)}"/>{name}'
            f'<w:bookmarkEnd w:id="{number}"/>{_run(f"  {about}{where}: ", _BOLD)}{_run(mark.text)}</w:p>'
        )


_BOLD, _UNDER = "<w:b/>", '<w:u w:val="single"/>'
_LARGE, _SMALL = '<w:b/><w:sz w:val="30"/>', '<w:sz w:val="17"/>'
_SPACING = '<w:pPr><w:spacing w:before="0" w:after="80"/></w:pPr>'


def _run(text: str, look: str = "") -> str:
    """Return words with their look; what steers a program or cannot be in XML is a space."""
    properties = f"<w:rPr>{look}</w:rPr>" if look else ""
    return f'<w:r>{properties}<w:t xml:space="preserve">{escape(plain(text))}</w:t></w:r>'


def _cell_name(mark: Mark) -> str:
    return f"cell_of_comment_{mark.number}"


def _entry_name(mark: Mark) -> str:
    return f"comment_{mark.number}"
