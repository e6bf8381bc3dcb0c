"""Lettering: text that is struck through or white on white, and raised figures, which values do not show.

What is struck through has been taken back, what is white on white nobody sees, and a raised figure refers to a note:
"2" with a raised 1 is not 21. The elements are those of ISO/IEC 29500-1, sections 18.8.22 (font), 18.8.20 (fill) and
18.4.7 (run properties), from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape
from itertools import chain, pairwise
from typing import NamedTuple

from speccheck.schedule.number_formats import attribute

_FONTS = re.compile(r"</?(?:\w+:)?fonts\b")
_FONT = re.compile(r"<(?:\w+:)?font\b[^<>]*>")
_FILLS = re.compile(r"</?(?:\w+:)?fills\b")
_FILL = re.compile(r"<(?:\w+:)?fill\b[^<>]*>")
_COLOUR = re.compile(r"<(?:\w+:)?(?:color|fgColor)\b([^<>]*)>")
_PATTERN = re.compile(r"<(?:\w+:)?patternFill\b([^<>]*)>")
_FORMATS = re.compile(r"</?(?:\w+:)?cellXfs\b")
_FORMAT = re.compile(r"<(?:\w+:)?xf\b([^<>]*)>")
_STRIKE = re.compile(r"<(?:\w+:)?strike\b([^<>]*)>")
_RAISED = re.compile(r"<(?:\w+:)?vertAlign\b[^<>]*[\"']superscript[\"']")
_ITEM = re.compile(r"<(?:\w+:)?si\b[^<>]*>")
_RUN = re.compile(r"<(?:\w+:)?r\b[^<>]*>")
_TEXT = re.compile(r"<(?:\w+:)?t\b[^<>]*>([^<]*)")
_RAISED_FIGURES = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_FALSE = ("0", "false")


class Lettered(NamedTuple):
    """The text of a cell with its raised figures raised, and whether any of it is struck through."""

    text: str
    struck: bool


def struck_styles(styles: str) -> frozenset[int]:
    """Return, from the text of styles.xml, the cell styles whose font is struck through."""
    fonts = _between(styles, _FONTS)
    struck = {str(index) for index, font in enumerate(_pieces(fonts, _FONT)) if _is_struck(font)}
    if not struck:
        return frozenset()
    formats = _FORMAT.finditer(_between(styles, _FORMATS))
    return frozenset(index for index, found in enumerate(formats) if attribute(found[1], "fontId") in struck)


def unseen_styles(styles: str) -> frozenset[int]:
    """Return, from the text of styles.xml, the cell styles that write in white on no ground or on a white one."""
    fonts = _pieces(_between(styles, _FONTS), _FONT)
    white = {str(index) for index, font in enumerate(fonts) if _is_white(font)}
    if not white:
        return frozenset()
    fills = _pieces(_between(styles, _FILLS), _FILL)
    bare = {str(index) for index, fill in enumerate(fills) if _is_bare(fill)} | {""}
    formats = enumerate(_FORMAT.finditer(_between(styles, _FORMATS)))
    return frozenset(
        index
        for index, found in formats
        if attribute(found[1], "fontId") in white and attribute(found[1], "fillId") in bare
    )


def _is_white(properties: str) -> bool:
    """Whether the colour of a font or of a solid ground is white: by its value, as the theme's first, or by number."""
    found = _COLOUR.search(properties)
    if found is None or attribute(found[1], "tint"):
        return False
    colours = (attribute(found[1], name) for name in ("rgb", "theme", "indexed"))
    value, theme, number = colours
    return value.upper().endswith("FFFFFF") or theme == "0" or number in ("1", "9")


def _is_bare(fill: str) -> bool:
    """Whether a ground is none at all, or white."""
    found = _PATTERN.search(fill)
    kind = attribute(found[1], "patternType") if found is not None else "gradient"
    return kind in ("", "none") or (kind == "solid" and _is_white(fill))


def _between(xml: str, tag: re.Pattern[str]) -> str:
    """Return what stands between the first opening and closing tag."""
    ends = [found.start() for found in tag.finditer(xml)]
    return xml[ends[0] : ends[1]] if len(ends) > 1 else ""


def _is_struck(properties: str) -> bool:
    """Whether the properties of a font or of a run strike it through."""
    found = _STRIKE.search(properties)
    return found is not None and attribute(found[1], "val") not in _FALSE


def lettered_texts(shared: str) -> dict[int, Lettered]:
    """Return, from the text of sharedStrings.xml, the texts with struck or raised parts, by their number."""
    if not (_STRIKE.search(shared) or _RAISED.search(shared)):
        return {}
    items = enumerate(_pieces(shared, _ITEM))
    return {index: found for index, item in items if (found := lettered(item)) is not None}


def lettered(xml: str) -> Lettered | None:
    """Return the text of a cell in several letterings where any part is struck or raised; None for any other."""
    if not (_STRIKE.search(xml) or _RAISED.search(xml)):
        return None
    runs = list(_pieces(xml, _RUN))
    struck = any(_is_struck(run) and _words(run).strip() for run in runs)
    text = "".join(_words(run).translate(_RAISED_FIGURES) if _RAISED.search(run) else _words(run) for run in runs)
    return Lettered(text, struck)


def _pieces(xml: str, tag: re.Pattern[str]) -> Iterator[str]:
    """Yield the text from each tag to the next one."""
    for found, following in pairwise(chain(tag.finditer(xml), (None,))):
        if found is not None:
            yield xml[found.start() : following.start() if following is not None else len(xml)]


def _words(run: str) -> str:
    """Return the words of a run."""
    return "".join(unescape(found[1]) for found in _TEXT.finditer(run))
