"""Styles of a workbook: what number format a cell has, whether it is struck through, whether it can be seen at all.

What is struck through has been taken back, and what is white on white nobody sees. The elements are those of
ISO/IEC 29500-1, sections 18.8.22 (font), 18.8.20 (fill), 18.8.30 (number format) and 18.8.10 (cell formats), from
memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from speccheck.schedule.formats.number_formats import BUILT_IN, GENERAL, NumberFormat, parse_format
from speccheck.schedule.formats.package_parts import Events
from speccheck.schedule.formats.rich_text import FALSE


class Style(NamedTuple):
    """How cells of one style look."""

    format: NumberFormat = GENERAL
    struck: bool = False
    unseen: bool = False


@dataclass
class _Look:
    """A font or a fill while it is read: struck through, white, and for a fill its pattern."""

    struck: bool = False
    white: bool = False
    pattern: str = ""


class Styles(Events):
    """Hears the part of the styles: `styles` are those of the cells by their number.

    `striking` are the numbers of the looks that strike cells through where a condition holds.
    """

    def __init__(self) -> None:
        self._codes: dict[str, str] = dict(BUILT_IN)
        self._fonts: list[_Look] = []
        self._fills: list[_Look] = []
        self._cells: list[Mapping[str, str]] = []
        self._within: list[str] = []
        self._by_condition = -1
        self.striking: set[str] = set()
        self.longest_format = 0

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Keep fonts, fills, number formats and cell formats as they open."""
        outer = self._within[-1] if self._within else ""
        self._within.append(tag)
        if tag == "numFmt" and outer == "numFmts":
            code = attributes.get("formatCode", "")
            self.longest_format = max(self.longest_format, len(code))
            self._codes[attributes.get("numFmtId", "")] = code
        elif tag == "font" and outer == "fonts":
            self._fonts.append(_Look())
        elif tag == "fill" and outer == "fills":
            self._fills.append(_Look(pattern="gradient"))
        elif tag == "xf" and outer == "cellXfs":
            self._cells.append(attributes)
        elif tag == "dxf" and outer == "dxfs":
            self._by_condition += 1
        elif "dxfs" not in self._within:
            self._look(tag, attributes)
        elif tag == "strike" and attributes.get("val", "1") not in FALSE:
            self.striking.add(str(self._by_condition))

    def _look(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Keep a property of the font or fill that is open."""
        if "fonts" in self._within and self._fonts:
            if tag == "strike":
                self._fonts[-1].struck = attributes.get("val", "1") not in FALSE
            elif tag == "color":
                self._fonts[-1].white = _is_white(attributes)
        elif "fills" in self._within and self._fills:
            if tag == "patternFill":
                self._fills[-1].pattern = attributes.get("patternType", "none")
            elif tag == "fgColor":
                self._fills[-1].white = _is_white(attributes)

    def end(self, tag: str) -> None:
        """Hear that an element closes."""
        self._within.pop()

    @property
    def styles(self) -> list[Style]:
        """The styles of cells, by their number."""
        formats = {number: parse_format(code) for number, code in self._codes.items()}
        return [self._style(cell, formats) for cell in self._cells]

    def _style(self, cell: Mapping[str, str], formats: Mapping[str, NumberFormat]) -> Style:
        font = _numbered(self._fonts, cell.get("fontId", "0"))
        fill = _numbered(self._fills, cell.get("fillId", "0"), _Look(pattern="none"))
        bare = fill.pattern in ("", "none") or (fill.pattern == "solid" and fill.white)
        return Style(formats.get(cell.get("numFmtId", "0"), GENERAL), font.struck, font.white and bare)


def _numbered(looks: list[_Look], number: str, otherwise: _Look | None = None) -> _Look:
    """Return a font or a fill by its number."""
    index = int(number) if number.isdecimal() else len(looks)
    return looks[index] if index < len(looks) else (otherwise or _Look())


def _is_white(colour: Mapping[str, str]) -> bool:
    """Whether a colour is white: by its value, as the first of the theme, or by its number."""
    if colour.get("tint", "0") not in ("", "0", "0.0"):
        return False
    value, theme, number = (colour.get(name, "") for name in ("rgb", "theme", "indexed"))
    return value.upper().endswith("FFFFFF") or theme == "0" or number in ("1", "9")
