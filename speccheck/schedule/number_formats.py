"""Number formats of a workbook: what a format shows beside the number, such as a unit or a percent sign.

A cell that holds 180 under the format 0"°F" shows 180°F, and that is what its reader goes by. The format codes are
those of ISO/IEC 29500-1, section 18.8.31 (from memory).
"""

from __future__ import annotations

import re
from functools import cache
from html import unescape
from typing import NamedTuple

from speccheck.schedule.grid import number_text

_BUILT_IN = {9: "0%", 10: "0.00%"}
_TOKEN = re.compile(r'"([^"]*)"|\\(.)|[_*].|\[[^\]]*\]|([0#?@])|(;)|(%)|.', re.DOTALL)
_FORMATS = re.compile(r"<(?:\w+:)?numFmt\b([^<]*)")
_STYLES = re.compile(r"</?(?:\w+:)?cellXfs\b")
_STYLE = re.compile(r"<(?:\w+:)?xf\b([^<>]*)>")


class NumberFormat(NamedTuple):
    """What is shown before and after a number, whether it is shown as a percentage, and whether it is shown at all."""

    before: str = ""
    after: str = ""
    percent: bool = False
    digits: bool = True

    def shown(self, number: float) -> str:
        """Return a number as a cell of this format shows it, with all its digits; "" where it shows nothing."""
        if not self.digits:
            return self.before
        return f"{self.before}{number_text(number * 100 if self.percent else number)}{self.after}"


def parse_format(code: str) -> NumberFormat:
    """Return what the format `code` shows beside a number; only its first section counts.

    A section without digits shows its words alone: ";;;" shows nothing, and `"by others"` shows these words.
    """
    before, after, percent, digits = "", "", False, False
    for token in _TOKEN.finditer(code):
        quoted, escaped, digit, section, sign = token.groups()
        if section:
            break
        digits = digits or bool(digit) or token[0] in "Gg"
        percent = percent or bool(sign)
        literal = quoted or escaped or (" %" if sign else "")
        if digits:
            after += literal
        else:
            before += literal
    return NumberFormat(before, after, percent, digits or not code)


def formats_by_style(styles: str) -> dict[int, NumberFormat]:
    """Return, from the text of styles.xml, the number format of each cell style that shows more than the number."""
    codes = dict(_BUILT_IN)
    for found in _FORMATS.finditer(styles):
        number, code = attribute(found[1], "numFmtId"), attribute(found[1], "formatCode")
        if number.isdecimal():
            codes[int(number)] = unescape(code)
    ends = [found.start() for found in _STYLES.finditer(styles)]
    block = styles[ends[0] : ends[1]] if len(ends) == 2 else ""
    result: dict[int, NumberFormat] = {}
    for index, style in enumerate(_STYLE.finditer(block)):
        number = attribute(style[1], "numFmtId")
        shown = parse_format(codes.get(int(number), "")) if number.isdecimal() else NumberFormat()
        if shown != NumberFormat():
            result[index] = shown
    return result


@cache
def _attribute(name: str) -> re.Pattern[str]:
    """Return the pattern of an attribute."""
    return re.compile(rf"""(?:^|\s){name}\s*=\s*(?:"([^"]*)"|'([^']*)')""")


def attribute(attributes: str, name: str) -> str:
    """Return the value of an XML attribute out of the text of a tag; "" where it is missing."""
    found = _attribute(name).search(attributes)
    return (found[1] or found[2] or "") if found else ""
